import { describe, expect, test } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { objectiveByTerm, readBuying, readCanning } from '../../../src/planning/answer/read-back.ts';
import { buildModel, canningStage } from '../../../src/planning/model/build-model.ts';
import { objectiveOf } from '../../../src/planning/model/model.ts';
import { lotSizingRules } from '../../../src/planning/model/rules.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import {
  batchOf,
  canningOf,
  food,
  pack,
  packsAround,
  pint,
  shortYear,
  sourceOf,
  valuesOf,
} from '../short-year.ts';

const year = shortYear(3, {
  foods: [food('jam', { kind: 'preserve', jarKind: pint }), food('oats', { packs: [pack('bag', 2, 300)] })],
  sources: [sourceOf('tree', { lbByWeek: [20, 20, 7.005], useByDays: 9 })],
  recipes: [
    batchOf('jam-of-plums', 'jam', {
      allowedByWeek: [false, true, true],
      produce: [{ crop: 'plum' as never, lb: 5, mayBeFrozen: true }],
      gives: [{ materialId: 'pulp', quantity: 2 }],
    }),
    batchOf('jam-of-pulp', 'jam', { produce: [], uses: [{ materialId: 'pulp', quantity: 2 }] }),
  ],
  materials: [
    {
      id: 'pulp',
      name: 'Pulp',
      unit: 'lb',
      opening: 0,
      keepsDaysCold: 9,
      keepsMonthsFrozen: 6,
      quartsPerUnit: 1,
    },
  ],
  freezable: [{ crop: 'plum' as never, openingLb: 0, keepsMonthsFrozen: 8, quartsPerLb: 1 }],
  supplies: [{ id: 'sugar', name: 'Sugar', unit: 'lb', onHand: 0, packQuantity: 5, packPrice: asCents(400) }],
  jars: [{ kind: pint, owned: 0, empty: 0, pack: 6, packPrice: asCents(900), returnShare: 0 }],
  lids: [{ mouth: 'regular', onHand: 0, box: 12, boxPrice: asCents(300) }],
  storage: { freezerQuarts: 50, freezerQuartsPerDay: 20, crockQuarts: 0 },
});
const plumJam = 'jam-of-plums in pint/regular';

test('a nought that a solver left a little below it is nought, and never less', () => {
  const below = (columns: number) => new Float64Array(columns).fill(-1e-9);
  const numbersIn = (value: unknown): readonly number[] =>
    typeof value === 'number'
      ? [value]
      : typeof value === 'object' && value !== null
        ? Object.values(value).flatMap(numbersIn)
        : [];
  const canning = buildModel(year, canningStage);
  const read = numbersIn(readCanning(canning, below(canning.model.columns.length)));
  const buying = buildModel(year, {
    wholePacks: true,
    joinedWeeks: false,
    canning: readCanning(canning, below(canning.model.columns.length)),
    earlier: null,
  });
  const bought = numbersIn(readBuying(buying, below(buying.model.columns.length)));

  expect(read.length).toBeGreaterThan(0);
  expect(bought.length).toBeGreaterThan(0);
  expect([...read, ...bought].filter((amount) => !Object.is(amount, 0))).toEqual([]);
});

describe('batches and sessions read out of a solution', () => {
  test('are rounded once to whole ones, none where the model has none', () => {
    const built = buildModel(year, canningStage);
    const values = valuesOf(built, {
      [`batches[${plumJam},2027-W02]`]: 1.9999997,
      [`batches[${plumJam},2027-W03]`]: 0.4,
      'sessions[2027-W02]': 0.9999997,
    });

    const { batches, sessionsByWeek } = readCanning(built, values);

    expect(batches[built.sets.recipes.findIndex(({ id }) => id === 'jam-of-plums')]).toEqual([0, 2, 0]);
    expect(sessionsByWeek).toEqual([0, 1, 0]);
  });

  test('are any amount of what has a set-up', () => {
    const machine: PlanningYear = {
      ...shortYear(1, {
        foods: [food('part')],
        recipes: [
          batchOf('lathe', 'part', {
            jarKind: null,
            produce: [],
            supplies: [],
            yieldLowUnits: 1,
            setUp: { minutes: 10, cents: 5 },
          }),
        ],
      }),
    };
    const built = buildModel(machine, canningStage, lotSizingRules);

    const values = valuesOf(built, { 'batches[lathe,2027-W01]': 0.37 });
    expect(readCanning(built, values).batches).toEqual([[0.37]]);
  });
});

