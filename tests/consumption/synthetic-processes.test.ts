import { describe, expect, it } from 'vitest';
import { addDays, type CalendarDate, mondayOf } from '../../shared/week.ts';
import { type DeclaredUse, forecastUse, type UseForecast } from '../../src/consumption/use-forecast.ts';
import { allYear } from '../../src/consumption/use-pattern.ts';
import type { WeekOfUse } from '../../src/consumption/week-of-use.ts';
import { seeded } from '../shelf/households-use.ts';
import {
  changing,
  everyOtherWeek,
  inMeals,
  type Process,
  type Random,
  steady,
  wandering,
  weekAt,
  weeksOf,
  withFeast,
} from './processes.ts';

// What a forecast promises of seven ways to eat (the seasons have a file of their own). The constants of the model were chosen with other
// streams of the tuning seeds in sight; the held-out seeds were first drawn when the constants stood.
const tuningSeeds = [1, 2, 3];
const heldOutSeeds = [7001, 7002, 7003];
const seeds = [...tuningSeeds, ...heldOutSeeds];

const said = (perWeek: number): DeclaredUse => ({ perWeek, weight: 5, pattern: allYear, occasions: [] });
const mondayAfter = (weeks: number): CalendarDate => addDays(mondayOf(weekAt(weeks - 1)), 7);
const forecastAfter = (history: readonly WeekOfUse[], perWeek: number): UseForecast =>
  forecastUse(history, said(perWeek), mondayAfter(history.length), 52);
const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** Share of a count's probability below a level: a count on the edge belongs to it by the part that does. */
function shareBelow(forecast: UseForecast, weeks: number, observed: number, level: number): number {
  const total = forecast.totalOver(weeks);
  const upTo = total.atMost(observed);
  const below = observed > 0 ? total.atMost(observed - 1) : 0;
  return Math.min(1, Math.max(0, (level - below) / (upTo - below)));
}

describe.each(seeds)('with seed %i', (seed) => {
  const kinds: readonly [string, (perWeek: number, random: Random) => Process][] = [
    ['by chance alone', steady],
    ['in meals of one to several', (perWeek, random) => inMeals(perWeek, 0.375, random)],
    ['with an appetite that wanders', wandering],
  ];

  it.each(kinds)('what is eaten %s stays below its .5, .8 and .9 as often as said', (_, process) => {
    const random = seeded(seed);
    const households = Array.from({ length: 240 }, (__, place) => {
      const perWeek = 0.4 + 2.6 * random();
      const weeks = [30, 60, 110][place % 3] ?? 60;
      const all = weeksOf(process(perWeek, random), weeks + 13);
      const forecast = forecastAfter(all.slice(0, weeks), perWeek * (0.7 + 0.6 * random()));
      return { forecast, observed: all.slice(weeks).reduce((sum, { taken }) => sum + taken, 0) };
    });
    for (const level of [0.5, 0.8, 0.9]) {
      const below = meanOf(
        households.map(({ forecast, observed }) => shareBelow(forecast, 13, observed, level)),
      );
      // Four points, and three standard errors of 240 households' shares.
      const sampling = 3 * Math.sqrt((level * (1 - level)) / households.length);
      expect(Math.abs(below - level)).toBeLessThan(0.04 + sampling);
    }
  });

  it.each([
    { perWeek: 1, weeks: 26 },
    { perWeek: 1, weeks: 52 },
    { perWeek: 1, weeks: 104 },
    { perWeek: 0.75, weeks: 52 },
    { perWeek: 2, weeks: 52 },
  ])(
    'a habit that doubles after $weeks weeks from $perWeek is believed to 1.5 of 2 in eight',
    ({ perWeek, weeks }) => {
      const random = seeded(seed);
      const ratios = Array.from({ length: 400 }, () => {
        const process = changing(steady(perWeek, random), steady(2 * perWeek, random), weeks);
        return forecastAfter(weeksOf(process, weeks + 8), perWeek).perWeek / perWeek;
      });
      // Two standard errors of the mean of 400 households, which differ by about a third.
      expect(meanOf(ratios)).toBeGreaterThan(1.5 - 2 * (0.35 / Math.sqrt(400)));
    },
  );

  it.each([{ perWeek: 0.5 }, { perWeek: 1 }, { perWeek: 2 }, { perWeek: 3 }])(
    'one feast of 12 lifts $perWeek a week by less than 10 % after four weeks, and leaves its doubt as it was',
    ({ perWeek }) => {
      const random = seeded(seed);
      const households = Array.from({ length: 100 }, () => {
        const everyday = weeksOf(steady(perWeek, random), 56);
        const feast = withFeast((week) => everyday[week]?.taken ?? 0, 51, 12);
        const without = forecastAfter(everyday, perWeek);
        const withIt = forecastAfter(weeksOf(feast, 56), perWeek);
        const width = (forecast: UseForecast): number =>
          forecast.totalOver(13).quantile(0.9) - forecast.totalOver(13).quantile(0.1);
        return { lift: withIt.perWeek / without.perWeek, widths: width(withIt) / width(without), withIt };
      });

      expect(meanOf(households.map(({ lift }) => lift))).toBeLessThan(1.1);
      expect(meanOf(households.map(({ widths }) => widths))).toBeLessThan(1.15);
      const asked = households.filter(({ withIt }) => withIt.suspectedOccasion?.week === weekAt(51));
      expect(asked.length).toBeGreaterThan(85);
    },
  );

  it('of steady households hardly any is asked whether a week was an occasion', () => {
    const random = seeded(seed);
    const households = Array.from({ length: 300 }, () => {
      const perWeek = 0.3 + 2.7 * random();
      return forecastAfter(weeksOf(steady(perWeek, random), 60), perWeek);
    });
    expect(households.filter(({ suspectedOccasion }) => suspectedOccasion !== null).length).toBeLessThan(6);
  });
});

