import type { ownRecipeForm } from '../../../shared/schemas/item.ts';
import { Button } from '../../parts/button.tsx';
import { hasProblems, InputField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { type Choice, type FormKeys, PostForm } from '../../parts/form.tsx';
import { ProduceField } from '../../parts/produce-field.tsx';
import { WaySteps, type WayStepsProps } from '../../parts/way-steps.tsx';
import { LeftOvers, type LeftOversProps } from './left-overs.tsx';
import { RecipeChanges, type RecipeChangesProps } from './recipe-changes.tsx';
import { RecipeNames, type RecipeNamesProps } from './recipe-names.tsx';

export interface OwnRecipeProps {
  readonly recipeId: string;
  readonly name: string;
  readonly jar: string | null;
  /** "8 to 9" */
  readonly comes: string;
  readonly needs: string;
  /** What it stands in before it is canned, "20 qt, for up to 42 days"; null for what stands in no crock. */
  readonly crock: string | null;
  readonly source: string;
  readonly minutes: string;
  readonly isGuess: boolean;
  readonly isCanned: boolean;
  /** Why it is not planned here; empty when it is. */
  readonly why: readonly string[];
  readonly names: RecipeNamesProps;
  readonly leftOvers: LeftOversProps;
  /** What is done, as the book has it; null where it follows no way of the book. */
  readonly way: WayStepsProps | null;
  /** Why it is never canned, in the words of the gate; null for what is canned or follows a guide. */
  readonly neverCanned: string | null;
  readonly form: StateOf<typeof ownRecipeForm, 'recipeId'>;
  readonly retireKeys: FormKeys;
  /** Null where it copies no tested recipe. */
  readonly changes: RecipeChangesProps | null;
  /** What a batch of one's own way takes and gives; null where it copies a printed recipe, whose amounts were tested. */
  readonly amounts: readonly OwnAmount[] | null;
  /** Whether its produce may wait in the freezer; null where no guide says so. */
  readonly madeOf: readonly Choice[] | null;
}

export interface OwnAmount {
  readonly field: string;
  readonly label: string;
  readonly units: readonly Choice[];
}

interface OwnRecipeParts {
  readonly itemId: string;
  readonly recipe: OwnRecipeProps;
  readonly canners: readonly Choice[];
}

/** One recipe as it is done here. Its tested amounts are read, not changed. */
export const OwnRecipe = ({ itemId, recipe, canners }: OwnRecipeParts) => {
  const { form } = recipe;
  return (
    <section class="own-recipe" aria-labelledby={`${form.formId}-title`}>
      <h3 id={`${form.formId}-title`}>{recipe.name}</h3>
      {recipe.why.map((reason) => (
        <p key={reason} class="banner banner-note">
          <strong>Not planned yet. </strong>
          {reason}
        </p>
      ))}
      <RecipeNames action={`/items/${itemId}/recipes/${recipe.recipeId}`} names={recipe.names} />
      <dl class="recipe-facts">
        <div>
          <dt>A batch gives</dt>
          <dd>{recipe.jar === null ? recipe.comes : `${recipe.comes} (${recipe.jar})`}</dd>
        </div>
        <div>
          <dt>It takes</dt>
          <dd>{recipe.needs === '' ? 'nothing written down' : recipe.needs}</dd>
        </div>
        {recipe.leftOvers.leaves === null ? null : (
          <div>
            <dt>It leaves</dt>
            <dd>{recipe.leftOvers.leaves}</dd>
          </div>
        )}
        {recipe.crock === null ? null : (
          <div>
            <dt>Crock</dt>
            <dd>{recipe.crock}</dd>
          </div>
        )}
        <div>
          <dt>Work</dt>
          <dd>{recipe.isGuess ? `${recipe.minutes} (our guess)` : recipe.minutes}</dd>
        </div>
        <div>
          <dt>From</dt>
          <dd>{recipe.source}</dd>
        </div>
      </dl>
      {recipe.neverCanned === null ? null : (
        <details class="fold">
          <summary>Why it is never canned</summary>
          <p class="small">{recipe.neverCanned}</p>
        </details>
      )}
      {recipe.way === null ? null : (
        <details class="fold">
          <summary>How it is done</summary>
          <WaySteps way={recipe.way} />
        </details>
      )}
      {recipe.changes === null ? (
        recipe.isCanned && (
          <p class="quiet">
            It copies no recipe of the book, so nothing of it may be changed and still be canned.
          </p>
        )
      ) : (
        <RecipeChanges changes={recipe.changes} />
      )}
      <LeftOvers leftOvers={recipe.leftOvers} />
      <details class="fold" open={hasProblems(form)}>
        <summary>
          {`Change ${recipe.isCanned ? 'canner or ' : recipe.amounts === null ? '' : 'amounts or '}minutes`}
        </summary>
        <PostForm action={`/items/${itemId}/recipes/${recipe.recipeId}`} form={form} label={recipe.name}>
          <div class="form-row">
            {recipe.isCanned ? (
              <SelectField form={form} name="cannerId" label="Canner" choices={canners} />
            ) : null}
            <InputField
              form={form}
              name="handsOnMinutes"
              label="Work for one batch"
              inputMode="numeric"
              width="short"
              unit="minutes"
            />
          </div>
          {recipe.madeOf === null ? null : (
            <SelectField
              form={form}
              name="madeOf"
              label="Made of produce that is"
              hint="Frozen, it can wait for a quieter week."
              choices={recipe.madeOf}
            />
          )}
          {(recipe.amounts ?? []).map(({ field, label, units }) => (
            <ProduceField<Readonly<Record<string, string>>>
              key={field}
              form={form}
              name={field}
              label={label}
              units={units}
            />
          ))}
          <p>
            <Button weight="main">Save</Button>
          </p>
        </PostForm>
        <PostForm
          action={`/items/${itemId}/recipes/${recipe.recipeId}/retirement`}
          keys={recipe.retireKeys}
          class="inline-form"
        >
          <Button weight="quiet">Stop making it this way</Button>
        </PostForm>
      </details>
    </section>
  );
};
