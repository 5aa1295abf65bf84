import type { Family } from '../../../shared/family.ts';
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
  readonly value: string;
  readonly problem: string | undefined;
}

interface LikedPreservesProps {
  readonly preserves: readonly LikedPreserve[];
  readonly often: readonly Choice[];
  readonly problem: string | undefined;
}

/** A short list of common preserves, each with how often it is eaten. */
export const LikedPreserves = ({ preserves, often, problem }: LikedPreservesProps) => (
  <fieldset class="part" aria-describedby={problem === undefined ? undefined : 'start-eats-problem'}>
    <legend>What you like to eat</legend>
    <p class="hint">Jars, for all of you together. Many more can be added later from the recipe book.</p>
    {problem === undefined ? null : (
      <p class="problem" id="start-eats-problem">
        {problem}
      </p>
    )}
    <ul class="liked">
      {preserves.map((preserve) => (
        <LikedLine key={preserve.field} preserve={preserve} often={often} />
      ))}
    </ul>
  </fieldset>
);

const LikedLine = ({ preserve, often }: { preserve: LikedPreserve; often: readonly Choice[] }) => {
  const id = elementId('start', preserve.field);
  return (
    <li>
      <label for={id}>
        <ItemName item={{ name: preserve.name, family: preserve.family }} />
        <span class="liked-note">{preserve.note}</span>
      </label>
      <select
        id={id}
        name={preserve.field}
        aria-invalid={preserve.problem === undefined ? undefined : 'true'}
      >
        {often.map((choice) => (
          <option key={choice.value} value={choice.value} selected={choice.value === preserve.value}>
            {choice.words}
          </option>
        ))}
      </select>
      {preserve.problem === undefined ? null : <p class="problem">{preserve.problem}</p>}
    </li>
  );
};
