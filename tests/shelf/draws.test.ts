import { describe, expect, test } from 'vitest';
import { drawApart, drawCount, drawGamma, drawNormal } from '../../src/shelf/draws.ts';
import { seeded } from './households-use.ts';

const draws = 40_000;
const meanOf = (sample: readonly number[]): number =>
  sample.reduce((sum, one) => sum + one, 0) / sample.length;
const varianceOf = (sample: readonly number[]): number => {
  const mean = meanOf(sample);
  return meanOf(sample.map((one) => (one - mean) ** 2));
};

describe('units of four weeks that are drawn together and dealt out', () => {
  // Worked by hand: with total variance b·4m and dealing (4/3)·4m·(d - b/4), a week's variance is d·m, whatever b is.
  test.each([
    { perWeek: 2, dispersion: 1, blockDispersion: 0.5 },
    { perWeek: 2, dispersion: 0.6, blockDispersion: 0.4 },
    { perWeek: 3, dispersion: 2.5, blockDispersion: 1 },
    { perWeek: 1, dispersion: 1.6, blockDispersion: 0.5 },
    { perWeek: 4, dispersion: 4, blockDispersion: 0.7 },
  ])(
    'vary as a week does, and together as four weeks do: $perWeek a week, $dispersion and $blockDispersion',
    ({ perWeek, dispersion, blockDispersion }) => {
      const random = seeded(41);
      const blocks = Array.from({ length: draws }, () =>
        drawApart(perWeek, [1, 1, 1, 1], { dispersion, blockDispersion }, random),
      );
      for (const week of [0, 1, 2, 3]) {
        const units = blocks.map((block) => block[week] ?? Number.NaN);
        expect(meanOf(units) / perWeek).toBeCloseTo(1, 1);
        expect(Math.abs(varianceOf(units) / (perWeek * dispersion) - 1)).toBeLessThan(0.06);
      }
      const totals = blocks.map((block) => block.reduce((sum, one) => sum + one, 0));
      expect(Math.abs(varianceOf(totals) / (4 * perWeek * blockDispersion) - 1)).toBeLessThan(0.06);
    },
  );

  test.each([
    { dispersion: 0.5, blockDispersion: 0.4 },
    { dispersion: 1.5, blockDispersion: 0.6 },
  ])('fall into weeks by their weight, none into a week away: $dispersion', (dispersions) => {
    const random = seeded(7);
    const weights = [1, 0, 0.5, 1];
    const blocks = Array.from({ length: draws }, () => drawApart(3, weights, dispersions, random));
    weights.forEach((weight, week) => {
      const units = blocks.map((block) => block[week] ?? Number.NaN);
      if (weight === 0) expect(Math.max(...units)).toBe(0);
      else expect(meanOf(units) / (3 * weight)).toBeCloseTo(1, 1);
    });
  });

  test('are whole units, and none while nothing is eaten', () => {
    const random = seeded(5);
    for (let block = 0; block < 500; block += 1)
      for (const units of drawApart(2, [1, 1, 0.4, 1], { dispersion: 0.7, blockDispersion: 0.5 }, random))
        expect(Number.isInteger(units) && units >= 0).toBe(true);
    expect(drawApart(0, [1, 1, 1, 1], { dispersion: 1, blockDispersion: 0.5 }, random)).toEqual([0, 0, 0, 0]);
    expect(drawApart(2, [0, 0, 0, 0], { dispersion: 1, blockDispersion: 0.5 }, random)).toEqual([0, 0, 0, 0]);
  });
});

describe('a drawn count', () => {
  test.each([
    [5, 0.4],
    [0.9, 0.7],
    [0.25, 0.8],
    [20, 0.9],
    [45, 0.5],
    [100, 3],
  ])('has the mean %d and that mean times %d for its variance', (mean, spread) => {
    const random = seeded(23);
    const sample = Array.from({ length: draws }, () => drawCount(mean, spread, random));
    expect(Math.abs(meanOf(sample) / mean - 1)).toBeLessThan(0.03);
    expect(Math.abs(varianceOf(sample) / (mean * spread) - 1)).toBeLessThan(0.05);
  });

  // A mean below 1 - spread cannot be that steady in whole units: then it is a coin, 0 or 1.
  test('of less than a unit that should hardly vary is a coin', () => {
    const random = seeded(3);
    const sample = Array.from({ length: draws }, () => drawCount(0.3, 0.5, random));
    expect(new Set(sample)).toEqual(new Set([0, 1]));
    expect(meanOf(sample)).toBeCloseTo(0.3, 1);
  });

  test('of nothing is nothing, and the search ends at the very end of chance', () => {
    expect(drawCount(0, 1, () => 0.5)).toBe(0);
    expect(drawCount(-1, 1, () => 0.5)).toBe(0);
    const last = 1 - 2 ** -53;
    for (const spread of [0.5, 1, 3]) {
      const count = drawCount(3, spread, () => last);
      expect(Number.isInteger(count)).toBe(true);
      expect(count).toBeGreaterThan(3);
    }
    expect(drawCount(3, 1, () => 0)).toBe(0);
  });
});

describe('drawn numbers', () => {
  test.each([0.3, 0.9, 1, 4])('gamma of shape %d has its mean and variance', (shape) => {
    const random = seeded(11);
    const sample = Array.from({ length: draws }, () => drawGamma(shape, random));
    expect(Math.abs(meanOf(sample) / shape - 1)).toBeLessThan(0.04);
    expect(Math.abs(varianceOf(sample) / shape - 1)).toBeLessThan(0.08);
    expect(Math.min(...sample)).toBeGreaterThanOrEqual(0);
  });

  test('normal ones have mean 0, variance 1, and lie beyond 1.96 once in twenty', () => {
    const random = seeded(13);
    const sample = Array.from({ length: draws }, () => drawNormal(random));
    expect(meanOf(sample)).toBeCloseTo(0, 1);
    expect(varianceOf(sample)).toBeCloseTo(1, 1);
    const beyond = sample.filter((one) => Math.abs(one) > 1.96).length / draws;
    expect(Math.abs(beyond - 0.05)).toBeLessThan(0.006);
  });
});
