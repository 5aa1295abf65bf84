import { whileTheSame } from '../../../shared/remembering.ts';
import { type CalendarDate, mondayOf, type WeekKey, weekHolding } from '../../../shared/week.ts';
import { jarsOfYear } from '../../../src/planning/answer/jars-of-year.ts';
import { kitchenRoom } from '../../../src/planning/days/hands-in-week.ts';
import type { StoredPlan } from '../../../src/planning/stored-plan.ts';
import { isLimited } from '../../../src/planning/year/fund-ahead.ts';
import type { WeeksAgainstLimitProps } from '../../../views/charts/weeks-against-limit.tsx';
import type { YearMonth } from '../../../views/charts/year-picture.tsx';
import {
  formatMinutes,
  formatMoney,
  formatNumber,
  formatShortMonth,
  formatWeek,
  jarSizeWords,
  moneySign,
} from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { sentenceCase } from '../../../views/words/sentences.ts';

/** Where months begin among weeks: the day of the month counted back into its week. */
export const monthsAmong = (weeks: readonly WeekKey[], reading: Reading): readonly YearMonth[] =>
  weeks.flatMap((week, place): YearMonth[] => {
    const monday = mondayOf(week);
    const before = place === 0 ? '' : mondayOf(weeks[place - 1] ?? week).slice(0, 7);
    if (monday.slice(0, 7) === before) return [];
    const daysIntoMonth = Number(monday.slice(8)) - 1;
    return [{ at: Math.max(0, place - daysIntoMonth / 7), label: formatShortMonth(monday, reading) }];
  });

/** Hours at the stove by week under what the household allows. */
export const presentHours = (
  plan: StoredPlan | null,
  today: CalendarDate,
  reading: Reading,
): WeeksAgainstLimitProps | null => (plan === null ? null : hoursOf({ plan, day: today, ...reading }));

/** A plan, and how its weeks are read from a day on. */
interface WeeksAsked extends Reading {
  readonly plan: StoredPlan;
  readonly day: CalendarDate;
}

const hoursOf = whileTheSame(
  'plan',
  ({ plan, day: today, ...reading }: WeeksAsked): WeeksAgainstLimitProps => {
    const { time, weeks: allWeeks } = plan.year;
    const coming = plan.plan.weeks
      .map((week) => ({ week, at: allWeeks.indexOf(week.week) }))
      .filter(({ week }) => week.week >= weekHolding(today, reading.weekStartsOn));
    return {
      id: 'hours-by-week',
      title: 'Hours in the kitchen by week, and what each week allows',
      unit: 'hours',
      valueWords: 'planned',
      limitWords: 'what the week allows',
      months: monthsAmong(
        coming.map(({ week }) => week.week),
        reading,
      ),
      weeks: coming.map(({ week, at }) => {
        const allowed = time.maxSessionsByWeek[at] === undefined ? 0 : Math.round(kitchenRoom(time, at)) / 60;
        return {
          key: week.week,
          label: formatWeek(week.week, reading),
          value: Math.round(week.kitchenMinutes / 6) / 10,
          limit: allowed,
          words:
            allowed === 0
              ? 'no kitchen time'
              : `${formatMinutes(week.kitchenMinutes)} of ${formatMinutes(allowed * 60)}`,
        };
      }),
    };
  },
);

/** Money spent by week beside what the season fund holds after it. */
export const presentMoney = (
  plan: StoredPlan | null,
  today: CalendarDate,
  reading: Reading,
): WeeksAgainstLimitProps | null => (plan === null ? null : moneyOf({ plan, day: today, ...reading }));

const moneyOf = whileTheSame(
  'plan',
  ({ plan, day: today, ...reading }: WeeksAsked): WeeksAgainstLimitProps => {
    const coming = plan.plan.weeks.filter(({ week }) => week >= weekHolding(today, reading.weekStartsOn));
    const limited = isLimited(plan.year.fund);
    return {
      id: 'money-by-week',
      title: limited
        ? 'Money spent by week, and what the season fund holds after it'
        : 'Money spent by week; no season fund limits it',
      unit: moneySign(reading),
      valueWords: 'spent in the week',
      limitWords: 'season fund after it',
      months: monthsAmong(
        coming.map(({ week }) => week),
        reading,
      ),
      weeks: coming.map((week) => ({
        key: week.week,
        label: formatWeek(week.week, reading),
        value: week.spend / 100,
        limit: limited ? week.fundAfter / 100 : null,
        words: `${formatMoney(week.spend, reading)} spent${limited ? `, ${formatMoney(week.fundAfter, reading)} left` : ''}`,
      })),
    };
  },
);

/** Jars in use by week under how many there are, one picture a size, the smallest first. */
export const presentJars = (
  plan: StoredPlan | null,
  today: CalendarDate,
  reading: Reading,
): readonly WeeksAgainstLimitProps[] => (plan === null ? [] : jarsOf({ plan, day: today, ...reading }));

const jarsOf = whileTheSame(
  'plan',
  ({ plan, day: today, ...reading }: WeeksAsked): readonly WeeksAgainstLimitProps[] => {
    const { weeks } = plan.year;
    const coming = weeks.flatMap((week, at) =>
      week >= weekHolding(today, reading.weekStartsOn) ? [{ week, at }] : [],
    );
    return jarsOfYear(plan).map(({ size, inUseByWeek, ownedByWeek }) => ({
      id: `jars-${size}`,
      name: `${sentenceCase(jarSizeWords[size])} jars`,
      title: `Jars of ${jarSizeWords[size]} in use by week, and how many there are`,
      unit: 'jars',
      valueWords: 'in use',
      limitWords: 'there are',
      months: monthsAmong(
        coming.map(({ week }) => week),
        reading,
      ),
      weeks: coming.map(({ week, at }) => ({
        key: week,
        label: formatWeek(week, reading),
        value: inUseByWeek[at] ?? 0,
        limit: ownedByWeek === null ? null : (ownedByWeek[at] ?? 0),
        words: `${formatNumber(inUseByWeek[at] ?? 0, reading, 0)} in use${ownedByWeek === null ? ', the empty ones not counted' : ` of ${formatNumber(ownedByWeek[at] ?? 0, reading, 0)}`}`,
      })),
    }));
  },
);
