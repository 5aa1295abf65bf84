/**
 * A distribution of units: how many are taken in a week, or in all over several weeks. Units are usually whole; a dated
 * occasion may shift them by a fraction (half a usual jar).
 */
export interface CountDistribution {
  readonly mean: number;
  readonly variance: number;
  /** Probability that at most this many units are taken. */
  atMost(units: number): number;
  /**
   * The fewest units `k` with `atMost(k) >= level`, `level` in 0..1 (a tie within 1e-9 counts as reached).
   * Level 1 gives the last value that has any probability worth computing (1e-18 of the most likely one).
   */
  quantile(level: number): number;
}

/** Levels that agree to this many parts count as equal, so that a cumulative sum of exactly 2/3 reaches 2/3. */
export const levelTolerance = 1e-9;

/** A value this much rarer than the most likely one is left out. */
const negligible = 1e-18;

/**
 * Cumulative table built outwards from the most likely count by the ratio of neighbours, then divided by its sum. Nothing
 * overflows or underflows, whatever the mean: the largest term is 1 and no factorial or power is ever formed.
 */
class TabulatedCount implements CountDistribution {
  readonly mean: number;
  readonly variance: number;
  readonly #first: number;
  readonly #cumulative: Float64Array;

  private constructor(mean: number, variance: number, first: number, cumulative: Float64Array) {
    this.mean = mean;
    this.variance = variance;
    this.#first = first;
    this.#cumulative = cumulative;
  }

  static around(
    mean: number,
    variance: number,
    mode: number,
    ratioAbove: (count: number) => number,
  ): TabulatedCount {
    const below: number[] = [];
    for (let count = mode, term = 1; count > 0; count -= 1) {
      term /= ratioAbove(count - 1);
      if (term < negligible) break;
      below.push(term);
    }
    const above: number[] = [1];
    for (let count = mode, term = 1; ; count += 1) {
      term *= ratioAbove(count);
      if (!(term >= negligible)) break;
      above.push(term);
    }
    const cumulative = new Float64Array(below.length + above.length);
    let running = 0;
    for (let place = 0; place < cumulative.length; place += 1) {
      const fromMode = place - below.length;
      running += (fromMode < 0 ? below[-fromMode - 1] : above[fromMode]) ?? 0;
      cumulative[place] = running;
    }
    for (let place = 0; place < cumulative.length; place += 1) {
      cumulative[place] = (cumulative[place] ?? 0) / running;
    }
    return new TabulatedCount(mean, variance, mode - below.length, cumulative);
  }

  /** Two counts of one mean, the first right with the probability of its weight. */
  static either(first: TabulatedCount, second: TabulatedCount, weight: number): TabulatedCount {
    const from = Math.min(first.#first, second.#first);
    const until = Math.max(
      first.#first + first.#cumulative.length,
      second.#first + second.#cumulative.length,
    );
    const cumulative = Float64Array.from(
      { length: until - from },
      (_, place) => weight * first.atMost(from + place) + (1 - weight) * second.atMost(from + place),
    );
    const variance = weight * first.variance + (1 - weight) * second.variance;
    return new TabulatedCount(first.mean, variance, from, cumulative);
  }

  atMost(units: number): number {
    const place = Math.floor(units) - this.#first;
    if (place < 0) return 0;
    return place >= this.#cumulative.length ? 1 : (this.#cumulative[place] ?? 1);
  }

  quantile(level: number): number {
    let low = 0;
    let high = this.#cumulative.length - 1;
    if (level >= 1) return this.#first + high;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((this.#cumulative[middle] ?? 1) >= level - levelTolerance) high = middle;
      else low = middle + 1;
    }
    return this.#first + low;
  }
}

/** Exactly this many units, without doubt. */
export const exactly = (units: number): CountDistribution => ({
  mean: units,
  variance: 0,
  atMost: (asked) => (asked >= units - levelTolerance ? 1 : 0),
  quantile: () => units,
});

/**
 * Poisson distribution of a count, https://en.wikipedia.org/wiki/Poisson_distribution.
 *
 * `mean`: units, 0 or more; a mean of 0 is exactly none.
 * Example: mean 5, the fewest that cover 80 % is 7 (F(7) = 0.866628).
 */
