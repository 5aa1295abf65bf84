import type { Recipe } from '../../../src/household/recipe.ts';
import { inWords } from '../../../src/preserving/citation.ts';
import type { TestedRecipe } from '../../../src/preserving/recipes/recipe-book.ts';
import { changesRuling, recipeChanges } from '../../../src/preserving/recipes/recipe-changes.ts';
import type { ChangeField, RecipeChangesProps } from '../../../views/pages/items/recipe-changes.tsx';
import type { StateOfForm } from '../shared/answer-form.ts';

/** The changes under which this recipe stays tested; null where it copies no recipe of the book. */
export function presentRecipeChanges(
  recipe: Recipe,
  tested: TestedRecipe | undefined,
  state: StateOfForm,
): RecipeChangesProps | null {
  if (tested === undefined) return null;
  const choices = recipeChanges.flatMap((change) => {
    const ruling = changesRuling(tested, [change]);
    const [relied] = ruling.ok ? ruling.value : [];
    const name: ChangeField = `change-${change}`;
    return relied === undefined
      ? []
      : [
          {
            name,
            rule: relied.rule,
            source: inWords(relied.source),
            isMade: recipe.changes.includes(change),
          },
        ];
  });
  const made: Readonly<Record<ChangeField, boolean>> = Object.fromEntries(
    choices.map(({ name, isMade }) => [name, isMade]),
  );
  return {
    action: `/items/${recipe.itemId}/recipes/${recipe.id}/changes`,
    form: state(`changes-${recipe.id}`, { other: '', ...made }),
    recipeName: recipe.name,
    choices: choices.map(({ name, rule, source }) => ({ name, rule, source })),
  };
}
