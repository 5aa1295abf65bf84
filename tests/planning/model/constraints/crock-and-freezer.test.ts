import { describe, expect, it } from 'vitest';
import type { PlanningYear } from '../../../../src/planning/planning-year.ts';
import { each, handMadeYear, named, produceOf, recipe, source, staged, used } from '../hand-made-year.ts';
import { readModel, says } from '../read-model.ts';

describe('crocks', () => {
  const crocks = (parts: Partial<PlanningYear>) =>
    readModel(
      handMadeYear(4, {
        items: [used('kraut', each(4, 1))],
        storage: { freezerQuarts: 0, freezerQuartsPerDay: 0, crockQuarts: 10 },
        ...parts,
      }),
    );

  it('hold a ferment for its weeks, the one in which it is begun the first', () => {
    const model = crocks({
      recipes: [recipe('kraut', 'kraut', { crock: { quarts: 4, weeks: 2 } }), recipe('dry', 'kraut')],
    });
    expect(model.row('crock_space[w0]')).toEqual(says('4 batches[kraut,w0] <= 10'));
    expect(model.row('crock_space[w1]')).toEqual(says('4 batches[kraut,w0] + 4 batches[kraut,w1] <= 10'));
    expect(model.row('crock_space[w3]')).toEqual(says('4 batches[kraut,w2] + 4 batches[kraut,w3] <= 10'));
  });

  it('hold less while what was put up before stands in them', () => {
    const model = crocks({
      recipes: [recipe('kraut', 'kraut', { crock: { quarts: 4, weeks: 2 } })],
      storage: {
        freezerQuarts: 0,
        freezerQuartsPerDay: 0,
        crockQuarts: 10,
        crockQuartsTakenByWeek: [8, 8, 0, 0],
      },
    });
    expect(model.row('crock_space[w0]')).toEqual(says('4 batches[kraut,w0] <= 2'));
    expect(model.row('crock_space[w2]')).toEqual(says('4 batches[kraut,w1] + 4 batches[kraut,w2] <= 10'));
  });

  it('are begun weeks before the load', () => {
    const model = crocks({
      recipes: [recipe('kraut', 'kraut', { crock: { quarts: 4, weeks: 2 }, stages: staged(1, [30, 30]) })],
    });
    expect(model.row('crock_space[w0]')).toEqual(says('4 batches[kraut,w1] <= 10'));
    expect(model.row('crock_space[w1]')).toEqual(says('4 batches[kraut,w1] + 4 batches[kraut,w2] <= 10'));
    expect(model.row('crock_space[w3]')).toEqual(says('4 batches[kraut,w3] <= 10'));
  });

  it('hold what is begun already until its load, however much stands there', () => {
    const begun = (batches: number) =>
      crocks({
        recipes: [
          recipe('kraut', 'kraut', { crock: { quarts: 4, weeks: 2 }, allowedByWeek: each(4, false) }),
        ],
        begun: [
          {
            id: 'standing',
            recipeId: named('kraut'),
            jarKind: null,
            batches,
            begunOn: handMadeYear(1).asOf,
            mayLoadByWeek: [false, true, true, false],
          },
        ],
      });
    expect(begun(1).row('crock_space[w0]')).toEqual(
      says('4 batches[kraut begun standing,w1] + 4 batches[kraut begun standing,w2] <= 10'),
    );
    expect(begun(1).row('crock_space[w2]')).toEqual(says('4 batches[kraut begun standing,w2] <= 10'));
    expect(begun(1).row('crock_space[w3]')).toBeUndefined();
    expect(begun(3).row('crock_space[w0]')).toMatchObject({ most: 12 });
  });
});

describe('the freezer', () => {
  it('holds raw material by its quarts, and takes in so much a day', () => {
    const model = readModel(
      handMadeYear(3, {
        items: [used('jam', each(3, 1))],
        recipes: [
          recipe('boil', 'jam', {
            produce: [produceOf('plum', 4, true)],
            uses: [{ materialId: 'pulp', quantity: 1 }],
          }),
          recipe('juice', 'jam', { gives: [{ materialId: 'pulp', quantity: 3 }] }),
        ],
        sources: [source('orchard', 'plum', each(3, 10))],
        materials: [
          {
            id: 'pulp',
            name: 'Pulp',
            unit: 'lb',
            opening: 0,
            keepsDaysCold: 0,
            keepsMonthsFrozen: 6,
            quartsPerUnit: 0.5,
          },
        ],
        freezable: [{ crop: named('plum'), openingLb: 0, keepsMonthsFrozen: 8, quartsPerLb: 0.7 }],
        storage: { freezerQuarts: 9, freezerQuartsPerDay: 2, crockQuarts: 0 },
      }),
    );
    expect(model.row('freezer_space[w0]')).toEqual(says('0.7 frozen[plum,w0] + 0.5 frozen[pulp,w0] <= 9'));
    expect(model.row('freezer_intake[w0]')).toEqual(
      says('0.7 frozen_in[plum,w0] + 0.5 frozen_in[pulp,w0] <= 14'),
    );
    expect(model.row('freezer_intake[w2]')).toBeUndefined();
    expect(model.columns('freezer_over')).toEqual([]);
  });

  it('holds items that live in it, over its room where they must', () => {
    const model = readModel(
      handMadeYear(2, {
        items: [used('peas', each(2, 1), { freezerQuartsPerUnit: 1.5 }), used('jam', each(2, 1))],
        recipes: [recipe('freeze', 'peas'), recipe('boil', 'jam')],
        storage: { freezerQuarts: 9, freezerQuartsPerDay: 2, crockQuarts: 0 },
      }),
    );
    expect(model.row('freezer_space[w1]')).toEqual(says('1.5 stock[peas,w1] - freezer_over[w1] <= 9'));
    expect(model.rows('freezer_intake')).toEqual([]);
  });

  it('is no matter where nothing lives in it', () => {
    const model = readModel(
      handMadeYear(2, { items: [used('jam', each(2, 1))], recipes: [recipe('boil', 'jam')] }),
    );
    expect(model.rows('freezer')).toEqual([]);
  });
});
