import { logLikelihood } from '../count-likelihood.ts';
import { type CountedWeek, recentWeeksKept, suspectedChange } from './habit-change.ts';
import {
  type RateBelief,
  type RateReading,
  readingsAtStart,
  riseAhead,
  type StartingUse,
  type StrangeWeek,
  startBelief,
} from './rate-belief.ts';
import { lessonOf, noStrangeWeek } from './strange-week.ts';
import { trustInWord, weeksThatTestTheWord } from './trust-in-word.ts';
import { addSurprise, blockDispersionFrom, dispersionFrom, noSurprise } from './week-dispersion.ts';

/** What one week taught. */
export interface ObservedWeek {
  /** Units eaten, 0 or more, may be fractional. */
  readonly taken: number;
  /** Ordinary weeks this week was worth: exposure × pattern multiplier. 0 teaches nothing. */
  readonly ordinaryWeeks: number;
  /** Consecutive weeks with the same number were read off one shelf count: only their sum was observed. */
  readonly countInterval?: number | undefined;
  /** Somebody said of this week that it was no occasion: it teaches in full. */
  readonly isOrdinary?: boolean | undefined;
}

/** Weeks seen before the readings are told apart and an outlier can be recognised. */
const weeksToSettle = 8;
/** A week's likelihood counts for this part: weeks are not independent witnesses (a tempered likelihood). */
const likelihoodWeight = 0.3;
/** Use beyond this many standard deviations teaches no more than that (a party nobody entered as an occasion). */
const outlierDeviations = 4;
/**
 * A week of so many units, times the item's dispersion, forgets a reading's whole share; a week of fewer forgets as much less. What a week
 * tells of a change grows with its units over their spread, so the memory of a slow item has to be longer.
 */
const unitsOfAFullWeek = 0.7;
/** Surprise at a rate near zero is measured against at least this mean. */
const smallestMean = 0.05;

/**
 * Weeks back in which a change of habit is looked for, those without stock or anybody at home included: the weeks before a shelf ran
 * out are fuller than others, or it would not have run out.
 */
const weeksCalledRecent = recentWeeksKept + 1;

/** The readings while they learn, one place each. */
interface Memories {
  /** Units and ordinary weeks, faded, the declared use included: the rate is their quotient. */
  readonly shape: Float64Array;
  readonly evidence: Float64Array;
  /** How much of the declared use has not faded yet. */
  readonly wordLeft: Float64Array;
  /** Units held back of a strange week, faded as if they had been learnt. */
  readonly heldBack: Float64Array;
  readonly merit: Float64Array;
  readonly share: Float64Array;
  /** What a week worth `keptFor` ordinary weeks, `keptAt` of a full week each, leaves of the evidence; of most items they are all alike. */
  readonly kept: Float64Array;
  keptFor: number;
  keptAt: number;
}

const readings = readingsAtStart.length;
const discounts = Float64Array.from(readingsAtStart, (reading) => reading.discount);
const sharesAtStart = Float64Array.from(readingsAtStart, (reading) => reading.share);

const memoriesAt = ({ perWeek, weight }: StartingUse): Memories => ({
  shape: new Float64Array(readings).fill(weight),
  evidence: new Float64Array(readings).fill(weight / perWeek),
  wordLeft: new Float64Array(readings).fill(1),
  heldBack: new Float64Array(readings),
  merit: new Float64Array(readings),
  share: Float64Array.from(sharesAtStart),
  kept: Float64Array.from(discounts),
  keptFor: 1,
  keptAt: 1,
});

