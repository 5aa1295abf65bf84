import { describe, expect, it } from 'vitest';
import { asCents } from '../../../../shared/money.ts';
import { asWeek } from '../../../../shared/week.ts';
import type { PlannedWeek } from '../../../../src/planning/plan.ts';
import type { BegunBatches, PlanningYear } from '../../../../src/planning/planning-year.ts';
import { each, handMadeYear, named, pint, recipe, staged, used, week, wideQuart } from '../hand-made-year.ts';
import { readModel, says, weekly } from '../read-model.ts';

const jamYear = (parts: Partial<PlanningYear> = {}) =>
  handMadeYear(6, {
    items: [used('jam', each(6, 1))],
    recipes: [
      recipe('boil', 'jam', { jarKind: pint }),
      recipe('boil', 'jam', { jarKind: wideQuart }),
      recipe('dry', 'jam'),
    ],
    ...parts,
  });

describe('a pinned batch', () => {
  const model = () =>
    readModel(
      jamYear({ kept: [{ recipeId: named('boil'), week: week(1), decision: 'pinned', batches: 2 }] }),
    );

  it('is made in whatever jars, or missing at a price', () => {
    expect(model().row('kept[boil,w1]')).toEqual(
      says('pin_missing[boil,w1] + batches[boil in pint/regular,w1] + batches[boil in quart/wide,w1] >= 2'),
    );
    expect(model().column('pin_missing[boil,w1]')).toMatchObject({ lower: 0, upper: 2 });
    expect(model().built.pins).toMatchObject([{ kept: { recipeId: 'boil', batches: 2 } }]);
    expect(Object.keys(model().term('pins').cents)).toEqual(['pin_missing[boil,w1]']);
  });

  it('of a week that is past, of a recipe that is gone or decided otherwise asks nothing', () => {
    const others = readModel(
      jamYear({
        kept: [
          { recipeId: named('boil'), week: asWeek('2027-W20'), decision: 'pinned', batches: 1 },
          { recipeId: named('boil'), week: week(2), decision: 'done', batches: 1 },
          { recipeId: named('dry'), week: week(3), decision: 'ruled-out' },
        ],
      }),
    );
    expect(others.rows('kept')).toEqual([]);
    expect(others.built.pins).toEqual([]);
    expect(others.column('batches[dry,w3]')).toBeUndefined();
    expect(others.column('batches[dry,w2]')).toBeDefined();
    expect(others.column('batches[boil in pint/regular,w3]')).toBeDefined();
  });

  it('of an unknown recipe can only be missing', () => {
    const gone = readModel(
      jamYear({ kept: [{ recipeId: named('gone'), week: week(1), decision: 'pinned', batches: 1 }] }),
    );
    expect(gone.row('kept[gone,w1]')).toEqual(says('pin_missing[gone,w1] >= 1'));
  });
});

