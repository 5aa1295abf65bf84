import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asDate } from '../../shared/week.ts';
import { exactly, poisson } from '../../src/consumption/count-distribution.ts';
import { notWorthABatch } from '../../src/consumption/reserve.ts';
import { forecastUse } from '../../src/consumption/use-forecast.ts';
import { allYear } from '../../src/consumption/use-pattern.ts';
import { yearlyTarget } from '../../src/consumption/yearly-target.ts';

import { poissonDraw, seeded } from '../shelf/households-use.ts';

/** Share of the units of one more batch that are eaten, on average over many gaps, by drawing them. */
function eatenOfABatch(mean: number, standing: number, batch: number): number {
  const random = seeded(20_261_129);
  const gaps = 40_000;
  let eaten = 0;
  for (let gap = 0; gap < gaps; gap += 1)
    eaten += Math.min(batch, Math.max(0, poissonDraw(mean, random) - standing));
  return eaten / gaps / batch;
}

describe('what of a reserve is not worth a batch', () => {
  it.each([
    { mean: 16.9, chance: 0.9, batch: 7, wanted: 22 },
    { mean: 8, chance: 0.8, batch: 6, wanted: 10 },
    { mean: 30, chance: 0.75, batch: 9, wanted: 34 },
    { mean: 52, chance: 0.95, batch: 14, wanted: 64 },
  ])(
    'a batch of $batch is made where more of it is eaten than the wish bears, of $mean a gap and $chance',
    ({ mean, chance, batch, wanted }) => {
      expect(poisson(mean).quantile(chance)).toBe(wanted);
      const lacking = notWorthABatch(poisson(mean), chance, batch);
      const sampling = 0.004;
      expect(eatenOfABatch(mean, wanted - Math.ceil(lacking), batch)).toBeLessThanOrEqual(
        1 - chance + sampling,
      );
      const isAllLetGo = lacking > wanted - mean - 1;
      if (!isAllLetGo)
        expect(eatenOfABatch(mean, wanted - lacking - 1, batch)).toBeGreaterThan(1 - chance - sampling);
    },
  );

  it('of 22 wanted where 16.9 are eaten, a batch of seven is made for three lacking and not for two', () => {
    expect(notWorthABatch(poisson(16.9), 0.9, 7)).toBe(2);
  });

  it('is nothing where units come one by one, or where what is eaten is sure', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 120, noNaN: true }),
        fc.integer({ min: 10, max: 19 }),
        (mean, years) => {
          expect(notWorthABatch(poisson(mean), years / 20, 1)).toBe(0);
        },
      ),
    );
    expect(notWorthABatch(exactly(12), 0.9, 7)).toBe(0);
  });

  it('is never more than the reserve, and the more the larger the batch is', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 120, noNaN: true }),
        fc.integer({ min: 10, max: 19 }),
        fc.integer({ min: 1, max: 20 }),
        (mean, years, batch) => {
          const use = poisson(mean);
          const lacking = notWorthABatch(use, years / 20, batch);
          expect(lacking).toBeLessThanOrEqual(Math.max(0, use.quantile(years / 20) - mean));
          expect(notWorthABatch(use, years / 20, batch + 1)).toBeGreaterThanOrEqual(lacking);
        },
      ),
    );
  });

  it('leaves the yearly target as it is: the wish is told whole, and what is let go beside it', () => {
    const said = { perWeek: 0.4, weight: 6, pattern: allYear, occasions: [] };
    const forecast = forecastUse([], said, asDate('2026-01-05'), 52);
    const wishes = {
      dated: [],
      chanceOfLasting: 0.8,
      longestGapWeeks: 40,
      crop: null,
      keepsWeeks: 52,
      discardAfterWeeks: null,
      byHand: null,
    };
    const bought = yearlyTarget(forecast, wishes);
    const made = yearlyTarget(forecast, { ...wishes, batchUnits: 7 });
    expect(bought.notWorthABatch).toBe(0);
    expect(made.notWorthABatch).toBeGreaterThan(0);
    expect(made.notWorthABatch).toBeLessThanOrEqual(made.parts.hungryYear);
    expect({ ...made, notWorthABatch: 0 }).toEqual(bought);
  });
});
