import { describe, expect, it } from 'vitest';
import { asDate } from '../../shared/week.ts';
import { countWithSpread, poisson } from '../../src/consumption/count-distribution.ts';
import { reserveFor } from '../../src/consumption/reserve.ts';
import { type DeclaredUse, forecastUse } from '../../src/consumption/use-forecast.ts';
import { allYear } from '../../src/consumption/use-pattern.ts';
import { expectedUneaten, type TargetWishes, yearlyTarget } from '../../src/consumption/yearly-target.ts';

const asOf = asDate('2026-01-05');
const declared: DeclaredUse = { perWeek: 1, weight: 6, pattern: allYear, occasions: [] };
const forecast = forecastUse([], declared, asOf, 52);
const wishes = (changes: Partial<TargetWishes> = {}): TargetWishes => ({
  dated: [],
  chanceOfLasting: 0.9,
  longestGapWeeks: 40,
  crop: null,
  keepsWeeks: 52,
  discardAfterWeeks: null,
  byHand: null,
  ...changes,
});

describe('what a target is made of', () => {
  const dated = [
    { on: asDate('2026-12-24'), units: 4, name: 'Feast', kind: 'occasion' as const },
    { on: asDate('2026-06-01'), units: 6, name: 'Presents', kind: 'gift' as const },
    { on: asDate('2026-02-01'), units: 2, name: 'Neighbour', kind: 'promised' as const },
    { on: asDate('2027-01-05'), units: 99, name: 'Next year', kind: 'gift' as const },
  ];
  const crop = { poorYearChance: 0.25, poorYearShare: 0.4, fallBack: 'do-without' as const };
  const target = yearlyTarget(forecast, wishes({ dated, crop }));

  it('is use, dated units and reserve, each on its own', () => {
    expect(target.parts).toMatchObject({ use: expect.closeTo(52, 9), occasions: 4, gifts: 6, promised: 2 });
    expect(target.parts.hungryYear).toBeCloseTo(forecast.totalOver(40).quantile(0.9) - 40, 9);
    expect(target.parts.failedCrop).toBeCloseTo(0.25 * 0.6 * 52, 9);
    const sum = Object.values(target.parts).reduce((total, part) => total + part, 0);
    expect(target.fromForecast).toBeCloseTo(sum, 9);
    expect(target.units).toBe(Math.ceil(sum));
  });

  it.each([
    ['buy' as const, 0],
    ['substitute' as const, 0.5],
    ['do-without' as const, 1],
  ])('keeps for a failed crop what "%s" leaves open', (fallBack, open) => {
    const reserve = reserveFor(forecast, 40, 0.9, { ...crop, fallBack }, 52);
    expect(reserve.failedCrop).toBeCloseTo(0.25 * 0.6 * 52 * open, 9);
  });

  it.each([
    ['is at its best for a year only: its share of the chance', 52, 0.4, 0.25 * 0.6 * 52],
    ['is at its best for 14 months: not long enough for more', 60, 0.4, 0.25 * 0.6 * 52],
    ['keeps for years and may fail by half or more: 18 months', 104, 0.4, 26],
    ['keeps for five years and seldom fails by much: 15 months', 260, 0.9, 13],
    ['is at its best for 17 months: no longer than that', 73, 0.4, 21],
  ])('puts up in a good year, of what %s', (_, keepsWeeks, poorYearShare, weeks) => {
    const reserve = reserveFor(forecast, 40, 0.9, { ...crop, poorYearShare }, keepsWeeks);
    expect(reserve.failedCrop).toBeCloseTo(weeks, 9);
  });

  it('puts up nothing for a crop that never fails, however long it keeps', () => {
    expect(reserveFor(forecast, 40, 0.9, { ...crop, poorYearChance: 0 }, 260).failedCrop).toBe(0);
  });

  it('grows with the chance wished and with the gap', () => {
    const hungry = (chance: number, gap: number): number =>
      reserveFor(forecast, gap, chance, null, 52).hungryYear;
    expect(hungry(0.95, 40)).toBeGreaterThan(hungry(0.8, 40));
    expect(hungry(0.9, 40)).toBeGreaterThan(hungry(0.9, 10));
    expect(hungry(0.9, 0)).toBe(0);
  });

  it('says what nobody would have eaten before it is thrown away, and takes none of it off', () => {
    const never = yearlyTarget(forecast, wishes());
    const kept = yearlyTarget(forecast, wishes({ discardAfterWeeks: 78 }));
    const soon = yearlyTarget(forecast, wishes({ discardAfterWeeks: 53 }));

    expect(never.expectedWaste).toBe(0);
    expect(kept.expectedWaste).toBeGreaterThan(0);
    expect(soon.expectedWaste).toBeGreaterThan(kept.expectedWaste);
    expect([kept.fromForecast, soon.fromForecast]).toEqual([never.fromForecast, never.fromForecast]);
  });

  it('puts nothing up for a second year that the household throws away after one', () => {
    const keepsForYears = { keepsWeeks: 260, crop: { ...crop, poorYearShare: 0.4 } };
    const kept = yearlyTarget(forecast, wishes({ ...keepsForYears, discardAfterWeeks: 260 }));
    const thrown = yearlyTarget(forecast, wishes({ ...keepsForYears, discardAfterWeeks: 52 }));

    expect(kept.parts.failedCrop).toBeCloseTo(26, 9);
    expect(thrown.parts.failedCrop).toBeCloseTo(0.25 * 0.6 * 52, 9);
  });

  it('counts uneaten units as the sum over all courses does', () => {
    const eaten = forecast.totalOver(52);
    let left = 0;
    for (let units = 0; units < 60; units += 1) {
      left += (60 - units) * (eaten.atMost(units) - eaten.atMost(units - 1));
    }
    expect(expectedUneaten(forecast, 60, 52)).toBeCloseTo(left, 8);
  });

  it('needs a year of forecast', () => {
    expect(() => yearlyTarget(forecastUse([], declared, asOf, 51), wishes())).toThrow('at least 52 weeks');
  });
});

