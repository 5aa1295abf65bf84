import { negativeBinomial } from '../../src/consumption/count-distribution.ts';
import type { PredictedUse } from '../../src/shelf/shelf-projection.ts';

/** A small generator of our own (mulberry32), so that tests draw from another stream than the code under test. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

const exponential = (random: () => number): number => -Math.log(1 - random());

/** Counts arrivals one after the other; slow and plain on purpose. */
export function poissonDraw(mean: number, random: () => number): number {
  let count = 0;
  for (let clock = exponential(random); clock <= mean; clock += exponential(random)) count += 1;
  return count;
}

export interface EatingHabit {
  readonly perWeek: number;
  /** Takings the habit was learnt from (a whole number): the fewer, the less sure the rate. */
  readonly takings: number;
  readonly weeks: number;
  /** Multiplier by week; 1 when left out. */
  readonly season?: readonly number[];
}

/**
 * Poisson takings at a rate that is gamma-distributed (shape `takings`, mean `perWeek`): the total over weeks that are
 * worth H ordinary weeks is negative binomial with mean H·rate and variance/mean 1 + H·rate/takings.
 */
export function eats({ perWeek, takings, weeks, season }: EatingHabit): PredictedUse {
  const worth = Array.from({ length: weeks }, (_, week) => season?.[week] ?? 1);
  return {
    weeklyMean: worth.map((share) => perWeek * share),
    totalOver: (count, first = 0) => {
      const ordinary = worth.slice(first, first + count).reduce((sum, share) => sum + share, 0);
      const mean = perWeek * ordinary;
      return negativeBinomial(mean, 1 + mean / takings);
    },
    beginCourse: (random) => {
      let shape = 0;
      for (let taking = 0; taking < takings; taking += 1) shape += exponential(random);
      const rate = (perWeek * shape) / takings;
      let drawn = 0;
      return (wanted, random) => {
        for (let week = 0; week < wanted.length; week += 1, drawn += 1)
          wanted[week] = poissonDraw(rate * (worth[drawn] ?? 0), random);
      };
    },
  };
}
