import type { ItemId } from '../../../shared/ids.ts';
import { drawWeeks, predictedUse } from '../../shelf/predicted-use.ts';
import { entry, orNone } from '../lookup.ts';
import type { AskOutlook, PlanningAnswer, PlanOptions, PlanYear } from '../make-plan.ts';
import { planningParameters } from '../model/parameters.ts';
import { planningSets } from '../model/sets.ts';
import type { Plan } from '../plan.ts';
import type { PlannedRecipe, PlanningYear } from '../planning-year.ts';
import type { StoredPlan } from '../stored-plan.ts';
import type { HouseholdYear } from '../year/household-year.ts';
import { type AimedPlan, isMadeOnly, type PlanAim, planWithAim, usualAim } from './plan-with-aim.ts';
import type { Reached } from './reached.ts';
import { simulation } from './simulate-plan.ts';
import type { DrawUse, SimulatedPlan, SimulationOptions } from './simulated-plan.ts';

export interface AimSetting {
  /** Sampled years in each round. */
  readonly years: number;
  readonly rounds: number;
}

/** How a plan is aimed: with whose outlook, and `pause`d between two sampled years so that others go on. */
export interface AimOptions
  extends Pick<PlanOptions, 'signal' | 'secondsLimit'>,
    Pick<PlanAim, 'aimedBefore'> {
  /** Whether each plan begins from the one before it. */
  readonly beginsFromEarlier?: boolean;
  readonly outlookOf: AskOutlook;
  readonly pause: () => Promise<unknown>;
}

/** A thousand years give a chance of 0.9 a standard error of 0.01. */
export const usualPlay: AimSetting = { years: 1000, rounds: usualAim.rounds };

const seed = 20_260_811;

/**
 * Plays a plan made of the household's year against sampled years, and plans again with higher reserves where something
 * that can only be made lasts less often than the household wants it to. Others are served between two sampled years.
 */
export async function aimedPlan(
  loaded: HouseholdYear,
  first: PlanningAnswer,
  planYear: PlanYear,
  setting: AimSetting,
  { pause, aimedBefore, beginsFromEarlier = false, ...asked }: AimOptions,
): Promise<AimedPlan> {
  const play: SimulationOptions = { years: setting.years, seed, drawUse: usesOf(loaded) };
  return planWithAim(
    loaded.year,
    async (year, earlier) =>
      earlier === null
        ? first
        : planYear(year, {
            earlier: earlier.plan.weeks,
            ...(beginsFromEarlier ? { beginsFrom: earlier } : {}),
            ...asked,
          }),
    (year, plan) => playedBetween(year, plan, play, { pause, signal: asked.signal }),
    {
      chance: usualAim.chance,
      chanceByItem: chancesWanted(loaded),
      allMadeOf: everyBatchPlanned,
      rounds: setting.rounds,
      ...(aimedBefore === undefined ? {} : { aimedBefore }),
    },
  );
}

/** A household's year with the reserves its last plan was aimed with, and the items that have them. */
export interface AimBefore {
  readonly loaded: HouseholdYear;
  readonly aimedBefore: ReadonlySet<ItemId>;
}

/**
 * Goes on from the reserves that a plan of the same week was aimed with, so that little has to be asked anew; null where there
 * is no such plan. What was reached counts for items whose wished chance is what it was; the others are aimed anew.
 */
export function aimBefore(
  loaded: HouseholdYear,
  kept: Pick<StoredPlan, 'year' | 'outcome' | 'reached'> | null,
): AimBefore | null {
  const { year } = loaded;
  if (kept?.outcome !== 'planned' || kept.reached == null || kept.year.weeks[0] !== year.weeks[0])
    return null;
  const wanted = chancesWanted(loaded);
  const aimedBefore = new Set(
    kept.reached.items
      .filter(({ item, aim }) => (wanted.get(item) ?? usualAim.chance) === aim)
      .map(({ item }) => item),
  );
  const reserves = new Map(kept.year.items.map(({ id, reserveForAim }) => [id, reserveForAim]));
  const items = year.items.map((item) => {
    const reserveForAim = aimedBefore.has(item.id) ? reserves.get(item.id) : undefined;
    return reserveForAim === undefined ? item : { ...item, reserveForAim };
  });
  return { loaded: { ...loaded, year: { ...year, items } }, aimedBefore };
}

/** What was reached by the things that can only be made, by name. */
export function reachedBy({ year, answer, simulated }: AimedPlan, loaded: HouseholdYear): Reached | null {
  if (simulated === null) return null;
  const wanted = chancesWanted(loaded);
  const isAllMade = everyBatchPlanned(
    year,
    answer.outcome === 'planned' ? answer.plan : answer.fallback.plan,
  );
  return {
    years: simulated.years,
    items: simulated.items
      .filter(({ item }) => isMadeOnly(year, item))
      .map(({ item, lasts }) => ({
        item,
        lasts: lasts.value,
        standardError: lasts.standardError,
        aim: wanted.get(item) ?? usualAim.chance,
        isAllMade: isAllMade(item),
      })),
  };
}

/** Whether a plan holds as many batches of an item as could be made at all, in each week of each of its recipes. */
function everyBatchPlanned(year: PlanningYear, { weeks }: Plan): (item: ItemId) => boolean {
  const sets = planningSets(year);
  const { mostBatches } = planningParameters(sets);
  const planned = (recipe: PlannedRecipe, week: number) =>
    weeks
      .filter((one) => one.week === year.weeks[week])
      .flatMap(({ sessions }) => sessions)
      .filter((session) => session.recipe === recipe.id && session.begun === undefined)
      .reduce((sum, { batches }) => sum + batches, 0);
  return (item) =>
    sets.recipes.every(
      (recipe, at) =>
        recipe.itemId !== item ||
        recipe.begun !== undefined ||
        entry(mostBatches, at, 'mostBatches').every((most, week) => planned(recipe, week) >= most),
    );
}

const chancesWanted = ({ facts }: HouseholdYear): ReadonlyMap<ItemId, number> =>
  new Map(facts.items.map(({ id, chanceWanted }) => [id, chanceWanted]));

/** Predicted use of the planned weeks and of those after them; where a target was set by hand, use varies around what it says. */
function usesOf({ facts, useByItem, year }: HouseholdYear): ReadonlyMap<ItemId, DrawUse> {
  const weeksAfter = new Map(
    year.items.map(({ id, afterYear }) => [id, orNone(afterYear?.useByWeek.length)]),
  );
  return new Map(
    facts.items.flatMap((item): [ItemId, DrawUse][] => {
      const forecast = useByItem.get(item.id)?.forecast;
      if (!forecast || facts.handTargets.has(item.id)) return [];
      const weeks = year.weeks.length + orNone(weeksAfter.get(item.id));
      const use = predictedUse({ ...forecast, weeks: forecast.weeks.slice(0, weeks) });
      return [[item.id, (random) => drawWeeks(use, random)]];
    }),
  );
}

async function playedBetween(
  year: PlanningYear,
  plan: Plan,
  options: SimulationOptions,
  { pause, signal }: { readonly pause: AimOptions['pause']; readonly signal: AbortSignal | undefined },
): Promise<SimulatedPlan> {
  const playing = simulation(year, plan, options);
  for (;;) {
    signal?.throwIfAborted();
    const step = playing.next();
    if (step.done === true) return step.value;
    await pause();
  }
}
