import { describe, expect, it } from 'vitest';
import { asCents } from '../../../../shared/money.ts';
import { broughtHome } from '../../../../src/planning/model/constraints/supply-balance.ts';
import type { PlannedSupply } from '../../../../src/planning/planning-year.ts';
import { each, handMadeYear, recipe, staged, used } from '../hand-made-year.ts';
import { readModel, says } from '../read-model.ts';

const sugar = (parts: Partial<PlannedSupply> = {}): PlannedSupply => ({
  id: 'sugar',
  name: 'Sugar',
  unit: 'lb',
  onHand: 3,
  packQuantity: 4,
  packPrice: asCents(350),
  ...parts,
});
const sweet = [{ supplyId: 'sugar', quantity: 2 }];

describe('a supply', () => {
  const model = () =>
    readModel(
      handMadeYear(4, {
        items: [used('jam', each(4, 1))],
        recipes: [
          recipe('boil', 'jam', { supplies: sweet }),
          recipe('dry', 'jam', { supplies: [{ supplyId: 'salt', quantity: 9 }] }),
        ],
        supplies: [sugar()],
      }),
    );

  it('is on hand, or bought at once, in the first week', () => {
    expect(model().row('supply_balance[sugar,w0]')).toEqual(
      says('supply_left[sugar,w0] - 4 supply_bought[sugar,w0] + 2 batches[boil,w0] = 3'),
    );
  });

  it('of the second week was bought in the first', () => {
    expect(model().row('supply_balance[sugar,w1]')).toEqual(
      says('supply_left[sugar,w1] - supply_left[sugar,w0] + 2 batches[boil,w1] = 0'),
    );
  });

  it('is bought a week before it is used', () => {
    expect(model().row('supply_balance[sugar,w2]')).toEqual(
      says(
        'supply_left[sugar,w2] - supply_left[sugar,w1] - 4 supply_bought[sugar,w1] + 2 batches[boil,w2] = 0',
      ),
    );
    expect(model().columns('supply_bought')).toEqual([
      'supply_bought[sugar,w0]',
      'supply_bought[sugar,w1]',
      'supply_bought[sugar,w2]',
    ]);
  });

  it('is used when a batch is begun', () => {
    const begun = readModel(
      handMadeYear(4, {
        items: [used('jam', each(4, 1))],
        recipes: [recipe('soak', 'jam', { supplies: sweet, stages: staged(2, [30, 0, 30]) })],
        supplies: [sugar()],
      }),
    );
    expect(begun.row('supply_balance[sugar,w0]')).toEqual(
      says('supply_left[sugar,w0] - 4 supply_bought[sugar,w0] + 2 batches[soak,w2] = 3'),
    );
    expect(begun.rows('supply_balance')).toEqual(['supply_balance[sugar,w0]', 'supply_balance[sugar,w1]']);
  });

  it('that no recipe uses has no row', () => {
    const none = readModel(
      handMadeYear(4, {
        items: [used('jam', each(4, 1))],
        recipes: [recipe('dry', 'jam')],
        supplies: [sugar()],
      }),
    );
    expect(none.rows('supply')).toEqual([]);
    expect(none.columns('supply')).toEqual([]);
  });
});

describe('a supply that spoils', () => {
  const model = () =>
    readModel(
      handMadeYear(3, {
        items: [used('jam', each(3, 1))],
        recipes: [recipe('boil', 'jam', { supplies: sweet, allowedByWeek: [true, false, true] })],
        supplies: [sugar({ freshDays: 5 })],
      }),
    );

  it('is bought in the week of its batch', () => {
    expect(model().columns('supply_bought')).toEqual(['supply_bought[sugar,w0]', 'supply_bought[sugar,w2]']);
    expect(model().row('supply_balance[sugar,w2]')).toEqual(
      says(
        'supply_left[sugar,w2] - supply_left[sugar,w1] - 4 supply_bought[sugar,w2] + 2 batches[boil,w2] <= 0',
      ),
    );
  });

  it('leaves nothing of what is bought for another week', () => {
    expect(model().row('supply_balance[sugar,w0]')).toMatchObject({
      least: Number.NEGATIVE_INFINITY,
      most: 3,
    });
    expect(model().row('supply_fresh[sugar,w0]')).toEqual(says('supply_left[sugar,w0] <= 3'));
    expect(model().row('supply_fresh[sugar,w1]')).toEqual(
      says('supply_left[sugar,w1] - supply_left[sugar,w0] <= 0'),
    );
  });
});

it('what keeps has no such row', () => {
  const model = readModel(
    handMadeYear(2, {
      items: [used('jam', each(2, 1))],
      recipes: [recipe('boil', 'jam', { supplies: sweet })],
      supplies: [sugar()],
    }),
  );
  expect(model.rows('supply_fresh')).toEqual([]);
});

it('what is bought is home a week later, in the first week at once', () => {
  expect([0, 1, 2, 3].map((week) => broughtHome([10, 11, 12, null], week))).toEqual([10, null, 11, 12]);
  expect(broughtHome([null, 11], 0)).toBeNull();
});
