import { weekFacts } from './household-calendar.ts';
import type { WeekOfUse } from './week-of-use.ts';

/** What was seen in one month of one year. */
export interface SeenMonth {
  /** Months since January of year 0. */
  readonly slot: number;
  /** 0 is January. */
  readonly month: number;
  readonly taken: number;
  /** Ordinary weeks it was worth, more than 0. */
  readonly worth: number;
}

/** The weeks by month, oldest first; months worth nothing are left out. A week belongs to the month of its Thursday. */
export function monthsSeen(
  history: readonly WeekOfUse[],
  worthOf: (week: WeekOfUse) => number,
): readonly SeenMonth[] {
  const months: { slot: number; month: number; taken: number; worth: number }[] = [];
  let last: (typeof months)[number] | undefined;
  for (const week of history) {
    const worth = worthOf(week);
    if (!(worth > 0)) continue;
    const month = weekFacts(week.week).month - 1;
    const slot = 12 * Number(week.week.slice(0, 4)) + month;
    if (last?.slot === slot) {
      last.taken += week.taken;
      last.worth += worth;
    } else {
      last = { slot, month, taken: week.taken, worth };
      months.push(last);
    }
  }
  return months;
}
