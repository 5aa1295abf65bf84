import { describe, expect, test } from 'vitest';
import type { CountDistribution } from '../../src/consumption/count-distribution.ts';
import { chanceOfEnough, exactWeeks, isExact } from '../../src/shelf/exact-weeks.ts';
import type { PredictedUse } from '../../src/shelf/shelf-projection.ts';
import type { LotInWeeks, ShelfInWeeks } from '../../src/shelf/shelf-weeks.ts';

// A shelf of which nothing comes and nothing is thrown away is worked out without chance. Held against every course of a use that
// is simple enough to be written out: each week 0, 1 or 2 jars with chances 1/2, 1/4 and 1/4, apart from all other weeks.

const chanceOf = [0.5, 0.25, 0.25] as const;
type Course = { readonly wanted: readonly number[]; readonly chance: number };
const courses = (weeks: number): readonly Course[] =>
  weeks === 0
    ? [{ wanted: [], chance: 1 }]
    : courses(weeks - 1).flatMap(({ wanted, chance }) =>
        chanceOf.map((own, jars) => ({ wanted: [...wanted, jars], chance: chance * own })),
      );
const total = (numbers: readonly number[]) => numbers.reduce((sum, one) => sum + one, 0);

/** The distribution of what is wanted over some weeks, by writing all courses out. */
const totalOver = (weeks: number): CountDistribution => {
  const all = courses(weeks);
  const atMost = (most: number) =>
    total(all.filter(({ wanted }) => total(wanted) <= most).map(({ chance }) => chance));
  return {
    mean: 0.75 * weeks,
    atMost,
    quantile: (share: number) => {
      let count = 0;
      while (atMost(count) < share - 1e-12) count += 1;
      return count;
    },
  } as unknown as CountDistribution;
};
const use: PredictedUse = {
  weeklyMean: [0.75, 0.75, 0.75, 0.75],
  totalOver,
  beginCourse: () => (wanted) => wanted.fill(0),
};

const lot = (units: number, over: Partial<LotInWeeks> = {}): LotInWeeks => ({
  units,
  comesIn: -1,
  readyIn: 0,
  pastBestFrom: 99,
  leavesIn: 99,
  ...over,
});
const shelf = (...lots: readonly LotInWeeks[]): ShelfInWeeks =>
  ({ weeks: ['2026-W01', '2026-W02', '2026-W03', '2026-W04'], lots }) as unknown as ShelfInWeeks;

/** What the courses give, week by week: jars left, taken and missed. */
const played = (units: number, weeks: number) => {
  const ended = courses(4).map(({ wanted, chance }) => ({
    chance,
    byThen: total(wanted.slice(0, weeks)),
    before: total(wanted.slice(0, weeks - 1)),
  }));
  const mean = (of: (course: (typeof ended)[number]) => number) =>
    total(ended.map((course) => course.chance * of(course)));
  const left = (by: number) => Math.max(0, units - by);
  return {
    left: mean(({ byThen }) => left(byThen)),
    taken: mean(({ byThen, before }) => left(before) - left(byThen)),
    unmet: mean(({ byThen, before }) => byThen - before - (left(before) - left(byThen))),
    short: mean(({ byThen }) => (byThen > units ? 1 : 0)),
  };
};

describe.each([1, 2, 3, 5])('a shelf of %i jars', (units) => {
  const exact = exactWeeks(shelf(lot(units)), use);

  test.each([1, 2, 3, 4])('at the end of week %i is what every course of use gives', (week) => {
    const { left, taken, unmet, short } = played(units, week);

    expect(exact.closing[week - 1]?.expected).toBeCloseTo(left, 12);
    expect(exact.taken[week - 1]).toBeCloseTo(taken, 12);
    expect(exact.unmet[week - 1]).toBeCloseTo(unmet, 12);
    expect(exact.shortBy[week - 1]).toBeCloseTo(short, 12);
    expect(exact.discarded[week - 1]).toBe(0);
    expect(chanceOfEnough(shelf(lot(units)), use, week)).toBeCloseTo(1 - short, 12);
  });

  test('is likely between its quantiles', () => {
    // Over two weeks 0 to 4 jars are wanted with chances 4, 4, 5, 2 and 1 of 16: quantiles 0, 1 and 3.
    expect(exact.closing[1]).toMatchObject({
      p10: Math.max(0, units - 3),
      p50: Math.max(0, units - 1),
      p90: units,
    });
  });
});

test('jars past their best are those that expired by then and were not eaten first', () => {
  const exact = exactWeeks(shelf(lot(2, { pastBestFrom: 1 }), lot(3)), use);

  expect(exact.pastBest[0]).toEqual({ expected: 0, p10: 0, p50: 0, p90: 0 });
  expect(exact.pastBest[1]?.expected).toBeCloseTo(played(2, 2).left, 12);
  expect(exact.closing[1]?.expected).toBeCloseTo(played(5, 2).left, 12);
});

test('nothing wanted is missing in no weeks, and jars that are not ready are no help', () => {
  expect(chanceOfEnough(shelf(lot(1)), use, 0)).toBe(1);
  expect(chanceOfEnough(shelf(lot(1), lot(9, { readyIn: 3 })), use, 2)).toBeCloseTo(
    1 - played(1, 2).short,
    12,
  );
});

describe('can be worked out so', () => {
  const weeks = 4;
  test.each([
    ['all jars ready now and staying', lot(1), true],
    ['jars that are ready only after the weeks', lot(1, { readyIn: 4 }), true],
    ['jars that become ready in between', lot(1, { readyIn: 3 }), false],
    ['jars thrown away in between', lot(1, { leavesIn: 3 }), false],
    ['jars thrown away after the weeks', lot(1, { leavesIn: 4 }), true],
  ])('%s', (_, one, answer) => {
    expect(isExact(shelf(lot(2), one), weeks)).toBe(answer);
  });
});
