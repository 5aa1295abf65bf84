import type { Recipe } from '../../src/household/recipe.ts';
import { inWords } from '../../src/preserving/citation.ts';
import type { TestedRecipe } from '../../src/preserving/recipes/recipe-book.ts';
import { changesRuling, recipeChanges } from '../../src/preserving/recipes/recipe-changes.ts';
import type { RecipeChangesProps } from '../../views/pages/items/recipe-changes.tsx';
import { type FieldProblems, type FormKeys, noProblems } from '../../views/parts/form.tsx';
import { listed } from '../../views/words/sentences.ts';

/** The changes under which this recipe stays tested; null where it copies no recipe of the book. */
export function presentRecipeChanges(
  recipe: Recipe,
  tested: TestedRecipe | undefined,
  keys: FormKeys,
  sentBack: { readonly values: Readonly<Record<string, string>>; readonly problems: FieldProblems } | null,
): RecipeChangesProps | null {
  if (tested === undefined) return null;
  return {
    action: `/items/${recipe.itemId}/recipes/${recipe.id}/changes`,
    keys,
    recipeName: recipe.name,
    recipeId: recipe.id,
    choices: recipeChanges.flatMap((change) => {
      const ruling = changesRuling(tested, [change]);
      const [relied] = ruling.ok ? ruling.value : [];
      if (relied === undefined) return [];
      const name = `change-${change}`;
      return [
        {
          name,
          rule: relied.rule,
          source: inWords(relied.source),
          ticked: sentBack === null ? recipe.changes.includes(change) : sentBack.values[name] !== undefined,
        },
      ];
    }),
    other: sentBack?.values.other ?? '',
    problems: sentBack?.problems ?? noProblems,
  };
}

/** `changed here: dried spices and less sugar`, on the canning day; empty when the recipe is followed as printed. */
export const changedWords = ({ changes }: Pick<Recipe, 'changes'>): readonly string[] =>
  changes.length === 0
    ? []
    : [`changed here: ${listed(changes.map((change) => change.replaceAll('-', ' ')))}`];
