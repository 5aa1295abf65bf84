import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { addDays, asDate, asWeek, daysBetween, weekOf, weeksBetween, weeksFrom } from '../../shared/week.ts';
import { type HarvestWindow, seasonFirstPicked, seasonIn, shifted } from '../../src/harvest/season.ts';
import { supplyByWeek } from '../../src/harvest/supply-by-week.ts';

const { harvestWindows } = loadReferenceTables();

const windowOf = (beginsOn: string, endsOn: string, active?: readonly [string, string]): HarvestWindow => ({
  beginsOn,
  endsOn,
  mostActiveFrom: active?.[0] ?? null,
  mostActiveTo: active?.[1] ?? null,
});
const year2026 = weeksFrom(asWeek('2026-W01'), 53);
const total = (supply: readonly { quantity: number }[]): number =>
  supply.reduce((sum, { quantity }) => sum + quantity, 0);

describe('a season laid on a year', () => {
  test('is planned on its most active dates where they are known', () => {
    const season = seasonIn(windowOf('07-01', '09-30', ['07-20', '08-31']), 2026);

    expect(season).toMatchObject({
      beginsOn: '2026-07-01',
      endsOn: '2026-09-30',
      plannedFrom: '2026-07-20',
      plannedTo: '2026-08-31',
      plannedOn: 'most-active',
    });
  });

  test('wraps the year end when it ends before it begins', () => {
    expect(seasonIn(windowOf('11-01', '02-28'), 2026).endsOn).toBe('2027-02-28');
  });

  test('moves whole when the first picking comes nine days early', () => {
    const usual = seasonIn(windowOf('07-10', '08-31', ['07-20', '08-15']), 2026);

    const thisYear = seasonFirstPicked(usual, asDate('2026-07-01'));

    expect(thisYear).toMatchObject({
      ok: true,
      value: {
        beginsOn: '2026-07-01',
        plannedFrom: '2026-07-11',
        plannedTo: '2026-08-06',
        endsOn: '2026-08-22',
      },
    });
  });

  test('refuses a first picking more than 60 days off, naming both dates', () => {
    const outcome = seasonFirstPicked(seasonIn(windowOf('07-10', '08-31'), 2026), asDate('2026-03-01'));

    expect(!outcome.ok && outcome.problems[0]?.message).toMatch(/2026-07-10; found 2026-03-01/);
  });
});

describe('supply by week', () => {
  test('70 lb over 14 planned days from a Monday are 35 lb in each of two weeks', () => {
    const window = windowOf('08-01', '09-15', ['08-17', '08-30']);

    const supply = supplyByWeek({ window, amount: { per: 'season', quantity: 70 } }, year2026);

    expect(supply.filter(({ quantity }) => quantity > 0)).toEqual([
      { week: '2026-W34', quantity: 35, openDays: 7 },
      { week: '2026-W35', quantity: 35, openDays: 7 },
    ]);
  });

  test('a weekly amount counts by the days of the week that are open', () => {
    const window = windowOf('08-19', '08-25');

    const supply = supplyByWeek({ window, amount: { per: 'week', quantity: 14 } }, year2026);

    expect(supply.filter(({ openDays }) => openDays > 0)).toEqual([
      { week: '2026-W34', quantity: 10, openDays: 5 },
      { week: '2026-W35', quantity: 4, openDays: 2 },
    ]);
  });

  test('a first picking shifts its own year and no other', () => {
    const source = {
      window: windowOf('08-03', '08-09'),
      amount: { per: 'season', quantity: 7 },
      firstPicked: [{ year: 2026, on: asDate('2026-08-10') }],
    } as const;

    const supply = supplyByWeek(source, weeksFrom(asWeek('2026-W01'), 105));

    expect(supply.filter(({ quantity }) => quantity > 0).map(({ week }) => week)).toEqual([
      '2026-W33',
      '2027-W31',
      '2027-W32',
    ]);
  });

  test('the weeks that hold a season hold the whole crop, for every published window however shifted (seed 20260817)', () => {
    fc.assert(
      fc.property(fc.constantFrom(...harvestWindows), fc.integer({ min: -60, max: 60 }), (window, days) => {
        const usual = seasonIn(window, 2026);
        const on = addDays(usual.beginsOn, days);
        const season = shifted(usual, days);
        const length = daysBetween(season.plannedFrom, season.plannedTo) + 1;
        fc.pre(length < 280);
        const first = weekOf(season.plannedFrom);
        const weeks = weeksFrom(first, weeksBetween(first, weekOf(season.plannedTo)) + 1);

        const supply = supplyByWeek(
          { window, amount: { per: 'season', quantity: 100 }, firstPicked: [{ year: 2026, on }] },
          weeks,
        );

        expect(total(supply)).toBeCloseTo(100, 9);
        expect(supply.reduce((sum, { openDays }) => sum + openDays, 0)).toBe(length);
      }),
      { seed: 20_260_817, numRuns: 500 },
    );
  });

  test('no weeks, no supply', () => {
    expect(
      supplyByWeek({ window: windowOf('08-01', '08-02'), amount: { per: 'week', quantity: 1 } }, []),
    ).toEqual([]);
  });
});
