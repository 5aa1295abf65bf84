import { describe, expect, it } from 'vitest';
import { asJarKind } from '../../../../shared/jar.ts';
import { asCents } from '../../../../shared/money.ts';
import { lidsPerBatch } from '../../../../src/planning/model/constraints/lids.ts';
import type { JarHolding, PlannedItem, PlannedRecipe } from '../../../../src/planning/planning-year.ts';
import { each, handMadeYear, lot, pack, pint, recipe, used, wideQuart } from '../hand-made-year.ts';
import { readModel, says } from '../read-model.ts';

const halfPint = asJarKind('half-pint', 'regular');
const jars = (parts: Partial<JarHolding> = {}): JarHolding => ({
  kind: pint,
  owned: 20,
  empty: 4,
  pack: 12,
  packPrice: asCents(1500),
  returnShare: 0.25,
  ...parts,
});
const lids = [{ mouth: 'regular', onHand: 7, box: 12, boxPrice: asCents(400) }] as const;

const inJars = (items: readonly PlannedItem[], recipes: readonly PlannedRecipe[]) =>
  readModel(handMadeYear(4, { items, recipes, jars: [jars()], lids }));

const jam = (parts: Partial<PlannedItem> = {}) =>
  used('jam', [2, 2, 3, 2], { jarKind: pint, openingLots: [lot('old', 3, { jarKind: pint })], ...parts });
const boil = recipe('boil', 'jam', { jarKind: pint });

describe('jars to fill', () => {
  const model = () => inJars([jam()], [boil]);

  it('are there or bought in the first week', () => {
    expect(model().row('jars_empty[pint/regular,w0]')).toEqual(
      says(
        'jars_empty[pint/regular,w0] - 12 jars_bought[pint/regular,w0] + 6 batches[boil in pint/regular,w0] = 4',
      ),
    );
  });

  it('are those emptied the week before, less what is missed of it', () => {
    expect(model().row('jars_empty[pint/regular,w1]')).toEqual(
      says(
        'jars_empty[pint/regular,w1] - jars_empty[pint/regular,w0] + 6 batches[boil in pint/regular,w1] + shortage[jam,w0] = 2',
      ),
    );
    expect(model().row('jars_empty[pint/regular,w2]')).toEqual(
      says(
        'jars_empty[pint/regular,w2] - jars_empty[pint/regular,w1] - 12 jars_bought[pint/regular,w1] + 6 batches[boil in pint/regular,w2] + shortage[jam,w1] = 2',
      ),
    );
  });

  it('come back only from opening lots where the item is bought too', () => {
    const bought = inJars([jam({ packs: [pack('jar', 1, each(4, 400))] })], [boil]);
    expect(bought.row('jars_empty[pint/regular,w1]')).toMatchObject({ least: 2 });
    expect(bought.row('jars_empty[pint/regular,w2]')).toMatchObject({ least: 1 });
    expect(bought.row('jars_empty[pint/regular,w3]')).toMatchObject({ least: 0 });
  });

  it('come back only from opening lots where it is put up in jars of two kinds', () => {
    const two = inJars([jam()], [boil, recipe('boil', 'jam', { jarKind: wideQuart })]);
    expect(two.row('jars_empty[pint/regular,w1]')).toMatchObject({ least: 2 });
    expect(two.row('jars_empty[pint/regular,w2]')).toMatchObject({ least: 1 });
  });

  it('come back where several recipes fill them, all of one kind', () => {
    const two = inJars([jam()], [boil, recipe('simmer', 'jam', { jarKind: pint })]);
    expect(two.row('jars_empty[pint/regular,w2]')).toMatchObject({ least: 2 });
    const unlike = inJars([jam()], [boil, recipe('dry', 'jam')]);
    expect(unlike.row('jars_empty[pint/regular,w2]')).toMatchObject({ least: 1 });
  });

  it('of each kind come back by its own share', () => {
    const model = readModel(
      handMadeYear(4, {
        items: [jam({ givenByWeek: [2, 0, 0, 0] })],
        recipes: [boil],
        jars: [jars({ kind: wideQuart, returnShare: 1 }), jars(), jars({ kind: halfPint, returnShare: 1 })],
        lids,
      }),
    );
    expect(model.row('jars_empty[pint/regular,w1]')).toMatchObject({ least: 0.5 });
  });

  it('come back from opening lots of what is made no more', () => {
    const old = used('chutney', [1, 1, 1, 1], { openingLots: [lot('last', 2, { jarKind: pint, jars: 4 })] });
    const model = inJars([jam({ openingLots: [] }), old], [boil]);
    expect(model.row('jars_empty[pint/regular,w1]')).toMatchObject({ least: 4 });
    expect(model.row('jars_empty[pint/regular,w3]')).toMatchObject({ least: 3 });
  });

  it('come back as many as units where a batch may fill more of them, and fewer where it fills fewer', () => {
    const roomy = inJars(
      [jam({ openingLots: [] })],
      [recipe('boil', 'jam', { jarKind: pint, yieldLowUnits: 8, yieldHighJars: 4 })],
    );
    expect(roomy.row('jars_empty[pint/regular,w1]')).toMatchObject({
      least: 1,
      counts: { 'shortage[jam,w0]': 0.5 },
    });
    expect(inJars([jam({ openingLots: [] })], [boil]).row('jars_empty[pint/regular,w1]')).toMatchObject({
      least: 2,
      counts: { 'shortage[jam,w0]': 1 },
    });
  });

  it('given away come back by the share that people bring back', () => {
    const given = inJars([jam({ givenByWeek: [1, 2, 0, 0] })], [boil]);
    expect(given.row('jars_empty[pint/regular,w1]')).toMatchObject({
      least: 1.25,
      counts: { 'shortage[jam,w0]': 0.625 },
    });
    expect(given.row('jars_empty[pint/regular,w2]')).toMatchObject({ least: 0.5 });
    expect(given.row('jars_empty[pint/regular,w3]')).toMatchObject({ least: 3 });
    const more = inJars([jam({ givenByWeek: [5, 0, 0, 0] })], [boil]);
    expect(more.row('jars_empty[pint/regular,w1]')).toMatchObject({ least: 0.5 });
  });

  it('of another kind are not these', () => {
    const quarts = inJars(
      [jam({ openingLots: [lot('old', 3, { jarKind: wideQuart })] })],
      [boil, recipe('big', 'jam', { jarKind: wideQuart })],
    );
    expect(quarts.row('jars_empty[pint/regular,w1]')).toEqual(
      says(
        'jars_empty[pint/regular,w1] - jars_empty[pint/regular,w0] + 6 batches[boil in pint/regular,w1] = 0',
      ),
    );
  });

  it('are not looked at after the last batch', () => {
    const early = inJars(
      [jam()],
      [recipe('boil', 'jam', { jarKind: pint, allowedByWeek: [true, true, false, false] })],
    );
    expect(early.rows('jars_empty')).toEqual(['jars_empty[pint/regular,w0]', 'jars_empty[pint/regular,w1]']);
    expect(early.columns('jars_bought')).toEqual(['jars_bought[pint/regular,w0]']);
  });
});

