import { asCents } from '../../shared/money.ts';
import { asDate, weekOf, weeksFrom } from '../../shared/week.ts';
import type { PlannedItem, PlannedRecipe, PlanningYear } from '../../src/planning/planning-year.ts';

/** A published lot-sizing instance: one machine, demands known, a set-up in each period with any production. */
export interface LotSizingInstance {
  readonly name: string;
  readonly capacityByPeriod: readonly number[];
  readonly unitCapacity: readonly number[];
  readonly holdingCost: readonly number[];
  readonly setupTime: readonly number[];
  /** Per item, or per item and period. */
  readonly setupCost: readonly (number | readonly number[])[];
  readonly demandByItemByPeriod: readonly (readonly number[])[];
}

/**
 * The instance as a household's year: a period is a week, the machine is the kitchen, a unit of capacity is a minute, a
 * unit of cost is a cent. With a set-up cost that changes by period there is one recipe for each period.
 */
export function lotSizingYear(
  instance: LotSizingInstance,
  maxAgePeriods: number | null = null,
): PlanningYear {
  const asOf = asDate('2026-01-05');
  const weeks = weeksFrom(weekOf(asOf), instance.capacityByPeriod.length);
  const items = instance.demandByItemByPeriod.map(
    (demand, at): PlannedItem => ({
      id: `item-${String(at).padStart(3, '0')}` as PlannedItem['id'],
      name: `Item ${at}`,
      kind: 'preserve',
      jarKind: null,
      openingLots: [],
      useByWeek: demand,
      yearlyTarget: 0,
      reserveUnits: 0,
      yearEndUnits: 0,
      familyMinimumUnits: null,
      bestQualityWeeks: maxAgePeriods === null ? weeks.length : maxAgePeriods - 1,
      packs: [],
      keepingCentsPerUnitWeek: instance.holdingCost[at] ?? 0,
    }),
  );
  const recipe = (
    at: number,
    suffix: string,
    cents: number,
    allowed: readonly boolean[] | null,
  ): PlannedRecipe => ({
    id: `recipe-${String(at).padStart(3, '0')}${suffix}` as PlannedRecipe['id'],
    name: `Recipe ${at}${suffix}`,
    itemId: items[at]?.id ?? ('' as PlannedItem['id']),
    jarKind: null,
    yieldLowUnits: 1,
    yieldHighJars: 0,
    produce: [],
    gives: [],
    uses: [],
    supplies: [],
    handsOnMinutes: instance.unitCapacity[at] ?? 1,
    processing: null,
    readyAfterWeeks: 0,
    crock: null,
    allowedByWeek: allowed,
    setUp: { minutes: instance.setupTime[at] ?? 0, cents },
  });
  return {
    asOf,
    weeks,
    items,
    recipes: instance.setupCost.flatMap((cost, at) =>
      typeof cost === 'number'
        ? [recipe(at, '', cost, null)]
        : cost.map((cents, period) =>
            recipe(
              at,
              `-in-${period}`,
              cents,
              weeks.map((_, week) => week === period),
            ),
          ),
    ),
    sources: [],
    materials: [],
    canners: [],
    supplies: [],
    jars: [],
    lids: [],
    groups: [],
    time: {
      maxSessionsByWeek: weeks.map(() => 1),
      hoursPerSessionByWeek: instance.capacityByPeriod.map((minutes) => minutes / 60),
      setUpMinutes: 0,
    },
    fund: { opening: asCents(0), setAsideByWeek: weeks.map(() => asCents(0)) },
    storage: { freezerQuarts: 0, freezerQuartsPerDay: 0, crockQuarts: 0 },
    kept: [],
  };
}
