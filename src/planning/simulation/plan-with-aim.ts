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
  /**
   * Chances that were reached when the reserves the year comes with were worked out: an item that surely missed its aim then, and so
   * had all that helps, is asked for more only where it does surely worse.
   */
  readonly reachedBefore?: ReadonlyMap<ItemId, number>;
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

/** A reserve that brings less than this share of what was asked of it cures nothing. Judged, no source. */
const leastCured = 0.25;

/** What was asked on top of an item's reserve so far, and how many units it missed when that was last asked for. */
interface Asked {
  readonly units: number;
  readonly more: number;
  readonly missedBefore: number;
  /** More was asked for and did not help: the gap lies where no reserve can stand yet, or nothing more can be made. */
  readonly isPastCure: boolean;
}

/**
 * Plans, plays the plan against sampled years, and where an item that can only be made lasts less often than aimed for by
 * more than the sampling error, works towards a higher reserve by what those years missed, and plans again near the plan found.
 *
 * A reserve cures chance alone. What is missing even when everything comes as expected (before the first supply, or where crop,
 * hours, money or jars end) is left out; and where a higher reserve did not help, it is taken back and not asked for again. What
 * the year comes with for its aim is gone on from where it is said what that reached. The round that came nearest to all aims
 * together is the answer, and says what was reached.
 */
export async function planWithAim(
  year: PlanningYear,
  plan: (year: PlanningYear, earlier: readonly PlannedWeek[] | null) => Promise<PlanningAnswer>,
  simulate: (year: PlanningYear, plan: Plan) => SimulatedPlan | Promise<SimulatedPlan>,
  aim: PlanAim = usualAim,
): Promise<AimedPlan> {
  let planned = year;
  let asked: ReadonlyMap<ItemId, Asked> = new Map(
    year.items.flatMap(({ id, reserveForAim }): [ItemId, Asked][] =>
      reserveForAim === undefined || aim.reachedBefore === undefined
        ? []
        : [[id, { units: reserveForAim, more: 0, missedBefore: 0, isPastCure: false }]],
    ),
  );
  let answer = await plan(planned, null);
  let best: { readonly aimed: AimedPlan; readonly shortfall: number } | null = null;
  for (let round = 0; ; round += 1) {
    if (answer.outcome !== 'planned')
      return best?.aimed ?? { year: planned, answer, simulated: null, roundsUsed: round };
    const simulated = await simulate(planned, answer.plan);
    asked = askedNext(planned, simulated, aim, asked);
    const corrected = withReservesAsked(planned, asked);
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
    .filter(({ item }) => isMadeOnly(year, item))
    .reduce(
      (sum, { item, lasts }) => sum + Math.max(0, (aim.chanceByItem?.get(item) ?? aim.chance) - lasts.value),
      0,
    );
}

/** What to ask of each item's reserve after a round: more where chance alone is missed, nothing where asking did not help. */
function askedNext(
  year: PlanningYear,
  simulated: SimulatedPlan,
  aim: PlanAim,
  before: ReadonlyMap<ItemId, Asked>,
): ReadonlyMap<ItemId, Asked> {
  const asked = new Map(before);
  for (const { item, lasts, missedQuantile, missedAsPlanned } of simulated.items) {
    if (!isMadeOnly(year, item)) continue;
    const chance = aim.chanceByItem?.get(item) ?? aim.chance;
    const missed = missedQuantile(chance);
    const last = before.get(item);
    if (last?.isPastCure) continue;
    if (last !== undefined && last.more > 0 && last.missedBefore - missed < leastCured * last.more) {
      asked.set(item, { units: 0, more: 0, missedBefore: missed, isPastCure: true });
      continue;
    }
    const doubt = surelyMissed * lasts.standardError;
    const reached = aim.reachedBefore?.get(item) ?? chance;
    const isMissed = lasts.value < (reached < chance - doubt ? reached : chance) - doubt;
    const more = isMissed ? Math.max(0, Math.ceil(missed - missedAsPlanned - letGo(year, item))) : 0;
    asked.set(item, { units: orNone(last?.units) + more, more, missedBefore: missed, isPastCure: false });
  }
  return asked;
}

/** What a plan does not work towards, nor is asked to: one more batch for it would mostly be left over. */
const letGo = (year: PlanningYear, id: ItemId): number =>
  orNone(year.items.find((item) => item.id === id)?.reserveNotWorthABatch);

/** The year with the reserves asked for; null where they are what it has. */
function withReservesAsked(year: PlanningYear, asked: ReadonlyMap<ItemId, Asked>): PlanningYear | null {
  const items = year.items.map((item) => {
    const units = orNone(asked.get(item.id)?.units);
    if (units === orNone(item.reserveForAim)) return item;
    const { reserveForAim: _, ...plain } = item;
    return units === 0 ? plain : { ...plain, reserveForAim: units };
  });
  return items.some((item, at) => item !== year.items[at]) ? { ...year, items } : null;
}

/** Whether an item can be made and is not bought. */
export const isMadeOnly = (year: PlanningYear, id: ItemId): boolean =>
  year.recipes.some(({ itemId }) => itemId === id) &&
  year.items.some((item) => item.id === id && item.packs.length === 0);
