import { asJarKind } from '../../../shared/jar.ts';
import { asCents } from '../../../shared/money.ts';
import { addWeeks, asDate, type WeekKey, weekOf, weeksFrom } from '../../../shared/week.ts';
import type {
  PlannedItem,
  PlannedProcessing,
  PlannedRecipe,
  PlannedSource,
  PlannedStages,
  PlanningYear,
} from '../../../src/planning/planning-year.ts';

export const pint = asJarKind('pint', 'regular');
export const wideQuart = asJarKind('quart', 'wide');

const firstWeek = weekOf(asDate('2027-07-05'));

/** A week of these years, counted from their first: 0 is that of July 5, 2027. */
export const week = (at: number): WeekKey => addWeeks(firstWeek, at);

/** The same amount in each of so many weeks. */
export const each = <T>(count: number, amount: T): readonly T[] =>
  Array.from({ length: count }, () => amount);

/** An id of whatever kind is asked for. */
export const named = <Id extends string>(id: string): Id => id as Id;

/** A year of some weeks in which there is nothing yet: a session of four hours a week, 20 minutes of it set-up, and money enough. */
export function handMadeYear(weekCount: number, parts: Partial<PlanningYear> = {}): PlanningYear {
  return {
    asOf: asDate('2027-07-05'),
    weeks: weeksFrom(firstWeek, weekCount),
    items: [],
    recipes: [],
    sources: [],
    materials: [],
    canners: [{ id: named('kettle'), name: 'Kettle', method: 'boiling-water' }],
    supplies: [],
    jars: [],
    lids: [],
    groups: [],
    time: {
      maxSessionsByWeek: each(weekCount, 1),
      hoursPerSessionByWeek: each(weekCount, 4),
      setUpMinutes: 20,
    },
    fund: { opening: asCents(100_000), setAsideByWeek: each(weekCount, asCents(0)) },
    storage: { freezerQuarts: 0, freezerQuartsPerDay: 0, crockQuarts: 0 },
    kept: [],
    ...parts,
  };
}

/** Something that is used in the amounts given week by week, and of which nothing else is wanted. */
export const used = (
  id: string,
  useByWeek: readonly number[],
  parts: Partial<PlannedItem> = {},
): PlannedItem => ({
  id: named(id),
  name: id,
  kind: 'preserve',
  jarKind: null,
  openingLots: [],
  useByWeek,
  yearlyTarget: 0,
  reserveUnits: 0,
  yearEndUnits: 0,
  familyMinimumUnits: null,
  bestQualityWeeks: 52,
  packs: [],
  ...parts,
});

/** Units of a lot that are ready and within best quality between two weeks of the year, counted from its first. */
export const lot = (
  lotId: string,
  units: number,
  parts: Partial<PlannedItem['openingLots'][number]> = {},
): PlannedItem['openingLots'][number] => ({
  lotId: named(lotId),
  units,
  jars: units,
  jarKind: null,
  readyFrom: weekOf(asDate('2027-01-04')),
  bestQualityUntil: weekOf(asDate('2029-01-01')),
  ...parts,
});

/** A way to make an item: 5 units sure of at most 6 jars, an hour of work, no jar, nothing needed. */
export const recipe = (id: string, itemId: string, parts: Partial<PlannedRecipe> = {}): PlannedRecipe => ({
  id: named(id),
  name: id,
  itemId: named(itemId),
  jarKind: null,
  yieldLowUnits: 5,
  yieldHighJars: 6,
  produce: [],
  gives: [],
  uses: [],
  supplies: [],
  handsOnMinutes: 60,
  processing: null,
  readyAfterWeeks: 0,
  crock: null,
  allowedByWeek: null,
  ...parts,
});

export const produceOf = (
  crop: string,
  lb: number,
  mayBeFrozen = false,
): PlannedRecipe['produce'][number] => ({ crop: named(crop), lb, mayBeFrozen });

export const staged = (weeks: number, handsOnByWeek: readonly number[]): PlannedStages => ({
  weeks,
  daysFromMonday: 0,
  handsOnByWeek,
  possibleByWeek: null,
});

export const processing = (parts: Partial<PlannedProcessing> = {}): PlannedProcessing => ({
  cannerId: named('kettle'),
  scheduleKey: 'plums',
  lowAcid: false,
  minutes: 20,
  psi: null,
  jarsPerLoad: 7,
  loadMinutes: 50,
  attendedMinutes: 10,
  ...parts,
});

/** A source of a crop that gives so many pounds week by week at a dollar a pound, to be used in the week they come. */
export const source = (
  id: string,
  crop: string,
  lbByWeek: readonly number[],
  parts: Partial<PlannedSource> = {},
): PlannedSource => ({
  id: named(id),
  name: id,
  crop: named(crop),
  kind: 'market',
  lbByWeek,
  priceCentsPerLbByWeek: lbByWeek.map(() => asCents(100)),
  useByDays: 4,
  poorYearChance: 0,
  poorYearShare: 1,
  fallBack: 'buy',
  ...parts,
});

/** Packs of an item at a price that may change from week to week. */
export const pack = (id: string, units: number, cents: readonly number[]): PlannedItem['packs'][number] => ({
  id,
  units,
  priceByWeek: cents.map(asCents),
});