describe('batches begun already', () => {
  const begun = (parts: Partial<BegunBatches> = {}): BegunBatches => ({
    id: 'standing',
    recipeId: named('soak'),
    jarKind: pint,
    batches: 2,
    begunOn: handMadeYear(1).asOf,
    mayLoadByWeek: [false, true, true, false, false, false],
    ...parts,
  });
  const model = () =>
    readModel(
      jamYear({
        recipes: [
          recipe('soak', 'jam', {
            jarKind: pint,
            stages: staged(1, [40, 20]),
            supplies: [{ supplyId: 'sugar', quantity: 2 }],
            gives: [{ materialId: 'pulp', quantity: 2 }],
          }),
          recipe('soak', 'jam', { jarKind: wideQuart, handsOnMinutes: 99 }),
        ],
        supplies: [
          { id: 'sugar', name: 'Sugar', unit: 'lb', onHand: 0, packQuantity: 4, packPrice: asCents(350) },
        ],
        begun: [begun(), begun({ id: 'of-none', jarKind: null })],
      }),
    );

  it('are loaded in the weeks their stages allow, or missing at a price', () => {
    expect(model().row('begun_batches[standing]')).toEqual(
      says(
        'begun_missing[standing] + batches[soak in pint/regular begun standing,w1] + batches[soak in pint/regular begun standing,w2] = 2',
      ),
    );
    expect(model().column('begun_missing[standing]')).toMatchObject({ lower: 0, upper: 2 });
    expect(Object.keys(model().term('pins').cents)).toEqual(['begun_missing[standing]']);
  });

  it('take nothing any more but the hours of their load', () => {
    expect(model().row('kitchen_hours[w1]')?.counts).toMatchObject({
      'batches[soak in pint/regular begun standing,w1]': 20,
      'batches[soak in pint/regular,w1]': 20,
      'batches[soak in pint/regular,w2]': 40,
    });
    expect(model().row('supply_balance[sugar,w1]')?.counts).not.toHaveProperty(
      'batches[soak in pint/regular begun standing,w1]',
    );
    const { begun: _begun, ...standing } = model().built.sets.recipes[1] ?? {};
    expect(standing).toMatchObject({ produce: [], gives: [], uses: [], supplies: [], handsOnMinutes: 20 });
    expect(standing).not.toHaveProperty('stages');
  });

  it('of a recipe in jars it is not made in any more are in no plan', () => {
    expect(model().rows('begun_batches')).toEqual(['begun_batches[standing]']);
  });

  it('take the whole work of what is made in one go', () => {
    const once = readModel(
      jamYear({ begun: [begun({ recipeId: named('dry'), jarKind: null, mayLoadByWeek: each(6, true) })] }),
    );
    expect(once.row('kitchen_hours[w0]')?.counts).toMatchObject({ 'batches[dry begun standing,w0]': 60 });
    expect(once.row('begun_batches[standing]')?.counts).toMatchObject({
      'batches[dry begun standing,w5]': 1,
    });
  });
});

describe('a plan made before', () => {
  const weekOfPlan = (at: number, sessions: readonly { recipe: string; batches: number }[]): PlannedWeek =>
    ({
      week: week(at),
      sessions: sessions.map(({ recipe: id, batches }) => ({ recipe: id, batches })),
    }) as unknown as PlannedWeek;
  const earlier = [
    weekOfPlan(0, [
      { recipe: 'boil', batches: 1 },
      { recipe: 'boil', batches: 2 },
      { recipe: 'dry', batches: 1 },
    ]),
    weekOfPlan(1, []),
    weekOfPlan(2, [{ recipe: 'closed', batches: 1 }]),
  ];
  const model = () =>
    readModel(
      jamYear({
        recipes: [
          recipe('boil', 'jam', { jarKind: pint }),
          recipe('boil', 'jam', { jarKind: wideQuart }),
          recipe('closed', 'jam', { allowedByWeek: each(6, false) }),
          recipe('soak', 'jam', { stages: staged(1, [30, 30]) }),
          recipe('dry', 'jam'),
        ],
      }),
      { ...weekly, earlier },
    );

  it('is departed from by what more or fewer batches are made, of whatever jars', () => {
    expect(model().row('steadiness_more[boil,w0]')).toEqual(
      says('batches[boil in pint/regular,w0] + batches[boil in quart/wide,w0] - changed[boil,w0] <= 3'),
    );
    expect(model().row('steadiness_fewer[boil,w0]')).toEqual(
      says('batches[boil in pint/regular,w0] + batches[boil in quart/wide,w0] + changed[boil,w0] >= 3'),
    );
    expect(model().row('steadiness_more[boil,w1]')).toMatchObject({ most: 0 });
    expect(model().term('changes').cents).toMatchObject({ 'changed[boil,w0]': 1000 });
  });

  it('counts where it held what cannot be made now, and not where neither can', () => {
    expect(model().columns('changed[closed')).toEqual(['changed[closed,w2]']);
    expect(model().row('steadiness_fewer[closed,w2]')).toEqual(says('changed[closed,w2] >= 1'));
  });

  it('is near for four weeks, and for as long again as a batch takes until its load', () => {
    expect(model().columns('changed[dry')).toEqual([0, 1, 2, 3].map((week) => `changed[dry,w${week}]`));
    expect(model().columns('changed[soak')).toEqual([1, 2, 3, 4].map((week) => `changed[soak,w${week}]`));
  });

  it('is nothing to a first plan', () => {
    expect(readModel(jamYear()).columns('changed')).toEqual([]);
  });
});
