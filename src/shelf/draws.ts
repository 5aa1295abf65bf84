/** Numbers in 0..1, 1 excluded, from a seeded generator. */
export type Random = () => number;

/** Counts with a larger mean are drawn in parts, so that the probability of none never underflows. */
const largestMeanAtOnce = 30;

/**
 * A count with this mean and variance divided by mean ("spread"): negative binomial above 1, Poisson at 1, binomial below,
 * by inversion: the first count whose cumulative probability passes a uniform number.
 *
 * Below 1 the number of trials is drawn too, from the two whole numbers around mean / (1 - spread), so that the variance is
 * met and many weeks add up right; a mean below 1 - spread is a coin, the steadiest that whole units can be.
 */
export function drawCount(mean: number, spread: number, random: Random): number {
  if (mean <= 0) return 0;
  if (mean > largestMeanAtOnce) {
    const parts = Math.ceil(mean / largestMeanAtOnce);
    let total = 0;
    for (let part = 0; part < parts; part += 1) total += drawCount(mean / parts, spread, random);
    return total;
  }
  if (spread > 1 + 1e-9) {
    const further = 1 - 1 / spread;
    const size = mean / (spread - 1);
    return inverted(Math.exp(-size * Math.log(spread)), further, size * further, random);
  }
  if (spread > 1 - 1e-9) return inverted(Math.exp(-mean), 0, mean, random);
  const trials = drawTrials(mean, spread, random);
  const chance = mean / trials;
  if (chance >= 1) return trials;
  const odds = chance / (1 - chance);
  return inverted((1 - chance) ** trials, -odds, trials * odds, random);
}

/** How lumpy weeks are apart, and four of them together: variance divided by mean. */
interface Dispersions {
  readonly dispersion: number;
  readonly blockDispersion: number;
}

/**
 * Counts of the weeks of one block that are steadier together than apart: the block's total is drawn with its own spread and dealt out
 * over the weeks so that each week keeps its own (as if four weeks made the block). `weights`: ordinary weeks by week, 0 or more.
 * They are written into `dealt`, whatever it held, for whoever draws thousands of blocks and needs each only once.
 *
 * Dealing is by an urn (Eggenberger and Polya 1923, from memory): each unit falls into a week in proportion to its weight and, the lumpier weeks are, to
 * the units already there. Where weeks are steadier than units dealt at random, some blocks are dealt out evenly instead.
 */
export function drawApart(
  perWeek: number,
  weights: readonly number[],
  { dispersion, blockDispersion }: Dispersions,
  random: Random,
  dealt: number[] = [],
): number[] {
  let weight = 0;
  for (let week = 0; week < weights.length; week += 1) {
    dealt[week] = 0;
    weight += weights[week] ?? 0;
  }
  if (dealt.length > weights.length) dealt.length = weights.length;
  const mean = perWeek * weight;
  const total = drawCount(mean, blockDispersion, random);
  if (total === 0) return dealt;
  // Variance of a week with share p: p²·variance of the total + p(1-p)·dealing; dealing is `mean` when units fall at random.
  const dealing = (4 / 3) * mean * (dispersion - blockDispersion / 4);
  if (dealing < mean && random() > dealing / mean) return dealEvenly(total, weights, weight, random, dealt);
  const secondMoment = mean * blockDispersion + mean * mean;
  const balls = dealing > mean ? Math.max(1e-3, (secondMoment - dealing) / (dealing - mean)) : 1e9;
  for (let unit = 0; unit < total; unit += 1) {
    let left = random() * (balls + unit);
    let week = 0;
    for (; week < weights.length - 1; week += 1) {
      left -= (balls * (weights[week] ?? 0)) / weight + (dealt[week] ?? 0);
      if (left < 0) break;
    }
    dealt[week] = (dealt[week] ?? 0) + 1;
  }
  return dealt;
}

/** Every week its share of the units, to the next whole one, from a random start. */
function dealEvenly(
  total: number,
  weights: readonly number[],
  weight: number,
  random: Random,
  dealt: number[],
): number[] {
  let reached = random();
  weights.forEach((share, week) => {
    const before = Math.floor(reached);
    reached += (total * share) / weight;
    dealt[week] = Math.floor(reached + 1e-12) - before;
  });
  return dealt;
}

function drawTrials(mean: number, spread: number, random: Random): number {
  const wanted = mean / (1 - spread);
  const fewer = Math.floor(wanted + 1e-9);
  if (fewer < 1 || fewer < mean) return Math.max(1, Math.ceil(wanted - 1e-9));
  // Weights such that the mean of 1/trials is 1/wanted, because the variance is mean · (1 - mean/trials).
  return random() < fewer * (fewer + 1) * (1 / wanted) - fewer ? fewer : fewer + 1;
}

/**
 * All three counts have neighbours in the ratio P(k+1) / P(k) = (slope · k + start) / (k + 1): Panjer, H. H. (1981), Recursive
 * evaluation of a family of compound distributions, ASTIN Bulletin 12(1), 22-26 (from memory), so one loop draws them all.
 */
function inverted(none: number, slope: number, start: number, random: Random): number {
  let left = random() - none;
  let count = 0;
  // A term too small to move the sum ends the search: what is left then is rounding.
  for (let term = none; left >= 0 && term > 1e-18; count += 1) {
    term *= (slope * count + start) / (count + 1);
    left -= term;
  }
  return count;
}

/**
 * Gamma-distributed number with this shape (above 0) and scale 1. Marsaglia, G., Tsang, W. W. (2000), A simple method for
 * generating gamma variables, ACM Transactions on Mathematical Software 26(3), 363-372; shapes below 1 by the boost of its
 * section 6. Formulas from memory; moments and quantiles are tested.
 */
export function drawGamma(shape: number, random: Random): number {
  if (shape < 1) return drawGamma(shape + 1, random) * (1 - random()) ** (1 / shape);
  const third = shape - 1 / 3;
  const scale = 1 / Math.sqrt(9 * third);
  for (;;) {
    const normal = drawNormal(random);
    const cube = (1 + scale * normal) ** 3;
    if (cube > 0 && Math.log(1 - random()) < 0.5 * normal ** 2 + third * (1 - cube + Math.log(cube))) {
      return third * cube;
    }
  }
}

/** Standard normal number by the method of Box and Muller (1958). */
export const drawNormal = (random: Random): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
