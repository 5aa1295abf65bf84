import type { Family } from '../../../shared/family.ts';
import type { FieldValues, FormFields } from '../../parts/fields.tsx';
import type { Choice } from '../../parts/form.tsx';
import { ItemName } from '../../parts/item-name.tsx';
import { elementId } from '../../words/element-id.ts';

/** One line of the short list. */
export interface LikedPreserve {
  readonly field: string;
  readonly name: string;
  readonly family: Family;
  /** "pints; pressure canner only" */
  readonly note: string;
}

interface LikedPreservesProps {
  readonly form: FormFields<FieldValues>;
  readonly preserves: readonly LikedPreserve[];
  readonly often: readonly Choice[];
}

/** A short list of common preserves, each with how often it is eaten. */
export const LikedPreserves = ({ form, preserves, often }: LikedPreservesProps) => (
  <fieldset
    class="part"
    aria-describedby={form.problems.eats === undefined ? undefined : `${form.formId}-eats-problem`}
  >
    <legend>What you like to eat</legend>
    <p class="hint">Jars, for all of you together. Many more can be added later from the recipe book.</p>
    {form.problems.eats === undefined ? null : (
      <p class="problem" id={`${form.formId}-eats-problem`}>
        {form.problems.eats}
      </p>
    )}
    <ul class="liked">
      {preserves.map((preserve) => (
        <LikedLine key={preserve.field} form={form} preserve={preserve} often={often} />
      ))}
    </ul>
  </fieldset>
);

const LikedLine = ({
  form,
  preserve,
  often,
}: Pick<LikedPreservesProps, 'form' | 'often'> & { preserve: LikedPreserve }) => {
  const id = elementId(form.formId, preserve.field);
  const problem = form.problems[preserve.field];
  return (
    <li>
      <label for={id}>
        <ItemName item={{ name: preserve.name, family: preserve.family }} />
        <span class="liked-note">{preserve.note}</span>
      </label>
      <select id={id} name={preserve.field} aria-invalid={problem === undefined ? undefined : 'true'}>
        {often.map((choice) => (
          <option
            key={choice.value}
            value={choice.value}
            selected={choice.value === form.values[preserve.field]}
          >
            {choice.words}
          </option>
        ))}
      </select>
      {problem === undefined ? null : <p class="problem">{problem}</p>}
    </li>
  );
};
