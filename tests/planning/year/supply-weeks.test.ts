import { describe, expect, test } from 'vitest';
import { asDate, asWeek, weeksFrom } from '../../../shared/week.ts';
import {
  type CropAhead,
  carryWeeksOf,
  cropsAhead,
  gatheredLb,
  lastUseWeek,
  plannedMaterial,
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

  test('need just a batch of it, though a computer counts it a hair less', () => {
    const sources = [0.1, 0.2].map((lb) => ({ crop: 'plum', lbByWeek: [lb], useByDays: 3 }));
    const batch = (lb: number) => [{ ...jam, produce: [{ crop: 'plum', lb }] }];
    expect(supplyWeeks(batch(0.3), cropsAhead(sources), [1])).toEqual([true]);
    expect(supplyWeeks(batch(0.31), cropsAhead(sources), [1])).toEqual([false]);
  });

  test('are those in which it may be made', () => {
    const plums = ofPlums([9, 9, 9, 9], 3);
    const allowed = (allowedByWeek: readonly boolean[] | null) =>
      weeksWhere(supplyWeeks([{ ...jam, allowedByWeek }], plums, [1, 1, 1, 1]));
    expect(allowed([true, false, true, true])).toEqual([0, 2, 3]);
    expect(allowed(null)).toEqual([0, 1, 2, 3]);
  });

  test('are those of a load whose batch was begun of what was there then', () => {
    const plums = ofPlums([9, 0, 9, 0], 3);
    const staged = (possibleByWeek: readonly boolean[] | null) =>
      weeksWhere(supplyWeeks([{ ...jam, stages: { weeks: 1, possibleByWeek } }], plums, [1, 1, 1, 1]));
    expect(staged(null)).toEqual([1, 3]);
    expect(staged([true, false, true, true])).toEqual([3]);
  });

  test('are those of any way to make it, and none where there is none', () => {
    const late = { ...jam, allowedByWeek: [false, false, true] };
    const early = { ...jam, allowedByWeek: [true, false, false] };
    expect(weeksWhere(supplyWeeks([late, early], ofPlums([9, 9, 9], 3), [1, 1, 1]))).toEqual([0, 2]);
    expect(weeksWhere(supplyWeeks([], ofPlums([9, 9, 9], 3), [1, 1, 1]))).toEqual([]);
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

describe('every season that is still to come', () => {
  const begin = (length: number, ...open: readonly number[]) =>
    seasonStarts(Array.from({ length }, (_, week) => open.includes(week)));

  test('begins after eight weeks without', () => {
    expect(begin(30, 0, 8)).toEqual([]);
    expect(begin(30, 0, 9)).toEqual([9]);
    expect(begin(60, 0, 9, 10, 30, 50)).toEqual([9, 30, 50]);
  });

  test('is the first of all where the year begins outside one, however soon it comes', () => {
    expect(begin(30, 3, 4)).toEqual([3]);
    expect(begin(30, 1)).toEqual([1]);
    expect(begin(30, 0)).toEqual([]);
  });
});

describe('how long a crop waits', () => {
  test('is whole weeks by its days, unless its days are known', () => {
    expect([0, 6, 7, 13, 14].map(carryWeeksOf)).toEqual([0, 0, 1, 1, 2]);
    expect(lastUseWeek({ useByDays: 15 }, 3)).toBe(5);
    expect(lastUseWeek({ useByDays: 15, lastUseWeekByWeek: [0, 3] }, 1)).toBe(3);
    expect(lastUseWeek({ useByDays: 15, lastUseWeekByWeek: [0, 3] }, 2)).toBe(4);
  });

  test('is what lies together in a week', () => {
    const crop: CropAhead = [
      { lbByWeek: [1, 2, 4, 8], useByDays: 7 },
      { lbByWeek: [100, 0, 0, 200], useByDays: 2, lastUseWeekByWeek: [2, 1, 2, 2] },
    ];
    expect([0, 1, 2, 3].map((week) => gatheredLb(crop, week))).toEqual([101, 103, 106, 12]);
    expect(gatheredLb(undefined, 0)).toBe(0);
  });
});

describe('a by-product that waits', () => {
  // Wednesday, August 5, 2026 is in week 32; canned on Saturdays, the first on August 8.
  const weeks = weeksFrom(asWeek('2026-W32'), 3);
  const planned = (
    waitingBy: readonly { readonly quantity: number; readonly useBy: string | null }[],
    asOf = '2026-08-05',
    days: Parameters<typeof plannedMaterial>[3] = { weekday: 6, startsOn: 'monday' },
  ) =>
    plannedMaterial(
      {
        id: 'pulp',
        name: 'Pulp',
        unit: 'lb',
        keepsDaysCold: 9,
        keepsMonthsFrozen: 12,
        quartsPerUnit: 0.5,
        waiting: 99,
        waitingBy,
      } as unknown as Parameters<typeof plannedMaterial>[0],
      weeks,
      asDate(asOf),
      days,
    );

  test('is planned until the last usual canning day on or before its own last', () => {
    expect(
      planned([
        { quantity: 1, useBy: '2026-08-07' },
        { quantity: 2, useBy: '2026-08-08' },
        { quantity: 4, useBy: '2026-08-14' },
        { quantity: 8, useBy: '2026-08-15' },
        { quantity: 16, useBy: '2027-01-01' },
      ]),
    ).toEqual({
      id: 'pulp',
      name: 'Pulp',
      unit: 'lb',
      keepsDaysCold: 9,
      keepsMonthsFrozen: 12,
      quartsPerUnit: 0.5,
      opening: 30,
      openingLasts: [
        { quantity: 2, weeks: 0 },
        { quantity: 4, weeks: 0 },
        { quantity: 8, weeks: 1 },
        { quantity: 16, weeks: 2 },
      ],
    });
  });

  test('may be used today where this week’s day has passed', () => {
    expect(planned([{ quantity: 3, useBy: '2026-08-09' }], '2026-08-09').openingLasts).toEqual([
      { quantity: 3, weeks: 0 },
    ]);
    expect(planned([{ quantity: 3, useBy: '2026-08-08' }], '2026-08-09').opening).toBe(0);
  });

  test('keeps as long as it does in the cold where no day was said', () => {
    expect(planned([{ quantity: 3, useBy: null }]).openingLasts).toEqual([{ quantity: 3, weeks: 1 }]);
  });

  test('is nothing where nothing waits', () => {
    expect(planned([])).toMatchObject({ opening: 0 });
    expect(planned([])).not.toHaveProperty('openingLasts');
    expect(planned([])).not.toHaveProperty('waiting');
  });

  test('is looked at on the days of the household’s own week', () => {
    // The Sunday that begins week 33 where weeks start on Sunday is August 9, the one that ends week 33 else is August 16.
    const sundays = (startsOn: 'monday' | 'sunday') =>
      planned([{ quantity: 3, useBy: '2026-08-09' }], '2026-08-05', { weekday: 7, startsOn }).openingLasts;
    expect(sundays('monday')).toEqual([{ quantity: 3, weeks: 0 }]);
    expect(sundays('sunday')).toEqual([{ quantity: 3, weeks: 1 }]);
  });
});
