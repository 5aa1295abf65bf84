import { sizeOf } from '../../shared/jar.ts';
import { asCents } from '../../shared/money.ts';
import { ShelfwardError } from '../../shared/problems.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import { addDays, addMonths, type CalendarDate, daysBetween } from '../../shared/week.ts';
import { scheduleFor } from '../../src/preserving/lookup/process-lookup.ts';
import type { Schedule } from '../../src/preserving/lookup/schedule.ts';
import { canningDays } from './canning-days.ts';
import { type Chance, chanceOf } from './chance.ts';
import { type DateSpan, isWithin, onDay, spansIn, yearsAround } from './demo-calendar.ts';
import type { DemoData, DemoItem, DemoRecipe } from './demo-data.ts';
import { type Evidence, openPantry, type Pantry, type PantryBook } from './pantry-book.ts';

const daysInWeek = 7;
/** Weeks of stock below which the household buys a staple again. */
const staplesReorderWeeks = 1.5;
/** Made so long before `asOf` that best quality ends within the next weeks. */
const forgottenBatchAgeInDays = 338;
const forgottenJars = 3;
const forgottenRecipes = ['strawberry-jam', 'chicken-stock'];
/** Ordinal numbers, among the canned batches of the written year, of those with one jar that did not seal. */
const batchesWithFailedSeal = [3, 11];
const brokenJar = { itemId: 'crushed-tomatoes', daysAgo: 200, reason: 'cracked when a crate was moved' };

interface Story {
  readonly data: DemoData;
  readonly schedules: ReadonlyMap<string, Schedule>;
  readonly pantry: Pantry;
  readonly asOf: CalendarDate;
  readonly bookOpensOn: CalendarDate;
  readonly chances: ReadonlyMap<string, Chance>;
  readonly away: readonly DateSpan[];
  readonly schoolHolidays: readonly DateSpan[];
  cannedInBook: number;
}

/**
 * The household's written year before `asOf`, its last day not included: what was put up and bought, taken, given away,
 * broken and counted. One more year is lived before the book opens, so that the first page has a believable shelf.
 * The same seed, date and data give the same book.
 */
export const liveHouseholdYear = (
  data: DemoData,
  tables: Pick<ReferenceTables, 'processTimes' | 'cannerFacts' | 'harvestWindows'>,
  asOf: CalendarDate,
  seed: number,
): PantryBook => {
  const bookOpensOn = addMonths(asOf, -12);
  const firstDay = addMonths(asOf, -24);
  const pantry = openPantry(bookOpensOn);
  const years = [...new Set([...yearsAround(bookOpensOn), ...yearsAround(asOf)])];
  const story: Story = {
    data,
    schedules: schedulesOf(data, tables),
    pantry,
    asOf,
    bookOpensOn,
    chances: new Map(data.items.map((item) => [item.id, chanceOf(seed, item.id)])),
    away: data.household.away.flatMap((span) => spansIn(years, span)),
    schoolHolidays: data.household.schoolHolidays.flatMap((span) => spansIn(years, span)),
    cannedInBook: 0,
  };
  const batches = batchesByDay(story, tables, years, firstDay);

  for (let day = firstDay; day < asOf; day = addDays(day, 1)) {
    if (day === bookOpensOn) pantry.openBook();
    for (const recipe of batches.get(day) ?? []) putUp(story, recipe, day);
    if (daysBetween(day, asOf) === forgottenBatchAgeInDays) putUpForgotten(story, day);
    shopForStaples(story, day);
    giveDecemberBaskets(story, day);
    eat(story, day);
    if (daysBetween(day, asOf) === brokenJar.daysAgo) breakJar(story, day);
    countShelf(story, day);
  }
  return pantry.book();
};

/** The one published schedule of each canned recipe in this household's canner, at its altitude. */
export const schedulesOf = (
  data: DemoData,
  tables: Pick<ReferenceTables, 'processTimes' | 'cannerFacts'>,
): ReadonlyMap<string, Schedule> => {
  const schedules = new Map<string, Schedule>();
  for (const recipe of data.recipes) {
    if (recipe.canner === null) continue;
    const canner = data.household.canners.find((owned) => owned.id === recipe.canner);
    if (!canner || !recipe.process_food || !recipe.process_style || !recipe.process_pack || !recipe.jar_kind)
      throw new ShelfwardError('demo-data-broken', `schedulesOf: ${recipe.id} is canned without a process`);
    const ruling = scheduleFor(tables, {
      foodKey: recipe.process_food,
      style: recipe.process_style,
      pack: recipe.process_pack,
      jar: sizeOf(recipe.jar_kind),
      method: canner.method,
      ...(canner.gauge === null ? {} : { gauge: canner.gauge }),
      altitudeFt: data.household.altitudeFt,
    });
    if (!ruling.ok)
      throw new ShelfwardError('demo-data-broken', `schedulesOf: no schedule for ${recipe.id}`, {
        cause: ruling,
      });
    schedules.set(recipe.id, ruling.value);
  }
  return schedules;
};

const batchesByDay = (
  story: Story,
  tables: Pick<ReferenceTables, 'harvestWindows'>,
  years: readonly number[],
  firstDay: CalendarDate,
): ReadonlyMap<CalendarDate, readonly DemoRecipe[]> => {
  const byDay = new Map<CalendarDate, DemoRecipe[]>();
  for (const year of years) {
    for (const { recipe, on } of canningDays(story.data, tables.harvestWindows, year)) {
      if (on < firstDay || on >= story.asOf) continue;
      byDay.set(on, [...(byDay.get(on) ?? []), recipe]);
    }
  }
  return byDay;
};