export const poisson = (mean: number): CountDistribution => {
  requireCount('poisson', 'mean', mean);
  if (mean === 0) return exactly(0);
  return TabulatedCount.around(mean, mean, Math.floor(mean), (count) => mean / (count + 1));
};

/**
 * Negative binomial distribution by its mean and its variance divided by the mean ("spread"), the Poisson distribution
 * with a gamma-distributed rate, https://en.wikipedia.org/wiki/Negative_binomial_distribution.
 *
 * `P(k+1) = P(k) · (k+r)/(k+1) · (1-p)` with `p = 1/spread`, `r = mean/(spread-1)`.
 * A spread of 1 (within 1e-9) or less is Poisson.
 */
export const negativeBinomial = (mean: number, spread: number): CountDistribution => {
  requireCount('negativeBinomial', 'mean', mean);
  requireCount('negativeBinomial', 'spread', spread);
  if (mean === 0 || spread <= 1 + 1e-9) return poisson(mean);
  const size = mean / (spread - 1);
  const further = 1 - 1 / spread;
  const mode = size > 1 ? Math.floor((size - 1) * (spread - 1)) : 0;
  return TabulatedCount.around(
    mean,
    mean * spread,
    mode,
    (count) => ((count + size) / (count + 1)) * further,
  );
};

/**
 * A count steadier than Poisson: binomial distributions with this mean and the two whole numbers of trials around `mean / (1 - spread)`,
 * mixed so that the variance is `mean · spread`, https://en.wikipedia.org/wiki/Binomial_distribution.
 *
 * The mean is exact; so is the variance, unless whole units cannot be that steady: fewer trials than the mean there are not,
 * and a small mean is at its steadiest a coin (0 or 1).
 */
export const steadyCount = (mean: number, spread: number): CountDistribution => {
  requireCount('steadyCount', 'mean', mean);
  requireCount('steadyCount', 'spread', spread);
  if (mean === 0 || spread >= 1 - 1e-9) return poisson(mean);
  const wanted = mean / (1 - spread);
  const fewer = Math.floor(wanted + 1e-9);
  if (fewer < 1 || fewer <= mean) {
    const trials = Math.max(1, Math.ceil(wanted - 1e-9));
    return trials <= mean ? exactly(trials) : binomial(mean, trials);
  }
  // Weights such that the mean of 1/trials is 1/wanted, because the variance is mean · (1 - mean/trials).
  const weight = Math.min(1, Math.max(0, (fewer * (fewer + 1)) / wanted - fewer));
  return weight > 1 - 1e-9
    ? binomial(mean, fewer)
    : TabulatedCount.either(binomial(mean, fewer), binomial(mean, fewer + 1), weight);
};

const binomial = (mean: number, trials: number): TabulatedCount => {
  const chance = mean / trials;
  const odds = chance / (1 - chance);
  const mode = Math.min(trials, Math.floor((trials + 1) * chance));
  return TabulatedCount.around(
    mean,
    mean * (1 - chance),
    mode,
    (count) => ((trials - count) / (count + 1)) * odds,
  );
};

/** The count with this mean and variance divided by mean: binomial below 1, Poisson at 1, negative binomial above. */
export const countWithSpread = (mean: number, spread: number): CountDistribution =>
  spread < 1 ? steadyCount(mean, spread) : negativeBinomial(mean, spread);

/** The same count with `units` that are certain added to it. */
export const plusCertain = (count: CountDistribution, units: number): CountDistribution =>
  units === 0
    ? count
    : {
        mean: count.mean + units,
        variance: count.variance,
        // The tolerance keeps 0.3 - 0.1 - 0.2 from falling a whole unit short.
        atMost: (asked) => count.atMost(asked - units + levelTolerance),
        quantile: (level) => count.quantile(level) + units,
      };

function requireCount(where: string, what: string, value: number): void {
  if (!Number.isFinite(value) || value < 0) {
    throw new RangeError(`${where}: ${what} must be a finite number, 0 or more, got ${value}`);
  }
}
