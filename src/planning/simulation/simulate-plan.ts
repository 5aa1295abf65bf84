import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { drawCount, drawGamma, type Random } from '../../shelf/draws.ts';
import { type ShelfCohort, standShelf } from '../answer/play-shelf.ts';
import { weekPosition } from '../answer/week-position.ts';
import { entry, orNone } from '../lookup.ts';
import { afterFilling, type ItemAboveEmergency } from '../model/emergency-shelf.ts';
import { planningParameters } from '../model/parameters.ts';
import { planningSets } from '../model/sets.ts';
import type { Plan } from '../plan.ts';
import type { PlannedItem, PlanningYear } from '../planning-year.ts';
import { harvestsOf } from './harvest-year.ts';
import { type MadeInYear, madeAsPlanned, madeInYear } from './made-in-year.ts';
import {
  type DrawUse,
  type Estimate,
  type SimulatedItem,
  type SimulatedPlan,
  type SimulationOptions,
  usualSpread,
} from './simulated-plan.ts';
import { weeksToSupply } from './weeks-to-supply.ts';

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
  const playing = sets.items.map((item, at) => ({
    item,
    firstSupply: entry(firstSupplyWeek, at, 'firstSupplyWeek'),
    draw: options.drawUse?.get(item.id) ?? aroundExpected(item, spread.use),
    stands: standing(sets.year, item),
    missed: new Float64Array(years),
    older: new Float64Array(years),
  }));
  const spend = new Float64Array(years);
  const lostBatches = new Float64Array(years);
  const plannedSpend = plan.weeks.reduce((sum, week) => sum + week.spend, 0);

  const drawHarvest = harvestsOf(sets.year, plan, spread);
  for (let sample = 0; sample < years; sample += 1) {
    const harvest = drawHarvest(random);
    const made = madeInYear(sets.year, plan, harvest, random);
    spend[sample] = plannedSpend + harvest.extraCents;
    lostBatches[sample] = made.lost > 0 ? 1 : 0;
    for (const { item, firstSupply, draw, stands, missed, older } of playing) {
      const until = sets.weekCount + weeksToSupply(item, spread, random);
      // A crop that is late brings nothing in the weeks it was planned for, and nobody puts that up.
      const from = firstSupply + orNone(made.weeksLate.get(item.id));
      const cohorts = [...stands, ...toEat(item, made)];
      const played = playedFor(draw(random), cohorts, { from, until, lastWeek: sets.weekCount - 1 });
      missed[sample] = played.missed;
      older[sample] = played.older;
    }
    yield sample + 1;
  }

  const asPlanned = madeAsPlanned(sets.year, plan);
  return {
    years,
    seed,
    items: playing.map(({ item, firstSupply, stands, missed, older }): SimulatedItem => {
      const sorted = Float64Array.from(missed).sort();
      const cohorts = [...stands, ...toEat(item, asPlanned)];
      const until = sets.weekCount + orNone(item.afterYear?.seasonWeeks[0]);
      const lastWeek = sets.weekCount - 1;
      return {
        item: item.id,
        lasts: estimate(missed.map((units) => (units < 0.5 ? 1 : 0))),
        missedUnits: estimate(missed),
        olderAtEnd: estimate(older),
        missedQuantile: (share) => entry(sorted, Math.max(0, Math.ceil(share * years) - 1), 'sorted'),
        missedAsPlanned: playedFor(expectedUse(item), cohorts, { from: firstSupply, until, lastWeek }).missed,
      };
    }),
    spend: estimate(spend),
    batchesLost: estimate(lostBatches),
  };
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
  return (random) => {
    const appetite = spread > 0 ? drawGamma(1 / spread ** 2, random) * spread ** 2 : 1;
    return useByWeek.map((mean) => drawCount(mean * appetite, 1, random));
  };
}

interface PlayedWeeks {
  /** What is missed counts from this week on, and no more from that one on; there may be none. */
  readonly from: number;
  readonly until: number;
  /** The planned year's last. */
  readonly lastWeek: number;
}

/** Plays an item's shelf: what is missed in the weeks that count, and what is past its best at the year's end. */
function playedFor(
  wanted: ArrayLike<number>,
  cohorts: readonly ShelfCohort[],
  { from, until, lastWeek }: PlayedWeeks,
): { readonly missed: number; readonly older: number } {
  const shelf = standShelf(cohorts);
  const end = Math.max(lastWeek + 1, Math.min(until, wanted.length));
  let missed = 0;
  let older = 0;
  for (let week = 0; week < end; week += 1) {
    const missedInWeek = shelf.take(week, entry(wanted, week, 'wanted'));
    if (week >= from && week < until) missed += missedInWeek;
    if (week === lastWeek) older = shelf.olderIn(week);
  }
  return { missed, older };
}

/** Of what a plan brings of an item, what is there to be eaten: the first to come fills an emergency shelf that lacks some. */
function toEat(
  { id, emergency }: ItemAboveEmergency,
  { cohorts }: Pick<MadeInYear, 'cohorts'>,
): readonly ShelfCohort[] {
  const coming = (cohorts.get(id) ?? []).toSorted((one, other) => one.readyWeek - other.readyWeek);
  return afterFilling(coming, orNone(emergency?.missing));
}

const standing = ({ weeks }: PlanningYear, { openingLots }: PlannedItem): ShelfCohort[] =>
  openingLots.map(({ units, readyFrom, bestQualityUntil }) => ({
    units,
    readyWeek: weekPosition(weeks, readyFrom),
    olderFromWeek: weekPosition(weeks, bestQualityUntil),
  }));
