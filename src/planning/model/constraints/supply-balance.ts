import { entry, orNone } from '../../lookup.ts';
import type { PlannedRecipe } from '../../planning-year.ts';
import { stageWeeks } from '../../year/stage-weeks.ts';
import type { Draft } from '../draft.ts';
import { columnIn, termIn, terms } from '../terms.ts';

/**
 * Sugar, vinegar and the like are on hand before the week they are needed: what is bought in a week serves later weeks
 * (in the first week, where nothing can be bought earlier, it serves at once). A batch needs them when it is begun.
 *
 * `supply_left[s,w] = supply_left[s,w-1] + pack quantity × bought before w - sum(quantity × batches[r, w + stage weeks])`, the supply's unit.
 *
 * What spoils is bought in the week in which its batch is begun and serves no other: there `supply_left` is at most that
 * (`<=`, bought in w), and `supply_fresh[s,w]`: `supply_left[s,w] <= supply_left[s,w-1]`, so that only what was on hand is left.
 */
export function supplyBalance({ sets, columns, writer }: Draft): void {
  sets.year.supplies.forEach((supply, at) => {
    sets.weekIndexes.forEach((week) => {
      const left = columnIn(columns.supplyLeft, at, week);
      if (left === null) return;
      const isFresh = supply.freshDays !== undefined;
      const weeks = entry(columns.supplyBought, at, 'supplyBought');
      const bought = isFresh ? entry(weeks, week, 'weeks') : broughtHome(weeks, week);
      const before = termIn(columns.supplyLeft, at, week - 1, -1);
      const onHand = week === 0 ? supply.onHand : 0;
      const key = `${supply.id},${sets.year.weeks[week]}`;
      writer.row(
        `supply_balance[${key}]`,
        isFresh ? Number.NEGATIVE_INFINITY : onHand,
        [
          [left, 1],
          ...before,
          ...terms([bought], -supply.packQuantity),
          ...sets.recipes.flatMap((recipe, recipeAt) =>
            termIn(columns.batches, recipeAt, week + stageWeeks(recipe), suppliedTo(recipe, supply.id)),
          ),
        ],
        onHand,
      );
      if (isFresh)
        writer.row(`supply_fresh[${key}]`, Number.NEGATIVE_INFINITY, [[left, 1], ...before], onHand);
    });
  });
}

/** What one batch takes of a supply, its unit. */
export const suppliedTo = ({ supplies }: Pick<PlannedRecipe, 'supplies'>, supply: string): number =>
  orNone(supplies.find(({ supplyId }) => supplyId === supply)?.quantity);

/** The purchase that is first on hand in a week: the week before's, or in week 0 its own. */
export function broughtHome(bought: readonly (number | null)[], week: number): number | null {
  if (week === 0) return entry(bought, 0, 'bought');
  return week === 1 ? null : entry(bought, week - 1, 'bought');
}
