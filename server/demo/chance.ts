import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Seeded luck of one strand of the story; strands with different names do not disturb each other. */
export interface Chance {
  /** True in `probability` of all askings, 0 to 1. */
  readonly happens: (probability: number) => boolean;
  /** A whole number from `low` to `high`, both included. */
  readonly between: (low: number, high: number) => number;
  /** A Poisson count with this mean (D. Knuth, The Art of Computer Programming 2, 3.4.1; fit for small means). */
  readonly count: (mean: number) => number;
}

export const chanceOf = (seed: number, strand: string): Chance => {
  const generator = xoroshiro128plus(seed ^ hashOf(strand));
  const uniform = (): number => uniformFloat64(generator);
  return {
    happens: (probability) => uniform() < probability,
    between: (low, high) => low + Math.floor(uniform() * (high - low + 1)),
    count: (mean) => {
      const limit = Math.exp(-mean);
      let arrivals = 0;
      for (let product = uniform(); product > limit; product *= uniform()) arrivals += 1;
      return arrivals;
    },
  };
};

/** FNV-1a over the letters, 32 bits. */
const hashOf = (text: string): number => {
  let hash = 0x811c9dc5;
  for (const letter of text) hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 0x01000193);
  return hash;
};
