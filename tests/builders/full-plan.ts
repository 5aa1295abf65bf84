import type { Database } from '../../server/database/database.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { loadPlanningYear } from '../../server/year/load-year.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { mouths } from '../../shared/jar.ts';
import { asCents } from '../../shared/money.ts';
import { type CalendarDate, mondayOf, type WeekKey } from '../../shared/week.ts';
import type { Recipe } from '../../src/household/recipe.ts';
import {
  type GaveWay,
  gaveWayRungs,
  type PlannedPurchase,
  type PlannedWeek,
} from '../../src/planning/plan.ts';
import { keepPlanOfNothing } from './plan-of-nothing.ts';

/**
 * Keeps a plan with something of everything, as no planner would make it: each recipe in some week, each kind of thing bought in
 * ones, in several and in parts, every wish short by a part. Pages, letters and commands have something to say in all they say.
 */
export async function keepPlanOfEverything(
  db: Database,
  householdId: HouseholdId,
  asOf: CalendarDate,
): Promise<void> {
  const { year, facts } = await loadPlanningYear(db, householdId, asOf, loadReferenceTables());
  const recipesIn = (place: number) =>
    place % 2 === 0 ? facts.recipes.filter((_, at) => at % 6 === (place / 2) % 6).slice(0, 4) : [];
  const line = (
    what: string,
    kind: PlannedPurchase['kind'],
    quantity: number,
    unit: string,
    packs: PlannedPurchase['packs'] = null,
  ): PlannedPurchase => ({ what, kind, quantity, unit, packs, cost: asCents(199 + quantity * 10) });
  const bought = (place: number): readonly PlannedPurchase[] => [
    ...facts.sources
      .filter((_, at) => at % 5 === place % 5)
      .map(({ id }, at) => line(id, 'produce', 1 + at * 3.3, 'lb')),
    ...facts.supplies
      .filter((_, at) => at % 4 === place % 4)
      .map(({ id, unit, packQuantity }, at) =>
        line(id, 'supply', packQuantity * (at + 1), unit, { id: 'pack', count: at + 1 }),
      ),
    ...[...facts.packs]
      .filter((_, at) => at % 5 === place % 5)
      .flatMap(([itemId, [pack]], at) =>
        pack === undefined
          ? []
          : [line(itemId, 'item', pack.units * (at + 1), 'unit', { id: pack.id, count: at + 1 })],
      ),
    ...mouths.map((mouth, at) => line(mouth, 'lids', 12 * (at + 1), 'lid', { id: 'box', count: at + 1 })),
    line('pint/regular', 'jars', 12, 'jar', { id: 'pack', count: 1 }),
  ];
  const weeks = year.weeks.map((week, place): readonly [string, Partial<PlannedWeek>] => {
    const made = recipesIn(place);
    return [
      week,
      {
        sessions: made.map((recipe, at) => ({
          recipe: recipe.id,
          batches: 1 + (at % 2),
          jars:
            recipe.jarKind === null
              ? []
              : [{ kind: recipe.jarKind, count: Math.ceil(recipe.yieldHigh) * (1 + (at % 2)) }],
          units: recipe.yieldLow * (1 + (at % 2)),
          handsOnMinutes: recipe.handsOnMinutes,
          canner: recipe.process?.cannerId ?? null,
          loads: 1 + (at % 2),
        })),
        purchases: place < 12 ? bought(place) : [],
        kitchenSessions: made.length === 0 ? 0 : 1,
        kitchenMinutes: 61 * made.length,
        spend: asCents(1_099),
        leftOver: facts.sources.slice(0, 2).map(({ id }, at) => ({ source: id, lb: at + 0.6 })),
      },
    ];
  });
  const short: readonly GaveWay[] = gaveWayRungs.flatMap((rung): readonly GaveWay[] => {
    if (rung === 'cash and hours') return overdrawnAndUndone(year.weeks, facts.recipes);
    if (rung === 'garden crop')
      return facts.sources
        .slice(0, 2)
        .map(({ id }, at) => ({ rung, what: id, amount: 1 + at * 1.4, unit: 'lb' }));
    if (rung === 'group')
      return facts.groups.slice(0, 1).map(({ id }) => ({ rung, what: id, amount: 1.5, unit: 'units' }));
    return facts.items
      .slice(0, 5)
      .map(({ id }, at) => ({ rung, what: id, amount: 1 + at * 0.7, unit: 'units' }));
  });
  await keepPlanOfNothing(
    db,
    householdId,
    asOf,
    Object.fromEntries(weeks),
    { gaveWay: short, solveSeconds: 1 },
    {
      comes: (itemId, week) => recipesIn(week).find((recipe) => recipe.itemId === itemId)?.yieldLow ?? 0,
    },
  );
}

/** A week that costs more than there is, batches chosen for a week and batches begun that no week has room for. */
const overdrawnAndUndone = (
  weeks: readonly WeekKey[],
  recipes: readonly Pick<Recipe, 'id'>[],
): readonly GaveWay[] => {
  const [recipe] = recipes;
  const week = weeks[3];
  if (recipe === undefined || week === undefined) throw new Error('expected a recipe and four weeks');
  const undone = { rung: 'cash and hours', amount: 1, unit: 'batches' } as const;
  const begunOn = mondayOf(week);
  return [
    { rung: 'cash and hours', what: week, amount: 150, unit: 'cents' },
    {
      ...undone,
      what: `${recipe.id} in ${week}`,
      batches: { recipe: recipe.id, pinnedIn: week, begunOn: null },
    },
    {
      ...undone,
      what: `${recipe.id} begun ${begunOn}`,
      batches: { recipe: recipe.id, pinnedIn: null, begunOn },
    },
  ];
};
