import { describe, expect, test } from 'vitest';
import {
  type CropAhead,
  cropsAhead,
  seasonStarts,
  supplyWeeks,
} from '../../../src/planning/year/supply-weeks.ts';

const weeksWhere = (weeks: readonly boolean[]) => weeks.flatMap((arrives, week) => (arrives ? [week] : []));
const inWeeks = (length: number, given: Readonly<Record<number, number>>) =>
  Array.from({ length }, (_, week) => given[week] ?? 0);

describe('weeks with new supply of an item', () => {
  const jam = { produce: [{ crop: 'plum', lb: 5 }], readyAfterWeeks: 0, allowedByWeek: null };

  const ofPlums = (lbByWeek: readonly number[], useByDays: number): ReadonlyMap<string, CropAhead> =>
    cropsAhead([{ crop: 'plum', lbByWeek, useByDays }]);

  test.each([
    ['a crop that keeps a few days', 3, [5]],
    ['one that keeps a week', 7, [3, 5, 6]],
    ['one that keeps two weeks', 14, [3, 4, 5, 6, 7]],
  ])('are those in which what still keeps gives a whole batch: %s', (_, useByDays, weeks) => {
    const plums = ofPlums(inWeeks(8, { 2: 3, 3: 3, 5: 6 }), useByDays);

    expect(weeksWhere(supplyWeeks([jam], plums, inWeeks(8, {}).fill(1)))).toEqual(weeks);
  });

  test('count all sources of a crop together', () => {
    const plums = cropsAhead([
      { crop: 'plum', lbByWeek: inWeeks(4, { 1: 3 }), useByDays: 3 },
      { crop: 'plum', lbByWeek: inWeeks(4, { 1: 2, 2: 4 }), useByDays: 3 },
    ]);

    expect(weeksWhere(supplyWeeks([jam], plums, [1, 1, 1, 1]))).toEqual([1]);
  });

  test('come later for what cures, and not from weeks without a session', () => {
    const plums = ofPlums(inWeeks(8, { 2: 6, 4: 6 }), 7);
    const sessions = [1, 1, 0, 1, 1, 0, 1, 1];

    expect(weeksWhere(supplyWeeks([{ ...jam, readyAfterWeeks: 2 }], plums, sessions))).toEqual([5, 6]);
  });

  test('need every crop of the recipe', () => {
    const salsa = { ...jam, produce: [...jam.produce, { crop: 'pepper', lb: 1 }] };

    expect(weeksWhere(supplyWeeks([salsa], ofPlums([9, 9], 7), [1, 1]))).toEqual([]);
  });
});

describe('the start of the next season', () => {
  const season = (length: number, ...open: readonly number[]) =>
    Array.from({ length }, (_, week) => open.includes(week));

  test.each([
    ['the season that runs now is not the next one', season(60, 0, 1, 2, 3, 48, 49), 48],
    ['a season to come begins with its first week', season(60, 30, 31, 32), 30],
    ['a week off does not part two seasons', season(60, 0, 1, 5, 6, 50), 50],
    ['none in sight', season(60, 0, 1, 2), null],
    ['supply without a pause has no next season', Array.from({ length: 60 }, () => true), null],
  ])('%s', (_, canArrive, start) => {
    expect(seasonStarts(canArrive)[0] ?? null).toBe(start);
  });
});
