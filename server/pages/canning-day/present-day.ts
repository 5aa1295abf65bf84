import { compare } from '../../../shared/compare.ts';
import { dateFormatter } from '../../../shared/formatters.ts';
import { addDays, type CalendarDate, laterOf, type WeekKey, weekHolding } from '../../../shared/week.ts';
import type { BatchResult } from '../../../src/household/batch-result.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import type { Material } from '../../../src/household/supplies.ts';
import type { BatchDays } from '../../../src/planning/days/batch-days.ts';
import { neededFor } from '../../../src/planning/days/buy-by.ts';
import { daysBesides } from '../../../src/planning/days/day-lines.ts';
import { type FetchAsked, fetchDays } from '../../../src/planning/days/fetch-days.ts';
import { type SessionDay, weeksWithSessions } from '../../../src/planning/days/week-sessions.ts';
import type { Plan, PlannedWeek } from '../../../src/planning/plan.ts';
import { sealAdviceFor } from '../../../src/preserving/afterwards/seal-advice.ts';
import { isWrittenDown } from '../../../src/preserving/day/begun-batches.ts';
import { pickAndBuyBy } from '../../../src/preserving/day/day-batch.ts';
import { loadPlaceOf } from '../../../src/preserving/day/load-key.ts';
import type { LoadsOfDay } from '../../../src/preserving/day/loads-of-day.ts';
import { readClock, type SteadyReading } from '../../../src/preserving/day/process-clock.ts';
import type { BatchHere, SessionHere, SessionKitchen } from '../../../src/preserving/day/session-here.ts';
import type { Schedule } from '../../../src/preserving/lookup/schedule.ts';
import type { ByProduct } from '../../../src/preserving/recipes/by-product.ts';
import type { BeforeTheDayProps } from '../../../views/pages/canning-day/before-the-day.tsx';
import type { CanningDayPageProps } from '../../../views/pages/canning-day/canning-day-page.tsx';
import type { CanningDayProps } from '../../../views/pages/canning-day/day.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import {
  formatClock,
  formatDay,
  formatLongDay,
  formatMinutes,
  formatQuantity,
  formatWeek,
  formatWeekday,
} from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { insideSentence, listed, sentenceCase } from '../../../views/words/sentences.ts';
import type { PrintedSheet } from '../../queries/canning/canning-sessions.ts';
import type { WaitingMaterial } from '../../queries/year/waiting-material.ts';
import { lineText } from '../../words/batch-days.ts';
import { whereAndLater, whereAndWhen } from '../../words/buying/fetch-words.ts';
import { itemOf, type PlannedNames, purchaseWords } from '../../words/planned-words.ts';
import { helpFor, presentCautions, presentSources } from '../../words/process-words.ts';
import { presentStages } from '../../words/stages.ts';
import { type SentBack, statesFrom } from '../shared/answer-form.ts';
import { presentCards } from './present-cards.ts';
import { presentLoads } from './present-loads.ts';
import { presentResults } from './present-results.ts';
import { presentSetOut } from './present-set-out.ts';
import { presentSetting, presentWork } from './present-setting.ts';
import { presentSheet, sheetMark, voidWords } from './present-sheet.ts';
import { presentTimeline, timeWords } from './present-timeline.ts';

/** The canning days of a week. */
export interface CanningDayPicture {
  /** Null when nothing is planned to be put up. */
  readonly week: WeekKey | null;
  readonly planned: PlannedWeek | null;
  readonly days: readonly SessionDay[];
  readonly kitchen: SessionKitchen;
  /** The days of all batches, planned and begun. */
  readonly batches: readonly BatchDays[];
  readonly names: PlannedNames;
  readonly plan: Plan | null;
  /** From what the days of its errands follow. */
  readonly fetchFrom: FetchAsked | null;
  readonly waiting: readonly WaitingMaterial[];
  /** The day that was begun and is not all written down, today or around it. */
  readonly inHand: CalendarDate | null;
  /** Days of which some seals are still to be checked. */
  readonly unchecked: readonly CalendarDate[];
  readonly byProduct: (recipe: Recipe) => ByProduct | null;
  readonly materials: readonly Material[];
  readonly now: number;
  /** By a clock that is never set. */
  readonly steady: SteadyReading | null;
  readonly today: CalendarDate;
  readonly reading: Reading;
}

export interface DayPicture {
  readonly day: SessionDay;
  readonly here: SessionHere;
  readonly loads: LoadsOfDay;
  readonly sheets: readonly PrintedSheet[];
  readonly results: readonly BatchResult[];
}

