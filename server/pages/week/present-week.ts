import { counted } from '../../../shared/counting.ts';
import type { RecipeId } from '../../../shared/ids.ts';
import { sizeOf } from '../../../shared/jar.ts';
import type { Outcome } from '../../../shared/problems.ts';
import { type CalendarDate, daysBetween, weekHolding } from '../../../shared/week.ts';
import type { BatchDecision } from '../../../src/household/decision.ts';
import type { Item } from '../../../src/household/item.ts';
import type { ItemOnShelf, LotOnShelf } from '../../../src/household/lot.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import type { PassedSession } from '../../../src/planning/days/passed-sessions.ts';
import { whoIsThere } from '../../../src/planning/days/session-dates.ts';
import type { PlannedSession, PlannedWeek } from '../../../src/planning/plan.ts';
import { isLimited } from '../../../src/planning/year/fund-ahead.ts';
import type { Schedule } from '../../../src/preserving/lookup/schedule.ts';
import { eatFirst } from '../../../src/shelf/eat-first.ts';
import type { DayOfWeekProps, DecisionProps, MakeProps } from '../../../views/pages/week/canning-day.tsx';
import type {
  EatFirstRow,
  Errand,
  ThisWeekPageProps,
  Trip,
  WeekAhead,
} from '../../../views/pages/week/this-week-page.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import type { ItemLabel } from '../../../views/parts/item-name.tsx';
import {
  formatDate,
  formatLongDay,
  formatMinutes,
  formatMoney,
  formatQuantity,
  formatWeek,
} from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { insideSentence, listed } from '../../../views/words/sentences.ts';
import { whereAndWhen } from '../../words/buying/fetch-words.ts';
import { asideWords } from '../../words/canning/jar-aside.ts';
import {
  comesWords,
  itemLabel,
  itemOf,
  type PlannedNames,
  purchaseWords,
  recipeOf,
  spendWords,
} from '../../words/planned-words.ts';
import { presentCautions } from '../../words/process-words.ts';
import { amountOf, wholeOf } from '../../words/shelf-units.ts';
import type { SentBack } from '../shared/answer-form.ts';
import { presentTick } from '../shared/buying-lines.ts';
import {
  type DueLine,
  errandsThisWeek,
  plannedThisWeek,
  type WeekInPlan,
  workThisWeek,
} from '../shared/week-in-plan.ts';
import { presentProcess } from './process-line.ts';

export interface WeekPicture extends WeekInPlan {
  readonly shelf: readonly ItemOnShelf[];
  readonly eatSoonDays: number;
  readonly kept: readonly BatchDecision[];
  readonly formKeys: () => FormKeys;
  /** A line of the errands that was sent back. */
  readonly failedLine: SentBack | null;
  /** The line of the errands that is bought otherwise than planned. */
  readonly openedLine: string | null;
  /** The published schedule of a recipe in this kitchen, the reason why there is none, or null when it is not canned. */
  /** The household's own name with the tested food beside it. */
  readonly headlineOf: (item: Item, recipe: Recipe) => string;
  readonly processHere: (session: PlannedSession, on: CalendarDate) => Outcome<Schedule> | null;
}

const weeksAheadShown = 4;
const eatFirstShown = 6;

/** What is done at the stove on which day of this week. */
export const presentDays = (picture: WeekPicture): readonly DayOfWeekProps[] =>
  workThisWeek(picture).map((day) => {
    const makes = day.work.map(({ session }) => presentMake(picture, session, day.on));
    return {
      key: day.on,
      title: formatLongDay(day.on, picture.reading),
      when: whenWords(picture.today, day.on),
      time: timeWords(day.minutes, whoIsThere(picture.hours, day.on)),
      makes,
      cautions: makes.some(({ process }) => process.kind !== 'none-needed') ? presentCautions([]) : [],
    };
  });

/** `2 h 10 min in the kitchen, Ann`; of several people the work they share, which is not how long it takes them. */
const timeWords = (minutes: number, who: readonly string[]): string =>
  who.length < 2
    ? `${formatMinutes(minutes)} in the kitchen${who.map((name) => `, ${name}`).join('')}`
    : `${formatMinutes(minutes)} of work for ${listed(who)}`;

