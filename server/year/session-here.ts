import { type JarSize, sizeOf } from '../../shared/jar.ts';
import { found, type Outcome, refused } from '../../shared/problems.ts';
import { pack } from '../../shared/schemas/reference/process-time.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../shared/week.ts';
import { jarsPerLoad, schedulesInCanner } from '../../src/preserving/canner.ts';
import { type CanningDay, canningDay } from '../../src/preserving/canning-day.ts';
import { dayBatchOf } from '../../src/preserving/day-batch.ts';
import type { DayBatch } from '../../src/preserving/day-kitchen.ts';
import { loadKeyOf } from '../../src/preserving/load-key.ts';
import { potMinutesOf } from '../../src/preserving/pot-minutes.ts';
import type { SheetBasis } from '../../src/preserving/process-evidence.ts';
import { chosenSchedule } from '../../src/preserving/process-lookup.ts';
import { recipeBook, type TestedRecipe } from '../../src/preserving/recipe-book.ts';
import type { Schedule } from '../../src/preserving/schedule.ts';
import type { SessionSetting, SessionWork } from '../queries/canning-sessions.ts';
import type { Household } from '../queries/household.ts';
import type { Item } from '../queries/items.ts';
import type { Canner, KitchenHours } from '../queries/kitchen.ts';
import type { Recipe } from '../queries/recipes.ts';
import { cannerFacts } from './planned-recipes.ts';

/** What a canning day is worked out from. */
export interface SessionKitchen {
  readonly household: Household;
  readonly canners: readonly Canner[];
  readonly items: readonly Item[];
  readonly recipes: readonly Recipe[];
  readonly hours: KitchenHours;
  readonly reference: ReferenceTables;
}

/** One canner load of the day. */
export interface LoadHere {
  /** `peach-halves.2.1`: recipe, pot, load of the pot. */
  readonly key: string;
  readonly pot: number;
  readonly load: number;
  readonly jars: number;
}

export interface CannedHere {
  readonly canner: Canner;
  /** The one row the day is worked by. */
  readonly schedule: Schedule;
  readonly loads: readonly LoadHere[];
  readonly dayBatch: DayBatch;
}

/** The batches of one recipe on a day, as they can be done in this kitchen. */
export interface BatchHere {
  readonly recipe: Recipe;
  readonly item: Item;
  readonly batches: number;
  /** Null for what is not canned; otherwise how, or every rule in its way, a choice not yet made among them. */
  readonly canned: Outcome<CannedHere> | null;
  /** Rows to choose from, where the table prints several for this jar and altitude; empty where it prints one. */
  readonly alternatives: readonly Schedule[];
  /** Jars (bags, lb …) that may come: the low yield is counted on, the high one got ready for. */
  readonly low: number;
  readonly high: number;
}

export interface Timeline {
  readonly day: CanningDay;
  /** Minutes from midnight of the day; below 0 the evening before. */
  readonly startsAt: number;
  readonly setUpMinutes: number;
  /** When the last jar is out of the canner. */
  readonly endsAt: number;
}

export interface SessionHere {
  readonly on: CalendarDate;
  readonly setting: SessionSetting;
  readonly batches: readonly BatchHere[];
  /** Null when nothing of the day goes into a canner. */
  readonly timeline: Outcome<Timeline> | null;
  /** What a sheet printed now would rest on, canner by canner; empty when no time can be given. */
  readonly basis: readonly SheetBasis[];
}

/** How a day is laid out until somebody says otherwise: from nine, at most two at work, on every burner. */
export const usualSetting = (
  { people }: Pick<Household, 'people'>,
  { stoveBurners }: Pick<KitchenHours, 'stoveBurners'>,
): SessionSetting => ({
  by: 'start',
  time: '09:00',
  people: Math.min(2, Math.max(1, people)),
  burners: stoveBurners,
  rows: {},
});

/** The household's own minutes for one load in or out; common practice, no source. */
const loadingMinutes = 5;

