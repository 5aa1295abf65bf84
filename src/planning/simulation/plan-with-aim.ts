import type { ItemId } from '../../../shared/ids.ts';
import { entry, orNone } from '../lookup.ts';
import type { PlanBefore, PlanningAnswer } from '../make-plan.ts';
import type { Plan } from '../plan.ts';
import type { PlanningYear } from '../planning-year.ts';
import type { SimulatedPlan } from './simulated-plan.ts';

export interface PlanAim {
  /** Chance of lasting that every item that can only be made should reach, 0 to 1. */
  readonly chance: number;
  /** Chances that the household named for single items. */
  readonly chanceByItem?: ReadonlyMap<ItemId, number>;
  /** Items for which the year comes with the reserve of an aim before: it stands as it is. */
  readonly aimedBefore?: ReadonlySet<ItemId>;
  /** Whether a plan of a year holds all that could be made of an item, so that no reserve brings more; of none, when left out. */
  readonly allMadeOf?: (year: PlanningYear, plan: Plan) => (item: ItemId) => boolean;
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
 * hours, money or jars end) is left out, and so is what is made as often as it can be; where a higher reserve did not help, it is taken
 * back and not asked for again. What the year comes with from an aim before stands where that is said. Reserves that were planned with
 * are not planned with again. The round that came nearest to all aims together is the answer, and says what was reached.
 */
export async function planWithAim(
  year: PlanningYear,
  plan: (year: PlanningYear, earlier: PlanBefore | null) => Promise<PlanningAnswer>,
  simulate: (year: PlanningYear, plan: Plan) => SimulatedPlan | Promise<SimulatedPlan>,
  aim: PlanAim = usualAim,
): Promise<AimedPlan> {
  let planned = year;
  let asked: ReadonlyMap<ItemId, Asked> = new Map(
    year.items.flatMap(({ id, reserveForAim }): [ItemId, Asked][] =>
      aim.aimedBefore?.has(id) === true
        ? [[id, { units: orNone(reserveForAim), more: 0, missedBefore: 0, isPastCure: false }]]
        : [],
    ),
  );
  let answer = await plan(planned, null);
  let best: { readonly aimed: AimedPlan; readonly shortfall: number } | null = null;
  const tried: PlanningYear[] = [];
  for (let round = 0; ; round += 1) {
    if (answer.outcome !== 'planned')
      return best?.aimed ?? { year: planned, answer, simulated: null, roundsUsed: round };
    tried.push(planned);
    const simulated = await simulate(planned, answer.plan);
    asked = askedNext(
      planned,
      simulated,
      { ...aim, isAllMade: aim.allMadeOf?.(planned, answer.plan) },
      asked,
    );
    const corrected = withReservesAsked(planned, asked);
    const shortfall = shortfallOf(planned, simulated, aim);
    if (best === null || shortfall < best.shortfall)
      best = { aimed: { year: planned, answer, simulated, roundsUsed: round }, shortfall };
    if (round >= aim.rounds || tried.some((one) => haveSameReserves(one, corrected)))
      return { ...best.aimed, roundsUsed: round };
    const earlier = { year: planned, plan: answer.plan };
    planned = corrected;
    answer = await plan(planned, earlier);
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
  aim: PlanAim & { readonly isAllMade: ((item: ItemId) => boolean) | undefined },
  before: ReadonlyMap<ItemId, Asked>,
): ReadonlyMap<ItemId, Asked> {
  const asked = new Map(before);
  for (const { item, lasts, missedQuantile, missedAsPlanned } of simulated.items) {
    if (!isMadeOnly(year, item) || aim.aimedBefore?.has(item) === true) continue;
    const chance = aim.chanceByItem?.get(item) ?? aim.chance;
    const missed = missedQuantile(chance);
    const last = before.get(item);
    if (last?.isPastCure) continue;
    if (last !== undefined && last.more > 0 && last.missedBefore - missed < leastCured * last.more) {
      asked.set(item, { units: 0, more: 0, missedBefore: missed, isPastCure: true });
      continue;
    }
    const doubt = surelyMissed * lasts.standardError;
    const isMissed = lasts.value < chance - doubt;
    const isCurable = isMissed && aim.isAllMade?.(item) !== true;
    const more = isCurable ? Math.max(0, Math.ceil(missed - missedAsPlanned - letGo(year, item))) : 0;
    asked.set(item, { units: orNone(last?.units) + more, more, missedBefore: missed, isPastCure: false });
  }
  return asked;
}

/** What a plan does not work towards, nor is asked to: one more batch for it would mostly be left over. */
const letGo = (year: PlanningYear, id: ItemId): number =>
  orNone(year.items.find((item) => item.id === id)?.reserveNotWorthABatch);

/** The year with the reserves asked for. */
function withReservesAsked(year: PlanningYear, asked: ReadonlyMap<ItemId, Asked>): PlanningYear {
  const items = year.items.map((item) => {
    const units = orNone(asked.get(item.id)?.units);
    const { reserveForAim: _, ...plain } = item;
    return units === 0 ? plain : { ...plain, reserveForAim: units };
  });
  return { ...year, items };
}

const haveSameReserves = (one: PlanningYear, other: PlanningYear): boolean =>
  one.items.every(
    ({ reserveForAim }, at) =>
      orNone(reserveForAim) === orNone(entry(other.items, at, 'items').reserveForAim),
  );

/** Whether an item can be made and is not bought. */
export const isMadeOnly = (year: PlanningYear, id: ItemId): boolean =>
  year.recipes.some(({ itemId }) => itemId === id) &&
  year.items.some((item) => item.id === id && item.packs.length === 0);
