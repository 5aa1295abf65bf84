import { asCents } from '../../shared/money.ts';
import type { Plan, PlannedPurchase, PlannedSession, PlannedWeek } from '../../src/planning/plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';

/** Batches and lines of a plan by the place of their week; everything else of it is nothing. */
export interface InWeek {
  readonly sessions?: readonly (Pick<PlannedSession, 'batches'> &
    Partial<Omit<PlannedSession, 'recipe'>> & { readonly recipe: string })[];
  readonly purchases?: readonly (Pick<PlannedPurchase, 'kind' | 'what' | 'quantity'> &
    Partial<PlannedPurchase>)[];
  readonly spend?: number;
}

/** A plan of a year in which only what is told happens. */
export const planOf = (year: PlanningYear, byWeek: Readonly<Record<number, InWeek>> = {}): Plan => ({
  asOf: year.asOf,
  horizonWeeks: year.weeks.length,
  objective: { total: 0 },
  bound: 0,
  gap: 0,
  solveSeconds: 0,
  packRounding: { cost: asCents(0), gap: 0 },
  rungs: [],
  weeks: year.weeks.map((week, at) => weekOf(week, byWeek[at] ?? {}, year)),
  items: [],
  gaveWay: [],
});

function weekOf(
  week: PlannedWeek['week'],
  { sessions = [], purchases = [], spend = 0 }: InWeek,
  year: PlanningYear,
): PlannedWeek {
  return {
    week,
    sessions: sessions.map(({ recipe, batches, ...session }): PlannedSession => {
      const made = year.recipes.find(({ id }) => id === recipe);
      const kind = made?.jarKind ?? null;
      return {
        recipe: recipe as PlannedSession['recipe'],
        batches,
        jars: kind === null ? [] : [{ kind, count: batches * (made?.yieldHighJars ?? 0) }],
        units: batches * (made?.yieldLowUnits ?? 0),
        handsOnMinutes: batches * (made?.handsOnMinutes ?? 0),
        canner: null,
        loads: 0,
        ...session,
      };
    }),
    purchases: purchases.map((line) => ({ unit: 'lb', packs: null, cost: asCents(0), ...line })),
    materials: [],
    kitchenSessions: sessions.length > 0 ? 1 : 0,
    kitchenMinutes: 0,
    spend: asCents(spend),
    fundAfter: asCents(0),
  };
}