/** A day's work as it can be done here: schedules, loads, timeline. */
export function sessionHere(
  work: readonly SessionWork[],
  kitchen: SessionKitchen,
  on: CalendarDate,
  setting: SessionSetting,
): SessionHere {
  const batches = work.flatMap((one) => batchHere(one, kitchen, on, setting));
  return {
    on,
    setting,
    batches,
    timeline: timelineOf(batches, kitchen, setting),
    basis: sheetBasis(batches, kitchen.household),
  };
}

function batchHere(
  { recipeId, batches }: SessionWork,
  kitchen: SessionKitchen,
  on: CalendarDate,
  setting: SessionSetting,
): BatchHere[] {
  const recipe = kitchen.recipes.find(({ id }) => id === recipeId);
  const item = kitchen.items.find(({ id }) => id === recipe?.itemId);
  if (!recipe || !item) return [];
  const printed =
    recipe.process === null && item.keeping !== 'canned' ? null : printedHere(recipe, kitchen, on);
  return [
    {
      recipe,
      item,
      batches,
      canned:
        printed?.ok === true
          ? cannedHere(recipe, batches, kitchen, printed.value, setting.rows[recipe.id] ?? null)
          : printed,
      alternatives: printed?.ok === true && printed.value.schedules.length > 1 ? printed.value.schedules : [],
      low: recipe.yieldLow * batches,
      high: recipe.yieldHigh * batches,
    },
  ];
}

interface PrintedHere {
  readonly canner: Canner;
  readonly schedules: readonly [Schedule, ...Schedule[]];
  readonly jarsPerLoad: number;
}

/** Every printed row of a recipe in its own jar and canner, and how many such jars a load takes. */
function printedHere(recipe: Recipe, kitchen: SessionKitchen, on: CalendarDate): Outcome<PrintedHere> {
  const { process } = recipe;
  if (process === null)
    return cannot(
      'no-process-named',
      'process',
      `${recipe.name} is kept in sealed jars but names no tested process. Keep it frozen or refrigerated.`,
    );
  const canner = kitchen.canners.find(({ id }) => id === process.cannerId);
  if (!canner)
    return cannot(
      'canner-gone',
      'canner',
      `The canner of ${recipe.name} is no longer used. Choose another canner for it.`,
    );
  const schedules = schedulesFor(recipe, sizeOf(process.jarKind), canner, kitchen, on);
  if (!schedules.ok) return schedules;
  const perLoad = jarsPerLoad(cannerFacts(canner), sizeOf(process.jarKind), kitchen.reference.cannerFacts);
  if (!perLoad.ok) return perLoad;
  if (perLoad.value < 1)
    return cannot(
      'jar-does-not-fit',
      'canner',
      `${canner.name} holds no ${sizeOf(process.jarKind)} jars. Choose another jar or canner, or write down how many it holds.`,
    );
  return found({ canner, schedules: schedules.value, jarsPerLoad: perLoad.value });
}

function cannedHere(
  recipe: Recipe,
  batches: number,
  { reference }: SessionKitchen,
  { canner, schedules, jarsPerLoad: perLoad }: PrintedHere,
  chosenRow: string | null,
): Outcome<CannedHere> {
  const chosen = chosenSchedule(schedules, chosenRow);
  if (!chosen.ok) return chosen;
  const schedule = chosen.value;
  const jarsPerPot = Math.ceil(recipe.yieldHigh - 1e-9);
  const loadsPerPot = Math.ceil(jarsPerPot / perLoad);
  const book = testedRecipes(reference).filter((tested) =>
    tested.processes.some(({ foodKey }) => foodKey === schedule.foodKey),
  );
  const dayBatch = dayBatchOf(
    // A batch is a pot: nothing is multiplied in one pot, and no food is kept hot for hours.
    {
      recipe: { key: recipe.id, name: recipe.name },
      pots: batches,
      jarsToPrepare: jarsPerPot * batches + 1,
    },
    schedule,
    canner.id,
    perLoad,
    potMinutesOf({
      handsOnMinutes: recipe.handsOnMinutes,
      pack: schedule.pack,
      kind: book[0]?.kind ?? null,
      loads: loadsPerPot,
    }),
    reference.cannerFacts,
  );
  return found({
    canner,
    schedule,
    dayBatch,
    loads: Array.from({ length: batches * loadsPerPot }, (_, at) => {
      const pot = Math.floor(at / loadsPerPot) + 1;
      const load = (at % loadsPerPot) + 1;
      const before = (load - 1) * perLoad;
      return {
        key: loadKeyOf({ recipe: recipe.id, pot, load }),
        pot,
        load,
        jars: Math.min(perLoad, jarsPerPot - before),
      };
    }),
  });
}

