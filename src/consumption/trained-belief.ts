import { logLikelihood } from './count-likelihood.ts';
import { type CountedWeek, recentWeeksKept, suspectedChange } from './habit-change.ts';
import {
  type RateBelief,
  type RateReading,
  readingsAtStart,
  type StartingUse,
  startBelief,
} from './rate-belief.ts';
import { trustInWord, weeksThatTestTheWord } from './trust-in-word.ts';
import { addSurprise, dispersionFrom, noSurprise } from './week-dispersion.ts';

/** What one week taught. */
export interface ObservedWeek {
  /** Units eaten, 0 or more, may be fractional. */
  readonly taken: number;
  /** Ordinary weeks this week was worth: exposure × pattern multiplier. 0 teaches nothing. */
  readonly ordinaryWeeks: number;
  /** Consecutive weeks with the same number were read off one shelf count: only their sum was observed. */
  readonly countInterval?: number | undefined;
}

/** Weeks seen before the readings are told apart and an outlier can be recognised. */
const weeksToSettle = 8;
/** A week's likelihood counts for this part: weeks are not independent witnesses (a tempered likelihood). */
const likelihoodWeight = 0.3;
/** Use beyond this many standard deviations teaches no more than that (a party nobody entered as an occasion). */
const outlierDeviations = 4;
/** Surprise at a rate near zero is measured against at least this mean. */
const smallestMean = 0.05;

/** The readings while they learn, one place each. */
interface Memories {
  /** Units and ordinary weeks, faded, the declared use included: the rate is their quotient. */
  readonly shape: Float64Array;
  readonly evidence: Float64Array;
  /** How much of the declared use has not faded yet. */
  readonly wordLeft: Float64Array;
  readonly merit: Float64Array;
  readonly share: Float64Array;
  /** What a week worth `keptFor` ordinary weeks leaves of the evidence; weeks of one month are worth the same. */
  readonly kept: Float64Array;
  keptFor: number;
}

const readings = readingsAtStart.length;
const discounts = Float64Array.from(readingsAtStart, (reading) => reading.discount);
const sharesAtStart = Float64Array.from(readingsAtStart, (reading) => reading.share);

const memoriesAt = ({ perWeek, weight }: StartingUse): Memories => ({
  shape: new Float64Array(readings).fill(weight),
  evidence: new Float64Array(readings).fill(weight / perWeek),
  wordLeft: new Float64Array(readings).fill(1),
  merit: new Float64Array(readings),
  share: Float64Array.from(sharesAtStart),
  kept: Float64Array.from(discounts),
  keptFor: 1,
});

/**
 * The belief after these weeks, oldest first: a gamma-Poisson filter with discounting, once per reading.
 *
 * Each week worth `e` ordinary weeks with `y` units: `shape <- δ^e·shape + y`, `evidence <- δ^e·evidence + e`,
 * rate = shape / evidence. Trust moves to the readings that had foretold the weeks better; the declared use loses weight as the
 * weeks contradict it; dispersion comes from discounted squared one-step errors shrunk to a prior. Weeks worth nothing are passed
 * over. An empty list gives the start back.
 *
 * Source: gamma-Poisson updating, Gelman et al. (2013), Bayesian Data Analysis, 3rd ed., section 2.6; discounting, West and
 * Harrison (1997), Bayesian Forecasting and Dynamic Models (both from memory). The constants are ours: chosen on open weekly
 * series, one fixed set for all.
 */
export function trainedBelief(start: StartingUse, weeks: readonly ObservedWeek[]): RateBelief {
  if (weeks.length === 0) return startBelief(start);
  const word = start;
  const memories = memoriesAt(start);
  const tested = { units: 0, ordinaryWeeks: 0 };
  let trust = 1;
  const surprise = noSurprise();
  let dispersion = dispersionFrom(surprise);
  let seen = 0;
  const vectors = vectorsOf(weeks);
  const recent: CountedWeek[] = [];

  for (let first = 0; first < weeks.length; ) {
    const block = blockFrom(vectors, first);
    first = block.end;
    if (!(block.ordinaryWeeks > 0)) continue;

    let perWeek = 0;
    let doubt = 0;
    for (let reading = 0; reading < readings; reading += 1) {
      const share = at(memories.share, reading);
      const evidence = at(memories.evidence, reading);
      perWeek += (share * at(memories.shape, reading)) / evidence;
      doubt += share / evidence;
    }
    const mean = perWeek * block.ordinaryWeeks;
    const expected = Math.max(mean, smallestMean);
    const chance = 1 + block.ordinaryWeeks * doubt;
    const settled = seen >= weeksToSettle;

    if (settled) trustByMerit(memories, block, dispersion);
    addSurprise(surprise, (block.taken - mean) ** 2 / (expected * chance), Math.min(1, block.ordinaryWeeks));
    const newDispersion = dispersionFrom(surprise);
    const most = mean + outlierDeviations * Math.sqrt(expected * dispersion * chance);
    const believed = settled && block.taken > most ? most / block.taken : 1;
    for (let week = block.start; week < block.end; week += 1) {
      const taken = at(vectors.taken, week);
      const ordinaryWeeks = at(vectors.ordinaryWeeks, week);
      if (!(ordinaryWeeks > 0)) continue;
      remember(memories, taken * believed, ordinaryWeeks);
      seen += 1;
      if (seen > vectors.counted - recentWeeksKept) {
        recent.push({ taken, ordinaryWeeks, before: { perWeek, weeksOfEvidence: 1 / doubt, dispersion } });
      }
    }
    if (word.isDeclared && tested.ordinaryWeeks < weeksThatTestTheWord) {
      tested.units += block.taken;
      tested.ordinaryWeeks += block.ordinaryWeeks;
      const trustNow = trustInWord(word, tested, newDispersion);
      reweighWord(memories, word, trustNow - trust);
      trust = trustNow;
    }
    dispersion = newDispersion;
  }
  return beliefOf(memories, dispersion, recent);
}

