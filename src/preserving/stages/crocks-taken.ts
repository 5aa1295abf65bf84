import { addWeeks, type WeekKey, type WeekStart, weekHolding } from '../../../shared/week.ts';
import type { LotOnShelf } from '../../household/lot.ts';
import type { Recipe } from '../../household/recipe.ts';

/** What stood in its crock when it was written down, and the recipes that say for how long. */
export interface FermentsStanding {
  readonly lots: readonly Pick<
    LotOnShelf,
    'itemId' | 'recipeId' | 'origin' | 'madeOn' | 'readyFrom' | 'madeUnits' | 'unitsLeft'
  >[];
  readonly recipes: readonly Pick<Recipe, 'id' | 'itemId' | 'process' | 'yieldHigh' | 'crock'>[];
}

/**
 * Quarts of crock taken in each week by ferments that were put up already: what is not canned stands in its crock from the week in which it
 * is made, for as long as its recipe says, or until it is ready or eaten up. (What is canned leaves its crock with its load, and until then is
 * counted among the batches begun.) A lot of which nobody said the recipe is taken for that of its item. Units: quarts; one number a week.
 */
export function crockQuartsTaken(
  { lots, recipes }: FermentsStanding,
  weeks: readonly WeekKey[],
  startsOn: WeekStart,
): readonly number[] {
  const ferments = recipes.filter(({ process, crock }) => process === null && crock !== null);
  const standing = lots
    .filter(({ origin, unitsLeft }) => origin === 'put-up' && unitsLeft > 0)
    .flatMap((lot) => {
      const ofItem = ferments.filter(({ itemId }) => itemId === lot.itemId);
      const recipe = ofItem.find(({ id }) => lot.recipeId === null || id === lot.recipeId);
      if (recipe === undefined || recipe.crock === null) return [];
      const batches = Math.ceil(lot.madeUnits / recipe.yieldHigh - 1e-9);
      const done = addWeeks(weekHolding(lot.madeOn, startsOn), Math.ceil(recipe.crock.days / 7));
      const ready = weekHolding(lot.readyFrom, startsOn);
      return [{ quarts: batches * recipe.crock.quarts, done, ready }];
    });
  return weeks.map((week) =>
    standing.reduce((sum, { quarts, done, ready }) => (week < done && week < ready ? sum + quarts : sum), 0),
  );
}