describe('a target set by hand', () => {
  const target = yearlyTarget(forecast, wishes({ byHand: 40 }));

  it('wins, and is held against the forecast', () => {
    expect(target.units).toBe(40);
    expect(target.byHand?.difference).toBeCloseTo(40 - target.fromForecast, 9);
    expect(target.byHand?.chanceOfCovering).toBeCloseTo(forecast.totalOver(52).atMost(40), 9);
    expect(target.byHand?.chanceOfCovering).toBeLessThan(0.5);
  });
});

// Safety stock and reorder points for normal lead-time demand: inputs from question pages (brainmass.com 491166 and 316523), answers
// computed. Our reserve is the same thing (quantile minus mean) for counts; a skewed count needs sd · skewness · (z² - 1) / 6 more, the first
// term of Cornish and Fisher (1938, from memory), and whole units up to one more.
describe('the reserve against textbook safety stock', () => {
  it.each([
    { mean: 87, sd: 5.7 * Math.sqrt(3), z: 1.6448536, level: 0.95, safety: 16.239129301495197 },
    { mean: 400, sd: 125, z: 0.8416212, level: 0.8, safety: 105.203 },
    { mean: 400, sd: 125, z: 1.2815516, level: 0.9, safety: 160.194 },
    { mean: 400, sd: 125, z: 1.6448536, level: 0.95, safety: 205.607 },
    { mean: 400, sd: 125, z: 2.3263479, level: 0.99, safety: 290.793 },
  ])('mean $mean, sd $sd at $level', ({ mean, sd, z, level, safety }) => {
    const spread = (sd * sd) / mean;
    const demand = countWithSpread(mean, spread);
    const skewness = (2 * spread - 1) / (Math.sqrt(spread) * Math.sqrt(mean));
    const skewed = safety + (sd * skewness * (z * z - 1)) / 6;

    expect(z * sd).toBeCloseTo(safety, 2);
    expect(Math.abs(demand.quantile(level) - mean - skewed)).toBeLessThan(1 + 0.03 * safety);
  });

  it('covers demand of 87 with 20 more about as often as the normal answer says', () => {
    const demand = countWithSpread(87, (3 * 5.7 ** 2) / 87);
    expect(Math.abs(demand.atMost(107) - 0.9786068668751345)).toBeLessThan(0.01);
  });

  it('is quantile minus mean: 22 - 16.9 for Poisson use at 9 in 10', () => {
    expect(poisson(16.9).quantile(0.9) - 16.9).toBeCloseTo(5.1, 12);
  });
});
