import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
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
  const { paths } = simulation;
  if (!Number.isInteger(paths) || paths < 100) {
    throw new RangeError(`projectShelf: expected 100 or more paths, got ${paths}`);
  }
  const weeks = shelf.weeks.length;
  const courses = coursesOf(use, simulation, weeks);
  const blank = (): Float64Array[] => shelf.weeks.map(() => new Float64Array(paths));
  const closing = blank();
  const pastBest = blank();
  const taken = new Float64Array(weeks);
  const unmet = new Float64Array(weeks);
  const discarded = new Float64Array(weeks);
  const firstShort = new Float64Array(weeks);
  const units = Float64Array.from(shelf.lots, (lot) => lot.units);
  const remaining = new Float64Array(shelf.lots.length);
  const readyIn = Int32Array.from(shelf.lots, (lot) => Math.min(lot.readyIn, weeks));
  const throwsAway = shelf.weeks.map((_, place) => shelf.lots.some((lot) => lot.leavesIn === place));

  for (let path = 0; path < paths; path += 1) {
    const wanted = courses[path] ?? [];
    remaining.set(units);
    let stock = shelf.openingUnits;
    let short = false;
    for (let week = 0; week < weeks; week += 1) {
      const thrown = throwsAway[week] ? throwAway(shelf, remaining, week) : 0;
      const asked = wanted[week] ?? 0;
      const missing = takeInOrder(remaining, asked, readyIn, week);
      stock = withoutCrumb(stock + (shelf.comesByWeek[week] ?? 0) - thrown - (asked - missing));
      if (missing > 0 && !short) {
        short = true;
        firstShort[week] = (firstShort[week] ?? 0) + 1;
      }
      taken[week] = (taken[week] ?? 0) + asked - missing;
      unmet[week] = (unmet[week] ?? 0) + missing;
      discarded[week] = (discarded[week] ?? 0) + thrown;
      (closing[week] as Float64Array)[path] = stock;
      (pastBest[week] as Float64Array)[path] = pastBestAt(shelf, remaining, week);
    }
  }

  const perPath = (totals: Float64Array): number[] => Array.from(totals, (total) => total / paths);
  let shortSoFar = 0;
  return {
    closing: closing.map(spreadOf),
    pastBest: pastBest.map(spreadOf),
    taken: perPath(taken),
    unmet: perPath(unmet),
    discarded: perPath(discarded),
    shortBy: Array.from(firstShort, (count) => {
      shortSoFar += count;
      return shortSoFar / paths;
    }),
  };
}

interface DrawnCourses {
  readonly simulation: Simulation;
  readonly random: Random;
  readonly goOn: readonly CourseOfUse[];
  /** By path, the weeks drawn so far. */
  readonly courses: ArrayLike<number>[];
  weeks: number;
}

/** Courses are drawn by the year: hardly an item is looked at beyond the first. A whole number of blocks of four weeks. */
const weeksInStretch = 52;

// A shelf is played as it stands, under a plan and until a season that may fail: each time for the very same courses of use,
// which take longer to draw than to play. They go when the use they were drawn from goes.
const drawnCourses = new WeakMap<PredictedUse, DrawnCourses>();

/**
 * The possible courses of a use, one for each path, so many weeks or more of them; drawn once for a simulation. All paths are drawn
 * through one stretch before the next, so that the first year of a course is the same however far it is followed.
 */
function coursesOf(use: PredictedUse, simulation: Simulation, weeks: number): readonly ArrayLike<number>[] {
  const remembered = drawnCourses.get(use);
  const drawn =
    remembered?.simulation.paths === simulation.paths && remembered.simulation.seed === simulation.seed
      ? remembered
      : coursesBegun(use, simulation);
  drawnCourses.set(use, drawn);
  while (drawn.weeks < weeks) {
    drawn.goOn.forEach((goOn, path) => {
      const next = goOn(weeksInStretch, drawn.random);
      const before = drawn.courses[path];
      drawn.courses[path] = before === undefined ? next : [...Array.from(before), ...Array.from(next)];
    });
    drawn.weeks += weeksInStretch;
  }
  return drawn.courses;
}

function coursesBegun(use: PredictedUse, simulation: Simulation): DrawnCourses {
  const generator = xoroshiro128plus(simulation.seed);
  const random = (): number => uniformFloat64(generator);
  const goOn = Array.from({ length: simulation.paths }, () => use.beginCourse(random));
  return { simulation, random, goOn, courses: [], weeks: 0 };
}

function throwAway(shelf: ShelfInWeeks, remaining: Float64Array, week: number): number {
  let thrown = 0;
  shelf.lots.forEach((lot, place) => {
    if (lot.leavesIn !== week) return;
    thrown += remaining[place] ?? 0;
    remaining[place] = 0;
  });
  return thrown;
}

function pastBestAt(shelf: ShelfInWeeks, remaining: Float64Array, week: number): number {
  let units = 0;
  // Lots stand in the order of their dates, so the first that is still good ends the search; one that has not come yet
  // cannot be past its date, though its date may be the earlier one.
  for (let place = 0; place < shelf.lots.length; place += 1) {
    const lot = shelf.lots[place] as LotInWeeks;
    if (lot.pastBestFrom <= week) units += remaining[place] ?? 0;
    else if (lot.comesIn <= week) break;
  }
  return units;
}

function spreadOf(sample: Float64Array): Spread {
  let total = 0;
  let largest = 0;
  let whole = true;
  for (const units of sample) {
    total += units;
    if (units > largest) largest = units;
    if (units !== Math.floor(units)) whole = false;
  }
  const inOrder = whole && largest < sample.length ? sortedCounts(sample, largest) : sample.sort();
  const at = (level: number): number => inOrder[Math.ceil(level * inOrder.length) - 1] ?? 0;
  return { expected: total / sample.length, p10: at(0.1), p50: at(0.5), p90: at(0.9) };
}

/** Whole units, by counting how often each amount occurs: several times quicker than comparing, and most shelves are whole. */
function sortedCounts(sample: Float64Array, largest: number): Float64Array {
  const times = new Uint32Array(largest + 1);
  for (const units of sample) times[units] = (times[units] ?? 0) + 1;
  let place = 0;
  times.forEach((count, units) => {
    sample.fill(units, place, place + count);
    place += count;
  });
  return sample;
}

const withoutCrumb = (units: number): number => (units < crumb ? 0 : units);
