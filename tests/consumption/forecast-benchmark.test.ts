import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { originsFor, readSeries, score, tuned, tuningOriginsFor } from '../bench/forecast-protocol.ts';
import { meanWithSpread, smoothedWithSpread } from '../bench/reference-methods.ts';
import { undeclaredForecast } from '../bench/undeclared-forecast.ts';

// Series and protocol: tests/reference/consumption/README.md. Published scores there: mean with spread 4.3914 (13-week total CRPS) and .7639
// (weekly), exponential smoothing 4.9246 and .7780 with the parameter .1.
const series = readSeries(
  readFileSync(new URL('../reference/consumption/grocery-weekly.csv', import.meta.url), 'utf8'),
);

describe('the benchmark on 203 grocery series', () => {
  const mean = score(meanWithSpread, series);
  const smoothing = tuned(smoothedWithSpread, [0.05, 0.1, 0.15], series);
  const smoothed = score(smoothedWithSpread(smoothing), series);
  const ours = score(undeclaredForecast, series);

  it('reads them all, and looks ahead from weeks 27, 31, 35 and 39', () => {
    expect(series).toHaveLength(203);
    expect(originsFor(52)).toEqual([27, 31, 35, 39]);
    expect(originsFor(156)).toEqual([104, 117, 130, 143]);
    expect(originsFor(51)).toEqual([26, 30, 34, 38]);
    expect(tuningOriginsFor(52)).toEqual([14]);
    expect(tuningOriginsFor(156)).toEqual([65, 78, 91]);
  });

  it('scores the simple forecasts as published', () => {
    expect(smoothing).toBe(0.1);
    expect(mean.totalCrps).toBeCloseTo(4.3914, 4);
    expect(mean.weeklyCrps).toBeCloseTo(0.7639, 4);
    expect(mean.weeklyPinball).toBeCloseTo(0.3547, 4);
    expect(mean.totalPinball).toBeCloseTo(2.0119, 4);
    expect(mean.coverage90).toBeCloseTo(0.919, 3);
    expect(smoothed.totalCrps).toBeCloseTo(4.9246, 4);
    expect(smoothed.weeklyCrps).toBeCloseTo(0.778, 4);
  });

  it('finds our totals sharper than the best simple forecast, with one fixed set of parameters', () => {
    expect(ours.totalCrps).toBeLessThanOrEqual(4.33);
    expect(ours.totalCrps).toBeLessThan(mean.totalCrps);
  });

  it('finds nine weeks in ten under the .90 quantile', () => {
    expect(ours.coverage90).toBeGreaterThanOrEqual(0.88);
    expect(ours.coverage90).toBeLessThanOrEqual(0.94);
  });

  it('finds nine totals in ten under their .90 quantile, and half and four fifths under theirs', () => {
    expect(ours.totalCoverage['0.9']).toBeGreaterThanOrEqual(0.88);
    expect(ours.totalCoverage['0.9']).toBeLessThanOrEqual(0.92);
    expect(Math.abs(ours.totalCoverage['0.8'] - 0.8)).toBeLessThan(0.03);
    expect(Math.abs(ours.totalCoverage['0.5'] - 0.5)).toBeLessThan(0.05);
  });

  it('finds our totals calibrated: no tenth of the forecast off by more than .04', () => {
    expect(ours.totalCalibration.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 10);
    expect(ours.largestBinDeviation).toBeLessThan(0.04);
    expect(ours.largestBinDeviation).toBeLessThan(mean.largestBinDeviation);
  });
});

describe('a file that is not in the format', () => {
  it('is refused with the place', () => {
    expect(() => readSeries('a,b\n1,2\n')).toThrow('Expected a header');
    expect(() => readSeries('series_id,t1,t2\nx,1,half\n')).toThrow(
      'Series x (row 2), t2: expected a whole number, 0 or more, found "half".',
    );
    expect(() => originsFor(20)).toThrow('Expected series of at least');
  });
});
