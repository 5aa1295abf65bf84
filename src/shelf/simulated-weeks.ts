import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { weeksInBlock } from '../consumption/belief/rate-belief.ts';
import type { Random } from './draws.ts';
import { crumb, takeInOrder } from './first-expired.ts';
import type { PlayedWeeks } from './played-weeks.ts';
import type { CourseOfUse, PredictedUse, Spread } from './shelf-projection.ts';
import type { LotInWeeks, ShelfInWeeks } from './shelf-weeks.ts';

export interface Simulation {
  /** Possible years to play, 100 or more. */
  readonly paths: number;
  /** Same seed, same answer. The drawn use depends on nothing else, so that two shelves can be compared. */
  readonly seed: number;
}

/** Standard error of a probability of one half estimated from this many independent paths: the largest there is. */
export const standardErrorOf = (paths: number): number => Math.sqrt(0.25 / paths);

/**
 * The shelf played through many possible years, https://en.wikipedia.org/wiki/Monte_Carlo_method.
 *
 * Each week in this order: what reached the household's own ceiling is thrown away; what comes is put on the shelf; what
 * is wanted is taken first-expired-first-out from what is ready; what is wanted and not there is lost, not owed.
 * Quantiles are those of the sample (inverse of its distribution function, type 1).
 */
export function simulatedWeeks(shelf: ShelfInWeeks, use: PredictedUse, simulation: Simulation): PlayedWeeks {
  const { paths, wantedByWeek, readyIn, lots, remaining } = beginToPlay(shelf, use, simulation);
  const stock = new Float64Array(paths).fill(shelf.openingUnits);
  const wasShort = new Uint8Array(paths);
  // What stands at the end of one week in each path; the same for every week, as nothing of it is needed once its spread is known.
  const column = new Float64Array(paths);
  const spreadOf = spreads(paths);
  let pathsShort = 0;

  const played = shelf.weeks.map((_, week) => {
    const comes = shelf.comesByWeek[week] ?? 0;
    const wanted = wantedByWeek[week] ?? [];
    const leaving = placesOf(shelf.lots, (lot) => lot.leavesIn === week);
    let [taken, unmet, discarded] = [0, 0, 0];
    for (let path = 0; path < paths; path += 1) {
      const first = path * lots;
      const thrown = leaving.length === 0 ? 0 : throwAway(remaining, first, leaving);
      const asked = wanted[path] ?? 0;
      const missing = takeInOrder(remaining, asked, readyIn, week, first);
      const stands = withoutCrumb((stock[path] ?? 0) + comes - thrown - (asked - missing));
      if (missing > 0 && wasShort[path] === 0) {
        wasShort[path] = 1;
        pathsShort += 1;
      }
      taken += asked - missing;
      unmet += missing;
      discarded += thrown;
      stock[path] = stands;
      column[path] = stands;
    }
    const closing = spreadOf(column);
    const old = placesOf(shelf.lots, (lot) => lot.pastBestFrom <= week && lot.comesIn <= week);
    if (old.length > 0)
      for (let path = 0; path < paths; path += 1) column[path] = unitsAt(remaining, path * lots, old);
    return {
      closing,
      pastBest: old.length > 0 ? spreadOf(column) : none,
      taken: taken / paths,
      unmet: unmet / paths,
      discarded: discarded / paths,
      shortBy: pathsShort / paths,
    };
  });
  return {
    closing: played.map((week) => week.closing),
    pastBest: played.map((week) => week.pastBest),
    taken: played.map((week) => week.taken),
    unmet: played.map((week) => week.unmet),
    discarded: played.map((week) => week.discarded),
    shortBy: played.map((week) => week.shortBy),
  };
}

/**
 * By week of the same years: the share of them in which something that was wanted was missing in it or before; what `simulatedWeeks`
 * answers as `shortBy`, for whoever asks nothing else. A year is left as soon as something was missing in it.
 */
export function simulatedShortBy(
  shelf: ShelfInWeeks,
  use: PredictedUse,
  simulation: Simulation,
): readonly number[] {
  const { paths, wantedByWeek, readyIn, lots, remaining } = beginToPlay(shelf, use, simulation);
  const going = Uint32Array.from({ length: paths }, (_, path) => path);
  let left = paths;
  return shelf.weeks.map((_, week) => {
    const wanted = wantedByWeek[week] ?? [];
    const leaving = placesOf(shelf.lots, (lot) => lot.leavesIn === week);
    let stay = 0;
    for (let at = 0; at < left; at += 1) {
      const path = going[at] as number;
      const first = path * lots;
      if (leaving.length > 0) throwAway(remaining, first, leaving);
      if (takeInOrder(remaining, wanted[path] ?? 0, readyIn, week, first) > 0) continue;
      going[stay] = path;
      stay += 1;
    }
    left = stay;
    return (paths - left) / paths;
  });
}