const putUp = (story: Story, recipe: DemoRecipe, day: CalendarDate, outOfSight = 0): void => {
  const item = itemOf(story, recipe.item);
  const { pantry } = story;
  const made = chance(story, item).between(recipe.yield_low, recipe.yield_high);
  const evidence = evidenceOf(story, recipe);
  pantry.putUp({
    itemId: item.id,
    recipeId: recipe.id,
    jarKind: recipe.jar_kind,
    origin: 'put-up',
    madeOn: day,
    readyFrom: addDays(day, recipe.ready_after_days),
    bestQualityUntil: addDays(day, item.best_quality_days),
    placeId: item.place,
    cost: null,
    evidence,
    outOfSight,
    units: made,
  });
  if (evidence === null || day < story.bookOpensOn) return;
  story.cannedInBook += 1;
  if (batchesWithFailedSeal.includes(story.cannedInBook) && addDays(day, 1) < story.asOf)
    pantry.findFailedSeal(day, item.id);
};

const evidenceOf = (story: Story, recipe: DemoRecipe): Evidence | null => {
  const schedule = story.schedules.get(recipe.id);
  if (!schedule || recipe.canner === null) return null;
  return {
    cannerId: recipe.canner,
    method: schedule.method,
    gauge: schedule.gauge,
    scheduleRow: schedule.rowKey,
    psi: schedule.psi,
    minutesRun: schedule.minutes,
    acidTicked: schedule.acid === null ? null : true,
  };
};

/** Two batches from the freezer, some jars of which were put behind a crate: near their best-by at `asOf`. */
const putUpForgotten = (story: Story, day: CalendarDate): void => {
  for (const recipe of story.data.recipes) {
    if (forgottenRecipes.includes(recipe.id)) putUp(story, recipe, day, forgottenJars);
  }
};

const shopForStaples = (story: Story, day: CalendarDate): void => {
  if (weekdayOf(day) !== story.data.household.kitchenTime.sessionWeekday || isWithin(day, story.away)) return;
  for (const item of story.data.items) {
    const pack = story.data.packs.find((sold) => sold.item === item.id);
    if (item.kind !== 'staple' || !pack) continue;
    const { pantry } = story;
    if (pantry.unitsOnShelf(item.id) > item.truly_per_week * staplesReorderWeeks) continue;
    const wanted = item.truly_per_week * story.data.household.habits.staplesBoughtForWeeks;
    const packs = Math.max(1, Math.round(wanted / pack.units));
    pantry.buy({
      itemId: item.id,
      recipeId: null,
      jarKind: null,
      origin: 'bought',
      madeOn: day,
      readyFrom: day,
      bestQualityUntil: addDays(day, item.best_quality_days),
      placeId: item.place,
      cost: asCents(packs * pack.price_cents),
      evidence: null,
      outOfSight: 0,
      units: packs * pack.units,
    });
  }
};

const giveDecemberBaskets = (story: Story, day: CalendarDate): void => {
  for (const promise of story.data.occasions) {
    if (promise.kind === 'occasion' || !day.endsWith(promise.month_day)) continue;
    story.pantry.giveAway(promise.item, promise.units, day, promise.note);
  }
};

const eat = (story: Story, day: CalendarDate): void => {
  if (isWithin(day, story.away)) return;
  for (const item of story.data.items) {
    const luck = chance(story, item);
    const supper = story.data.occasions.filter(
      (due) => due.kind === 'occasion' && due.item === item.id && day.endsWith(due.month_day),
    );
    const wanted =
      luck.count(usesPerDay(story, item, day)) + supper.reduce((units, due) => units + due.units, 0);
    for (let taken = 0; taken < wanted; taken += 1) {
      story.pantry.take(item.id, day, {
        fromFront: luck.happens(story.data.household.habits.takesJarAtFrontShare),
        said: !luck.happens(missedShare(story, item)),
      });
    }
  }
};

const usesPerDay = (story: Story, item: DemoItem, day: CalendarDate): number => {
  const month = Number(day.slice(5, 7));
  const multiplier = item.by_month[month - 1] ?? 1;
  const everyDay = (item.truly_per_week / daysInWeek) * multiplier;
  if (item.says_per !== 'school-week') return everyDay;
  const isSchoolDay = weekdayOf(day) <= 5 && !isWithin(day, story.schoolHolidays);
  return isSchoolDay ? (everyDay * daysInWeek) / 5 : 0;
};

const missedShare = (story: Story, item: DemoItem): number => {
  const { missedTapShare, missedStapleTapShare } = story.data.household.habits;
  return item.kind === 'staple' ? missedStapleTapShare : missedTapShare;
};

const breakJar = (story: Story, day: CalendarDate): void => {
  const item = itemOf(story, brokenJar.itemId);
  story.pantry.discard(item.id, day, brokenJar.reason);
};

/** On the first Sunday of the month everything is counted. */
const countShelf = (story: Story, day: CalendarDate): void => {
  if (day < story.bookOpensOn || weekdayOf(day) !== 7 || Number(day.slice(8)) > daysInWeek) return;
  for (const item of story.data.items) story.pantry.count(item.id, day);
};

const itemOf = (story: Story, id: string): DemoItem => {
  const item = story.data.items.find((known) => known.id === id);
  if (!item) throw new ShelfwardError('demo-data-broken', `itemOf: no item ${id}`);
  return item;
};

const chance = (story: Story, item: DemoItem): Chance => {
  const own = story.chances.get(item.id);
  if (!own) throw new ShelfwardError('demo-data-broken', `chance: no strand for ${item.id}`);
  return own;
};

/** 1 Monday to 7 Sunday; 2024-01-01 was a Monday. */
const weekdayOf = (day: CalendarDate): number =>
  (((daysBetween(onDay(2024, '01-01'), day) % daysInWeek) + daysInWeek) % daysInWeek) + 1;
