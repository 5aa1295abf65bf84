import { entry, orNone } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import { moneyTerms } from '../model/objective.ts';
import { minutesAtStove } from '../year/recipe-time.ts';
import { objectiveByTerm, readCanning } from './read-back.ts';

/** What a plan that is still being looked for comes to already, as a household counts it. */
export interface PlanSoFar {
  /** Foods the year is planned for. */
  readonly foods: number;
  /** Of these, what lasts until more of it comes: no use of the year is missed, nor of what its end hands over. */
  readonly lasting: number;
  /** Jars filled, by the low yield, whole. */
  readonly jars: number;
  /** Minutes in the kitchen, hands-on, setting up and washing up among them. */
  readonly minutes: number;
  /** Cents spent, with packs in any amount. */
  readonly cents: number;
}

/** Units of a food missed over the year that are still none. */
const noneMissed = 0.05;

/** Reads what values of the canning stage come to; wishes and their prices are no part of it. */
export function planSoFar(built: BuiltModel, values: ArrayLike<number>): PlanSoFar {
  const { columns, sets } = built;
  const amountOf = (column: number | null) => (column === null ? 0 : entry(values, column, 'values'));
  const missed = (item: number) =>
    entry(columns.shortage, item, 'shortage').reduce<number>((sum, column) => sum + amountOf(column), 0) +
    amountOf(entry(columns.yearEndShortage, item, 'yearEndShortage'));
  const { batches, sessionsByWeek } = readCanning(built, values);
  const made = sets.recipes.map((recipe, at) => ({
    recipe,
    count: entry(batches, at, 'batches').reduce((sum, inWeek) => sum + inWeek, 0),
  }));
  const sessions = sessionsByWeek.reduce((sum, inWeek) => sum + inWeek, 0);
  const byTerm = objectiveByTerm(built, values);
  return {
    foods: sets.items.length,
    lasting: sets.items.filter((_, item) => missed(item) <= noneMissed).length,
    jars: Math.round(
      made.reduce(
        (sum, { recipe, count }) => sum + (recipe.jarKind === null ? 0 : count * recipe.yieldLowUnits),
        0,
      ),
    ),
    minutes: made.reduce(
      (sum, { recipe, count }) => sum + count * minutesAtStove(recipe),
      sessions * sets.year.time.setUpMinutes,
    ),
    cents: moneyTerms.reduce((sum, term) => sum + orNone(byTerm[term]), 0),
  };
}