function remember(memories: Memories, taken: number, ordinaryWeeks: number): void {
  const { shape, evidence, wordLeft, kept } = memories;
  if (ordinaryWeeks !== memories.keptFor) {
    for (let reading = 0; reading < readings; reading += 1) {
      kept[reading] = at(discounts, reading) ** ordinaryWeeks;
    }
    memories.keptFor = ordinaryWeeks;
  }
  for (let reading = 0; reading < readings; reading += 1) {
    const left = at(kept, reading);
    shape[reading] = left * at(shape, reading) + taken;
    evidence[reading] = left * at(evidence, reading) + ordinaryWeeks;
    wordLeft[reading] = left * at(wordLeft, reading);
  }
}

/** Gives the declared use this much more (or less) of its weight. */
function reweighWord({ shape, evidence, wordLeft }: Memories, word: StartingUse, more: number): void {
  for (let reading = 0; reading < readings; reading += 1) {
    const weight = more * at(wordLeft, reading) * word.weight;
    shape[reading] = at(shape, reading) + weight;
    evidence[reading] = at(evidence, reading) + weight / word.perWeek;
  }
}

/** Shares proportional to the starting share times `exp(merit)`; merit is the tempered log-likelihood so far. */
function trustByMerit({ shape, evidence, merit, share }: Memories, block: Block, dispersion: number): void {
  let best = Number.NEGATIVE_INFINITY;
  for (let reading = 0; reading < readings; reading += 1) {
    const weeks = at(evidence, reading);
    const mean = (at(shape, reading) / weeks) * block.ordinaryWeeks;
    const spread = dispersion * (1 + block.ordinaryWeeks / weeks);
    const gained = at(merit, reading) + likelihoodWeight * logLikelihood(block.taken, mean, spread);
    merit[reading] = gained;
    best = Math.max(best, gained);
  }
  let sum = 0;
  for (let reading = 0; reading < readings; reading += 1) {
    const trust = at(sharesAtStart, reading) * Math.exp(at(merit, reading) - best);
    share[reading] = trust;
    sum += trust;
  }
  for (let reading = 0; reading < readings; reading += 1) share[reading] = at(share, reading) / sum;
}

function beliefOf(memories: Memories, dispersion: number, recent: readonly CountedWeek[]): RateBelief {
  const change = suspectedChange(recent);
  const lasting = readingsAtStart.map(
    ({ discount }, reading): RateReading => ({
      discount,
      share: at(memories.share, reading) * (1 - (change?.share ?? 0)),
      perWeek: at(memories.shape, reading) / at(memories.evidence, reading),
      weeksOfEvidence: at(memories.evidence, reading),
    }),
  );
  const all = change
    ? [
        ...lasting,
        {
          discount: undefined,
          share: change.share,
          perWeek: change.perWeek,
          weeksOfEvidence: change.weeksOfEvidence,
        },
      ]
    : lasting;
  return {
    readings: all,
    perWeek: all.reduce((sum, reading) => sum + reading.share * reading.perWeek, 0),
    dispersion,
    suspectedChange: change,
  };
}

const at = (values: Float64Array, place: number): number => values[place] ?? Number.NaN;

/** The weeks as vectors, oldest first: the loop over them runs for every item whenever anything is recorded. */
interface WeekVectors {
  readonly taken: Float64Array;
  readonly ordinaryWeeks: Float64Array;
  /** Number of the shelf count a week was read off, or `noInterval`. */
  readonly interval: Int32Array;
  /** Weeks worth anything. */
  readonly counted: number;
}

const noInterval = -1;

function vectorsOf(weeks: readonly ObservedWeek[]): WeekVectors {
  const taken = new Float64Array(weeks.length);
  const ordinaryWeeks = new Float64Array(weeks.length);
  const interval = new Int32Array(weeks.length);
  let counted = 0;
  for (let place = 0; place < weeks.length; place += 1) {
    const week = weeks[place];
    if (!week) continue;
    taken[place] = week.taken;
    ordinaryWeeks[place] = week.ordinaryWeeks;
    interval[place] = week.countInterval ?? noInterval;
    if (week.ordinaryWeeks > 0) counted += 1;
  }
  return { taken, ordinaryWeeks, interval, counted };
}

/** Weeks observed together: one week, or the run of weeks read off one shelf count. */
interface Block {
  readonly start: number;
  readonly end: number;
  readonly taken: number;
  readonly ordinaryWeeks: number;
}

function blockFrom({ taken, ordinaryWeeks, interval }: WeekVectors, start: number): Block {
  const shared = interval[start] ?? noInterval;
  let end = start + 1;
  let units = at(taken, start);
  let worth = at(ordinaryWeeks, start);
  for (; shared !== noInterval && interval[end] === shared; end += 1) {
    units += at(taken, end);
    worth += at(ordinaryWeeks, end);
  }
  return { start, end, taken: units, ordinaryWeeks: worth };
}
