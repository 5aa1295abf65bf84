import type { ItemId } from '../../../shared/ids.ts';
import { orNone } from '../lookup.ts';
import type { PlanningAnswer } from '../make-plan.ts';
import type { Plan, PlannedWeek } from '../plan.ts';
import type { PlanningYear } from '../planning-year.ts';
import type { SimulatedPlan } from './simulated-plan.ts';

export interface PlanAim {
  /** Chance of lasting that every item that can only be made should reach, 0 to 1. */
  readonly chance: number;
  /** Chances that the household named for single items. */
  readonly chanceByItem?: ReadonlyMap<ItemId, number>;
  /** Most rounds of correcting reserves and planning again. */
  readonly rounds: number;
}

export const usualAim: PlanAim = { chance: 0.9, rounds: 4 };

export interface AimedPlan {
  /** The year with the reserves it was last planned with. */
  readonly year: PlanningYear;
  readonly answer: PlanningAnswer;
  readonly simulated: SimulatedPlan | null;
  readonly roundsUsed: number;
}

/** Standard errors by which a chance has to miss its aim before it counts as missed. */
const surelyMissed = 2;

/**
 * Plans, plays the plan against sampled years, and where an item that can only be made lasts less often than aimed for by
 * more than the sampling error, raises its reserve by what those years missed and plans again near the plan found. The
 * round that came nearest to all aims together is the answer, and says what was reached.
 */
export async function planWithAim(
  year: PlanningYear,
  plan: (year: PlanningYear, earlier: readonly PlannedWeek[] | null) => Promise<PlanningAnswer>,
  simulate: (year: PlanningYear, plan: Plan) => SimulatedPlan | Promise<SimulatedPlan>,
  aim: PlanAim = usualAim,
): Promise<AimedPlan> {
  let planned = year;
  let answer = await plan(planned, null);
  let best: { readonly aimed: AimedPlan; readonly shortfall: number } | null = null;
  for (let round = 0; ; round += 1) {
    if (answer.outcome !== 'planned')
      return best?.aimed ?? { year: planned, answer, simulated: null, roundsUsed: round };
    const simulated = await simulate(planned, answer.plan);
    const corrected = withCorrectedReserves(planned, simulated, aim);
    const shortfall = shortfallOf(planned, simulated, aim);
    if (best === null || shortfall < best.shortfall)
      best = { aimed: { year: planned, answer, simulated, roundsUsed: round }, shortfall };
    if (corrected === null || round >= aim.rounds) return { ...best.aimed, roundsUsed: round };
    planned = corrected;
    answer = await plan(planned, answer.plan.weeks);
  }
}

/** By how much all chances together stay under their aims, of what can only be made. */
function shortfallOf(year: PlanningYear, { items }: SimulatedPlan, aim: PlanAim): number {
  return items
    .filter(({ item }) => year.items.some(({ id, packs }) => id === item && packs.length === 0))
    .reduce(
      (sum, { item, lasts }) => sum + Math.max(0, (aim.chanceByItem?.get(item) ?? aim.chance) - lasts.value),
      0,
    );
}

/** The year with higher reserves where an item lasts too seldom; null where none does. */
function withCorrectedReserves(
  year: PlanningYear,
  simulated: SimulatedPlan,
  aim: PlanAim,
): PlanningYear | null {
  const raised = new Map(
    simulated.items.flatMap(({ item, lasts, missedQuantile }) => {
      const chance = aim.chanceByItem?.get(item) ?? aim.chance;
      const isMissed = lasts.value < chance - surelyMissed * lasts.standardError;
      const more = Math.ceil(missedQuantile(chance));
      return isMissed && more > 0 ? [[item, more] as const] : [];
    }),
  );
  const isMadeOnly = (id: PlanningYear['items'][number]['id']) =>
    year.recipes.some(({ itemId }) => itemId === id);
  const items = year.items.map((item) => {
    const more = orNone(raised.get(item.id));
    return more > 0 && item.packs.length === 0 && isMadeOnly(item.id)
      ? { ...item, reserveUnits: item.reserveUnits + more }
      : item;
  });
  return items.some((item, at) => item !== year.items[at]) ? { ...year, items } : null;
}
