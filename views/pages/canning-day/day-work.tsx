import { Button } from '../../parts/button.tsx';
import {
  type Choice,
  type FieldProblems,
  type FormKeys,
  InputField,
  PostForm,
  SelectField,
} from '../../parts/form.tsx';
import { FoldedPart } from '../../parts/part.tsx';

/** What is made on a day that was begun, as far as it may still be changed. */
export interface DayWorkProps {
  readonly action: string;
  readonly keys: FormKeys;
  readonly batches: readonly {
    /** `batches-` and the recipe. */
    readonly name: string;
    readonly label: string;
    readonly value: string;
    /** `One batch is begun and stays.`; null when nothing of it is. */
    readonly begun: string | null;
  }[];
  /** Recipes that are not on the day yet; the first choice adds nothing. */
  readonly others: readonly Choice[];
  readonly values: { readonly added: string; readonly addedBatches: string };
  readonly problems: FieldProblems;
}

/** Adds a batch, drops one that was not begun, or changes how many. */
export const DayWork = ({ work }: { work: DayWorkProps }) => (
  <FoldedPart
    title="What is made"
    id="work"
    line="Add a batch, drop one, change how many"
    open={Object.keys(work.problems).length > 0}
  >
    <p class="part-words">
      What was ticked or timed stays as it is. What an added batch needs stands under Set out.
    </p>
    <PostForm action={work.action} keys={work.keys} problems={work.problems} label="What is made on this day">
      <div class="form-row">
        {work.batches.map(({ name, label, value, begun }) => (
          <InputField
            key={name}
            form="work"
            name={name}
            label={label}
            hint={begun ?? '0 takes it off the day.'}
            value={value}
            inputMode="numeric"
            width="short"
            unit="batches"
            problem={work.problems[name]}
          />
        ))}
      </div>
      {work.others.length < 2 ? null : (
        <div class="form-row">
          <SelectField
            form="work"
            name="added"
            label="And besides"
            value={work.values.added}
            choices={work.others}
            problem={work.problems.added}
          />
          <InputField
            form="work"
            name="addedBatches"
            label="How many"
            value={work.values.addedBatches}
            inputMode="numeric"
            width="short"
            unit="batches"
            problem={work.problems.addedBatches}
          />
        </div>
      )}
      <p>
        <Button weight="main">Change what is made</Button>
      </p>
    </PostForm>
  </FoldedPart>
);
