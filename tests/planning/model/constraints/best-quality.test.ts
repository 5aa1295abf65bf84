import { describe, expect, it } from 'vitest';
import { lotSizingRules } from '../../../../src/planning/model/rules.ts';
import { each, handMadeYear, lot, pack, recipe, used, week } from '../hand-made-year.ts';
import { readModel, says, weekly } from '../read-model.ts';

describe('units past their date', () => {
  const model = () =>
    readModel(
      handMadeYear(5, {
        items: [
          used('jam', each(5, 1), {
            bestQualityWeeks: 2,
            openingLots: [lot('old', 3, { bestQualityUntil: week(1) })],
            packs: [pack('jar', 2, each(5, 300))],
          }),
        ],
        recipes: [recipe('boil', 'jam')],
      }),
    );

  it('are what stands beyond all that came within its best quality', () => {
    expect(model().row('best_quality[jam,w2]')).toEqual(
      says(
        'stock[jam,w2] - older[jam,w2] - 5 batches[boil,w1] - 5 batches[boil,w2] - 2 purchases[jam,jar,w1] - 2 purchases[jam,jar,w2] <= 0',
      ),
    );
    expect(model().row('best_quality[jam,w4]')?.counts).toEqual(
      says(
        'stock[jam,w4] - older[jam,w4] - 5 batches[boil,w3] - 5 batches[boil,w4] - 2 purchases[jam,jar,w3] - 2 purchases[jam,jar,w4] <= 0',
      ).counts,
    );
  });

  it('can be none before anything is past its date', () => {
    expect(model().columns('older')).toEqual([
      'older[jam,w1]',
      'older[jam,w2]',
      'older[jam,w3]',
      'older[jam,w4]',
    ]);
    expect(model().rows('best_quality')).toHaveLength(4);
  });

  it('leave out the opening lots that are still within theirs', () => {
    const two = readModel(
      handMadeYear(5, {
        items: [
          used('jam', each(5, 1), {
            bestQualityWeeks: 52,
            openingLots: [
              lot('old', 9, { bestQualityUntil: week(1) }),
              lot('new', 4, { bestQualityUntil: week(3) }),
            ],
          }),
        ],
        recipes: [recipe('boil', 'jam', { readyAfterWeeks: 2 })],
      }),
    );
    expect(two.row('best_quality[jam,w2]')).toEqual(
      says('stock[jam,w2] - older[jam,w2] - 5 batches[boil,w0] <= 4'),
    );
    expect(two.row('best_quality[jam,w3]')).toEqual(
      says('stock[jam,w3] - older[jam,w3] - 5 batches[boil,w0] - 5 batches[boil,w1] <= 0'),
    );
  });

  it('count nothing made too late to be ready', () => {
    const cured = readModel(
      handMadeYear(5, {
        items: [used('pickle', each(5, 1), { bestQualityWeeks: 1 })],
        recipes: [recipe('cure', 'pickle', { readyAfterWeeks: 3 })],
      }),
    );
    expect(cured.row('best_quality[pickle,w1]')).toEqual(says('stock[pickle,w1] - older[pickle,w1] <= 0'));
  });
});

describe('what may not be past its date', () => {
  const refrigerated = used('fridge-pickle', each(4, 1), {
    bestQualityWeeks: 2,
    neverPastDays: true,
    openingLots: [
      lot('first', 5, { bestQualityUntil: week(1) }),
      lot('second', 2, { bestQualityUntil: week(3) }),
    ],
  });

  it('is so only of the opening lots, were none of them taken', () => {
    const model = readModel(
      handMadeYear(4, { items: [refrigerated], recipes: [recipe('soak', 'fridge-pickle')] }),
    );
    expect(model.columns('older')).toEqual([
      'older[fridge-pickle,w1]',
      'older[fridge-pickle,w2]',
      'older[fridge-pickle,w3]',
    ]);
    expect(model.column('older[fridge-pickle,w1]')).toMatchObject({ lower: 0, upper: 5 });
    expect(model.column('older[fridge-pickle,w2]')).toMatchObject({ lower: 0, upper: 5 });
    expect(model.column('older[fridge-pickle,w3]')).toMatchObject({ lower: 0, upper: 7 });
  });

  it('is nothing at all where the rules forbid it', () => {
    const model = readModel(
      handMadeYear(4, {
        items: [used('part', each(4, 1), { bestQualityWeeks: 2 })],
        recipes: [recipe('cast', 'part')],
      }),
      weekly,
      lotSizingRules,
    );
    expect(model.column('older[part,w2]')).toMatchObject({ lower: 0, upper: 0 });
  });

  it('is anything of what a household may eat late', () => {
    const model = readModel(
      handMadeYear(4, {
        items: [used('jam', each(4, 1), { bestQualityWeeks: 2 })],
        recipes: [recipe('boil', 'jam')],
      }),
    );
    expect(model.column('older[jam,w2]')).toMatchObject({ lower: 0, upper: Number.POSITIVE_INFINITY });
  });
});