/**
 * The belief after these weeks, oldest first: a gamma-Poisson filter with discounting, once per reading.
 *
 * Each week worth `e` ordinary weeks with `y` units: `shape <- δ^e·shape + y`, `evidence <- δ^e·evidence + e`,
 * rate = shape / evidence, where δ is a reading's discount, nearer to 1 for a slow item (`unitsOfAFullWeek`). Trust moves to the readings that had foretold the weeks better; the declared use loses weight as the
 * weeks contradict it; dispersion comes from discounted squared one-step errors shrunk to a prior; a strange week is held for an
 * occasion (`strange-week.ts`). Weeks worth nothing are passed over. An empty list gives the start back.
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
  const recentFrom = weeks.length - weeksCalledRecent;
  const recent: CountedWeek[] = [];
  const strangeWeeks = noStrangeWeek();
  let strange: StrangeWeek | undefined;

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

    const deviation = Math.sqrt(expected * dispersion * chance);
    const most = settled ? mean + outlierDeviations * deviation : Number.POSITIVE_INFINITY;
    const lesson =
      settled && block.end - block.start === 1 && !block.isOrdinary
        ? lessonOf(strangeWeeks, block.taken, mean, deviation)
        : undefined;
    if (lesson !== undefined && lesson.heldBack > 0) {
      strange = { place: block.start, taken: block.taken, expected: mean, deviation };
    }

    if (settled) trustByMerit(memories, Math.min(block.taken, most), block.ordinaryWeeks, dispersion);
    const error = lesson !== undefined && lesson.heldBack > 0 ? deviation : block.taken - mean;
    addSurprise(surprise, error, expected * chance, Math.min(1, block.ordinaryWeeks));
    const newDispersion = dispersionFrom(surprise);
    const learnt = lesson?.taught ?? (block.isOrdinary ? block.taken : Math.min(block.taken, most));
    const believed = block.taken > 0 ? learnt / block.taken : 1;
    if (lesson !== undefined) holdBack(memories, lesson.heldBack, lesson.believesEarlier);
    const fullness = Math.min(1, perWeek / (unitsOfAFullWeek * dispersion));
    for (let week = block.start; week < block.end; week += 1) {
      const taken = at(vectors.taken, week);
      const ordinaryWeeks = at(vectors.ordinaryWeeks, week);
      if (!(ordinaryWeeks > 0)) continue;
      remember(memories, taken * believed, ordinaryWeeks, fullness);
      seen += 1;
      if (week >= recentFrom) {
        recent.push({
          taken: taken * believed,
          ordinaryWeeks,
          before: { perWeek, weeksOfEvidence: 1 / doubt, dispersion },
        });
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
  const blockDispersion = blockDispersionFrom(surprise, dispersion);
  return {
    ...beliefOf(memories, blockDispersion, seen, recent),
    dispersion,
    blockDispersion,
    strangeWeek: strangeWeeks.heldBack > 0 ? strange : undefined,
  };
}

/** Learns what was held back before, if it is believed now, and holds back what this week has too much. */
function holdBack({ shape, heldBack }: Memories, units: number, believesEarlier: boolean): void {
  for (let reading = 0; reading < readings; reading += 1) {
    if (believesEarlier) shape[reading] = at(shape, reading) + at(heldBack, reading);
    if (units > 0) heldBack[reading] = units;
  }
}

