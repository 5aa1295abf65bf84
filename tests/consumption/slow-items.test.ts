import { describe, expect, it } from 'vitest';
import { addDays, mondayOf } from '../../shared/week.ts';
import { forecastUse } from '../../src/consumption/use-forecast.ts';
import { allYear } from '../../src/consumption/use-pattern.ts';
import { seeded } from '../shelf/households-use.ts';
import {
  changing,
  everyOtherWeek,
  inMeals,
  inMonths,
  type Process,
  type Random,
  steady,
  wandering,
  weekAt,
  weeksOf,
  withFeast,
} from './processes.ts';

// Most jars of a household leave the shelf less often than once a week. Twenty of them in a year say little of any change, and a forecast
// that looks for one in every few takes is worse than a notebook: what stood in it last year, again. The last two constants of a changed habit
// were chosen with the tuning seeds in sight; the held-out seeds were first drawn when they stood.
const tuningSeeds = [7101, 7102, 7103];
const heldOutSeeds = [7201, 7202, 7203];
const seeds = [...tuningSeeds, ...heldOutSeeds];

const summer = [5, 6, 7, 8, 9, 10];
const kinds: readonly (readonly [string, (perWeek: number, random: Random) => Process])[] = [
  ['by chance alone', steady],
  ['in meals of one to several', (perWeek, random) => inMeals(perWeek, 0.375, random)],
  ['with an appetite that wanders', wandering],
  ['every other week', (perWeek, random) => meetingChance(everyOtherWeek(1), 2 * perWeek, random)],
  ['with a feast', (perWeek, random) => withFeast(steady(perWeek, random), 20, Math.round(5 * perWeek))],
  [
    'more in summer',
    (perWeek, random) => {
      const always = steady(0.6 * perWeek, random);
      const besides = inMonths(summer, steady(0.8 * perWeek, random));
      return (week, month) => always(week, month) + besides(week, month);
    },
  ],
  [
    'more or less from some week on',
    (perWeek, random) => {
      const factor = random() < 0.5 ? 0.55 : 1.7;
      return changing(
        steady(perWeek, random),
        steady(factor * perWeek, random),
        26 + Math.floor(56 * random()),
      );
    },
  ],
];

/** A process of whole units, each of which is only met with by chance. */
function meetingChance(process: Process, chance: number, random: Random): Process {
  return (week, month) => (random() < chance ? process(week, month) : 0);
}

const slowItems = { kinds, items: 40, from: 0.1, to: 0.7 };

/** A year that was written down, and the one after it, of so many items of each kind; `from` and `to` in units a week. */
function yearsOf(seed: number, { kinds, items, from, to } = slowItems) {
  const random = seeded(seed);
  return kinds.flatMap(([, process]) =>
    Array.from({ length: items }, () => {
      const perWeek = from + (to - from) * random();
      const all = weeksOf(process(perWeek, random), 104);
      const eatenIn = (from: number, to: number) =>
        all.slice(from, to).reduce((sum, { taken }) => sum + taken, 0);
      const said = perWeek * Math.exp(0.25 * (random() + random() + random() + random() - 2) * Math.sqrt(3));
      const forecast = forecastUse(
        all.slice(0, 52),
        { perWeek: said, weight: 5, pattern: allYear, occasions: [] },
        addDays(mondayOf(weekAt(51)), 7),
        52,
      );
      return { perWeek, forecast, before: eatenIn(0, 52), after: eatenIn(52, 104) };
    }),
  );
}

/** Mean squared error over what is eaten in a year, so that an item of few units counts as much as another. */
const errorOf = (
  years: ReturnType<typeof yearsOf>,
  foretold: (year: ReturnType<typeof yearsOf>[number]) => number,
): number =>
  Math.sqrt(
    years.reduce((sum, year) => sum + (foretold(year) - year.after) ** 2 / (52 * year.perWeek), 0) /
      years.length,
  );

describe.each(seeds)('a year of slow items, with seed %i', (seed) => {
  const years = yearsOf(seed);

  it('is foretold nearer than by what was eaten in the year before', () => {
    const own = errorOf(years, ({ forecast }) => forecast.totalOver(52).mean);
    expect(own).toBeLessThan(errorOf(years, ({ before }) => before));
  });

  it('stays below its .9 about as often as said', () => {
    const below = years.filter(({ forecast, after }) => after <= forecast.totalOver(52).quantile(0.9)).length;
    expect(below / years.length).toBeGreaterThan(0.86);
    expect(below / years.length).toBeLessThan(0.96);
  });

  it('is as near as chance and one year of evidence let it be, where an item is eaten less than once in two and a half weeks', () => {
    const slowest = yearsOf(seed + 1000, { kinds: kinds.slice(0, 1), items: 300, from: 0.1, to: 0.38 });
    // Chance alone leaves 1; a rate known from one year adds at most as much again: √2.
    expect(errorOf(slowest, ({ forecast }) => forecast.totalOver(52).mean)).toBeLessThan(Math.SQRT2);
  });
});