const presentMake = (picture: WeekPicture, session: PlannedSession, on: CalendarDate): MakeProps => {
  const { names, reading } = picture;
  const recipe = recipeOf(names, session);
  const lb = recipe?.produce.reduce((sum, part) => sum + part.lb, 0) ?? 0;
  const canner = names.canners.find((one) => one.id === session.canner);
  return {
    key: session.recipe,
    item: headed(picture, session),
    called: itemLabel(names, session).name,
    batches: formatQuantity(session.batches, 'batch', reading),
    comes: comesWords(names, session),
    jars: jarsOf(names, session),
    place: placeOf(picture, session),
    loads:
      canner === undefined ? null : `${formatQuantity(session.loads, 'load', reading)} in ${canner.name}`,
    aside: asideWords(session.jarsAside, itemOf(names, session) ?? { keepColdDays: null }, reading),
    handsOn: formatMinutes(session.handsOnMinutes),
    produce: lb === 0 ? null : `${formatQuantity(lb * session.batches, 'lb', reading)} of produce`,
    process: presentProcess(picture.processHere(session, on), reading),
    decision: presentDecision(picture, session.recipe, session.batches),
  };
};

/** Jars to count on, as they are drawn; bags and bins too, but nothing that is weighed. */
const jarsOf = (names: PlannedNames, session: PlannedSession): MakeProps['jars'] => {
  const [item, [jars]] = [itemOf(names, session), session.jars];
  if (jars !== undefined)
    return { count: Math.max(1, Math.round(session.units)), size: sizeOf(item?.usualJar ?? jars.kind) };
  return item === null || item.unit === 'lb' ? null : { count: wholeOf(item, session.units), size: null };
};

/** The place most jars of the item stand in. */
const placeOf = ({ shelf, names }: WeekPicture, session: PlannedSession): string | null => {
  const item = itemOf(names, session);
  const lots = shelf.find((own) => own.item.id === item?.id)?.lots ?? [];
  const unitsIn = new Map<string, number>();
  for (const { place, unitsLeft } of lots)
    if (place !== null) unitsIn.set(place.name, (unitsIn.get(place.name) ?? 0) + unitsLeft);
  return [...unitsIn].toSorted(([, one], [, other]) => other - one)[0]?.[0] ?? null;
};

const headed = ({ names, headlineOf }: WeekPicture, session: PlannedSession): ItemLabel => {
  const label = itemLabel(names, session);
  const [item, recipe] = [itemOf(names, session), recipeOf(names, session)];
  return item === null || recipe === null ? label : { ...label, name: headlineOf(item, recipe) };
};

const presentDecision = (picture: WeekPicture, recipeId: RecipeId, batches: number): DecisionProps => {
  const { today, kept, names, formKeys, reading } = picture;
  const week = weekHolding(today, reading.weekStartsOn);
  const said = kept.find((one) => one.recipeId === recipeId && one.week === week)?.decision;
  return {
    state: said === 'pinned' || said === 'ruled-out' ? said : 'free',
    recipeId,
    recipeName: names.recipes.find((recipe) => recipe.id === recipeId)?.name ?? recipeId,
    week,
    batches,
    keys: formKeys(),
  };
};

/** What was ruled out for this week and is no longer in the plan, so that it can be taken back. */
export const presentRuledOut = (picture: WeekPicture): readonly DecisionProps[] => {
  const week = weekHolding(picture.today, picture.reading.weekStartsOn);
  const planned = new Set(plannedThisWeek(picture)?.sessions.map(({ recipe }) => recipe));
  return picture.kept
    .filter((one) => one.week === week && one.decision === 'ruled-out' && !planned.has(one.recipeId))
    .map((one) => presentDecision(picture, one.recipeId, 1));
};

const whenWords = (today: CalendarDate, on: CalendarDate): string => {
  const days = daysBetween(today, on);
  if (days === 0) return 'Today';
  if (days === 1) return 'Tomorrow';
  if (days === -1) return 'Yesterday';
  return days > 0 ? `In ${counted(days, 'day')}` : `${counted(-days, 'day')} ago`;
};

/** What to fetch this week, under the day by which. */
export const presentErrands = (
  picture: WeekPicture,
): { readonly trips: readonly Trip[]; readonly total: string | null } => {
  const week = plannedThisWeek(picture);
  const errands = errandsThisWeek(picture);
  if (week === null || errands.length === 0) return { trips: [], total: null };
  const { reading } = picture;
  return {
    trips: errands.map(
      ({ on, lines }): Trip => ({
        key: on,
        by: `By ${formatLongDay(on, reading)}`,
        errands: lines.map((line, place) => presentErrand(picture, line, place)),
      }),
    ),
    total: `${spendWords(week.purchases, week.spend, reading)} this week.${picture.plan !== null && isLimited(picture.plan.year.fund) ? ` That leaves ${formatMoney(week.fundAfter, reading)} in the season fund.` : ''}`,
  };
};