// Before weeks were looked at in blocks these intervals (.05 to .95 of four weeks) were 18 to 19 units wide, and a month stood at 5 to 24.
describe('a full week after an empty one, 6 jars each', () => {
  it.each([26, 52, 104])('is a sure dozen in four weeks, after %i weeks', (weeks) => {
    const forecast = forecastAfter(weeksOf(everyOtherWeek(6), weeks), 3);
    const month = forecast.totalOver(4);

    expect(month.quantile(0.95) - month.quantile(0.05)).toBeLessThanOrEqual(9);
    expect(month.quantile(0.9) - month.quantile(0.1)).toBeLessThanOrEqual(7);
    expect(month.quantile(0.1)).toBeLessThanOrEqual(12);
    expect(month.quantile(0.9)).toBeGreaterThanOrEqual(12);
    expect(forecast.perWeek).toBeCloseTo(3, 0);
  });

  it('is still 0 or 6 in one week', () => {
    const forecast = forecastAfter(weeksOf(everyOtherWeek(6), 52), 3);
    expect(forecast.inWeek(0).quantile(0.1)).toBe(0);
    expect(forecast.inWeek(0).quantile(0.95)).toBeGreaterThanOrEqual(5);
  });

  it('holds for a crate a month, and for three a week without fail', () => {
    const crate = forecastAfter(
      weeksOf((week) => (week % 4 === 0 ? 12 : 0), 52),
      3,
    ).totalOver(4);
    const three = forecastAfter(
      weeksOf(() => 3, 52),
      3,
    ).totalOver(4);
    expect(crate.quantile(0.9) - crate.quantile(0.1)).toBeLessThanOrEqual(10);
    expect(three.quantile(0.9) - three.quantile(0.1)).toBeLessThanOrEqual(5);
  });
});

describe('what comes twice within a year', () => {
  it('is what the item is like: a second feast is believed', () => {
    const twice = weeksOf(
      withFeast(
        withFeast(() => 1, 30, 12),
        45,
        12,
      ),
      50,
    );
    const once = weeksOf(
      withFeast(() => 1, 30, 12),
      50,
    );
    expect(forecastAfter(twice, 1).perWeek).toBeGreaterThan(1.15 * forecastAfter(once, 1).perWeek);
  });

  it('or was no occasion, when the household says so', () => {
    const history = weeksOf(
      withFeast(() => 1, 47, 12),
      50,
    );
    const ordinary = history.map((week, at) => (at === 47 ? { ...week, isOrdinary: true as const } : week));

    expect(forecastAfter(history, 1).belief.strangeWeek).toMatchObject({ place: 47, taken: 13 });
    expect(forecastAfter(ordinary, 1).belief.strangeWeek).toBeUndefined();
    expect(forecastAfter(ordinary, 1).perWeek).toBeGreaterThan(1.2 * forecastAfter(history, 1).perWeek);
  });
});
