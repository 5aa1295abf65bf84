import { describe, expect, test } from 'vitest';
import { addDays, addWeeks, asDate, weekOf } from '../../shared/week.ts';
import { exactly } from '../../src/consumption/count-distribution.ts';
import { keepColdDaysOf } from '../../src/shelf/keep-cold.ts';
import { openJars } from '../../src/shelf/open-jars.ts';
import { projectShelf } from '../../src/shelf/projection.ts';
import type { ShelfAhead } from '../../src/shelf/shelf-projection.ts';
import { standardErrorOf } from '../../src/shelf/simulated-weeks.ts';

// A jar a week on a shelf of ten, seen on a Wednesday.
const asOf = asDate('2026-08-05');
const shelf = (change: Partial<ShelfAhead> = {}): ShelfAhead => ({
  asOf,
  weeks: 8,
  lots: [{ lotId: 'a', units: 10, readyFrom: asOf, bestQualityUntil: addDays(asOf, 400) }],
  incoming: [],
  use: {
    weeklyMean: new Array<number>(52).fill(1),
    totalOver: (weeks) => exactly(weeks),
    beginCourse: () => (wanted) => wanted.fill(1),
  },
  nextSupplyWeek: null,
  ...change,
});
const batch = (inWeeks: number, units = 6) => ({
  week: addWeeks(weekOf(asOf), inWeeks),
  units,
  readyFrom: addDays(asOf, 7 * inWeeks - 2),
  bestQualityUntil: addDays(asOf, 400),
});

describe('a shelf that cannot be looked at', () => {
  test.each([0, -1, 1.5])('%d weeks ahead are none', (weeks) => {
    expect(() => projectShelf(shelf({ weeks }))).toThrow(
      `projectShelf: expected 1 or more whole weeks, got ${weeks}`,
    );
  });

  test('one week ahead is enough, and as many as the forecast has', () => {
    expect(projectShelf(shelf({ weeks: 1 })).weeks).toHaveLength(1);
    expect(projectShelf(shelf({ weeks: 52 })).weeks).toHaveLength(52);
    expect(() => projectShelf(shelf({ weeks: 53 }))).toThrow(
      'projectShelf: expected a use forecast of 53 weeks or more, got 52',
    );
  });

  test.each([99, 100.5, Number.NaN])('%d possible years are too few to play, or no number', (paths) => {
    const played = shelf({ incoming: [batch(2)] });
    expect(() => projectShelf(played, { paths, seed: 1 })).toThrow(
      `projectShelf: expected 100 or more paths, got ${paths}`,
    );
    expect(projectShelf(played, { paths: 100, seed: 1 }).method).toMatchObject({
      kind: 'simulated',
      paths: 100,
    });
  });

  test('what comes this week is no week that passed; a jar of less than nothing is none', () => {
    expect(projectShelf(shelf({ incoming: [batch(0)] })).weeks[0]?.in).toBe(6);
    expect(() => projectShelf(shelf({ incoming: [batch(-1)] }))).toThrow(
      'lies before the week of 2026-08-05',
    );
    expect(() => projectShelf(shelf({ incoming: [batch(1, -1)] }))).toThrow(
      'projectShelf: expected 0 or more units in incoming 2026-W33, got -1',
    );
    expect(() => projectShelf(shelf({ incoming: [batch(1, Number.NaN)] }))).toThrow('got NaN');
    expect(projectShelf(shelf({ incoming: [batch(1, 0)] })).weeks[1]?.in).toBe(0);
  });

  test('what comes beyond the weeks looked at is left out', () => {
    const weeks = projectShelf(shelf({ incoming: [batch(8), batch(30)] })).weeks;
    expect(weeks.map((week) => week.in)).toEqual(new Array(8).fill(0));
    expect(projectShelf(shelf({ incoming: [batch(7)] })).weeks.at(-1)?.in).toBe(6);
  });

  test('a chance of one half from n years is sure to half of one by the root of n', () => {
    expect(standardErrorOf(100)).toBeCloseTo(0.05, 12);
    expect(standardErrorOf(2500)).toBeCloseTo(0.01, 12);
  });
});

describe('days an opened jar keeps', () => {
  test('are as written down, and fewer than any published where nobody did', () => {
    expect(keepColdDaysOf({ keepColdDays: 10 })).toEqual({ days: 10, isKnown: true });
    expect(keepColdDaysOf({ keepColdDays: null })).toEqual({ days: 3, isKnown: false });
  });

  test('are not less than none', () => {
    const opened = [{ lotId: 'a', kind: 'opened', openedOn: asOf, jars: 1 }] as const;
    expect(openJars(opened, 0, asOf)).toMatchObject([{ eatBy: asOf, isPast: false }]);
    for (const days of [-1, Number.NaN])
      expect(() => openJars(opened, days, asOf)).toThrow(`openJars: expected 0 or more days, got ${days}`);
  });

  test('are followed by a week in which a jar nobody finished still stands', () => {
    const opened = [{ lotId: 'a', kind: 'opened', openedOn: asOf, jars: 1 }] as const;
    expect(openJars(opened, 3, addDays(asOf, 10))).toHaveLength(1);
    expect(openJars(opened, 3, addDays(asOf, 11))).toEqual([]);
  });
});
