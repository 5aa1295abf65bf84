import { describe, expect, it } from 'vitest';
import { asJarKind } from '../../../shared/jar.ts';
import { openingShelf } from '../../../src/planning/year/opening-shelf.ts';
import { lot, used, week } from '../model/hand-made-year.ts';

const pint = asJarKind('pint', 'regular');
const quart = asJarKind('quart', 'wide');
const weeks = [0, 1, 2, 3].map(week);

const shelf = (
  lots: readonly ReturnType<typeof lot>[],
  useByWeek: readonly number[],
  firstSupplyWeek = weeks.length,
) => openingShelf(used('jam', useByWeek, { openingLots: lots }), weeks, firstSupplyWeek);

describe('lots on the shelf as the year begins', () => {
  it('are there from the first week where they were ready before it, else from their own', () => {
    const { readyByWeek } = shelf(
      [
        lot('old', 2, { readyFrom: week(-20) }),
        lot('now', 3, { readyFrom: week(0) }),
        lot('curing', 4, { readyFrom: week(2) }),
        lot('last', 5, { readyFrom: week(3) }),
        lot('beyond', 6, { readyFrom: week(4) }),
      ],
      [0, 0, 0, 0],
    );
    expect(readyByWeek).toEqual([5, 0, 4, 5]);
  });

  it('are within best quality until the week in which it ends', () => {
    const { freshByWeek, olderByWeek } = shelf(
      [
        lot('past', 1, { bestQualityUntil: week(-1) }),
        lot('soon', 2, { bestQualityUntil: week(1) }),
        lot('curing', 4, { readyFrom: week(2), bestQualityUntil: week(3) }),
        lot('long', 8, { bestQualityUntil: week(9) }),
      ],
      [0, 0, 0, 0],
    );
    expect(freshByWeek).toEqual([10, 8, 12, 8]);
    expect(olderByWeek).toEqual([1, 3, 3, 7]);
  });

  it('are eaten first that pass their date first, of one date in the order of their names', () => {
    const lots = [
      lot('b', 2, { bestQualityUntil: week(9), jarKind: quart }),
      lot('a', 2, { bestQualityUntil: week(9), jarKind: pint }),
      lot('c', 1, { bestQualityUntil: week(5), jarKind: pint, jars: 3 }),
    ];
    for (const given of [lots, lots.toReversed()]) {
      const { emptiedByWeek, takenByWeek } = shelf(given, [2, 2, 2, 0]);
      expect(takenByWeek).toEqual([2, 2, 1, 0]);
      expect(emptiedByWeek.map((emptied) => [emptied.get(pint) ?? 0, emptied.get(quart) ?? 0])).toEqual([
        [4, 0],
        [1, 1],
        [0, 1],
        [0, 0],
      ]);
    }
  });

  it('empty no jar of what stands in none', () => {
    const { emptiedByWeek } = shelf(
      [lot('bag', 3, { jarKind: null }), lot('none', 0, { jarKind: pint, jars: 2 })],
      [1, 1, 1, 0],
    );
    expect(emptiedByWeek.flatMap((emptied) => [...emptied.values()])).toEqual([0, 0, 0, 0]);
  });

  it('are never eaten before they are ready', () => {
    const { takenByWeek, missedByWeek } = shelf([lot('curing', 5, { readyFrom: week(1) })], [2, 2, 2, 2]);
    expect(takenByWeek).toEqual([0, 2, 2, 1]);
    expect(missedByWeek).toEqual([2, 0, 0, 1]);
  });

  it('are all that is missed of before the first supply, and no longer', () => {
    expect(shelf([lot('old', 3)], [2, 2, 2, 2], 2).missedByWeek).toEqual([0, 1, 0, 0]);
    expect(shelf([], [2, 2, 2, 2], 0).missedByWeek).toEqual([0, 0, 0, 0]);
  });

  it('count as older as far as nobody has eaten them', () => {
    const { olderByWeek } = shelf(
      [
        lot('old', 3, { bestQualityUntil: week(0) }),
        lot('curing', 4, { readyFrom: week(3), bestQualityUntil: week(1) }),
      ],
      [1, 1, 0, 0],
    );
    expect(olderByWeek).toEqual([2, 1, 1, 5]);
  });
});