/** Fades the evidence by a week and adds its own; `fullness`, 0 to 1: what the week is of a full one (`unitsOfAFullWeek`). */
function remember(memories: Memories, taken: number, ordinaryWeeks: number, fullness: number): void {
  const { shape, evidence, wordLeft, heldBack, kept } = memories;
  if (ordinaryWeeks !== memories.keptFor || fullness !== memories.keptAt) {
    for (let reading = 0; reading < readings; reading += 1) {
      kept[reading] = (1 - fullness * (1 - at(discounts, reading))) ** ordinaryWeeks;
    }
    memories.keptFor = ordinaryWeeks;
    memories.keptAt = fullness;
  }
  for (let reading = 0; reading < readings; reading += 1) {
    const left = at(kept, reading);
    shape[reading] = left * at(shape, reading) + taken;
    evidence[reading] = left * at(evidence, reading) + ordinaryWeeks;
    wordLeft[reading] = left * at(wordLeft, reading);
    heldBack[reading] = left * at(heldBack, reading);
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
function trustByMerit(
  { shape, evidence, merit, share }: Memories,
  taken: number,
  ordinaryWeeks: number,
  dispersion: number,
): void {
  let best = Number.NEGATIVE_INFINITY;
  for (let reading = 0; reading < readings; reading += 1) {
    const weeks = at(evidence, reading);
    const mean = (at(shape, reading) / weeks) * ordinaryWeeks;
    const spread = dispersion * (1 + ordinaryWeeks / weeks);
    const gained = at(merit, reading) + likelihoodWeight * logLikelihood(taken, mean, spread);
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

type Readings = Pick<RateBelief, 'readings' | 'perWeek' | 'suspectedChange'>;

function beliefOf(
  memories: Memories,
  blockDispersion: number,
  seen: number,
  recent: readonly CountedWeek[],
): Readings {
  const change = suspectedChange(recent);
  const lasting = readingsAtStart.map(
    ({ discount }, reading): RateReading => ({
      discount,
      share: at(memories.share, reading) * (1 - (change?.share ?? 0)),
      perWeek: at(memories.shape, reading) / at(memories.evidence, reading),
      weeksOfEvidence: at(memories.evidence, reading),
    }),
  );
  const all: readonly RateReading[] = change
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
  const readingsAhead = withRise(all, blockDispersion, seen);
  return {
    readings: readingsAhead,
    perWeek: meanRate(readingsAhead),
    suspectedChange: change,
  };
}

const meanRate = (all: readonly RateReading[]): number =>
  all.reduce((sum, reading) => sum + reading.share * reading.perWeek, 0);

/** The readings, and beside them one of an appetite that grows from here on (`riseAhead`). */
function withRise(
  all: readonly RateReading[],
  blockDispersion: number,
  seen: number,
): readonly RateReading[] {
  const grown = Math.min(1, seen / riseAhead.weeksToExpectIt);
  if (grown === 0) return all;
  const share = riseAhead.share * grown;
  const size = Math.min(1, blockDispersion);
  const factor = 1 + (riseAhead.factor - 1) * size;
  const meanFactor = 1 + (riseAhead.meanFactor - 1) * size * grown;
  const others = (meanFactor - share * factor) / (1 - share);
  return [
    ...all.map((reading) => ({
      ...reading,
      share: reading.share * (1 - share),
      perWeek: reading.perWeek * others,
    })),
    {
      discount: undefined,
      share,
      perWeek: meanRate(all) * factor,
      weeksOfEvidence: 1 / all.reduce((sum, reading) => sum + reading.share / reading.weeksOfEvidence, 0),
    },
  ];
}

const at = (values: Float64Array, place: number): number => values[place] ?? Number.NaN;

/** The weeks as vectors, oldest first: the loop over them runs for every item whenever anything is recorded. */
interface WeekVectors {
  readonly taken: Float64Array;
  readonly ordinaryWeeks: Float64Array;
  /** Number of the shelf count a week was read off, or `noInterval`. */
  readonly interval: Int32Array;
  readonly isOrdinary: Uint8Array;
}

const noInterval = -1;

function vectorsOf(weeks: readonly ObservedWeek[]): WeekVectors {
  const taken = new Float64Array(weeks.length);
  const ordinaryWeeks = new Float64Array(weeks.length);
  const interval = new Int32Array(weeks.length);
  const isOrdinary = new Uint8Array(weeks.length);
  for (let place = 0; place < weeks.length; place += 1) {
    const week = weeks[place];
    if (!week) continue;
    taken[place] = week.taken;
    ordinaryWeeks[place] = week.ordinaryWeeks;
    interval[place] = week.countInterval ?? noInterval;
    isOrdinary[place] = week.isOrdinary ? 1 : 0;
  }
  return { taken, ordinaryWeeks, interval, isOrdinary };
}

/** Weeks observed together: one week, or the run of weeks read off one shelf count. */
interface Block {
  readonly start: number;
  readonly end: number;
  readonly taken: number;
  readonly ordinaryWeeks: number;
  /** One week that somebody called ordinary. */
  readonly isOrdinary: boolean;
}

function blockFrom({ taken, ordinaryWeeks, interval, isOrdinary }: WeekVectors, start: number): Block {
  const shared = interval[start] ?? noInterval;
  let end = start + 1;
  let units = at(taken, start);
  let worth = at(ordinaryWeeks, start);
  for (; shared !== noInterval && interval[end] === shared; end += 1) {
    units += at(taken, end);
    worth += at(ordinaryWeeks, end);
  }
  return { start, end, taken: units, ordinaryWeeks: worth, isOrdinary: isOrdinary[start] === 1 };
}
