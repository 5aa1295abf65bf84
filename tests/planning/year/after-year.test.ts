import { describe, expect, it } from 'vitest';
import { afterYear, seasonFails, supplyTimes } from '../../../src/planning/year/after-year.ts';

const weeks = (...spans: readonly (readonly [from: number, to: number])[]) =>
  Array.from({ length: 104 }, (_, week) => spans.some(([from, to]) => week >= from && week <= to));
const oneAWeek = Array.from({ length: 104 }, () => 1);

describe('what follows the planned year', () => {
  it('is looked at to the season after it, and a few weeks for one that is late', () => {
    expect(afterYear(oneAWeek, weeks([30, 36], [82, 88]), 52, 0)).toEqual({
      useByWeek: Array.from({ length: 34 }, () => 1),
      seasonWeeks: [30],
      isRunning: false,
      failsChance: 0,
    });
  });

  it('is looked at to the end of two years where that season may fail', () => {
    const after = afterYear(oneAWeek, weeks([2, 6], [54, 58]), 52, 0.2);

    expect(after?.seasonWeeks).toEqual([2]);
    expect(after?.useByWeek).toHaveLength(52);
    expect(after?.failsChance).toBe(0.2);
  });

  it('ends with the year where a season runs on over it, which is neither late nor fails', () => {
    expect(afterYear(oneAWeek, weeks([44, 60]), 52, 0.3)).toEqual({
      useByWeek: [],
      seasonWeeks: [0],
      isRunning: true,
      failsChance: 0,
    });
  });

  it('begins with its first week, and counts use from then on', () => {
    const growing = Array.from({ length: 104 }, (_, week) => week);
    const after = afterYear(growing, weeks([54, 58], [80, 84]), 52, 0);
    expect(after).toEqual({
      useByWeek: [52, 53, 54, 55, 56, 57],
      seasonWeeks: [2, 28],
      isRunning: false,
      failsChance: 0,
    });
    expect(afterYear(growing, weeks([52, 58]), 52, 0)?.useByWeek).toEqual([52, 53, 54, 55]);
  });

  it('runs on only where the last week of the year was of the same season', () => {
    expect(afterYear(oneAWeek, weeks([30, 50], [52, 60]), 52, 0.2)).toMatchObject({
      seasonWeeks: [0],
      isRunning: false,
      failsChance: 0.2,
    });
    expect(afterYear(oneAWeek, weeks([30, 51], [60, 70], [90, 95]), 52, 0.2)).toMatchObject({
      seasonWeeks: [8, 38],
      isRunning: false,
    });
    expect(afterYear(oneAWeek, weeks([51, 53], [80, 84]), 52, 0.2)).toMatchObject({
      seasonWeeks: [0, 28],
      isRunning: true,
    });
  });

  it('is looked at beyond two years where the season begins at their end', () => {
    const long = Array.from({ length: 110 }, () => 1);
    expect(afterYear(long, weeks([102, 103]), 52, 0.2)?.useByWeek).toHaveLength(54);
    expect(afterYear(long, weeks([90, 103]), 52, 0.2)?.useByWeek).toHaveLength(52);
  });

  it('is not known where nothing comes within two years', () => {
    expect(afterYear(oneAWeek, weeks([30, 36]), 52, 0)).toBeUndefined();
  });
});

describe('a season that brings nothing', () => {
  const source = (change: object) => ({
    crop: 'plum' as never,
    lbByWeek: [0, 10, 10, 0],
    useByDays: 3,
    poorYearChance: 0.2,
    poorYearShare: 0,
    fallBack: 'do-without' as const,
    ...change,
  });
  const way = (...crops: readonly (readonly [crop: string, lb: number])[]) => ({
    produce: crops.map(([crop, lb]) => ({ crop, lb })),
  });

  it.each([
    ['as likely as a poor year of its only source', [way(['plum', 8])], [source({})], 0.2],
    [
      'never where a poor year gives a batch all the same',
      [way(['plum', 4])],
      [source({ poorYearShare: 0.5 })],
      0,
    ],
    ['where a poor year gives less than a batch', [way(['plum', 8])], [source({ poorYearShare: 0.5 })], 0.2],
    ['never where what is missing is bought', [way(['plum', 8])], [source({ fallBack: 'buy' })], 0],
    ['only where all sources are poor together', [way(['plum', 8])], [source({}), source({})], 0.04],
    [
      'where either of two crops fails',
      [way(['plum', 8], ['pear', 8])],
      [source({}), source({ crop: 'pear', poorYearChance: 0.5 })],
      0.6,
    ],
    [
      'as seldom as the surest of its ways',
      [way(['plum', 8]), way(['pear', 8])],
      [source({}), source({ crop: 'pear', poorYearChance: 0.5 })],
      0.2,
    ],
    [
      'as a source gives just a batch over the weeks it keeps',
      [way(['plum', 10])],
      [source({ poorYearShare: 0.5, useByDays: 7 })],
      0,
    ],
    [
      'as a source would only in more weeks than it keeps',
      [way(['plum', 10])],
      [source({ poorYearShare: 0.5 })],
      0.2,
    ],
    [
      'where one of several sources is bought instead',
      [way(['plum', 8])],
      [source({}), source({ fallBack: 'buy' })],
      0,
    ],
    ['never where nothing of its crop was ever to come', [way(['fig', 8])], [source({})], 0],
    ['never where it needs no crop', [way()], [source({})], 0],
    ['never where it is not made', [], [source({})], 0],
  ])('is %s', (_, ways, sources, chance) => {
    expect(seasonFails(ways, sources)).toBeCloseTo(chance, 12);
  });
});

describe('when a season really begins', () => {
  it.each([0, 0.15])(
    'is early as often as late, chances add up, and one in %d fails until the season after',
    (fails) => {
      const times = supplyTimes(fails, 52);

      const chanceOf = (weeks: number) => times.find(({ weeksLater }) => weeksLater === weeks)?.chance ?? 0;
      expect(times.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1, 9);
      expect(chanceOf(-1)).toBeCloseTo(chanceOf(1), 6);
      expect(chanceOf(52)).toBe(fails);
      // A normal deviation of 0.7 weeks rounds to nought with probability 0.525 (standard normal table at 0.714).
      expect(chanceOf(0) / (1 - fails)).toBeCloseTo(0.525, 2);
    },
  );
});
