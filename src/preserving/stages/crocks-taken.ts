import { type WeekKey, type WeekStart, weekHolding, weeksBetween } from '../../../shared/week.ts';
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
      return recipe === undefined || recipe.crock === null ? [] : [{ lot, recipe, crock: recipe.crock }];
    });
  return weeks.map((week) =>
    standing.reduce((quarts, { lot, recipe, crock }) => {
      const weeksSince = weeksBetween(weekHolding(lot.madeOn, startsOn), week);
      const batches = Math.ceil(lot.madeUnits / recipe.yieldHigh - 1e-9);
      const isStanding =
        weeksSince < Math.ceil(crock.days / 7) && week < weekHolding(lot.readyFrom, startsOn);
      return isStanding ? quarts + batches * crock.quarts : quarts;
    }, 0),
  );
}
