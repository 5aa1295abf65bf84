import { logLikelihood } from './count-likelihood.ts';
import { type CountedWeek, recentWeeksKept, suspectedChange } from './habit-change.ts';
import { type RateBelief, type RateReading, readingsAtStart } from './rate-belief.ts';
import { dispersionFrom, nothingSurprising, type Surprise, surprised } from './week-dispersion.ts';

/** What one week taught. */
export interface ObservedWeek {
  /** Units eaten, 0 or more, may be fractional. */
  readonly taken: number;
  /** Ordinary weeks this week was worth: exposure × pattern multiplier. 0 teaches nothing. */
  readonly ordinaryWeeks: number;
  /** Consecutive weeks with the same number were read off one shelf count: only their sum was observed. */
  readonly countInterval?: number;
}

/** Weeks seen before the readings are told apart and an outlier can be recognised. */
const weeksToSettle = 8;
/** A week's likelihood counts for this part: weeks are not independent witnesses (a tempered likelihood). */
const likelihoodWeight = 0.3;
/** Use beyond this many standard deviations teaches no more than that (a party nobody entered as an occasion). */
const outlierDeviations = 4;
/** Surprise at a rate near zero is measured against at least this mean. */
const smallestMean = 0.05;

/**
 * The belief after these weeks, oldest first: a gamma-Poisson filter with discounting, once per reading.
 *
 * Each week worth `e` ordinary weeks with `y` units: `shape <- δ^e·shape + y`, `evidence <- δ^e·evidence + e`,
 * rate = shape / evidence. Trust moves to the readings that had foretold the weeks better; dispersion comes from discounted
 * squared one-step errors shrunk to a prior. Weeks worth nothing are passed over. An empty list gives the start back.
 *
 * Source: gamma-Poisson updating, Gelman et al. (2013), Bayesian Data Analysis, 3rd ed., section 2.6; discounting, West and
 * Harrison (1997), Bayesian Forecasting and Dynamic Models (both from memory). The constants are ours: chosen on open weekly
 * series, one fixed set for all.
 */
export function trainedBelief(start: RateBelief, weeks: readonly ObservedWeek[]): RateBelief {
  const discounts = readingsAtStart.map((reading) => reading.discount);
  const shapes = start.readings.map((reading) => reading.perWeek * reading.weeksOfEvidence);
  const evidences = start.readings.map((reading) => reading.weeksOfEvidence);
  const merits = readingsAtStart.map(() => 0);
  const shares = readingsAtStart.map((reading) => reading.share as number);
  let surprise: Surprise = nothingSurprising;
  let seen = 0;
  const recent: CountedWeek[] = [];

  for (let first = 0; first < weeks.length; ) {
    const block = blockFrom(weeks, first);
    first = block.end;
    if (!(block.ordinaryWeeks > 0)) continue;

    let perWeek = 0;
    let doubt = 0;
    for (let reading = 0; reading < shapes.length; reading += 1) {
      const share = at(shares, reading);
      perWeek += (share * at(shapes, reading)) / at(evidences, reading);
      doubt += share / at(evidences, reading);
    }
    const dispersion = dispersionFrom(surprise);
    const expected = Math.max(perWeek * block.ordinaryWeeks, smallestMean);
    const chance = 1 + block.ordinaryWeeks * doubt;

    const settled = seen >= weeksToSettle;
    if (settled) {
      for (let reading = 0; reading < shapes.length; reading += 1) {
        const evidence = at(evidences, reading);
        const mean = (at(shapes, reading) / evidence) * block.ordinaryWeeks;
        merits[reading] =
          at(merits, reading) +
          likelihoodWeight *
            logLikelihood(block.taken, mean, dispersion * (1 + block.ordinaryWeeks / evidence));
      }
      trustByMerit(merits, shares);
    }
    const error = block.taken - perWeek * block.ordinaryWeeks;
    surprise = surprised(surprise, (error * error) / (expected * chance), Math.min(1, block.ordinaryWeeks));

    const most =
      perWeek * block.ordinaryWeeks + outlierDeviations * Math.sqrt(expected * dispersion * chance);
    const believed = settled && block.taken > most ? most / block.taken : 1;
    for (let week = block.start; week < block.end; week += 1) {
      const observed = weeks[week];
      if (!observed || !(observed.ordinaryWeeks > 0)) continue;
      const { taken, ordinaryWeeks } = observed;
      for (let reading = 0; reading < shapes.length; reading += 1) {
        const discount = at(discounts, reading);
        const kept = ordinaryWeeks === 1 ? discount : discount ** ordinaryWeeks;
        shapes[reading] = kept * at(shapes, reading) + taken * believed;
        evidences[reading] = kept * at(evidences, reading) + ordinaryWeeks;
      }
      recent.push({ taken, ordinaryWeeks, before: { perWeek, weeksOfEvidence: 1 / doubt, dispersion } });
      if (recent.length > 2 * recentWeeksKept) recent.splice(0, recentWeeksKept);
      seen += 1;
    }
  }

  const change = suspectedChange(recent);
  const remaining = 1 - (change?.share ?? 0);
  const readings: RateReading[] = shares.map((share, reading) => ({
    discount: at(discounts, reading),
    share: share * remaining,
    perWeek: at(shapes, reading) / at(evidences, reading),
    weeksOfEvidence: at(evidences, reading),
  }));
  if (change) {
    const { share, perWeek, weeksOfEvidence } = change;
    readings.push({ discount: undefined, share, perWeek, weeksOfEvidence });
  }
  return {
    readings,
    perWeek: readings.reduce((sum, reading) => sum + reading.share * reading.perWeek, 0),
    dispersion: dispersionFrom(surprise),
    suspectedChange: change,
  };
}

/** Weeks observed together: one week, or the run of weeks read off one shelf count. */
interface Block {
  readonly start: number;
  readonly end: number;
  readonly taken: number;
  readonly ordinaryWeeks: number;
}

function blockFrom(weeks: readonly ObservedWeek[], start: number): Block {
  const interval = weeks[start]?.countInterval;
  let end = start + 1;
  let taken = weeks[start]?.taken ?? 0;
  let ordinaryWeeks = weeks[start]?.ordinaryWeeks ?? 0;
  for (; interval !== undefined && weeks[end]?.countInterval === interval; end += 1) {
    taken += weeks[end]?.taken ?? 0;
    ordinaryWeeks += weeks[end]?.ordinaryWeeks ?? 0;
  }
  return { start, end, taken, ordinaryWeeks };
}

/** Shares proportional to the starting share times `exp(merit)`. */
function trustByMerit(merits: readonly number[], shares: number[]): void {
  const best = Math.max(...merits);
  let sum = 0;
  for (const [place, reading] of readingsAtStart.entries()) {
    const trust = reading.share * Math.exp(at(merits, place) - best);
    shares[place] = trust;
    sum += trust;
  }
  for (let place = 0; place < shares.length; place += 1) shares[place] = at(shares, place) / sum;
}

const at = (values: readonly number[], place: number): number => values[place] ?? Number.NaN;