/** What was sent back with problems, and where it stands. */
export interface DaySentBack {
  readonly form?: SentBack;
  readonly load?: { readonly loadKey: string; readonly words: string; readonly status: number };
}

export const weekPath = (week: WeekKey): string => `/canning-day/${week}`;
export const dayPath = (day: Pick<SessionDay, 'on'>, week: WeekKey): string => `${weekPath(week)}/${day.on}`;

export function presentCanningDayPage(
  picture: CanningDayPicture,
  shown: DayPicture | null,
  keys: () => FormKeys,
  sentBack: DaySentBack = {},
): Omit<CanningDayPageProps, 'frame'> {
  const { week, days, reading } = picture;
  return {
    week: week === null ? 'No week planned' : sentenceCase(formatWeek(week, reading)),
    empty: shown === null ? emptyWords(picture) : null,
    help: shown === null && picture.kitchen.household.altitudeFt === null ? helpFor([altitudeMissing]) : [],
    days:
      week === null
        ? []
        : days.map((day) => ({
            key: day.on,
            words: `${formatWeekday(day.on, reading)}${day.session === null ? '' : ', begun'}`,
            href: `${weekPath(week)}?day=${day.on}`,
            isCurrent: day.on === shown?.day.on,
          })),
    day: shown === null || week === null ? null : presentDay(picture, week, shown, keys, sentBack),
    unchecked: picture.unchecked
      .filter((on) => on !== shown?.day.on)
      .map((on) => ({
        href: `${weekPath(weekHolding(on, reading.weekStartsOn))}?day=${on}#results`,
        words: `Check the seals of ${formatLongDay(on, reading)}`,
      })),
    waiting: picture.waiting.map((material) => ({
      id: material.id,
      words: waitingWords(material, reading),
      keys: keys(),
    })),
    otherWeeks: weeksWithSessions(picture.plan)
      .filter((one) => one.week !== week && one.week >= weekHolding(picture.today, reading.weekStartsOn))
      .slice(0, otherWeeksShown)
      .map((one) => ({
        href: weekPath(one.week),
        week: sentenceCase(formatWeek(one.week, reading)),
        what: listed(
          one.sessions.map((session) =>
            insideSentence(itemOf(picture.names, session)?.name ?? session.recipe),
          ),
        ),
      })),
  };
}

const otherWeeksShown = 6;
const altitudeMissing = { code: 'altitude-unknown', path: ['altitudeFt'], message: '' };

const emptyWords = ({ plan, week, kitchen }: CanningDayPicture): CanningDayPageProps['empty'] => {
  if (kitchen.household.altitudeFt === null)
    return {
      text: 'Nothing can be canned before the altitude of the kitchen is known: every processing time depends on it.',
      action: { words: 'Enter the altitude', href: '/kitchen#altitude' },
    };
  if (plan === null)
    return {
      text: 'There is no plan yet, so no canning day.',
      action: { words: 'Ask for a plan', href: '/' },
    };
  return {
    text:
      week === null
        ? 'The plan has nothing to put up in the weeks ahead.'
        : 'Nothing is put up in that week.',
    action: { words: 'See the year', href: '/year' },
  };
};

const waitingWords = ({ name, quantity, unit, useBy }: WaitingMaterial, reading: Reading): string =>
  `${formatQuantity(quantity, unit, reading)} ${name}${useBy === null ? '' : `: use by ${formatWeekday(useBy, reading)}`}`;

/** What is done on other days for the loads of one, a line each. */
export const daysOnPaper = (
  { batches, kitchen, reading }: Pick<CanningDayPicture, 'batches' | 'kitchen' | 'reading'>,
  on: CalendarDate,
): readonly string[] => daysBesides(batches, on).map((line) => lineText(line, kitchen.reference, reading));

