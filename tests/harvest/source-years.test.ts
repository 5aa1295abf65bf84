import { describe, expect, test } from 'vitest';
import { asDate, weekOf, weeksFrom } from '../../shared/week.ts';
import { poundsByWeek, sourceYears, type WrittenYear } from '../../src/harvest/source-years.ts';

const plums: WrittenYear = {
  year: 2026,
  beginsOn: asDate('2026-08-10'),
  endsOn: asDate('2026-09-13'),
  mostActive: null,
  lbPerWeek: 20,
  firstPickedOn: null,
};
const yearFrom = (date: string) => weeksFrom(weekOf(asDate(date)), 52);

describe('the years of a source', () => {
  test('a year nobody wrote down repeats the last one that was', () => {
    const years = sourceYears([plums], yearFrom('2026-08-17'));

    expect(years.map(({ season, writtenFor }) => [season.beginsOn, season.endsOn, writtenFor])).toEqual([
      ['2026-08-10', '2026-09-13', 2026],
      ['2027-08-10', '2027-09-13', 2026],
    ]);
  });

  test('a first picking moves its own year and no other', () => {
    const early = { ...plums, firstPickedOn: asDate('2026-08-03') };

    const years = sourceYears([early], yearFrom('2026-08-03'));

    expect(years.map(({ season, shiftDays }) => [season.beginsOn, season.endsOn, shiftDays])).toEqual([
      ['2026-08-03', '2026-09-06', -7],
    ]);
    expect(sourceYears([early], yearFrom('2027-08-03')).map(({ season }) => season.beginsOn)).toEqual([
      '2027-08-10',
    ]);
  });

  test('a harvest that ends on 29 February ends on the 28th of a common year', () => {
    const winterGreens = {
      ...plums,
      year: 2028,
      beginsOn: asDate('2028-02-01'),
      endsOn: asDate('2028-02-29'),
    };

    expect(sourceYears([winterGreens], yearFrom('2029-01-01')).at(0)?.season.endsOn).toBe('2029-02-28');
  });

  test('nothing written gives nothing', () => {
    expect(sourceYears([], yearFrom('2026-08-17'))).toEqual([]);
    expect(poundsByWeek([], yearFrom('2026-08-17')).every((pounds) => pounds === 0)).toBe(true);
  });
});

describe('pounds by week', () => {
  test('count the planned days of each week, and the whole season sums to its length', () => {
    // 10 August 2026 is a Monday: five whole weeks of 20 lb. Worked by hand.
    const weeks = weeksFrom(weekOf(asDate('2026-08-03')), 8);

    const pounds = poundsByWeek(sourceYears([plums], weeks), weeks);

    expect(pounds).toEqual([0, 20, 20, 20, 20, 20, 0, 0]);
  });

  test('only the most active dates are planned on', () => {
    const weeks = weeksFrom(weekOf(asDate('2026-08-10')), 3);
    const peak = { from: asDate('2026-08-20'), to: asDate('2026-08-26') };

    const pounds = poundsByWeek(sourceYears([{ ...plums, mostActive: peak }], weeks), weeks);

    expect(pounds.map((lb) => Math.round(lb * 7))).toEqual([0, 80, 60]);
  });
});

describe('a year unlike the others', () => {
  const weeks = yearFrom('2026-08-03');
  const twoYears = weeksFrom(weekOf(asDate('2026-01-05')), 104);

  test('one failed year is not the next: what was usual before comes back', () => {
    const failed = { ...plums, lbPerWeek: 0, usualLbPerWeek: 20 };

    expect(sourceYears([failed], twoYears).map(({ season, lbPerWeek }) => [season.year, lbPerWeek])).toEqual([
      [2026, 0],
      [2027, 20],
    ]);
  });

  test('nor is it where the year before is written down: that one is the pattern', () => {
    const before = { ...plums, year: 2025, beginsOn: asDate('2025-08-05'), endsOn: asDate('2025-09-08') };
    const failed = { ...plums, lbPerWeek: 0 };

    expect(sourceYears([before, failed], twoYears).at(-1)).toMatchObject({
      writtenFor: 2025,
      lbPerWeek: 20,
      season: { beginsOn: '2027-08-05' },
    });
  });

  test('a year said to run two weeks late moves by two weeks, the next one does not, and a first picking knows better', () => {
    const late = new Map([[2026, 14]]);
    const begins = (years: ReturnType<typeof sourceYears>) => years.map(({ season }) => season.beginsOn);

    expect(begins(sourceYears([plums], twoYears, late))).toEqual(['2026-08-24', '2027-08-10']);
    const picked = { ...plums, firstPickedOn: asDate('2026-08-12') };
    expect(begins(sourceYears([picked], twoYears, late))).toEqual(['2026-08-12', '2027-08-10']);
    expect(sourceYears([plums], weeks, late)[0]).toMatchObject({ shiftDays: 14 });
  });
});

describe('pounds by week, at home', () => {
  const weeks = weeksFrom(weekOf(asDate('2026-08-10')), 3);
  const years = sourceYears([plums], weeks);

  test('nothing is picked on days on which nobody is at home', () => {
    // Away from Wednesday 12 to Sunday 23 August: two of seven days, none, and a whole week are left.
    const away = [{ fromOn: asDate('2026-08-12'), untilOn: asDate('2026-08-24') }];

    const pounds = poundsByWeek(years, weeks, { startsOn: 'monday', away });

    expect(pounds.map((lb) => Math.round(lb * 7))).toEqual([40, 0, 140]);
  });

  test('where weeks start on Sunday, a Sunday counts to the days after it', () => {
    // The season begins on Monday 10 August; its first week from Sunday has six days of it.
    const pounds = poundsByWeek(years, weeks, { startsOn: 'sunday', away: [] });

    expect(pounds.map((lb) => Math.round(lb * 7))).toEqual([120, 140, 140]);
  });
});
