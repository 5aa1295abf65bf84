import type { mostlyForm } from '../../../shared/schemas/use-answer.ts';
import { Button } from '../../parts/button.tsx';
import { type FormState, hasProblems, InputField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { PostForm } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';

/** How an item's use goes through the year, month by month against the usual. */
export interface SeasonFormProps {
  readonly itemId: string;
  /** "More in December, less in July and August." */
  readonly said: string;
  readonly form: FormState<Readonly<Record<string, string>>>;
  readonly months: readonly SeasonMonth[];
  readonly mostly: StateOf<typeof mostlyForm>;
}

export interface SeasonMonth {
  readonly field: string;
  readonly name: string;
}

export const SeasonForm = ({ itemId, said, form, months, mostly }: SeasonFormProps) => (
  <Part id="season" title="Through the year" line={said}>
    <details class="season" open={hasProblems(form)}>
      <summary>Change the season</summary>
      <PostForm
        action={`/targets/${itemId}/season/mostly`}
        form={mostly}
        label="Mostly in one season"
        class="form mostly-form"
      >
        <div class="form-row">
          <SelectField
            form={mostly}
            name="mostly"
            label="Eaten mostly in"
            choices={[
              { value: 'winter', words: 'winter' },
              { value: 'spring', words: 'spring' },
              { value: 'summer', words: 'summer' },
              { value: 'fall', words: 'fall' },
              { value: 'all-year', words: 'no season: all year alike' },
            ]}
          />
          <SelectField
            form={mostly}
            name="elsewhere"
            label="In the other months"
            choices={[
              { value: 'some', words: 'a quarter of it' },
              { value: 'none', words: 'none' },
            ]}
          />
          <Button weight="main">Save this season</Button>
        </div>
      </PostForm>
      <PostForm action={`/targets/${itemId}/season`} form={form} label="Season of the year">
        <p class="hint">
          100% is the amount you said above; 0% is not at all, 200% twice as much. From the second year on we
          learn it from your shelf, where the months are clear.
        </p>
        <div class="season-months">
          {months.map(({ field, name }) => (
            <InputField<Readonly<Record<string, string>>>
              key={field}
              form={form}
              name={field}
              label={name}
              inputMode="decimal"
              width="short"
              unit="%"
            />
          ))}
        </div>
        <p>
          <Button weight="main">Save the season</Button>
        </p>
      </PostForm>
    </details>
  </Part>
);
