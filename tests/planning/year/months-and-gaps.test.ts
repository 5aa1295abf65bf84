import { describe, expect, it } from 'vitest';
import { addWeeks, asWeek } from '../../../shared/week.ts';
import { wantedByHand } from '../../../src/planning/year/hand-target.ts';
import { itemGaps } from '../../../src/planning/year/item-gaps.ts';
import { isInMonths } from '../../../src/planning/year/months.ts';
import type { ShelfProjection } from '../../../src/shelf/shelf-projection.ts';

describe('the months of a week', () => {
  // The Thursday of week 22 of 2026 is May 28, that of week 23 June 4, of week 35 August 27, of week 36 September 3.
  it('are those from the first to the last, both with it', () => {
    const summer = { fromMonth: 6, untilMonth: 8 };
    expect(
      ['2026-W22', '2026-W23', '2026-W35', '2026-W36'].map((week) => isInMonths(asWeek(week), summer)),
    ).toEqual([false, true, true, false]);
    expect(isInMonths(asWeek('2026-W23'), { fromMonth: 6, untilMonth: 6 })).toBe(true);
    expect(isInMonths(asWeek('2026-W36'), { fromMonth: 6, untilMonth: 6 })).toBe(false);
  });

  it('may run over the year’s end', () => {
    const winter = { fromMonth: 11, untilMonth: 2 };
    // October 29, November 5, January 7, February 25, March 4.
    const weeks = ['2026-W44', '2026-W45', '2027-W01', '2027-W08', '2027-W09'];
    expect(weeks.map((week) => isInMonths(asWeek(week), winter))).toEqual([false, true, true, true, false]);
  });

  it('are all where none are named', () => {
    expect(isInMonths(asWeek('2026-W01'), null)).toBe(true);
  });
});

describe('a target set by hand', () => {
  it('scales use so that it and the reserve are the target', () => {
    expect(wantedByHand(50, { useByWeek: [10, 10], reserveUnits: 5 })).toEqual({
      reserveUnits: 5,
      useByWeek: [22.5, 22.5],
    });
    expect(wantedByHand(9, { useByWeek: [1, 2], reserveUnits: 0 }).useByWeek).toEqual([3, 6]);
  });

  it('is all reserve where that is more', () => {
    expect(wantedByHand(3, { useByWeek: [10, 10], reserveUnits: 5 })).toEqual({
      reserveUnits: 3,
      useByWeek: [0, 0],
    });
  });

  it('is spread evenly where nobody is expected to use any', () => {
    expect(wantedByHand(8, { useByWeek: [0, 0, 0, 0], reserveUnits: 2 }).useByWeek).toEqual([
      1.5, 1.5, 1.5, 1.5,
    ]);
  });
});

describe('weeks in which there is likely none', () => {
  const first = asWeek('2026-W32');
  const week = (at: number) => addWeeks(first, at);
  /** Units that likely stand at each week's end, one wanted a week; nothing comes unless it is said. */
  const projection = (stand: readonly number[], comes: readonly number[] = []) =>
    ({
      weeks: stand.map((p50, at) => ({
        week: week(at),
        in: comes.includes(at) ? 1 : 0,
        unmet: p50 > 0 ? 0 : 1,
        closing: { p10: 0, p50, p90: 9 },
      })),
    }) as unknown as ShelfProjection;

  it('last until something comes, under a plan and where it can be had no more', () => {
    const bare = projection([2, 1, 0, 0, 0, 0, 1, 0], [6]);
    const gaps = [
      { from: 2, until: 6 },
      { from: 7, until: 8 },
    ];
    expect(itemGaps(bare, true, week(3))).toEqual(gaps);
    expect(itemGaps(bare, false, null)).toEqual(gaps);
  });

  it('last without a plan until it can be had again', () => {
    const bare = projection([2, 1, 0, 0, 0, 0, 0, 0]);
    expect(itemGaps(bare, false, week(5))).toEqual([{ from: 2, until: 5 }]);
    expect(itemGaps(bare, false, week(20))).toEqual([{ from: 2, until: 8 }]);
  });

  it('are none where that is the week after or before', () => {
    const bare = projection([2, 1, 0, 0, 0, 0, 0, 0]);
    expect(itemGaps(bare, false, week(4))).toEqual([{ from: 2, until: 4 }]);
    expect(itemGaps(bare, false, week(3))).toEqual([]);
    expect(itemGaps(bare, false, week(1))).toEqual([]);
    expect(itemGaps(bare, false, week(-3))).toEqual([]);
  });

  it('are none where nobody eats it', () => {
    expect(itemGaps(null, true, null)).toEqual([]);
    expect(itemGaps(null, false, first)).toEqual([]);
    expect(itemGaps(projection([]), false, first)).toEqual([]);
  });
});