const presentErrand = (
  { names, formKeys, failedLine, openedLine, today }: WeekPicture,
  { purchase, week: { week }, ways }: DueLine,
  place: number,
): Errand => {
  const { what, amount, about } = purchaseWords(names, purchase);
  return {
    key: `${purchase.kind}-${purchase.what}-${place}`,
    amount,
    about,
    what,
    where: whereAndWhen(purchase, ways, names, today),
    cost: purchase.cost === 0 ? null : formatMoney(purchase.cost, names.reading),
    tick: presentTick(purchase, week, {
      names,
      keys: formKeys,
      back: '/',
      failed: failedLine,
      opened: openedLine,
    }),
  };
};

/** Batches whose date is near or past, first-expired first; those set aside are not eaten. */
export const presentEatFirst = ({
  shelf,
  eatSoonDays,
  today,
  reading,
}: WeekPicture): readonly EatFirstRow[] => {
  const itemOf = new Map(shelf.map(({ item }) => [item.id, item]));
  const first = eatFirst(
    shelf.flatMap(({ lots }) => lots),
    today,
    eatSoonDays,
  );
  return first
    .flatMap((lot) => {
      const item = itemOf.get(lot.itemId);
      return item === undefined ? [] : [{ item, lot }];
    })
    .slice(0, eatFirstShown)
    .map(({ item, lot }) => ({
      key: lot.id,
      item: { name: item.name, family: item.family, href: `/shelf/${item.id}` },
      which: whichWords(lot, amountOf(item, lot.unitsLeft, reading, lot.jarKind), reading),
      until:
        lot.bestQualityUntil < today
          ? `past its best since ${formatDate(lot.bestQualityUntil, reading)}`
          : `best until ${formatDate(lot.bestQualityUntil, reading)}`,
    }));
};

const whichWords = (lot: LotOnShelf, amount: string, reading: Reading): string =>
  [`${amount} of the ${formatDate(lot.madeOn, reading)} batch`, lot.place?.name ?? '']
    .filter((words) => words !== '')
    .join(', ');

/** The weeks after this one: what is put up, what is bought, how long, how much. */
export const presentAhead = (picture: WeekPicture): readonly WeekAhead[] => {
  const { plan, today, names, reading } = picture;
  if (plan === null) return [];
  return plan.plan.weeks
    .filter(({ week }) => week > weekHolding(today, reading.weekStartsOn))
    .slice(0, weeksAheadShown)
    .map((week) => ({
      key: week.week,
      week: formatWeek(week.week, reading),
      makes: week.sessions.map((session) => ({
        key: session.recipe,
        item: itemLabel(names, session),
        comes: comesWords(names, session),
      })),
      buy: buyWords(names, week),
      time: week.kitchenMinutes === 0 ? '' : formatMinutes(week.kitchenMinutes),
      spend: week.spend === 0 ? '' : formatMoney(week.spend, reading),
    }));
};

const namedOnALine = 4;

const buyWords = (names: PlannedNames, week: PlannedWeek): string => {
  const all = week.purchases.map((purchase) => {
    const words = purchaseWords(names, purchase);
    return purchase.kind === 'produce' ? `${words.amount} ${words.what}` : words.what;
  });
  const rest = all.length - namedOnALine;
  return rest > 0 ? `${all.slice(0, namedOnALine).join('; ')}; and ${rest} more` : all.join('; ');
};

/** What was planned for a day behind us and nothing was said of: asked once. */
export const presentPassed = (
  passed: readonly PassedSession[],
  names: PlannedNames,
  today: CalendarDate,
  formKeys: () => FormKeys,
): ThisWeekPageProps['passed'] =>
  passed.map(({ recipeId, batches, week, on }) => {
    const recipe = names.recipes.find(({ id }) => id === recipeId);
    return {
      key: `${recipeId}-${on}`,
      what: `${recipe?.name ?? recipeId}, ${formatQuantity(batches, 'batch', names.reading)}`,
      day: `${formatLongDay(on, names.reading)}, ${insideSentence(whenWords(today, on))}`,
      writeDown: `/plan/passed/${on}/${recipeId}/results`,
      recipeId,
      week,
      batches,
      keys: formKeys,
    };
  });

/** What was written down as made this week. */
export const presentDone = ({ kept, today, names, reading }: WeekPicture): readonly string[] =>
  kept.flatMap((one) =>
    one.decision === 'done' && one.week === weekHolding(today, reading.weekStartsOn)
      ? [
          `${names.recipes.find(({ id }) => id === one.recipeId)?.name ?? one.recipeId}, ${formatQuantity(one.batches, 'batch', reading)}`,
        ]
      : [],
  );