describe('purchases read out of a solution', () => {
  const canning = () => canningOf(year, { 'jam-of-plums': [0, 1, 1], 'jam-of-pulp': [0, 0, 1] });
  const built = () => packsAround(year, canning());
  const read = (told: Readonly<Record<string, number>>) => {
    const model = built();
    return readBuying(model, valuesOf(model, told));
  };

  test('are whole packs', () => {
    const { packs, supplyPacks, jarPacks, lidBoxes } = read({
      'purchases[oats,bag,2027-W02]': 1.0000004,
      'supply_bought[sugar,2027-W01]': 0.9999997,
      'jars_bought[pint/regular,2027-W01]': 2,
      'lids_bought[regular,2027-W02]': 1,
    });

    expect(packs).toEqual([[], [[0, 1, 0]]]);
    expect(supplyPacks).toEqual([[1, 0, 0]]);
    expect(jarPacks).toEqual([[2, 0, 0]]);
    expect(lidBoxes).toEqual([[0, 1, 0]]);
  });

  test.each([
    [5, 5],
    [5.001, 5.01],
    [5.0000005, 5],
    [0.0000009, 0],
    [0.0001, 0.01],
    [20.5, 20],
  ])('of produce go up to a hundredth of a pound, never beyond what there is: %d is %d', (lb, bought) => {
    expect(read({ 'produce[tree,2027-W02]': lb }).produceLb).toEqual([[0, bought, 0]]);
  });

  test('of produce are all there is where that is no whole hundredth', () => {
    expect(read({ 'produce[tree,2027-W03]': 7.005 }).produceLb).toEqual([[0, 0, 7.005]]);
  });

  test('come with what is frozen, thawed, kept waiting and lost, to a thousandth', () => {
    const { materials } = read({
      'frozen_in[plum,2027-W02]': 1.23449,
      'frozen[plum,2027-W02]': 2.5,
      'thawed[plum,2027-W03]': 3.2416,
      'waiting[plum,2027-W01]': 4.0001,
      'lost[pulp,2027-W03]': 0.0016,
    });

    expect(materials).toEqual({
      freeze: [
        [0, 1.234, 0],
        [0, 0, 0],
      ],
      frozen: [
        [0, 2.5, 0],
        [0, 0, 0],
      ],
      thaw: [
        [0, 0, 3.242],
        [0, 0, 0],
      ],
      waiting: [
        [4, 0, 0],
        [0, 0, 0],
      ],
      lost: [
        [0, 0, 0],
        [0, 0, 0.002],
      ],
    });
  });
});

describe('the objective by terms', () => {
  test('is what each costs, and their sum', () => {
    const built = packsAround(year, canningOf(year, { 'jam-of-plums': [0, 1, 0] }));
    const values = valuesOf(built, {
      'purchases[oats,bag,2027-W02]': 2,
      'produce[tree,2027-W02]': 5,
      'supply_bought[sugar,2027-W01]': 1,
      'shortage[oats,2027-W01]': 0.5,
    });

    const terms = objectiveByTerm(built, values);

    expect(terms).toMatchObject({ groceries: 600, produce: 500, supplies: 400, jars: 0 });
    expect(terms.use).toBeCloseTo(0.5 * built.prices.use, 6);
    expect(terms.total).toBeCloseTo(objectiveOf(built.model, values), 6);
  });
});
