import { counted } from '../../../shared/counting.ts';
import {
  sayableRate,
  suspectedHabit,
  trustToMention,
} from '../../../src/consumption/belief/suspected-habit.ts';
import type { WeekOfUse } from '../../../src/consumption/week-of-use.ts';
import type { Item } from '../../../src/household/item.ts';
import type { WeeklyUseProps } from '../../../views/charts/weekly-use.tsx';
import type { AppetiteProps, NewHabitProps } from '../../../views/pages/targets/appetite.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatNumber, formatWeek, inReadersUnit } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { presentQuestions } from './present-questions.ts';
import {
  declaredWords,
  evidenceWords,
  observedWords,
  periodOf,
  rateWords,
  targetUnit,
  weeksIn,
} from './present-targets.ts';
import { type TargetPicture, useOf } from './target-picture.ts';

/** Declared against observed against forecast. */
export function presentAppetite(picture: TargetPicture, keys: () => FormKeys): AppetiteProps {
  const { item, reading } = picture;
  const use = useOf(picture);
  const forecast = use?.forecast ?? null;
  return {
    declared: use?.declared ? declaredWords(item, use.declared, reading) : 'nothing',
    newHabit: presentNewHabit(picture, keys),
    questions: presentQuestions(picture, keys),
    observed: observedWords(item, use, reading),
    evidence: evidenceWords(item, use, reading),
    forecast:
      forecast === null ? 'nothing' : rateWords(item, forecast.perWeek, periodOf(use?.declared), reading),
    range: forecast === null ? '' : rangeWords(item, forecast.perWeekRange, periodOf(use?.declared), reading),
  };
}

/** What the last weeks look like, and the words that would make it the new habit; null while nothing speaks for one. */
function presentNewHabit(picture: TargetPicture, keys: () => FormKeys): NewHabitProps | null {
  const { item, reading } = picture;
  const use = useOf(picture);
  const habit = suspectedHabit(use?.forecast?.belief.suspectedChange, trustToMention);
  if (habit === null) return null;
  const said = use?.declared?.per;
  const isMonthly = said === 'month' || said === 'year';
  const per = isMonthly ? 'month' : said === 'school-week' ? 'school-week' : 'week';
  const inPeriod = (perWeek: number) =>
    sayableRate(inReadersUnit(perWeek, item.unit, reading) * (isMonthly ? weeksIn.month : 1));
  const amount = inPeriod(habit.perWeek);
  const period = per === 'school-week' ? 'school week' : per;
  const figure = (units: number) => formatNumber(units, reading, 2);
  return {
    itemId: item.id,
    words: `Over the last ${counted(habit.weeks, 'week')} that counted you ate about ${figure(amount)} a ${period}, against about ${formatNumber(inPeriod(habit.perWeekBefore), reading, inPeriod(habit.perWeekBefore) < 0.1 ? 2 : 1)} before. If that is a new habit, say so, and what was eaten before no longer counts. If it is not, do nothing: the forecast keeps both in mind.`,
    button: `From now on about ${figure(amount)} a ${period}`,
    amount: String(amount),
    per,
    keys: keys(),
  };
}

/** "4 years in 5 between 10 and 24 a year." */
const rangeWords = (
  item: Item,
  { low, high }: { readonly low: number; readonly high: number },
  period: ReturnType<typeof periodOf>,
  reading: Reading,
): string =>
  `Over a whole year, 4 times in 5 between ${rateWords(item, low, period, reading).split(' ')[0]} and ${rateWords(item, high, period, reading)}.`;

const weeksShown = 30;
const weeksAhead = 9;
/** Below this share of a week nothing could have been seen. */
const leastExposure = 0.05;

/** The weeks behind and the weeks ahead, to be drawn. */
export function presentPicture(picture: TargetPicture): WeeklyUseProps {
  const { item, reading } = picture;
  const use = useOf(picture);
  const forecast = use?.forecast ?? null;
  const shown = (units: number, parts = 10) =>
    Math.round(inReadersUnit(units, item.unit, reading) * parts) / parts;
  return {
    id: `use-${item.id}`,
    itemName: item.name,
    unit: targetUnit(item, reading),
    past: (use?.history ?? []).slice(-weeksShown).map((week) => ({
      key: week.week,
      label: formatWeek(week.week, reading),
      taken: shown(week.taken),
      didNotCount: didNotCount(week),
    })),
    toCome:
      forecast === null
        ? []
        : forecast.weeks.slice(1, 1 + weeksAhead).map((ahead, index) => {
            const count = forecast.inWeek(index + 1);
            return {
              key: ahead.week,
              label: formatWeek(ahead.week, reading),
              low: shown(count.quantile(0.1)),
              expected: shown(ahead.mean),
              high: shown(count.quantile(0.9)),
            };
          }),
    declaredPerWeek: use && use.declaredPerWeek > 0 ? shown(use.declaredPerWeek, 100) : null,
  };
}

const didNotCount = (week: WeekOfUse): string | null =>
  week.exposure < leastExposure ? 'away, nothing to take, or nothing recorded' : null;
