import { bounds, isWithin } from '../../../shared/bounds.ts';
import { counted } from '../../../shared/counting.ts';
import { found, type Outcome, refused } from '../../../shared/problems.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Preparations } from '../../household/begun.ts';
import type { Household } from '../../household/household.ts';
import type { Item } from '../../household/item.ts';
import type { Canner, KitchenHours } from '../../household/kitchen.ts';
import type { Recipe } from '../../household/recipe.ts';
import type { SessionSetting, SessionWork } from '../../household/session.ts';
import type { SheetBasis } from '../afterwards/process-evidence.ts';
import { askGate, type GateAnswer, isCanned } from '../ask-gate.ts';
import { headlineOf } from '../foods/headline.ts';
import { chosenSchedule } from '../lookup/process-lookup.ts';
import type { Schedule } from '../lookup/schedule.ts';
import { foodStepsFor } from '../sheet/food-steps.ts';
import type { SessionStep } from '../sheet/session-step.ts';
import { sessionSteps } from '../sheet/session-steps.ts';
import { batchRuling } from '../stages/prepared-batches.ts';
import { localDateTime } from '../stages/stages-done.ts';
import { stagesHere } from '../stages/stages-here.ts';
import { preparationFor } from '../stages/standing-batches.ts';
import { type CanningDay, canningDay } from './canning-day.ts';
import { dayBatchOf } from './day-batch.ts';
import type { DayBatch } from './day-kitchen.ts';
import { loadKeyOf } from './load-key.ts';
import { loadsOfBatch } from './load-time.ts';
import { potMinutesOf } from './pot-minutes.ts';

/** What a canning day is worked out from. */
export interface SessionKitchen {
  readonly household: Household;
  readonly canners: readonly Canner[];
  readonly items: readonly Item[];
  readonly recipes: readonly Recipe[];
  readonly hours: KitchenHours;
  readonly reference: ReferenceTables;
  /** What was begun days or hours before its canner load. */
  readonly preparations: Preparations;
  /** Milliseconds since 1970. */
  readonly now: number;
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
  /** The whole checklist of each of its loads. */
  readonly steps: readonly SessionStep[];
  readonly loads: readonly LoadHere[];
  readonly dayBatch: DayBatch;
  /** Jars of all batches that alone would need a load: kept in the refrigerator, or not filled. */
  readonly jarsAside: number;
}

/** The batches of one recipe on a day, as they can be done in this kitchen. */
export interface BatchHere {
  readonly recipe: Recipe;
  readonly item: Item;
  /** The household's own name with the tested food beside it. */
  readonly headline: string;
  readonly batches: number;
  /** Null for what is not canned; otherwise how, or every rule in its way, a choice not yet made among them. */
  readonly canned: Outcome<CannedHere> | null;
  /** How it will be canned once its stages are done, where only they stand in the way now. */
  readonly heldBack: CannedHere | null;
  /** Whether it has stages before its canner load. */
  readonly isStaged: boolean;
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

/** How a day is laid out until somebody says otherwise: from nine, with who is there or at most two at work, on every burner. */
export const usualSetting = (
  { people }: Pick<Household, 'people'>,
  { stoveBurners }: Pick<KitchenHours, 'stoveBurners'>,
  who: readonly string[] = [],
): SessionSetting => ({
  by: 'start',
  time: '09:00',
  people: who.length > 0 ? who.length : Math.min(2, Math.max(1, people)),
  ...(who.length > 0 ? { who } : {}),
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
  /** Recipes of which a load was ticked or timed on the day: their loads stay in sight. */
  begun: ReadonlySet<string> = new Set(),
): SessionHere {
  const batches = batchesHere(work, kitchen, on, setting, begun);
  return {
    on,
    setting,
    batches,
    timeline: timelineOf(batches, kitchen, setting),
    basis: sheetBasis(batches, kitchen.household),
  };
}

/** The batches of a day alone, without laying it out. */
export const batchesHere = (
  work: readonly SessionWork[],
  kitchen: SessionKitchen,
  on: CalendarDate,
  setting: SessionSetting,
  begun: ReadonlySet<string>,
): readonly BatchHere[] =>
  work.flatMap((one) => {
    const here = batchHere(one, kitchen, on, setting);
    if (here === null) return [];
    return [begun.has(one.recipeId) ? here : unlessHeldBack(here, kitchen, on, setting)];
  });

function batchHere(
  { recipeId, batches }: SessionWork,
  kitchen: SessionKitchen,
  on: CalendarDate,
  setting: SessionSetting,
): BatchHere | null {
  const recipe = kitchen.recipes.find(({ id }) => id === recipeId);
  const item = kitchen.items.find(({ id }) => id === recipe?.itemId);
  if (!recipe || !item) return null;
  const printed = isCanned(recipe, item)
    ? askGate(recipe, item, kitchen, { at: `${on}T${setting.time}`, prepared: 'as-planned' })
    : null;
  return {
    recipe,
    item,
    headline: headlineOf(item, recipe, kitchen.reference),
    batches,
    canned:
      printed?.ok === true
        ? cannedHere(recipe, batches, kitchen, printed.value, setting.rows[recipe.id] ?? null)
        : printed,
    heldBack: null,
    isStaged: stagesHere(recipe, kitchen.reference).length > 0,
    alternatives: printed?.ok === true && printed.value.schedules.length > 1 ? printed.value.schedules : [],
    low: recipe.yieldLow * batches,
    high: recipe.yieldHigh * batches,
  };
}

/** The batch without a time while its stages are not written down as begun long enough before; with it once they are. */
function unlessHeldBack(
  here: BatchHere,
  { preparations, now, reference, household }: SessionKitchen,
  on: CalendarDate,
  setting: SessionSetting,
): BatchHere {
  const { recipe, batches, canned } = here;
  if (canned === null || !canned.ok || !here.isStaged) return here;
  const preparation = preparationFor(recipe, on, preparations, reference, household.timeZone);
  const begins = `${on}T${setting.by === 'start' ? setting.time : '00:00'}`;
  const clock = localDateTime(now, household.timeZone);
  const ruling = batchRuling(preparation, batches, begins > clock ? begins : clock);
  return ruling.ok ? here : { ...here, canned: ruling, heldBack: canned.value };
}

function cannedHere(
  recipe: Recipe,
  batches: number,
  { reference }: SessionKitchen,
  { canner, tested, schedules, jarsPerLoad: perLoad }: GateAnswer,
  chosenRow: string | null,
): Outcome<CannedHere> {
  const chosen = chosenSchedule(schedules, chosenRow);
  if (!chosen.ok) return chosen;
  const schedule = chosen.value;
  const jarsPerPot = Math.ceil(recipe.yieldHigh - 1e-9);
  const { loads: loadsPerPot, jarsAside } = loadsOfBatch(jarsPerPot, perLoad);
  if (!isWithin(batches, bounds.batches) || batches * loadsPerPot > bounds.loadsOfDay.to)
    return refused({
      code: 'too-many-loads',
      path: ['batches'],
      message: `One day takes ${counted(bounds.batches.to, 'batch')} and ${bounds.loadsOfDay.to} canner loads at most; ${recipe.name} would have ${counted(batches, 'batch')} of ${counted(loadsPerPot, 'load')}. Put fewer on this day.`,
    });
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
      kind: tested?.kind ?? null,
      loads: loadsPerPot,
    }),
    reference.cannerFacts,
  );
  return found({
    canner,
    schedule,
    steps: sessionSteps(schedule, foodStepsFor(reference, schedule)),
    dayBatch,
    jarsAside: jarsAside * batches,
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
const minuteOfDay = (time: string): number => {
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
