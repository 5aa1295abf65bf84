import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { addDays, asDate, daysBetween } from '../../shared/week.ts';
import { type HarvestWindow, seasonFirstPicked, seasonIn } from '../../src/harvest/season.ts';

const { harvestWindows } = loadReferenceTables();

const windowOf = (beginsOn: string, endsOn: string, active?: readonly [string, string]): HarvestWindow => ({
  beginsOn,
  endsOn,
  mostActiveFrom: active?.[0] ?? null,
  mostActiveTo: active?.[1] ?? null,
});

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

  test('is planned whole where no most active dates are known', () => {
    expect(seasonIn(windowOf('08-03', '08-30'), 2026)).toMatchObject({
      plannedFrom: '2026-08-03',
      plannedTo: '2026-08-30',
      plannedOn: 'whole-season',
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

    expect(!outcome.ok && outcome.problems[0]?.message).toMatch(
      /Mar 1, 2026 is .* from the usual begin, Jul 10, 2026/,
    );
  });

  test('every published window, in any year and however shifted, keeps its length and its order (seed 20260817)', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...harvestWindows),
        fc.integer({ min: 2020, max: 2040 }),
        fc.integer({ min: -60, max: 60 }),
        (window, year, days) => {
          const usual = seasonIn(window, year);
          const outcome = seasonFirstPicked(usual, addDays(usual.beginsOn, days));
          if (!outcome.ok) throw new Error(outcome.problems[0]?.message);
          const season = outcome.value;

          expect(season.beginsOn <= season.endsOn).toBe(true);
          expect(season.plannedFrom >= season.beginsOn && season.plannedTo <= season.endsOn).toBe(true);
          expect(daysBetween(season.beginsOn, season.endsOn)).toBe(daysBetween(usual.beginsOn, usual.endsOn));
          expect(daysBetween(usual.plannedTo, season.plannedTo)).toBe(days);
          expect(daysBetween(usual.beginsOn, usual.endsOn)).toBeLessThan(366);
        },
      ),
      { seed: 20_260_817, numRuns: 300 },
    );
  });
});
