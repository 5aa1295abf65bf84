import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { drawCount, drawGamma, drawNormal, type Random } from '../../shelf/draws.ts';
import { playShelf, type ShelfCohort } from '../answer/play-shelf.ts';
import { entry, orNone } from '../lookup.ts';
import { afterFilling, type ItemAboveEmergency } from '../model/emergency-shelf.ts';
import { planningParameters } from '../model/parameters.ts';
import { planningSets } from '../model/sets.ts';
import type { Plan } from '../plan.ts';
import type { PlannedItem, PlannedRecipe, PlanningYear } from '../planning-year.ts';
import { stageWeeks } from '../year/stage-weeks.ts';
import { drawHarvest, type HarvestYear } from './harvest-year.ts';
import {
  type DrawUse,
  type Estimate,
  type SimulatedItem,
  type SimulatedPlan,
  type SimulationOptions,
  usualSpread,
  type YearSpread,
} from './simulated-plan.ts';

/**
 * Plays a plan against sampled years (Monte Carlo): use, harvests, ripening weeks and yields vary; the plan is carried out
 * as far as the crops allow and is not changed along the way. Same seed, same answer.
 *
 * What is put up has to last beyond the planned year, to the season after it that really brings something: that season is early
 * or late too, and where it fails altogether the one after it is waited for. What is bought can be had any week, so it is played
 * to the year's end.
 *
 * Yields vary evenly between the low and the high published figure. Groups are not played: nobody in a sampled year eats
 * plum because the peach ran out, so an item's own chance is a cautious one.
 */
export function simulatePlan(year: PlanningYear, plan: Plan, options: SimulationOptions): SimulatedPlan {
  const playing = simulation(year, plan, options);
  for (;;) {
    const step = playing.next();
    if (step.done === true) return step.value;
  }
}

/** The same a sampled year at a time, so that others are served in between; yields the years played so far. */
export function* simulation(
  year: PlanningYear,
  plan: Plan,
  options: SimulationOptions,
): Generator<number, SimulatedPlan, void> {
  const { years, seed, spread = usualSpread } = options;
  if (!Number.isInteger(years) || years < 1)
    throw new RangeError(`simulatePlan: expected 1 or more sampled years, got ${years}`);
  const generator = xoroshiro128plus(seed);
  const random: Random = () => uniformFloat64(generator);
  const sets = planningSets(year);
  const { firstSupplyWeek } = planningParameters(sets);
  const draws = sets.items.map((item) => options.drawUse?.get(item.id) ?? aroundExpected(item, spread.use));
  const missed = sets.items.map(() => new Float64Array(years));
  const older = sets.items.map(() => new Float64Array(years));
  const spend = new Float64Array(years);
  const lostBatches = new Float64Array(years);
  const plannedSpend = plan.weeks.reduce((sum, week) => sum + week.spend, 0);

  for (let sample = 0; sample < years; sample += 1) {
    const harvest = drawHarvest(sets.year, plan, spread, random);
    const made = madeInYear(sets.year, plan, harvest, random);
    spend[sample] = plannedSpend + harvest.extraCents;
    lostBatches[sample] = made.lost > 0 ? 1 : 0;
    sets.items.forEach((item, at) => {
      const until = sets.weekCount + weeksToSupply(item, spread, random);
      const wanted = Array.from((draws[at] ?? aroundExpected(item, spread.use))(random));
      const cohorts = [...standing(sets.year, item), ...toEat(item, made.cohorts.get(item.id) ?? [])];
      const shelf = playShelf(wanted, cohorts);
      // A crop that is late brings nothing in the weeks it was planned for, and nobody puts that up.
      const from = entry(firstSupplyWeek, at, 'firstSupplyWeek') + orNone(made.weeksLate.get(item.id));
      (missed[at] as Float64Array)[sample] = shelf.missedByWeek
        .slice(from, until)
        .reduce((sum, units) => sum + units, 0);
      (older[at] as Float64Array)[sample] = entry(shelf.olderByWeek, sets.weekCount - 1, 'olderByWeek');
    });
    yield sample + 1;
  }

  const asPlanned = madeAsPlanned(sets.year, plan);
  return {
    years,
    seed,
    items: sets.items.map((item, at): SimulatedItem => {
      const misses = missed[at] ?? new Float64Array(years);
      const sorted = Float64Array.from(misses).sort();
      return {
        item: item.id,
        lasts: estimate(misses.map((units) => (units < 0.5 ? 1 : 0))),
        missedUnits: estimate(misses),
        olderAtEnd: estimate(older[at] ?? new Float64Array(years)),
        missedQuantile: (share) =>
          entry(sorted, Math.min(years - 1, Math.max(0, Math.ceil(share * years) - 1)), 'sorted'),
        missedAsPlanned: playShelf(expectedUse(item), [
          ...standing(sets.year, item),
          ...toEat(item, asPlanned.get(item.id) ?? []),
        ])
          .missedByWeek.slice(
            entry(firstSupplyWeek, at, 'firstSupplyWeek'),
            sets.weekCount + orNone(item.afterYear?.seasonWeeks[0]),
          )
          .reduce((sum, units) => sum + units, 0),
      };
    }),
    spend: estimate(spend),
    batchesLost: estimate(lostBatches),
  };
}

