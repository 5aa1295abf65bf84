import { Button } from '../../parts/button.tsx';
import { type FieldProblems, type FormKeys, InputField, PostForm, SelectField } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';

/** How an item's use goes through the year, month by month against the usual. */
export interface SeasonFormProps {
  readonly itemId: string;
  /** "More in December, less in July and August." */
  readonly said: string;
  readonly keys: FormKeys;
  readonly months: readonly SeasonMonth[];
  readonly problems: FieldProblems;
  readonly mostlyKeys: FormKeys;
}

export interface SeasonMonth {
  readonly field: string;
  readonly name: string;
  /** Percent, as typed. */
  readonly percent: string;
}

export const SeasonForm = ({ itemId, said, keys, months, problems, mostlyKeys }: SeasonFormProps) => (
  <Part id="season" title="Through the year" line={said}>
    <details class="season" open={Object.keys(problems).length > 0}>
      <summary>Change the season</summary>
      <PostForm
        action={`/targets/${itemId}/season/mostly`}
        keys={mostlyKeys}
        label="Mostly in one season"
        class="form mostly-form"
      >
        <div class="form-row">
          <SelectField
            form="mostly"
            name="mostly"
            label="Eaten mostly in"
            value="all-year"
            choices={[
              { value: 'winter', words: 'winter' },
              { value: 'spring', words: 'spring' },
              { value: 'summer', words: 'summer' },
              { value: 'fall', words: 'fall' },
              { value: 'all-year', words: 'no season: all year alike' },
            ]}
          />
          <SelectField
            form="mostly"
            name="elsewhere"
            label="In the other months"
            value="some"
            choices={[
              { value: 'some', words: 'a quarter of it' },
              { value: 'none', words: 'none' },
            ]}
          />
          <Button weight="main">Save this season</Button>
        </div>
      </PostForm>
      <PostForm
        action={`/targets/${itemId}/season`}
        keys={keys}
        problems={problems}
        label="Season of the year"
      >
        <p class="hint">
          100% is the amount you said above; 0% is not at all, 200% twice as much. From the second year on we
          learn it from your shelf, where the months are clear.
        </p>
        <div class="season-months">
          {months.map(({ field, name, percent }) => (
            <InputField
              key={field}
              form="season"
              name={field}
              label={name}
              value={percent}
              inputMode="decimal"
              width="short"
              unit="%"
              problem={problems[field]}
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