function beginToPlay(shelf: ShelfInWeeks, use: PredictedUse, simulation: Simulation) {
  const { paths } = simulation;
  if (!Number.isInteger(paths) || paths < 100) {
    throw new RangeError(`projectShelf: expected 100 or more paths, got ${paths}`);
  }
  const weeks = shelf.weeks.length;
  const wantedByWeek = coursesOf(use, simulation, weeks);
  const units = Float64Array.from(shelf.lots, (lot) => lot.units);
  const readyIn = Int32Array.from(shelf.lots, (lot) => Math.min(lot.readyIn, weeks));
  // One shelf after the other, so many places each.
  const lots = shelf.lots.length;
  const remaining = new Float64Array(paths * lots);
  for (let path = 0; path < paths; path += 1) remaining.set(units, path * lots);
  return { paths, wantedByWeek, readyIn, lots, remaining };
}

const none: Spread = { expected: 0, p10: 0, p50: 0, p90: 0 };

const placesOf = (lots: readonly LotInWeeks[], isMeant: (lot: LotInWeeks) => boolean): readonly number[] =>
  lots.flatMap((lot, place) => (isMeant(lot) ? [place] : []));

function unitsAt(remaining: Float64Array, first: number, places: readonly number[]): number {
  let units = 0;
  for (const place of places) units += remaining[first + place] ?? 0;
  return units;
}

/** What stood in these places of a shelf, which are left empty. */
function throwAway(remaining: Float64Array, first: number, places: readonly number[]): number {
  const thrown = unitsAt(remaining, first, places);
  for (const place of places) remaining[first + place] = 0;
  return thrown;
}

interface DrawnCourses {
  readonly simulation: Simulation;
  readonly random: Random;
  readonly goOn: readonly CourseOfUse[];
  /** By week drawn so far, what each path wants in it. */
  readonly wantedByWeek: Float64Array[];
}

/** Courses are drawn by the year: hardly an item is looked at beyond the first. */
const weeksInStretch = 13 * weeksInBlock;

// A shelf is played as it stands, under a plan and until a season that may fail: each time for the very same courses of use,
// which take longer to draw than to play. They go when the use they were drawn from goes.
const drawnCourses = new WeakMap<PredictedUse, DrawnCourses>();

/**
 * The possible courses of a use, one for each path, so many weeks or more of them; drawn once for a simulation. All paths are drawn
 * through one stretch before the next, so that the first year of a course is the same however far it is followed.
 */
function coursesOf(use: PredictedUse, simulation: Simulation, weeks: number): readonly Float64Array[] {
  const remembered = drawnCourses.get(use);
  const drawn =
    remembered?.simulation.paths === simulation.paths && remembered.simulation.seed === simulation.seed
      ? remembered
      : coursesBegun(use, simulation);
  drawnCourses.set(use, drawn);
  while (drawn.wantedByWeek.length < weeks) {
    const wanted = new Float64Array(weeksInStretch);
    const stretch = Array.from(wanted, () => new Float64Array(simulation.paths));
    drawn.goOn.forEach((goOn, path) => {
      goOn(wanted, drawn.random);
      for (let week = 0; week < weeksInStretch; week += 1)
        (stretch[week] as Float64Array)[path] = wanted[week] ?? 0;
    });
    drawn.wantedByWeek.push(...stretch);
  }
  return drawn.wantedByWeek;
}

function coursesBegun(use: PredictedUse, simulation: Simulation): DrawnCourses {
  const generator = xoroshiro128plus(simulation.seed);
  const random = (): number => uniformFloat64(generator);
  const goOn = Array.from({ length: simulation.paths }, () => use.beginCourse(random));
  return { simulation, random, goOn, wantedByWeek: [] };
}

/** The spreads of samples of so many amounts each; a sample may be put in order by it. */
function spreads(size: number): (sample: Float64Array) => Spread {
  // Most shelves hold whole units: counting how often each amount occurs is several times quicker than putting them in order.
  const times = new Uint32Array(size);
  const ranks = [0.1, 0.5, 0.9].map((level) => Math.ceil(level * size));
  return (sample) => {
    times.fill(0);
    let total = 0;
    let counted = 0;
    for (let path = 0; path < size; path += 1) {
      const units = sample[path] as number;
      total += units;
      const whole = units | 0;
      if (whole === units && whole < size) {
        times[whole] = (times[whole] as number) + 1;
        counted += 1;
      }
    }
    if (total === 0) return none;
    const [p10 = 0, p50 = 0, p90 = 0] =
      counted === size ? rankedCounts(times, ranks) : ranked(sample.sort(), ranks);
    return { expected: total / size, p10, p50, p90 };
  };
}

const ranked = (inOrder: Float64Array, ranks: readonly number[]): readonly number[] =>
  ranks.map((rank) => inOrder[rank - 1] ?? 0);

/** The amounts of these ranks (from 1, rising) where `times` says how often each whole amount occurs. */
function rankedCounts(times: Uint32Array, ranks: readonly number[]): readonly number[] {
  let units = 0;
  let passed = times[0] ?? 0;
  return ranks.map((rank) => {
    while (passed < rank) {
      units += 1;
      passed += times[units] ?? 0;
    }
    return units;
  });
}

const withoutCrumb = (units: number): number => (units < crumb ? 0 : units);
