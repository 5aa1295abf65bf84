import { gammaln } from 'simple-statistics';

/** Up to this count the product of a few terms is quicker than the logarithm of the gamma function, and as exact. */
const smallCount = 24;

/**
 * Natural logarithm of the negative binomial probability of `count`, by mean and variance divided by mean ("spread"),
 * https://en.wikipedia.org/wiki/Negative_binomial_distribution. A fractional count (part of a usual jar) uses the same formula
 * with the gamma function, as the gamma-Poisson update does. A spread of 1 or less is Poisson.
 *
 * `ln P = lnΓ(k+r) - lnΓ(r) - lnΓ(k+1) + r ln p + k ln(1-p)`, `p = 1/spread`, `r = mean/(spread-1)`; logarithms because the
 * factorials overflow from 171 on. Mean 0 gives 0 for a count of 0 and -Infinity otherwise.
 */
export function logLikelihood(count: number, mean: number, spread: number): number {
  if (mean <= 0) return count === 0 ? 0 : Number.NEGATIVE_INFINITY;
  if (spread <= 1 + 1e-6) return count * Math.log(mean) - mean - gammaln(count + 1);
  const size = mean / (spread - 1);
  const further = 1 - 1 / spread;
  return logTerms(count, size, further) - size * Math.log(spread);
}

/** `ln(Γ(k+r) / (Γ(r) Γ(k+1))) + k ln(further)`. */
function logTerms(count: number, size: number, further: number): number {
  if (count <= smallCount && Number.isInteger(count)) {
    let product = 1;
    for (let step = 0; step < count; step += 1) product *= ((size + step) / (step + 1)) * further;
    return Math.log(product);
  }
  return gammaln(count + size) - gammaln(size) - gammaln(count + 1) + count * Math.log(further);
}
