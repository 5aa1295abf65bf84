import { expect, it } from 'vitest';
import { canningStage } from '../../../../src/planning/model/build-model.ts';
import { each, handMadeYear, lot, pack, recipe, used, week } from '../hand-made-year.ts';
import { readModel, says } from '../read-model.ts';

it('what stood, what is made and what is bought is eaten, missed or left', () => {
  const model = readModel(
    handMadeYear(3, {
      items: [
        used('jam', [2, 3, 4], {
          openingLots: [lot('old', 6)],
          packs: [pack('jar', 1, [300, 300, 300]), pack('case', 12, [3000, 3000, 3000])],
        }),
        used('salt', [1, 1, 1], { packs: [pack('bag', 1, [90, 90, 90])] }),
      ],
      recipes: [recipe('boil', 'jam', { allowedByWeek: [true, true, false] })],
    }),
  );
  expect(model.row('stock_balance[jam,w0]')).toEqual(
    says(
      'stock[jam,w0] - shortage[jam,w0] - 5 batches[boil,w0] - purchases[jam,jar,w0] - 12 purchases[jam,case,w0] = 4',
    ),
  );
  expect(model.row('stock_balance[jam,w2]')).toEqual(
    says(
      'stock[jam,w2] - stock[jam,w1] - shortage[jam,w2] - purchases[jam,jar,w2] - 12 purchases[jam,case,w2] = -4',
    ),
  );
});

it('a lot counts from the week in which it is ready, a batch from as many weeks after it', () => {
  const model = readModel(
    handMadeYear(4, {
      items: [used('pickle', [1, 1, 1, 1], { openingLots: [lot('curing', 7, { readyFrom: week(2) })] })],
      recipes: [recipe('cure', 'pickle', { readyAfterWeeks: 1, allowedByWeek: [true, true, true, true] })],
    }),
  );
  expect(model.row('stock_balance[pickle,w0]')).toEqual(says('stock[pickle,w0] = 0'));
  expect(model.row('stock_balance[pickle,w2]')).toEqual(
    says('stock[pickle,w2] - stock[pickle,w1] - shortage[pickle,w2] - 5 batches[cure,w1] = 6'),
  );
});

it('weeks joined into one sum what comes and what is eaten in them', () => {
  const model = readModel(
    handMadeYear(4, {
      items: [used('jam', [1, 2, 3, 4], { openingLots: [lot('old', 8)] })],
      recipes: [recipe('boil', 'jam', { allowedByWeek: [true, false, false, false] })],
    }),
    canningStage,
  );
  expect(model.rows('stock_balance')).toEqual(['stock_balance[jam,w3]']);
  expect(model.row('stock_balance[jam,w3]')).toEqual(
    says('stock[jam,w3] - shortage[jam,w3] - 5 batches[boil,w0] = -2'),
  );
});

it('weeks joined end before the next may come', () => {
  const model = readModel(
    handMadeYear(4, {
      items: [used('jam', each(4, 1))],
      recipes: [recipe('boil', 'jam', { allowedByWeek: [true, false, true, false] })],
    }),
    canningStage,
  );
  expect(model.rows('stock_balance')).toEqual(['stock_balance[jam,w1]', 'stock_balance[jam,w3]']);
  expect(model.row('stock_balance[jam,w3]')).toEqual(
    says('stock[jam,w3] - stock[jam,w1] - shortage[jam,w3] - 5 batches[boil,w2] = -2'),
  );
});
