import { describe, expect, it } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { planningSets, recipeLabel } from '../../../src/planning/model/sets.ts';
import {
  handMadeYear,
  lot,
  named,
  pint,
  recipe,
  source,
  staged,
  used,
  week,
  wideQuart,
} from './hand-made-year.ts';

const supply = (id: string) => ({
  id,
  name: id,
  unit: 'lb',
  onHand: 0,
  packQuantity: 1,
  packPrice: asCents(1),
});
const material = (id: string) => ({
  id,
  name: id,
  unit: 'lb',
  opening: 0,
  keepsDaysCold: 0,
  keepsMonthsFrozen: null,
  quartsPerUnit: 1,
});
const group = (id: string) => ({
  id: named<never>(id),
  name: id,
  members: [],
  totalUnits: 0,
  leastKinds: 1,
  largestShare: 1,
});
const jar = (kind: typeof pint) => ({
  kind,
  owned: 0,
  empty: 0,
  pack: 1,
  packPrice: asCents(1),
  returnShare: 0,
});
const lid = (mouth: 'regular' | 'wide') => ({ mouth, onHand: 0, box: 1, boxPrice: asCents(1) });

const year = handMadeYear(2, {
  items: [used('tea', [1, 1]), used('jam', [1, 1], { emergencyUnits: 1, openingLots: [lot('l', 3)] })],
  recipes: [
    recipe('dry', 'tea'),
    recipe('boil', 'jam', { jarKind: wideQuart }),
    recipe('boil', 'jam', { jarKind: pint }),
  ],
  sources: [source('stall', 'plum', [1, 1]), source('orchard', 'plum', [1, 1])],
  materials: [material('whey'), material('pulp')],
  canners: ['pot', 'kettle'].map((id) => ({ id: named(id), name: id, method: 'pressure' as const })),
  supplies: [supply('sugar'), supply('salt')],
  jars: [jar(wideQuart), jar(pint)],
  lids: [lid('wide'), lid('regular')],
  groups: [group('sweet'), group('green')],
  kept: [
    { recipeId: named('dry'), week: week(0), decision: 'ruled-out' },
    { recipeId: named('boil'), week: week(1), decision: 'pinned', batches: 1 },
    { recipeId: named('boil'), week: week(0), decision: 'pinned', batches: 1 },
    { recipeId: named('boil'), week: week(0), decision: 'done', batches: 1 },
  ],
});

describe('what a model ranges over', () => {
  const sets = () => planningSets(year);

  it('is in the same order however it was entered', () => {
    const backwards = planningSets({
      ...year,
      items: year.items.toReversed(),
      recipes: year.recipes.toReversed(),
      sources: year.sources.toReversed(),
      materials: year.materials.toReversed(),
      canners: year.canners.toReversed(),
      supplies: year.supplies.toReversed(),
      jars: year.jars.toReversed(),
      lids: year.lids.toReversed(),
      groups: year.groups.toReversed(),
      kept: year.kept.toReversed(),
    });
    expect(backwards).toEqual(sets());
    expect(sets().items.map(({ id }) => id)).toEqual(['jam', 'tea']);
    expect(sets().recipes.map(recipeLabel)).toEqual(['boil in pint/regular', 'boil in quart/wide', 'dry']);
    expect(sets().sources.map(({ id }) => id)).toEqual(['orchard', 'stall']);
    expect(sets().year.materials.map(({ id }) => id)).toEqual(['pulp', 'whey']);
    expect(sets().year.canners.map(({ id }) => id)).toEqual(['kettle', 'pot']);
    expect(sets().year.supplies.map(({ id }) => id)).toEqual(['salt', 'sugar']);
    expect(sets().year.jars.map(({ kind }) => kind)).toEqual([pint, wideQuart]);
    expect(sets().year.lids.map(({ mouth }) => mouth)).toEqual(['regular', 'wide']);
    expect(sets().year.groups.map(({ id }) => id)).toEqual(['green', 'sweet']);
    expect(sets().year.kept.map(({ recipeId, week: on, decision }) => [recipeId, on, decision])).toEqual([
      ['boil', week(0), 'done'],
      ['boil', week(0), 'pinned'],
      ['boil', week(1), 'pinned'],
      ['dry', week(0), 'ruled-out'],
    ]);
  });

  it('is found by what it is called', () => {
    expect(sets().weekCount).toBe(2);
    expect(sets().weekIndexes).toEqual([0, 1]);
    expect([...sets().itemIndex]).toEqual([
      ['jam', 0],
      ['tea', 1],
    ]);
    expect([...sets().weekIndex]).toEqual([
      [week(0), 0],
      [week(1), 1],
    ]);
    expect(sets().recipesByItem).toEqual([[0, 1], [2]]);
    expect([...sets().recipesById]).toEqual([
      ['boil', [0, 1]],
      ['dry', [2]],
    ]);
  });

  it('leaves out what is kept for an emergency', () => {
    expect(sets().items[0]?.openingLots).toMatchObject([{ units: 2 }]);
  });
});

it('batches begun already are of their own recipe, whatever else is put up in such jars', () => {
  const sets = planningSets({
    ...year,
    begun: [
      {
        id: 'standing',
        recipeId: named('dry'),
        jarKind: null,
        batches: 1,
        begunOn: year.asOf,
        mayLoadByWeek: [true, false],
      },
    ],
    recipes: [recipe('boil', 'jam'), ...year.recipes],
  });
  expect(sets.recipes.filter(({ begun }) => begun !== undefined).map(({ itemId }) => itemId)).toEqual([
    'tea',
  ]);
});

it('batches begun already stand among the recipes by the same order of names', () => {
  const begun = (id: string) => ({
    id,
    recipeId: named<never>('boil'),
    jarKind: pint,
    batches: 1,
    begunOn: year.asOf,
    mayLoadByWeek: [true, false],
  });
  const sets = planningSets({
    ...year,
    recipes: [...year.recipes, recipe('boil', 'jam', { stages: staged(0, [60]) })],
    begun: [begun('second'), begun('first')],
  });
  expect(sets.recipes.map(recipeLabel)).toEqual([
    'boil',
    'boil in pint/regular',
    'boil in pint/regular begun first',
    'boil in pint/regular begun second',
    'boil in quart/wide',
    'dry',
  ]);
  expect(sets.recipes[2]).toMatchObject({ begun: { id: 'first' }, allowedByWeek: [true, false] });
  expect(sets.recipesById.get(named('boil'))).toEqual([0, 1, 2, 3, 4]);
});
