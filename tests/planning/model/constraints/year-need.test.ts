import { describe, expect, it } from 'vitest';
import { lotSizingRules } from '../../../../src/planning/model/rules.ts';
import type { PlannedItem, PlannedRecipe } from '../../../../src/planning/planning-year.ts';
import { handMadeYear, lot, pack, recipe, used } from '../hand-made-year.ts';
import { readModel, says, weekly } from '../read-model.ts';

const needOf = (
  parts: Partial<PlannedItem>,
  recipes: readonly PlannedRecipe[] = [recipe('boil', 'jam'), recipe('boil-more', 'jam')],
  useByWeek = [4, 4],
) => readModel(handMadeYear(2, { items: [used('jam', useByWeek, parts)], recipes }));

describe('what a year wants', () => {
  it('takes whole batches, less what is missed of the last one', () => {
    // 8 of use, 5 a batch: 1.6 batches, so 2; a missed unit is one of the 3 of the last batch.
    const model = needOf({});
    expect(model.row('year_need[jam]')).toEqual(
      says(
        'total_batches[boil] + total_batches[boil-more] + 0.333333 shortage[jam,w0] + 0.333333 shortage[jam,w1] >= 2',
      ),
    );
    expect(model.row('year_need_reserve[jam]')).toBeUndefined();
  });

  it('is less by what stands, and more by what the year hands over', () => {
    const model = needOf({ yearEndUnits: 4, openingLots: [lot('old', 3)] });
    // 8 + 4 - 3 = 9 of 5 each: 1.8 batches.
    expect(model.row('year_need[jam]')).toMatchObject({
      least: 2,
      counts: { 'year_end_shortage[jam]': 0.25, 'shortage[jam,w0]': 0.25 },
    });
  });

  it('is served as well by what is bought', () => {
    const model = needOf({ packs: [pack('case', 6, [100, 100])] });
    expect(model.row('year_need[jam]')?.counts).toMatchObject({
      'purchases[jam,case,w0]': 2,
      'purchases[jam,case,w1]': 2,
    });
  });

  it('is no more by what the year hands over where that is no wish', () => {
    const model = readModel(
      handMadeYear(2, {
        items: [used('jam', [4, 4], { yearEndUnits: 4 })],
        recipes: [recipe('boil', 'jam')],
      }),
      weekly,
      lotSizingRules,
    );
    expect(model.row('year_need[jam]')).toEqual(says('total_batches[boil] >= 2'));
  });

  it('is more by the reserve that its end should leave', () => {
    const model = readModel(
      handMadeYear(6, {
        items: [used('jam', [4, 0, 0, 0, 0, 4], { reserveUnits: 6, reserveForAim: 3 })],
        recipes: [recipe('boil', 'jam')],
      }),
    );
    // 8 + 9 = 17 of 5 each: 3.4 batches.
    expect(model.row('year_need_reserve[jam]')).toEqual(
      says(
        'total_batches[boil] + 0.5 shortage[jam,w0] + 0.5 shortage[jam,w5] + 0.5 reserve_at_end_shortage[jam] >= 4',
      ),
    );
  });

  it('is not said where whole batches serve it exactly, or nearly', () => {
    expect(needOf({}, undefined, [5, 5]).rows('year_need')).toEqual([]);
    expect(needOf({}, undefined, [5, 5.09]).rows('year_need')).toEqual([]);
    expect(needOf({}, undefined, [5, 5.11]).rows('year_need')).toEqual(['year_need[jam]']);
  });

  it('is not said where enough stands', () => {
    expect(needOf({ openingLots: [lot('old', 8)] }).rows('year_need')).toEqual([]);
    expect(needOf({ openingLots: [lot('old', 9)] }).rows('year_need')).toEqual([]);
  });

  it('is not said of batches that give unlike much, or of what is not made', () => {
    expect(
      needOf({}, [recipe('boil', 'jam'), recipe('big', 'jam', { yieldLowUnits: 7 })]).rows('year_need'),
    ).toEqual([]);
    expect(needOf({ packs: [pack('jar', 1, [9, 9])] }, []).rows('year_need')).toEqual([]);
    expect(needOf({}, [recipe('boil', 'jam', { allowedByWeek: [false, false] })]).rows('year_need')).toEqual(
      [],
    );
  });
});

it('the batches of a year are those of its weeks', () => {
  const model = needOf({}, [recipe('boil', 'jam', { allowedByWeek: [true, true] })]);
  expect(model.row('year_totals[boil]')).toEqual(
    says('total_batches[boil] - batches[boil,w0] - batches[boil,w1] = 0'),
  );
  expect(model.column('total_batches[boil]')).toEqual({ lower: 0, upper: 6, integer: true, cost: 0 });
});