/** Weeks after the year's end until something new of an item comes in a sampled year: 0 where it can be had any week. */
function weeksToSupply({ afterYear }: PlannedItem, spread: YearSpread, random: Random): number {
  if (afterYear === undefined) return 0;
  const { seasonWeeks, isRunning, failsChance } = afterYear;
  const [first = 0] = seasonWeeks;
  if (isRunning) return first;
  for (const week of seasonWeeks) {
    const late = Math.round(drawNormal(random) * spread.windowWeeks);
    if (random() >= failsChance) return Math.max(0, week + late);
  }
  return Number.POSITIVE_INFINITY;
}

/** Expected use of the year and of what is looked at after it. */
const expectedUse = ({ useByWeek, afterYear }: PlannedItem): readonly number[] =>
  afterYear === undefined ? useByWeek : [...useByWeek, ...afterYear.useByWeek];

/** Mean of a sample and its standard error. */
function estimate(sample: Float64Array): Estimate {
  const mean = sample.reduce((sum, amount) => sum + amount, 0) / sample.length;
  const variance =
    sample.reduce((sum, amount) => sum + (amount - mean) ** 2, 0) / Math.max(1, sample.length - 1);
  return { value: mean, standardError: Math.sqrt(variance / sample.length) };
}

/** Poisson counts around expected use in a year of gamma-distributed appetite: together negative binomial. */
function aroundExpected(item: PlannedItem, spread: number): DrawUse {
  const useByWeek = expectedUse(item);
  const shape = spread > 0 ? 1 / (spread * spread) : Number.POSITIVE_INFINITY;
  return (random) => {
    const appetite = Number.isFinite(shape) ? drawGamma(shape, random) / shape : 1;
    return useByWeek.map((mean) => drawCount(mean * appetite, 1, random));
  };
}

/** Of what a plan brings, what is there to be eaten: the first to come fills an emergency shelf that lacks some. */
const toEat = ({ emergency }: ItemAboveEmergency, cohorts: readonly ShelfCohort[]): readonly ShelfCohort[] =>
  emergency === undefined
    ? cohorts
    : afterFilling(
        cohorts.toSorted((one, other) => one.readyWeek - other.readyWeek),
        emergency.missing,
      );

function standing({ weeks }: PlanningYear, { openingLots }: PlannedItem): ShelfCohort[] {
  const position = (key: (typeof weeks)[number]) => {
    const at = weeks.indexOf(key);
    return at >= 0 ? at : weeks[0] !== undefined && key < weeks[0] ? -1 : weeks.length;
  };
  return openingLots.map(({ units, readyFrom, bestQualityUntil }) => ({
    units,
    readyWeek: position(readyFrom),
    olderFromWeek: position(bestQualityUntil),
  }));
}