/** Published schedules of a recipe in one size of jar, in this canner, at this altitude, on this day. */
export function schedulesFor(
  recipe: Recipe,
  jar: JarSize,
  canner: Canner,
  { household, reference }: Pick<SessionKitchen, 'household' | 'reference'>,
  on: CalendarDate,
): Outcome<readonly [Schedule, ...Schedule[]]> {
  const { process } = recipe;
  const packed = pack.safeParse(process?.pack);
  if (process === null || !packed.success)
    return cannot('no-process-named', 'process', `${recipe.name} names no tested process.`);
  if (household.altitudeFt === null)
    return cannot(
      'altitude-unknown',
      'altitudeFt',
      'The altitude of the kitchen is not known, and every processing time depends on it. Enter it on the kitchen page.',
    );
  return schedulesInCanner(
    reference,
    {
      foodKey: process.food,
      style: process.style,
      pack: packed.data,
      jar,
      altitudeFt: household.altitudeFt,
    },
    cannerFacts(canner),
    on,
  );
}

const books = new WeakMap<ReferenceTables, readonly TestedRecipe[]>();

/** The published recipes, read once for each set of tables. */
export const testedRecipes = (reference: ReferenceTables): readonly TestedRecipe[] => {
  const known = books.get(reference) ?? recipeBook(reference);
  books.set(reference, known);
  return known;
};

function timelineOf(
  batches: readonly BatchHere[],
  { canners, hours }: SessionKitchen,
  setting: SessionSetting,
): Outcome<Timeline> | null {
  const dayBatches = batches.flatMap(({ canned }) => (canned?.ok ? [canned.value.dayBatch] : []));
  if (dayBatches.length === 0) return null;
  const day = canningDay(
    {
      people: setting.people,
      burners: setting.burners,
      canners: canners.map(({ id }) => id),
      loadingMinutes,
      unloadingMinutes: loadingMinutes,
    },
    dayBatches,
  );
  if (!day.ok) return day;
  const { setUpMinutes } = hours;
  const length = setUpMinutes + day.value.workMinutes;
  const said = minuteOfDay(setting.time);
  const startsAt = setting.by === 'start' ? said : said - length;
  return {
    ok: true,
    value: { day: day.value, startsAt, setUpMinutes, endsAt: startsAt + length },
  };
}

/** Minutes from midnight: `09:30` is 570. */
export const minuteOfDay = (time: string): number => {
  const [hours = 0, minutes = 0] = time.split(':').map(Number);
  return hours * 60 + minutes;
};

function sheetBasis(batches: readonly BatchHere[], { altitudeFt }: Household): readonly SheetBasis[] {
  if (altitudeFt === null) return [];
  const rowsByCanner = new Map<Canner, Set<string>>();
  for (const { canned } of batches) {
    if (!canned?.ok) continue;
    const { canner, schedule } = canned.value;
    const rows = rowsByCanner.get(canner) ?? new Set();
    rowsByCanner.set(canner, rows.add(schedule.rowKey));
  }
  return [...rowsByCanner].map(([canner, rows]) => ({
    altitudeFt,
    canner: canner.id,
    gauge: canner.gauge,
    gaugeCheckedOn: canner.gaugeCheckedOn,
    rowKeys: [...rows],
  }));
}

const cannot = (code: string, field: string, message: string): Outcome<never> =>
  refused({ code, path: [field], message });
