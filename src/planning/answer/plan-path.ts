import type { ItemId } from '../../../shared/ids.ts';
import { cell, entry, noneBeyond } from '../lookup.ts';
import type { PlanningSets } from '../model/sets.ts';
import type { PlanDecision } from '../solving/decision.ts';
import { playShelf, type ShelfCohort } from './play-shelf.ts';
import { weekPosition } from './week-position.ts';

/** One item through the year under a plan and expected use; units, one entry per week, oldest first. */
export interface PlanPath {
  readonly item: ItemId;
  /** Put up in the week, low yield; it may be ready only later. */
  readonly madeByWeek: readonly number[];
  /** Of what was made, what becomes ready in the week. */
  readonly readyByWeek: readonly number[];
  readonly boughtByWeek: readonly number[];
  readonly takenByWeek: readonly number[];
  /** Use that nothing was there for. */
  readonly missedByWeek: readonly number[];
  /** Ready units at the week's end. */
  readonly stockByWeek: readonly number[];
  /** Of these, past best quality. */
  readonly olderByWeek: readonly number[];
}

/** What each item's shelf does when the decision is carried out and use comes as expected. */
export function planPaths(sets: PlanningSets, { canning, buying }: PlanDecision): PlanPath[] {
  const { weekIndexes, year } = sets;
  return sets.items.map((item, at) => {
    const madeBy = entry(sets.recipesByItem, at, 'recipesByItem').map((recipe) => {
      const { yieldLowUnits, readyAfterWeeks } = entry(sets.recipes, recipe, 'recipes');
      return {
        readyAfterWeeks,
        units: weekIndexes.map((week) => yieldLowUnits * cell(canning.batches, recipe, week, 'batches')),
      };
    });
    const madeByWeek = weekIndexes.map((week) =>
      madeBy.reduce((sum, { units }) => sum + entry(units, week, 'units'), 0),
    );
    const readyByWeek = weekIndexes.map((week) =>
      madeBy.reduce((sum, { units, readyAfterWeeks }) => sum + noneBeyond(units, week - readyAfterWeeks), 0),
    );
    const boughtByWeek = weekIndexes.map((week) =>
      item.packs.reduce(
        (sum, pack, packAt) =>
          sum + pack.units * cell(entry(buying.packs, at, 'packs'), packAt, week, 'packs'),
        0,
      ),
    );
    const cohorts: ShelfCohort[] = [
      ...item.openingLots.map((lot) => ({
        readyWeek: weekPosition(year.weeks, lot.readyFrom),
        olderFromWeek: weekPosition(year.weeks, lot.bestQualityUntil),
        units: lot.units,
      })),
      ...madeBy.flatMap(({ units, readyAfterWeeks }) =>
        units.map((made, week) => ({
          readyWeek: week + readyAfterWeeks,
          olderFromWeek: week + item.bestQualityWeeks,
          units: made,
        })),
      ),
      ...boughtByWeek.map((units, week) => ({
        readyWeek: week,
        olderFromWeek: week + item.bestQualityWeeks,
        units,
      })),
    ];
    return { item: item.id, madeByWeek, readyByWeek, boughtByWeek, ...playShelf(item.useByWeek, cohorts) };
  });
}
