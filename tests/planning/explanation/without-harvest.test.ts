import { describe, expect, test } from 'vitest';
import { asDate, asWeek, mondayOf, sundayOf, weeksFrom } from '../../../shared/week.ts';
import { sourceYears } from '../../../src/harvest/source-years.ts';
import { seasonAhead, withoutHarvest } from '../../../src/planning/explanation/without-harvest.ts';
import { plumYear } from '../plum-year.ts';

const seasons = sourceYears(
  [
    {
      year: 2026,
      beginsOn: asDate('2026-07-08'),
      endsOn: asDate('2026-08-20'),
      mostActive: null,
      lbPerWeek: 14,
      firstPickedOn: null,
    },
  ],
  weeksFrom(asWeek('2026-W20'), 80),
);

describe('the season a harvest would be missed in', () => {
  test.each([
    ['2026-05-20', 2026],
    ['2026-08-20', 2026],
    ['2026-08-21', 2027],
  ])('on %s is that of %i', (today, year) => {
    expect(seasonAhead(seasons, asDate(today))?.year).toBe(year);
  });

  test('is none where no dates are known', () => {
    expect(seasonAhead([], asDate('2026-05-20'))).toBeNull();
  });
});

describe('a year without a harvest', () => {
  const year = plumYear();
  const [source] = year.sources;
  const open = year.weeks.filter((_, at) => (source?.lbByWeek[at] ?? 0) > 0);
  const [first, ...rest] = open;

  test('gives nothing of it in the weeks its season touches, and all else as before', () => {
    if (source === undefined || first === undefined) throw new Error('expected a harvest');
    const lost = { beginsOn: sundayOf(first), endsOn: mondayOf(rest.at(-2) ?? first) };
    const without = withoutHarvest(year, source.id, lost);

    for (const [at, week] of year.weeks.entries()) {
      const isLost = sundayOf(week) >= lost.beginsOn && mondayOf(week) <= lost.endsOn;
      expect(without.sources[0]?.lbByWeek[at]).toBe(isLost ? 0 : source.lbByWeek[at]);
    }
    expect(without.sources.slice(1)).toEqual(year.sources.slice(1));
    expect({ ...without, sources: [] }).toEqual({ ...year, sources: [] });
  });
});
