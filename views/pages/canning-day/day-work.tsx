import { Button } from '../../parts/button.tsx';
import { type FormState, hasProblems, InputField, SelectField } from '../../parts/fields.tsx';
import { type Choice, PostForm } from '../../parts/form.tsx';
import { FoldedPart } from '../../parts/part.tsx';

/** What is made on a day that was begun, as far as it may still be changed. */
export interface DayWorkProps {
  readonly action: string;
  /** `added`, how many of it, and how many of each batch. */
  readonly form: FormState<Readonly<Record<string, string>>>;
  readonly batches: readonly {
    /** `batches-` and the recipe. */
    readonly name: string;
    readonly label: string;
    /** `One batch is begun and stays.`; null when nothing of it is. */
    readonly begun: string | null;
  }[];
  /** Recipes that are not on the day yet; the first choice adds nothing. */
  readonly others: readonly Choice[];
}

/** Adds a batch, drops one that was not begun, or changes how many. */
export const DayWork = ({ work }: { work: DayWorkProps }) => (
  <FoldedPart
    title="What is made"
    id="work"
    line="Add a batch, drop one, change how many"
    open={hasProblems(work.form)}
  >
    <p class="part-words">
      What was ticked or timed stays as it is. What an added batch needs stands under Set out.
    </p>
    <PostForm action={work.action} form={work.form} label="What is made on this day">
      <div class="form-row">
        {work.batches.map(({ name, label, begun }) => (
          <InputField
            key={name}
            form={work.form}
            name={name}
            label={label}
            hint={begun ?? '0 takes it off the day.'}
            inputMode="numeric"
            width="short"
            unit="batches"
          />
        ))}
      </div>
      {work.others.length < 2 ? null : (
        <div class="form-row">
          <SelectField form={work.form} name="added" label="And besides" choices={work.others} />
          <InputField
            form={work.form}
            name="addedBatches"
            label="How many"
            inputMode="numeric"
            width="short"
            unit="batches"
          />
        </div>
      )}
      <p>
        <Button weight="main">Change what is made</Button>
      </p>
    </PostForm>
  </FoldedPart>
);
