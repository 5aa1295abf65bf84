import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { crps, pinball, scoredLevels } from '../../src/consumption/forecast-scores.ts';
import {
  discountedGammaPoisson,
  discountedState,
  discountedWithHistogram,
  type ForecastMethod,
  meanWithSpread,
  smoothedWithSpread,
  staticGammaPoisson,
} from '../bench/reference-methods.ts';

// Expected values: tests/reference/consumption/README.md (two independent implementations, Python and R).
interface Expected {
  readonly origin: number;
  readonly mean_h1: number;
  readonly q_h1: readonly number[];
  readonly cdf_h1_0to4: readonly number[];
  readonly pinball: number;
  readonly crps: number;
  readonly cum_mean: number;
  readonly cum_q: readonly number[];
  readonly cum_pinball: number;
  readonly cum_crps: number;
  readonly state?: { readonly m: number; readonly b: number; readonly D: number };
}
interface Reference {
  readonly constants: { readonly M: number; readonly D0: number };
  readonly parameters: Readonly<Record<string, number | null>>;
  readonly series: Readonly<
    Record<
      string,
      {
        readonly values: readonly number[];
        readonly methods: Readonly<Record<string, readonly Expected[]>>;
      }
    >
  >;
}
const reference: Reference = JSON.parse(
  readFileSync(new URL('../reference/consumption/forecast-expected.json', import.meta.url), 'utf8'),
);
const { M: priorMean, D0: priorDispersion } = reference.constants;
const settings = { discount: reference.parameters.gpd ?? Number.NaN, priorMean, priorDispersion };

const methods: Readonly<Record<string, ForecastMethod>> = {
  mean_D: meanWithSpread,
  ses_D: smoothedWithSpread(reference.parameters.ses_D ?? Number.NaN),
  gp_static: staticGammaPoisson(priorMean),
  gpd: discountedGammaPoisson(settings),
  gpd_dir: discountedWithHistogram(settings),
};

const within = 1e-9;
const close = (found: number, expected: number): void =>
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(within * Math.max(1, Math.abs(expected)));

describe.each(Object.keys(methods))('%s gives the published forecasts', (name) => {
  const method = methods[name];
  const cases = Object.entries(reference.series).flatMap(([series, { values, methods: byName }]) =>
    (byName[name] ?? []).map((expected) => ({ series, values, expected, origin: expected.origin })),
  );

  it.each(cases)('for $series at origin $origin', ({ values, expected, origin }) => {
    if (!method) throw new Error(`no method ${name}`);
    const forecast = method(values.slice(0, origin));
    const targets = values.slice(origin, origin + 13);
    const total = forecast.total(13);
    const sum = targets.reduce((before, count) => before + count, 0);
    const mean = (score: (observed: number) => number): number =>
      targets.reduce((before, observed) => before + score(observed), 0) / targets.length;

    close(forecast.next.mean, expected.mean_h1);
    for (const [count, below] of expected.cdf_h1_0to4.entries()) close(forecast.next.atMost(count), below);
    expect(scoredLevels.map((level) => forecast.next.quantile(level))).toEqual(expected.q_h1);
    expect(scoredLevels.map((level) => total.quantile(level))).toEqual(expected.cum_q);
    close(
      mean((observed) => crps(forecast.next, observed)),
      expected.crps,
    );
    close(
      mean((observed) => pinball(forecast.next, observed)),
      expected.pinball,
    );
    close(total.mean, expected.cum_mean);
    close(crps(total, sum), expected.cum_crps);
    close(pinball(total, sum), expected.cum_pinball);
  });

  it('for both series and all four origins', () => {
    expect(cases).toHaveLength(8);
  });
});

describe('the state of the discounted filter', () => {
  it('is level, weight and dispersion as published', () => {
    const states = Object.values(reference.series).flatMap(({ values, methods: byName }) =>
      (byName.gpd ?? []).map((expected) => ({ values, expected })),
    );
    expect(states.length).toBe(8);
    for (const { values, expected } of states) {
      const state = discountedState(values.slice(0, expected.origin), settings);
      close(state.rate, expected.state?.m ?? Number.NaN);
      close(state.evidence, expected.state?.b ?? Number.NaN);
      close(state.dispersion, expected.state?.D ?? Number.NaN);
    }
  });
});