function presentDay(
  picture: CanningDayPicture,
  week: WeekKey,
  shown: DayPicture,
  keys: () => FormKeys,
  sentBack: DaySentBack,
): CanningDayProps {
  const { reading, kitchen, now } = picture;
  const { day, here } = shown;
  const { timeZone } = kitchen.household;
  const path = dayPath(day, week);
  const state = statesFrom(keys, sentBack.form ?? null);
  const schedules = printedFor(here);
  const isAhead = day.session === null;
  const cannerNames = new Map<string, string>(kitchen.canners.map(({ id, name }) => [id, name]));
  const timeline = here.timeline?.ok
    ? presentTimeline(here, here.timeline.value, { on: here.on, reading, timeZone }, cannerNames)
    : null;
  return {
    title: formatLongDay(day.on, reading),
    summary: summaryOf(here, reading),
    isBegun: !isAhead,
    cards: presentCards(here, {
      action: path,
      isAhead,
      keys,
      timed: timedRecipes(shown.loads),
      reading,
      reference: kitchen.reference,
    }),
    help: helpFor(
      here.batches.flatMap(({ canned }) => (canned !== null && !canned.ok ? canned.problems : [])),
    ),
    loads: isAhead
      ? []
      : presentLoads(
          here,
          {
            path,
            loads: shown.loads,
            now: { at: now, steady: picture.steady },
            timeZone,
            reading,
            keys,
            problem: sentBack.load ?? null,
          },
          writtenDown(shown),
        ),
    stages: presentStages(
      {
        recipes: kitchen.recipes,
        preparations: kitchen.preparations,
        batches: picture.batches,
        reference: kitchen.reference,
        timeZone,
        now,
        reading,
        keys,
      },
      here.batches.flatMap((batch) =>
        batch.isStaged && batch.canned !== null
          ? [{ recipeId: batch.recipe.id, batches: batch.batches, on: day.on }]
          : [],
      ),
      `${weekPath(week)}?day=${day.on}`,
    ),
    before: {
      ...presentErrands(picture, day),
      setOut: presentSetOut(here.batches, picture, kitchen.reference, reading),
      byProducts: here.batches.flatMap((batch) => leftOverLines(batch, picture, day)),
    },
    setting: presentSetting(here, path, isAhead, state),
    work: isAhead ? null : presentWork(here, kitchen, shown, `${path}/work`, state),
    withdraw:
      !isAhead && shown.loads.clockByLoad.size + shown.sheets.length + shown.results.length === 0
        ? { action: `${path}/withdrawal`, keys: keys() }
        : null,
    timeline,
    timelineWords: timelineWords(here),
    results: presentResults(here.batches, shown.results, {
      path,
      timeZone,
      now,
      reading,
      ranInFull: ({ canned }) =>
        canned === null ||
        (canned.ok &&
          canned.value.loads.every(
            ({ key }) =>
              readClock(shown.loads.clockByLoad.get(key) ?? [], canned.value.schedule.minutes, {
                at: now,
                steady: picture.steady,
              }).state === 'done',
          )),
      isOver: day.on < picture.today,
      adviceFor: (batch, result) =>
        sealAdviceFor(batch.item, batch.recipe, kitchen.reference, result.processedAt, now),
      state,
    }),
    sheet: presentSheet(here, timeline, {
      household: kitchen.household.name,
      number: null,
      reading,
      days: daysOnPaper(picture, day.on),
    }),
    sheets: {
      print: isAhead || here.basis.length === 0 ? null : { action: `${path}/sheets`, keys: keys() },
      printed: shown.sheets.map((sheet) => {
        const isVoid = voidWords(sheet.basis, here.basis) !== null;
        const when = `${formatWeekday(printedOn(sheet, timeZone), reading)}, ${formatClock(sheet.printedAt, timeZone, reading)}`;
        return {
          key: String(sheet.number),
          words: `Sheet ${sheet.number}, mark ${sheetMark(sheet.basis)}, ${when}${isVoid ? ': VOID, print a new one' : ''}`,
          href: `${path}/sheets/${sheet.number}`,
          isVoid,
        };
      }),
      mark: here.basis.length === 0 ? null : sheetMark(here.basis),
    },
    cautions: presentCautions(schedules),
    sources: presentSources(schedules, kitchen.reference.sources),
  };
}

/** The schedules of the day, and those of which one is still to be chosen. */
const printedFor = ({ batches }: SessionHere): readonly Schedule[] =>
  batches.flatMap(({ canned, alternatives }) => (canned?.ok ? [canned.value.schedule] : alternatives));

/** Recipes of the day whose batches are all written down. */
const writtenDown = ({ day, results }: DayPicture): ReadonlySet<string> =>
  new Set(day.work.filter((made) => isWrittenDown(made, results)).map(({ recipeId }) => recipeId));

/** Recipes of which some clock ran. */
const timedRecipes = ({ clockByLoad }: LoadsOfDay): ReadonlySet<string> =>
  new Set([...clockByLoad.keys()].flatMap((key) => loadPlaceOf(key)?.recipe ?? []));

const printedOn = ({ printedAt }: PrintedSheet, timeZone: string): CalendarDate =>
  dateFormatter('en-CA', { timeZone }).format(new Date(printedAt)) as CalendarDate;

