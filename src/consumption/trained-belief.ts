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

/** One reading while it learns: what it saw, faded, and how much of the declared use is left in it. */
interface Memory {
  readonly discount: number;
  units: number;
  weeks: number;
  wordLeft: number;
  merit: number;
  share: number;
  /** Units and ordinary weeks, the declared use included: the rate is their quotient. */
  shape: number;
  evidence: number;
}

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
  const memories = readingsAtStart.map(
    ({ discount, share }): Memory => ({
      discount,
      units: 0,
      weeks: 0,
      wordLeft: 1,
      merit: 0,
      share,
      shape: word.weight,
      evidence: word.weight / word.perWeek,
    }),
  );
  const tested = { units: 0, ordinaryWeeks: 0 };
  let surprise: Surprise = nothingSurprising;
  let seen = 0;
  const recent: CountedWeek[] = [];

  for (let first = 0; first < weeks.length; ) {
    const block = blockFrom(weeks, first);
    first = block.end;
    if (!(block.ordinaryWeeks > 0)) continue;

    let perWeek = 0;
    let doubt = 0;
    for (const memory of memories) {
      perWeek += (memory.share * memory.shape) / memory.evidence;
      doubt += memory.share / memory.evidence;
    }
    const dispersion = dispersionFrom(surprise);
    const mean = perWeek * block.ordinaryWeeks;
    const expected = Math.max(mean, smallestMean);
    const chance = 1 + block.ordinaryWeeks * doubt;
    const settled = seen >= weeksToSettle;

    if (settled) trustByMerit(memories, block, dispersion);
    surprise = surprised(
      surprise,
      (block.taken - mean) ** 2 / (expected * chance),
      Math.min(1, block.ordinaryWeeks),
    );
    if (tested.ordinaryWeeks < weeksThatTestTheWord) {
      tested.units += block.taken;
      tested.ordinaryWeeks += block.ordinaryWeeks;
    }
    const trust = word.isDeclared ? trustInWord(word, tested, dispersionFrom(surprise)) : 1;
    const most = mean + outlierDeviations * Math.sqrt(expected * dispersion * chance);
    const believed = settled && block.taken > most ? most / block.taken : 1;
    for (let week = block.start; week < block.end; week += 1) {
      const observed = weeks[week];
      if (!observed || !(observed.ordinaryWeeks > 0)) continue;
      const { taken, ordinaryWeeks } = observed;
      for (const memory of memories) remember(memory, taken * believed, ordinaryWeeks);
      recent.push({ taken, ordinaryWeeks, before: { perWeek, weeksOfEvidence: 1 / doubt, dispersion } });
      if (recent.length > 2 * recentWeeksKept) recent.splice(0, recentWeeksKept);
      seen += 1;
    }
    for (const memory of memories) {
      memory.shape = trust * memory.wordLeft * word.weight + memory.units;
      memory.evidence = (trust * memory.wordLeft * word.weight) / word.perWeek + memory.weeks;
    }
  }
  return beliefOf(memories, dispersionFrom(surprise), recent);
}

function remember(memory: Memory, units: number, ordinaryWeeks: number): void {
  const kept = ordinaryWeeks === 1 ? memory.discount : memory.discount ** ordinaryWeeks;
  memory.units = kept * memory.units + units;
  memory.weeks = kept * memory.weeks + ordinaryWeeks;
  memory.wordLeft *= kept;
}

/** Shares proportional to the starting share times `exp(merit)`; merit is the tempered log-likelihood so far. */
function trustByMerit(memories: readonly Memory[], block: Block, dispersion: number): void {
  let best = Number.NEGATIVE_INFINITY;
  for (const memory of memories) {
    const mean = (memory.shape / memory.evidence) * block.ordinaryWeeks;
    const spread = dispersion * (1 + block.ordinaryWeeks / memory.evidence);
    memory.merit += likelihoodWeight * logLikelihood(block.taken, mean, spread);
    best = Math.max(best, memory.merit);
  }
  let sum = 0;
  for (const [place, memory] of memories.entries()) {
    memory.share = (readingsAtStart[place]?.share ?? 0) * Math.exp(memory.merit - best);
    sum += memory.share;
  }
  for (const memory of memories) memory.share /= sum;
}

function beliefOf(
  memories: readonly Memory[],
  dispersion: number,
  recent: readonly CountedWeek[],
): RateBelief {
  const change = suspectedChange(recent);
  const readings: RateReading[] = memories.map(({ discount, share, shape, evidence }) => ({
    discount,
    share: share * (1 - (change?.share ?? 0)),
    perWeek: shape / evidence,
    weeksOfEvidence: evidence,
  }));
  if (change) {
    const { share, perWeek, weeksOfEvidence } = change;
    readings.push({ discount: undefined, share, perWeek, weeksOfEvidence });
  }
  return {
    readings,
    perWeek: readings.reduce((sum, reading) => sum + reading.share * reading.perWeek, 0),
    dispersion,
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
