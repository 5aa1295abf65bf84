import { chanceOfEnough, exactWeeks, isExact } from './exact-weeks.ts';
import { runOutOf } from './likely-gaps.ts';
import type { PlayedWeeks } from './played-weeks.ts';
import type {
  ProjectedWeek,
  ProjectionMethod,
  ShelfAhead,
  ShelfProjection,
  Spread,
} from './shelf-projection.ts';
import { type ShelfInWeeks, shelfInWeeks } from './shelf-weeks.ts';
import { type Simulation, simulatedShortBy, simulatedWeeks, standardErrorOf } from './simulated-weeks.ts';

/** 2,000 possible years: a chance is right to within about 2 in 100. */
const usualSimulation: Simulation = { paths: 2000, seed: 20_260_817 };

/**
 * The shelf of one item, week by week: opening, in, taken, out, closing, when it runs out, whether it lasts.
 *
 * For each of expected, p10, p50 and p90: opening + in - out = closing, and a week's closing is the next one's opening;
 * in and out are 0 or more units. Expected out = expected taken + expected discarded; expected taken + expected unmet =
 * expected use. Planned units come at the start of their week and may be taken in it when ready; what reached its
 * `discardOn` leaves at the start of the first week from that day on.
 *
 * Exact, from the distribution of cumulative use, when nothing comes and nothing is thrown away after the first week;
 * otherwise simulated with a stated standard error. Chance of lasting is exact whenever nothing comes or leaves before the
 * next supply. Throws RangeError for amounts below 0, incoming units of a week that has passed, a horizon below one week
 * or a use forecast shorter than the horizon.
 *
 * Example: 3 units, Poisson use of 1 a week, one week: expected closing 2.023 (3·0.3679 + 2·0.3679 + 1·0.1839).
 */
export function projectShelf(ahead: ShelfAhead, simulation: Simulation = usualSimulation): ShelfProjection {
  const shelf = shelfInWeeks(ahead);
  const exact = isExact(shelf, shelf.weeks.length) && shelf.lots.every((lot) => lot.readyIn === 0);
  const played = exact ? exactWeeks(shelf, ahead.use) : simulatedWeeks(shelf, ahead.use, simulation);
  const method: ProjectionMethod = exact
    ? { kind: 'exact' }
    : { kind: 'simulated', ...simulation, standardError: standardErrorOf(simulation.paths) };
  const lasting =
    ahead.supplyTimes === undefined || ahead.nextSupplyWeek === null
      ? chanceBefore(shelf, shelf.nextSupply, ahead.use, () => played.shortBy)
      : chanceInDoubt(
          ahead,
          { shelf, played: exact ? null : played },
          { times: ahead.supplyTimes, simulation },
        );
  const weeks = weekByWeek(shelf, played);
  return {
    asOf: ahead.asOf,
    weeks,
    runOut: runOutOf(weeks),
    nextSupplyWeek: ahead.nextSupplyWeek,
    chanceOfLasting: lasting,
    pastBestByNextSupply: played.pastBest[shelf.nextSupply - 1] ?? certain(shelf.pastBestNow),
    method,
  };
}

/** Probability that nothing wanted is missing in the weeks before one. */
const chanceBefore = (
  shelf: ShelfInWeeks,
  week: number,
  use: ShelfAhead['use'],
  shortBy: () => readonly number[],
): number => (isExact(shelf, week) ? chanceOfEnough(shelf, use, week) : 1 - (shortBy()[week - 1] ?? 0));

/** The same where it is in doubt when the next supply comes: until it does, nothing of what it would bring is there. */
function chanceInDoubt(
  ahead: ShelfAhead,
  { shelf, played }: { readonly shelf: ShelfInWeeks; readonly played: PlayedWeeks | null },
  {
    times,
    simulation,
  }: { readonly times: NonNullable<ShelfAhead['supplyTimes']>; readonly simulation: Simulation },
): number {
  const before = ahead.incoming.filter(({ week }) => week < (ahead.nextSupplyWeek ?? week));
  const isAsItStands = before.length === ahead.incoming.length;
  const untilThen = isAsItStands ? shelf : shelfInWeeks({ ...ahead, incoming: before });
  let shortBy = isAsItStands && played !== null ? played.shortBy : null;
  const simulated = (): readonly number[] => {
    shortBy ??= simulatedShortBy(untilThen, ahead.use, simulation);
    return shortBy;
  };
  return times.reduce((sum, { weeksLater, chance }) => {
    const comes = Math.min(untilThen.weeks.length, Math.max(0, shelf.nextSupply + weeksLater));
    return sum + chance * chanceBefore(untilThen, comes, ahead.use, simulated);
  }, 0);
}

function weekByWeek(shelf: ShelfInWeeks, played: PlayedWeeks): ProjectedWeek[] {
  let opening = certain(shelf.openingUnits);
  return shelf.weeks.map((week, place) => {
    const comes = shelf.comesByWeek[place] ?? 0;
    const closing = played.closing[place] ?? certain(0);
    const projected: ProjectedWeek = {
      week,
      opening,
      in: comes,
      taken: played.taken[place] ?? 0,
      unmet: played.unmet[place] ?? 0,
      discarded: played.discarded[place] ?? 0,
      out: spreadBy((level) => opening[level] + comes - closing[level]),
      closing,
      pastBest: played.pastBest[place] ?? certain(0),
    };
    opening = closing;
    return projected;
  });
}

const certain = (units: number): Spread => spreadBy(() => units);

const spreadBy = (units: (level: keyof Spread) => number): Spread => ({
  expected: units('expected'),
  p10: units('p10'),
  p50: units('p50'),
  p90: units('p90'),
});
