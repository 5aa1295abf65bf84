import { parse } from 'csv-parse/sync';
import type { CountDistribution } from '../../src/consumption/count-distribution.ts';
import { calibrationHistogram, crps, pinball } from '../../src/consumption/forecast-scores.ts';
import type { ForecastMethod } from './reference-methods.ts';

export interface CountSeries {
  readonly id: string;
  readonly counts: readonly number[];
}

export interface Scores {
  readonly weeklyCrps: number;
  readonly weeklyPinball: number;
  readonly totalCrps: number;
  readonly totalPinball: number;
  readonly coverage90: number;
  readonly coverage95: number;
  /** Share of the totals at or below the forecast's .5, .8 and .9 quantile. */
  readonly totalCoverage: Readonly<Record<'0.5' | '0.8' | '0.9', number>>;
  /** Share of the totals by tenth of the forecast distribution: a calibrated forecast has .1 in each. */
  readonly totalCalibration: readonly number[];
  readonly largestBinDeviation: number;
  readonly seconds: number;
}

/** Periods ahead that are scored, and summed. */
export const horizon = 13;
/** From two years of weeks on, origins lie a whole horizon apart; in a shorter series they overlap. */
const longSeries = 104;
const originsScored = 4;

/** Reads series in the benchmark's format: `series_id`, describing columns, then `t1`..`tT`, whole numbers, oldest first. */
export function readSeries(text: string): CountSeries[] {
  const rows: string[][] = parse(text, { skip_empty_lines: true, bom: true });
  const [header, ...body] = rows;
  const first = header?.indexOf('t1') ?? -1;
  if (!header || first < 1 || header[0] !== 'series_id') {
    throw new Error(
      'Expected a header "series_id, ..., t1, t2, ..."; found none with both series_id and t1.',
    );
  }
  return body.map((row, place) => {
    const counts = row.slice(first).map(Number);
    const wrong = counts.findIndex((count) => !Number.isInteger(count) || count < 0);
    if (wrong >= 0) {
      throw new Error(
        `Series ${row[0]} (row ${place + 2}), ${header[first + wrong]}: expected a whole number, 0 or more, found "${row[first + wrong]}".`,
      );
    }
    return { id: row[0] ?? '', counts };
  });
}

/** Numbers of training values at which a forecast is made, for series of this length. */
export function originsFor(length: number): number[] {
  const step = length >= longSeries ? horizon : 4;
  const first = length - horizon - (originsScored - 1) * step;
  if (first < horizon) {
    throw new Error(`Expected series of at least ${horizon + first + 12} values; found ${length}.`);
  }
  return Array.from({ length: originsScored }, (_, place) => first + place * step);
}

/** Earlier origins, all of whose targets lie before the first scored one: for methods that need a parameter chosen. */
export const tuningOriginsFor = (length: number): number[] => {
  const [first = 0] = originsFor(length);
  return [3, 2, 1].map((back) => first - back * horizon).filter((origin) => origin >= horizon);
};

/** Mean over horizons, then origins, then series (all have as many, so one mean over all of them). */
export function score(method: ForecastMethod, series: readonly CountSeries[]): Scores {
  const started = performance.now();
  const sums = { weeklyCrps: 0, weeklyPinball: 0, totalCrps: 0, totalPinball: 0, within90: 0, within95: 0 };
  const totals: { forecast: CountDistribution; observed: number }[] = [];
  for (const { counts } of series) {
    for (const origin of originsFor(counts.length)) {
      const forecast = method(counts.slice(0, origin));
      const targets = counts.slice(origin, origin + horizon);
      for (const observed of targets) {
        sums.weeklyCrps += crps(forecast.next, observed);
        sums.weeklyPinball += pinball(forecast.next, observed);
        if (observed <= forecast.next.quantile(0.9)) sums.within90 += 1;
        if (observed <= forecast.next.quantile(0.95)) sums.within95 += 1;
      }
      const total = forecast.total(horizon);
      const observed = targets.reduce((sum, count) => sum + count, 0);
      sums.totalCrps += crps(total, observed);
      sums.totalPinball += pinball(total, observed);
      totals.push({ forecast: total, observed });
    }
  }
  const seconds = (performance.now() - started) / 1000;
  const totalCalibration = calibrationHistogram(totals);
  const weeks = totals.length * horizon;
  return {
    weeklyCrps: sums.weeklyCrps / weeks,
    weeklyPinball: sums.weeklyPinball / weeks,
    totalCrps: sums.totalCrps / totals.length,
    totalPinball: sums.totalPinball / totals.length,
    coverage90: sums.within90 / weeks,
    coverage95: sums.within95 / weeks,
    totalCoverage: {
      '0.5': coverage(totals, 0.5),
      '0.8': coverage(totals, 0.8),
      '0.9': coverage(totals, 0.9),
    },
    totalCalibration,
    largestBinDeviation: Math.max(...totalCalibration.map((share) => Math.abs(share - 0.1))),
    seconds,
  };
}

const coverage = (
  totals: readonly { readonly forecast: CountDistribution; readonly observed: number }[],
  level: number,
): number =>
  totals.filter(({ forecast, observed }) => observed <= forecast.quantile(level)).length / totals.length;

/** The parameter with the smallest weekly CRPS before the first scored origin; the first of equals. */
export function tuned(
  methodOf: (parameter: number) => ForecastMethod,
  grid: readonly number[],
  series: readonly CountSeries[],
): number {
  let best = { parameter: grid[0] ?? Number.NaN, loss: Number.POSITIVE_INFINITY };
  for (const parameter of grid) {
    let loss = 0;
    for (const { counts } of series) {
      for (const origin of tuningOriginsFor(counts.length)) {
        const { next } = methodOf(parameter)(counts.slice(0, origin));
        for (const observed of counts.slice(origin, origin + horizon)) loss += crps(next, observed);
      }
    }
    if (loss < best.loss - 1e-9) best = { parameter, loss };
  }
  return best.parameter;
}
