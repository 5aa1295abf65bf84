import { errorFunction } from 'simple-statistics';
import type { CropKey } from '../../../shared/ids.ts';
import type { AfterYear } from '../planning-year.ts';
import { usualSpread } from '../simulation/simulated-plan.ts';
import { gatheredLb, type MakingSeason, seasonStarts } from './supply-weeks.ts';

/** A source as far as a poor year goes. */
export interface SourceAtRisk {
  readonly crop: CropKey;
  readonly lbByWeek: readonly number[];
  readonly useByDays: number;
  readonly poorYearChance: number;
  /** Share of the usual crop in a poor year, 0 to 1. */
  readonly poorYearShare: number;
  readonly fallBack: 'buy' | 'substitute' | 'do-without';
}

/**
 * Chance that a season brings nothing new of an item, 0 to 1: for each of its ways some crop gives less than one batch, all of
 * that crop's sources being poor, and nobody buys it instead. Sources are poor apart from each other; of several ways the surest
 * counts. 0 without a way that needs a crop.
 */
export function seasonFails(
  ways: readonly Pick<MakingSeason, 'produce'>[],
  sources: readonly SourceAtRisk[],
): number {
  const chances = ways.map(({ produce }) =>
    produce.reduce((fails, { crop, lb }) => {
      const own = sources.filter((source) => source.crop === crop);
      return 1 - (1 - fails) * (1 - cropFails(own, lb));
    }, 0),
  );
  return chances.length === 0 ? 0 : Math.min(...chances);
}

function cropFails(own: readonly SourceAtRisk[], batchLb: number): number {
  if (own.length === 0 || own.some(({ fallBack }) => fallBack === 'buy')) return 0;
  const poor = own.map((source) => ({
    ...source,
    lbByWeek: source.lbByWeek.map((lb) => lb * source.poorYearShare),
  }));
  const givesABatch = poor.some(({ lbByWeek }) =>
    lbByWeek.some((_, week) => gatheredLb(poor, week) >= batchLb - 1e-9),
  );
  return givesABatch ? 0 : own.reduce((chance, { poorYearChance }) => chance * poorYearChance, 1);
}

/** A time at which the next supply may come, and how likely. */
export interface SupplyTime {
  /** Weeks after the week in which it is planned for; negative is earlier. */
  readonly weeksLater: number;
  readonly chance: number;
}

/** More whole weeks than this a season is neither early nor late: less than once in a thousand years. */
const mostWeeksLate = 2;

/**
 * When a season that is still to begin really brings something: so many weeks early or late as crops ripen, and where it fails
 * altogether with the season after, `weeksToSeasonAfter` later. Chances add up to 1.
 */
export function supplyTimes(failsChance: number, weeksToSeasonAfter: number): readonly SupplyTime[] {
  const weeks = Array.from({ length: 2 * mostWeeksLate + 1 }, (_, at) => at - mostWeeksLate);
  const within = weeks.map((weeksLater) => ({
    weeksLater,
    chance: roundedNormal(weeksLater, usualSpread.windowWeeks),
  }));
  const all = within.reduce((sum, { chance }) => sum + chance, 0);
  const onTime = within.map(({ weeksLater, chance }) => ({
    weeksLater,
    chance: (1 - failsChance) * (chance / all),
  }));
  return failsChance > 0 ? [...onTime, { weeksLater: weeksToSeasonAfter, chance: failsChance }] : onTime;
}

/** Probability that a normal number of mean 0 rounds to this whole one. */
const roundedNormal = (whole: number, deviation: number): number =>
  normalBelow((whole + 0.5) / deviation) - normalBelow((whole - 0.5) / deviation);

/** Standard normal distribution function. */
const normalBelow = (z: number): number => (1 + errorFunction(z / Math.SQRT2)) / 2;

/** Weeks a season may be late beyond the week it is planned for, looked at in use as well. */
const weeksOfDoubt = 4;

/**
 * What follows the planned year of an item that is made, as far as what stands at its end has to last; undefined where nothing
 * is known to come after it.
 *
 * `weeklyMean` and `canArrive` reach beyond the horizon, to the end of what is looked at. A season that runs on over the year's
 * end begins in week 0.
 */
export function afterYear(
  weeklyMean: readonly number[],
  canArrive: readonly boolean[],
  horizonWeeks: number,
  failsChance: number,
): AfterYear | undefined {
  const isRunning = canArrive[horizonWeeks] === true && canArrive[horizonWeeks - 1] === true;
  const first = canArrive.findIndex((arrives, week) => week >= horizonWeeks && arrives);
  if (first < 0) return undefined;
  const begins = [first, ...seasonStarts(canArrive).filter((week) => week > first)];
  const until =
    isRunning || failsChance === 0 ? first + weeksOfDoubt : Math.max(canArrive.length, first + weeksOfDoubt);
  return {
    useByWeek: weeklyMean.slice(horizonWeeks, isRunning ? first : until),
    seasonWeeks: begins.map((week) => week - horizonWeeks),
    isRunning,
    failsChance: isRunning ? 0 : failsChance,
  };
}