function summaryOf(here: SessionHere, reading: Reading): string {
  const what = listed(here.batches.map(({ item }) => insideSentence(item.name)));
  const { timeline } = here;
  if (timeline === null || !timeline.ok) return `${sentenceCase(what)}.`;
  const setting = { on: here.on, reading };
  return `${sentenceCase(what)}, ${timeWords(timeline.value.startsAt, setting)} to ${timeWords(timeline.value.endsAt, setting)}.`;
}

/** By the shopping day before the first day of the week everything for it is picked and bought. */
function presentErrands(
  { planned, names, reading, days, batches, kitchen, fetchFrom, today }: CanningDayPicture,
  day: SessionDay,
): Pick<BeforeTheDayProps, 'buyBy' | 'errands'> {
  const on = days.length === 0 ? [day.on] : days.map((one) => one.on);
  const usual = neededFor(on, batches, kitchen.hours)?.buyBy ?? pickAndBuyBy(day.on);
  // A shopping day that has passed is today, as This week says it.
  const buyBy = today <= day.on ? laterOf(usual, today) : usual;
  const purchases = planned?.purchases.filter(({ kind }) => kind !== 'item') ?? [];
  const lines = purchases.map((purchase, place) => {
    const ways = fetchFrom === null || planned === null ? null : fetchDays(purchase, planned, fetchFrom);
    const by = ways === null ? buyBy : laterOf(ways[0].by, buyBy);
    const words = purchaseWords(names, purchase);
    const where = ways === null ? words.where : whereAndWhen(purchase, ways, names, today);
    return {
      by,
      errand: {
        key: `${purchase.kind}-${purchase.what}-${place}`,
        ...words,
        where: whereAndLater(where, { by, usual: buyBy }, reading),
      },
    };
  });
  return {
    buyBy: `Pick and buy by ${formatLongDay(buyBy, reading)}`,
    errands: lines.toSorted((one, other) => compare(one.by, other.by)).map(({ errand }) => errand),
  };
}

const timelineWords = ({ batches, timeline }: SessionHere): readonly string[] => {
  if (timeline !== null && !timeline.ok) return timeline.problems.map(({ message }) => message);
  const open = batches.filter(({ canned }) => canned !== null && !canned.ok);
  const unchosen = open.filter(({ alternatives }) => alternatives.length > 0).map(({ item }) => item.name);
  const refused = open.filter(({ alternatives }) => alternatives.length === 0).map(({ item }) => item.name);
  const beside = batches.filter(({ canned }) => canned === null);
  return [
    ...(refused.length === 0
      ? []
      : [`Left out until a time can be given: ${listed(refused.map(insideSentence))}.`]),
    ...(unchosen.length === 0
      ? []
      : [`Left out until you choose a printed schedule: ${listed(unchosen.map(insideSentence))}.`]),
    ...(beside.length === 0
      ? []
      : [
          `Not in the times below: ${listed(beside.map((batch) => `${insideSentence(batch.item.name)}, ${formatMinutes(batch.recipe.handsOnMinutes * batch.batches)}`))}.`,
        ]),
  ];
};

/** What is left of the batches of the day, how much of it the plan counts on, by when it is used, and in what. */
function leftOverLines(batch: BatchHere, picture: CanningDayPicture, day: SessionDay): readonly string[] {
  const left = picture.byProduct(batch.recipe);
  if (left === null) return [];
  const { reading, names, kitchen } = picture;
  const until = formatDay(addDays(day.on, left.keepsDays), reading);
  const given = batch.recipe.gives.find(({ materialId }) => materialId === left.materialId);
  const amount =
    given === undefined
      ? null
      : formatQuantity(Math.round(given.quantity * batch.batches * 10) / 10, left.unit, reading);
  const into = names.recipes
    .filter(({ uses }) => uses.some(({ materialId }) => materialId === left.materialId))
    .map(({ itemId }) => kitchen.items.find(({ id }) => id === itemId)?.name)
    .flatMap((name) => (name === undefined ? [] : [insideSentence(name)]));
  return [
    `${[
      `${sentenceCase(left.name)} from ${insideSentence(batch.item.name)}: ${amount === null ? '' : `about ${amount}; `}keep it cold and use it by ${until}`,
      ...(into.length === 0 ? [] : [`It goes into ${listed([...new Set(into)])}`]),
      ...(amount === null ? ['Weigh it: the plan can use it once it knows how much there is'] : []),
    ].join('. ')}.${left.source === null ? '' : ` (${left.source})`}`,
  ];
}
