import { addDays, type CalendarDate, laterOf, weekHolding } from '../../../shared/week.ts';
import type { KitchenHours } from '../../../src/household/kitchen.ts';
import type { DayOfWork } from '../../../src/planning/answer/canning-days.ts';
import { type Fetch, fetchDays } from '../../../src/planning/days/fetch-days.ts';
import { plannedDays } from '../../../src/planning/days/week-sessions.ts';
import type { PlannedPurchase, PlannedSession, PlannedWeek } from '../../../src/planning/plan.ts';
import type { StoredPlan } from '../../../src/planning/stored-plan.ts';
import { firstDayOf, formatWeek, formatWeekdayName } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { insideSentence, listed, sentenceCase } from '../../../views/words/sentences.ts';
import { itemOf, type PlannedNames } from '../../words/planned-words.ts';

/** What of a household says what this week holds. */
export interface WeekInPlan {
  readonly today: CalendarDate;
  readonly reading: Reading;
  readonly plan: StoredPlan | null;
  readonly hours: KitchenHours;
  readonly names: PlannedNames;
}

/** The planned week that today falls in; null before the first plan and after its last week. */
export const plannedThisWeek = ({ plan, today, reading }: WeekInPlan): PlannedWeek | null =>
  plan?.plan.weeks.find(({ week }) => week === weekHolding(today, reading.weekStartsOn)) ?? null;

export interface Placed {
  readonly session: PlannedSession;
  readonly minutes: number;
}

const daysOf = (
  { hours, reading: { weekStartsOn } }: WeekInPlan,
  planned: PlannedWeek,
): readonly DayOfWork<Placed>[] => plannedDays({ planned, hours, weekStartsOn });

/** The days of this week on which something is put up, with what. */
export const workThisWeek = (picture: WeekInPlan): readonly DayOfWork<Placed>[] => {
  const week = plannedThisWeek(picture);
  return week === null ? [] : daysOf(picture, week);
};

export interface DueLine {
  readonly purchase: PlannedPurchase;
  readonly week: PlannedWeek;
  readonly ways: readonly [Fetch, ...Fetch[]];
}

/** Lines of this week, and those of the next that have to be in the house before it begins. */
const linesDue = (picture: WeekInPlan, thisWeek: PlannedWeek): readonly DueLine[] => {
  const { plan, hours, reading } = picture;
  if (plan === null) return [];
  const asked = { plan: plan.plan, year: plan.year, hours, weekStartsOn: reading.weekStartsOn };
  const due = (week: PlannedWeek): readonly DueLine[] =>
    week.purchases.map((purchase) => ({ purchase, week, ways: fetchDays(purchase, week, asked) }));
  const next = plan.plan.weeks.find(({ week }) => week > thisWeek.week);
  const nextBegins = addDays(firstDayOf(thisWeek.week, reading), 7);
  return [
    ...due(thisWeek),
    ...(next === undefined ? [] : due(next).filter(({ ways: [first] }) => first.by < nextBegins)),
  ];
};

/** What to fetch this week, by the day by which: before the stove is lit and as late as it has to be, or the week's last for the pantry. */
export const errandsThisWeek = (
  picture: WeekInPlan,
): readonly { readonly on: CalendarDate; readonly lines: readonly DueLine[] }[] => {
  const week = plannedThisWeek(picture);
  const lines = week === null ? [] : linesDue(picture, week);
  const dayOf = ({ purchase, ways: [first] }: DueLine): CalendarDate =>
    purchase.kind === 'item' || first.forDay === null ? first.by : laterOf(first.by, picture.today);
  const dates = [...new Set(lines.map(dayOf))].sort();
  return dates.map((on) => ({ on, lines: lines.filter((line) => dayOf(line) === on) }));
};

/** The week in one sentence: what is put up, or when next. */
export const weekSummary = (picture: WeekInPlan): string => {
  const { plan, reading, names } = picture;
  if (plan === null) return 'Once the year is planned, this page says what to do on which day.';
  const week = plannedThisWeek(picture);
  if (week === null) return 'The plan does not reach this week. Plan again to see what to do.';
  if (week.sessions.length > 0) {
    const days = daysOf(picture, week);
    return `${sentenceCase(listed(week.sessions.map((session) => nameOf(names, session))))} on ${listed(days.map((day) => formatWeekdayName(day.on, reading)))}.`;
  }
  const next = plan.plan.weeks.find((one) => one.week > week.week && one.sessions.length > 0);
  return next === undefined
    ? 'Nothing to put up this week, nor in the rest of the plan.'
    : `Nothing to put up this week. Next: ${listed(next.sessions.map((session) => nameOf(names, session)))}, ${formatWeek(next.week, reading)}.`;
};

const nameOf = (names: PlannedNames, session: PlannedSession): string =>
  insideSentence(itemOf(names, session)?.name ?? session.recipe);
