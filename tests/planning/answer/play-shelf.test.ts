import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { playShelf, type ShelfCohort } from '../../../src/planning/answer/play-shelf.ts';

const cohort = (units: number, readyWeek = -1, olderFromWeek = 99): ShelfCohort => ({
  units,
  readyWeek,
  olderFromWeek,
});

describe('a shelf played week by week', () => {
  test('gives what is wanted while it lasts, and counts what is missed', () => {
    expect(playShelf([2, 2, 2], [cohort(5)])).toEqual({
      takenByWeek: [2, 2, 1],
      missedByWeek: [0, 0, 1],
      stockByWeek: [3, 1, 0],
      olderByWeek: [0, 0, 0],
    });
    expect(playShelf([1], [])).toEqual({
      takenByWeek: [0],
      missedByWeek: [1],
      stockByWeek: [0],
      olderByWeek: [0],
    });
  });

  test('gives nothing before it is ready', () => {
    expect(playShelf([1, 1, 1], [cohort(5, 1)])).toMatchObject({
      takenByWeek: [0, 1, 1],
      missedByWeek: [1, 0, 0],
      stockByWeek: [0, 4, 3],
    });
  });

  test('gives first what is best for the shortest, of equal ones what was ready first', () => {
    // Three that keep on, two that are older from week 2 on.
    expect(playShelf([1, 0, 0], [cohort(3, -1, 9), cohort(2, -1, 2)]).olderByWeek).toEqual([0, 0, 1]);
    expect(playShelf([1, 0, 0], [cohort(2, -1, 2), cohort(3, -1, 9)]).olderByWeek).toEqual([0, 0, 1]);
    // Best as long as each other: that of week 0 is taken in it, and that of week 1 stands.
    expect(playShelf([1, 1], [cohort(1, 1, 5), cohort(1, 0, 5)]).missedByWeek).toEqual([0, 0]);
  });

  test('counts as older what is ready and left at the end of the week from which it is', () => {
    expect(playShelf([0, 0, 0, 0], [cohort(4, 2, 1), cohort(1, -1, 3)]).olderByWeek).toEqual([0, 0, 4, 5]);
  });

  test('misses nothing by rounding', () => {
    expect(playShelf([0.1 + 0.2], [cohort(0.3)]).missedByWeek).toEqual([0]);
    expect(playShelf([0.3001], [cohort(0.3)]).missedByWeek[0]).toBeGreaterThan(0);
  });

  test('leaves what it is given as it was', () => {
    const given = [cohort(5)];

    playShelf([2], given);

    expect(given).toEqual([cohort(5)]);
  });

  test('takes and misses together what is wanted, and loses nothing', () => {
    fc.assert(
      fc.property(
        fc.array(fc.nat(4), { minLength: 1, maxLength: 8 }),
        fc.array(fc.tuple(fc.nat(9), fc.integer({ min: -1, max: 7 }), fc.integer({ min: 0, max: 9 })), {
          maxLength: 5,
        }),
        (use, cohorts) => {
          const played = playShelf(
            use,
            cohorts.map(([units, ready, older]) => cohort(units, ready, older)),
          );
          const sum = (list: readonly number[]) => list.reduce((total, one) => total + one, 0);

          expect(played.takenByWeek.map((taken, week) => taken + (played.missedByWeek[week] ?? 0))).toEqual(
            use,
          );
          const came = sum(cohorts.filter(([, ready]) => ready < use.length).map(([units]) => units));
          expect(sum(played.takenByWeek) + (played.stockByWeek.at(-1) ?? 0)).toBe(came);
        },
      ),
    );
  });
});
