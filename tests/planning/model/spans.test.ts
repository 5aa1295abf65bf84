import { describe, expect, it } from 'vitest';
import { planningParameters } from '../../../src/planning/model/parameters.ts';
import { planningSets } from '../../../src/planning/model/sets.ts';
import { joinedSpans, sumOver, weeklySpans } from '../../../src/planning/model/spans.ts';
import type { PlannedItem, PlannedRecipe } from '../../../src/planning/planning-year.ts';
import { each, handMadeYear, lot, pack, recipe, used, week } from './hand-made-year.ts';

const joined = (count: number, item: Partial<PlannedItem> = {}, recipes: readonly PlannedRecipe[] = []) => {
  const sets = planningSets(handMadeYear(count, { items: [used('jam', each(count, 1), item)], recipes }));
  const [spans] = joinedSpans(sets, planningParameters(sets));
  return (spans ?? []).flatMap((span) => (span === null ? [] : [`${span.from}-${span.to}`]));
};
const madeIn = (count: number, ...weeks: readonly number[]) =>
  recipe('boil', 'jam', { allowedByWeek: Array.from({ length: count }, (_, at) => weeks.includes(at)) });

describe('weeks in which nothing can come', () => {
  it('are one to the year’s end', () => {
    expect(joined(10)).toEqual(['0-9']);
    expect(joined(10, {}, [madeIn(10, 4)])).toEqual(['0-3', '4-9']);
    expect(joined(10, {}, [madeIn(10, 0)])).toEqual(['0-9']);
  });

  it('end before a batch is ready, and before a lot is', () => {
    expect(joined(10, {}, [{ ...madeIn(10, 4), readyAfterWeeks: 2 }])).toEqual(['0-5', '6-9']);
    expect(joined(10, { openingLots: [lot('curing', 3, { readyFrom: week(7) })] })).toEqual(['0-6', '7-9']);
    expect(joined(10, { openingLots: [lot('old', 3, { readyFrom: week(0) })] })).toEqual(['0-9']);
  });

  it('end before anything grows older', () => {
    expect(joined(10, { openingLots: [lot('old', 3, { bestQualityUntil: week(4) })] })).toEqual([
      '0-3',
      '4-9',
    ]);
    expect(joined(10, { bestQualityWeeks: 5 }, [madeIn(10, 2)])).toEqual(['0-1', '2-6', '7-7', '8-8', '9-9']);
    expect(joined(10, { bestQualityWeeks: 5 })).toEqual(['0-9']);
    expect(joined(10, { bestQualityWeeks: 5 }, [madeIn(10)])).toEqual(['0-9']);
  });

  it('end where the reserve is looked at', () => {
    // Looked at in the week before a season that follows eight weeks without, and once in the two months before it.
    expect(joined(14, {}, [madeIn(14, 0, 12)])).toEqual(['0-7', '8-11', '12-13']);
    // Looked at in the fourth of a season.
    expect(joined(8, {}, [madeIn(8, 0, 5)])).toEqual(['0-3', '4-4', '5-7']);
  });

  it('are known as such, and those of what is bought are not', () => {
    const sets = planningSets(
      handMadeYear(3, {
        items: [used('jam', each(3, 1)), used('salt', each(3, 1), { packs: [pack('bag', 1, each(3, 9))] })],
      }),
    );
    const [jam, salt] = joinedSpans(sets, planningParameters(sets));
    expect(jam).toEqual([null, null, { from: 0, to: 2, onlyUse: true }]);
    expect(salt?.map((span) => span?.onlyUse)).toEqual([false, false, false]);
  });
});

describe('weeks in which it can only be bought', () => {
  it('are apart for two months and joined by four after them', () => {
    const spans = joined(19, { packs: [pack('bag', 1, each(19, 9))] });
    expect(spans).toEqual([...Array.from({ length: 8 }, (_, at) => `${at}-${at}`), '8-11', '12-15', '16-18']);
  });

  it('end before anything is made', () => {
    expect(joined(16, { packs: [pack('bag', 1, each(16, 9))] }, [madeIn(16, 10)]).slice(8)).toEqual([
      '8-9',
      '10-13',
      '14-15',
    ]);
  });
});

it('every week stands for itself', () => {
  expect(weeklySpans(planningSets(handMadeYear(2, { items: [used('jam', [1, 1])] })))).toEqual([
    [
      { from: 0, to: 0, onlyUse: false },
      { from: 1, to: 1, onlyUse: false },
    ],
  ]);
});

it('a span sums its weeks, both ends with it', () => {
  expect(sumOver([1, 2, 4, 8], { from: 1, to: 2, onlyUse: true })).toBe(6);
  expect(sumOver([1, 2, 4, 8], { from: 3, to: 3, onlyUse: true })).toBe(8);
});