describe('jars of weeks joined into one', () => {
  it('are taken away from by the least that a missed unit could have emptied', () => {
    const model = readModel(
      handMadeYear(4, {
        items: [
          used('jam', [2, 0, 4, 1], {
            jarKind: pint,
            openingLots: [lot('old', 1, { jarKind: pint })],
            givenByWeek: [0, 0, 2, 0],
          }),
        ],
        recipes: [recipe('boil', 'jam', { jarKind: pint, allowedByWeek: [true, false, false, true] })],
        jars: [jars()],
        lids,
      }),
      { wholePacks: false, joinedWeeks: true, canning: null, earlier: null },
    );
    expect(model.row('jars_empty[pint/regular,w3]')?.counts).toEqual({
      'jars_empty[pint/regular,w3]': 1,
      'jars_empty[pint/regular,w2]': -1,
      'jars_bought[pint/regular,w2]': -12,
      'batches[boil in pint/regular,w3]': 6,
      'shortage[jam,w2]': 0.625,
    });
    expect(Object.keys(model.row('jars_empty[pint/regular,w1]')?.counts ?? {})).toEqual([
      'jars_empty[pint/regular,w1]',
      'jars_empty[pint/regular,w0]',
    ]);
  });
});

describe('lids', () => {
  it('are new for every jar, with spares for seals that fail', () => {
    expect(lidsPerBatch(20)).toBeCloseTo(21, 9);
    const model = inJars([jam()], [boil, recipe('big', 'jam', { jarKind: wideQuart })]);
    expect(model.row('lids[regular,w0]')).toEqual(
      says('lids_left[regular,w0] - 12 lids_bought[regular,w0] + 6.3 batches[boil in pint/regular,w0] = 7'),
    );
    expect(model.row('lids[regular,w1]')).toEqual(
      says('lids_left[regular,w1] - lids_left[regular,w0] + 6.3 batches[boil in pint/regular,w1] = 0'),
    );
    expect(model.row('lids[regular,w2]')).toEqual(
      says(
        'lids_left[regular,w2] - lids_left[regular,w1] - 12 lids_bought[regular,w1] + 6.3 batches[boil in pint/regular,w2] = 0',
      ),
    );
  });

  it('and jars are none for what is put up in neither', () => {
    const model = inJars([jam()], [recipe('dry', 'jam')]);
    expect([...model.columns('lids'), ...model.columns('jars')]).toEqual([]);
    expect([...model.rows('lids'), ...model.rows('jars')]).toEqual([]);
  });
});
