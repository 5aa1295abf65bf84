import { Button } from '../../parts/button.tsx';
import { type FieldProblems, type FormKeys, PostForm } from '../../parts/form.tsx';
import { type AskedName, NameQuestion } from '../../parts/name-question.tsx';

/** What the names of a recipe are asked about, and what was answered before. */
export interface RecipeNamesProps {
  readonly asked: readonly (AskedName & {
    readonly keys: FormKeys;
    readonly inIt: string;
    readonly problems: FieldProblems;
  })[];
  /** What an answer came to that has no question any more. */
  readonly problem: string | undefined;
  readonly kept: readonly {
    readonly name: string;
    /** "Called “Pumpkin surprise”, with no pumpkin in it: said by Ada on 3 Aug 2026." */
    readonly words: string;
    readonly keys: FormKeys;
  }[];
}

interface RecipeNamesParts {
  /** The address of the recipe. */
  readonly action: string;
  readonly form: string;
  readonly names: RecipeNamesProps;
}

export const RecipeNames = ({ action, form, names }: RecipeNamesParts) => (
  <>
    {names.asked.length > 0 || names.problem === undefined ? null : (
      <p class="banner banner-problem" role="alert">
        {names.problem}
      </p>
    )}
    {names.asked.map(({ keys, inIt, problems, ...asked }, at) => (
      <PostForm
        key={asked.name}
        action={`${action}/name-answer`}
        keys={keys}
        problems={problems}
        label={`What is in ${asked.name}`}
      >
        <NameQuestion form={`${form}-name-${at}`} asked={asked} value={inIt} problem={problems.inIt} />
        <p>
          <Button>Answer</Button>
        </p>
      </PostForm>
    ))}
    {names.kept.map(({ name, words, keys }) => (
      <PostForm key={name} action={`${action}/name-answer/removal`} keys={keys} class="inline-form">
        <input type="hidden" name="askedName" value={name} />
        <p>
          {words} <Button weight="quiet">Take the answer back</Button>
        </p>
      </PostForm>
    ))}
  </>
);
