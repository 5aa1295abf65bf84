import { entry } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import { comingWeekCount } from '../model/coming-weeks.ts';
import type { MaybeColumn } from '../model/variables.ts';
import type { PlannedWeek } from '../plan.ts';
import { present } from './stores.ts';

/** Overdrafts nearer than this are alike, cents. */
export const centTolerance = 1;

/** What a list of columns comes to: cents overdrawn, quarts too many. */
export const overdrawn = (list: readonly MaybeColumn[], values: ArrayLike<number>): number =>
  present(list).reduce((sum, column) => sum + entry(values, column, 'values'), 0);

/** Cents by which the coming weeks overdraw the fund: no planning again can mend them. */
export const overdrawnSoon = ({ columns }: Pick<BuiltModel, 'columns'>, values: ArrayLike<number>): number =>
  overdrawn(columns.fundOver.slice(0, comingWeekCount), values);

/** The same of a plan: the most that any of them lacks. */
export const lackingSoon = (weeks: readonly Pick<PlannedWeek, 'fundAfter'>[]): number =>
  Math.max(0, ...weeks.slice(0, comingWeekCount).map(({ fundAfter }) => -fundAfter));
