import { Button } from '../../parts/button.tsx';
import type { FormState } from '../../parts/fields.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { type AskedName, NameQuestion } from '../../parts/name-question.tsx';

/** What the names of a recipe are asked about, and what was answered before. */
export interface RecipeNamesProps {
  readonly asked: readonly (AskedName & {
    readonly form: FormState<Readonly<Record<'inIt', string>>>;
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
  readonly names: RecipeNamesProps;
}

export const RecipeNames = ({ action, names }: RecipeNamesParts) => (
  <>
    {names.asked.length > 0 || names.problem === undefined ? null : (
      <p class="banner banner-problem" role="alert">
        {names.problem}
      </p>
    )}
    {names.asked.map(({ form, ...asked }) => (
      <PostForm
        key={asked.name}
        action={`${action}/name-answer`}
        form={form}
        label={`What is in ${asked.name}`}
      >
        <NameQuestion form={form} asked={asked} />
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
