import { describe, expect, test } from 'vitest';
import { addDays, addWeeks, asDate, mondayOf, sundayOf, weekOf, weeksFrom } from '../../shared/week.ts';
import { exactly } from '../../src/consumption/count-distribution.ts';
import type { ShelfAhead } from '../../src/shelf/shelf-projection.ts';
import { shelfInWeeks } from '../../src/shelf/shelf-weeks.ts';

// A Wednesday, looked at four weeks ahead.
const asOf = asDate('2026-11-25');
const thisWeek = weekOf(asOf);
const inWeek = (weeks: number) => addWeeks(thisWeek, weeks);
const longGood = addDays(asOf, 400);

const lot = (change: Partial<ShelfAhead['lots'][number]> = {}) => ({
  lotId: 'a',
  units: 5,
  readyFrom: asOf,
  bestQualityUntil: longGood,
  ...change,
});
const batch = (week: number, units: number) => ({
  week: inWeek(week),
  units,
  readyFrom: mondayOf(inWeek(week)),
  bestQualityUntil: longGood,
});
const looked = (change: Partial<ShelfAhead>) =>
  shelfInWeeks({
    asOf,
    weeks: 4,
    lots: [],
    incoming: [],
    use: {
      weeklyMean: [1, 1, 1, 1],
      totalOver: (weeks) => exactly(weeks),
      beginCourse: () => (wanted) => wanted.fill(1),
    },
    nextSupplyWeek: null,
    ...change,
  });

describe('what comes', () => {
  test('comes in its week, from this week to the last one looked at; a week later it is not seen', () => {
    const seen = looked({
      incoming: [batch(0, 1), batch(2, 10), batch(2, 20), batch(3, 300), batch(4, 4000)],
    });

    expect(seen.weeks).toEqual(weeksFrom(thisWeek, 4));
    expect(seen.comesByWeek).toEqual([1, 0, 30, 300]);
    expect(seen.lots.map(({ units, comesIn }) => [comesIn, units]).toSorted()).toEqual([
      [0, 1],
      [2, 10],
      [2, 20],
      [3, 300],
    ]);
    expect(seen.openingUnits).toBe(0);
  });

  test('is apart from what stands there, which is counted together; an empty lot is none', () => {
    const seen = looked({
      lots: [lot({ units: 5 }), lot({ lotId: 'b', units: 2.5 }), lot({ lotId: 'c', units: 0 })],
      incoming: [batch(1, 7)],
    });

    expect(seen.openingUnits).toBe(7.5);
    expect(seen.lots).toHaveLength(3);
    expect(seen.comesByWeek).toEqual([0, 7, 0, 0]);
  });

  test.each([
    [inWeek(-3), 0],
    [inWeek(0), 0],
    [inWeek(1), 1],
    [inWeek(3), 3],
    [inWeek(4), 4],
    [inWeek(40), 4],
    [null, 4],
  ])('the next supply in %s has place %d', (nextSupplyWeek, place) => {
    expect(looked({ nextSupplyWeek }).nextSupply).toBe(place);
  });
});

describe('the dates of a lot', () => {
  const placed = (change: Partial<ShelfAhead['lots'][number]>) => looked({ lots: [lot(change)] }).lots[0];

  test('it may be taken in the week in which it is ready, and what was ready long ago now', () => {
    expect(placed({ readyFrom: sundayOf(inWeek(1)) })?.readyIn).toBe(1);
    expect(placed({ readyFrom: mondayOf(inWeek(2)) })?.readyIn).toBe(2);
    expect(placed({ readyFrom: addDays(asOf, -100) })?.readyIn).toBe(0);
  });

  test('a week ends past best quality unless the best quality lasts through its Sunday', () => {
    expect(placed({ bestQualityUntil: addDays(sundayOf(inWeek(2)), -1) })?.pastBestFrom).toBe(2);
    expect(placed({ bestQualityUntil: sundayOf(inWeek(2)) })?.pastBestFrom).toBe(3);
    expect(placed({ bestQualityUntil: addDays(asOf, -100) })?.pastBestFrom).toBe(0);
  });

  test('it is past its best today only from the day after the last good one', () => {
    const pastBest = (bestQualityUntil: typeof asOf) =>
      looked({ lots: [lot({ bestQualityUntil })] }).pastBestNow;

    expect(pastBest(addDays(asOf, -1))).toBe(5);
    expect(pastBest(asOf)).toBe(0);
    expect(
      looked({
        lots: [
          lot({ bestQualityUntil: addDays(asOf, -1) }),
          lot({ lotId: 'b', units: 2, bestQualityUntil: addDays(asOf, -30) }),
          lot({ lotId: 'c', units: 40 }),
        ],
      }).pastBestNow,
    ).toBe(7);
  });

  test('it is thrown away at the start of the first week that begins on its day or later, never before it was there a week', () => {
    expect(placed({ discardOn: mondayOf(inWeek(2)) })?.leavesIn).toBe(2);
    expect(placed({ discardOn: addDays(mondayOf(inWeek(2)), 1) })?.leavesIn).toBe(3);
    expect(placed({ discardOn: addDays(asOf, -100) })?.leavesIn).toBe(1);
    expect(placed({ discardOn: null })?.leavesIn).toBe(Number.POSITIVE_INFINITY);
    expect(placed({})?.leavesIn).toBe(Number.POSITIVE_INFINITY);
  });
});