/** What the plan brings to the shelf when its crops do as drawn: batches as far as the produce reaches, and purchases. */
function madeInYear(
  year: PlanningYear,
  plan: Plan,
  harvest: HarvestYear,
  random: Random,
): {
  readonly cohorts: ReadonlyMap<string, ShelfCohort[]>;
  /** By item: whole weeks by which its first batch comes later than planned, 0 or more. */
  readonly weeksLate: ReadonlyMap<string, number>;
  readonly lost: number;
} {
  const cohorts = new Map<string, ShelfCohort[]>();
  const add = (itemId: string, cohort: ShelfCohort) => {
    cohorts.set(itemId, [...(cohorts.get(itemId) ?? []), cohort]);
  };
  const bestQualityWeeks = new Map(year.items.map((item) => [item.id as string, item.bestQualityWeeks]));
  const weeksLate = new Map<string, number>();
  let lost = 0;
  plan.weeks.forEach(({ sessions, purchases }, week) => {
    for (const session of sessions) {
      const recipe = recipeOf(year, session.recipe, session.jars[0]?.kind ?? null);
      if (recipe === undefined) continue;
      // What is begun has its produce already; the rest takes it in the week in which it will be.
      const crops = session.begun === undefined ? recipe.produce.map(({ crop }) => crop) : [];
      const begunIn = week - stageWeeks(recipe);
      const share = Math.min(1, ...crops.map((crop) => harvest.shareOf(crop, begunIn)));
      const batches = session.batches * share;
      lost += Math.ceil(session.batches - batches - 1e-6);
      const later = Math.max(0, ...crops.map((crop) => harvest.weeksLater(crop)));
      const earlier = Math.min(0, ...crops.map((crop) => harvest.weeksLater(crop)));
      const madeIn = Math.max(0, week + later + earlier);
      if (!weeksLate.has(recipe.itemId)) weeksLate.set(recipe.itemId, Math.max(0, madeIn - week));
      const most = Math.max(recipe.yieldLowUnits, highUnits(year, recipe));
      const units = batches * (recipe.yieldLowUnits + random() * (most - recipe.yieldLowUnits));
      add(recipe.itemId, {
        units,
        readyWeek: madeIn + recipe.readyAfterWeeks,
        olderFromWeek: madeIn + (bestQualityWeeks.get(recipe.itemId) ?? year.weeks.length),
      });
    }
    for (const line of purchases)
      if (line.kind === 'item')
        add(line.what, {
          units: line.quantity,
          readyWeek: week,
          olderFromWeek: week + (bestQualityWeeks.get(line.what) ?? year.weeks.length),
        });
  });
  return { cohorts, weeksLate, lost };
}

/** What the plan brings when every crop comes in full and in its week, and yields are the low ones planned from. */
const madeAsPlanned = (year: PlanningYear, plan: Plan): ReadonlyMap<string, ShelfCohort[]> =>
  madeInYear(year, plan, { extraCents: 0, shareOf: () => 1, weeksLater: () => 0 }, () => 0).cohorts;

/** High yield in units where a jar of the recipe is a unit of the item; elsewhere only the low yield is known in units. */
function highUnits(year: PlanningYear, recipe: PlannedRecipe): number {
  const item = year.items.find(({ id }) => id === recipe.itemId);
  return recipe.jarKind !== null && item?.jarKind === recipe.jarKind
    ? recipe.yieldHighJars
    : recipe.yieldLowUnits;
}

function recipeOf(year: PlanningYear, id: string, jarKind: string | null): PlannedRecipe | undefined {
  return year.recipes.find((recipe) => recipe.id === id && recipe.jarKind === jarKind);
}
