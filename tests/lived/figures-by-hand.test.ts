import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { asDate } from '../../shared/week.ts';
import type { Plan } from '../../src/planning/plan.ts';
import type { PlannedRecipe } from '../../src/planning/planning-year.ts';
import { HouseholdByPages } from '../builders/household-by-pages.ts';

// Figures of the plan of a household at 5,300 ft with a garden, a canner of 9 pints and a dial gauge, each worked out by hand: the
// arithmetic stands in the row, the published figures in it with their source. USDA is the Complete Guide to Home Canning (2015
// revision), by guide and page; grams of a cup are those of seed-data/reference/measures.csv. All read, but where it is said.

const poundsOf = (cups: number, gramsACup: number): number => (cups * gramsACup) / 453.59237;
/** USDA G1 p1-17, p1-18: 20 to 30 minutes to the boil, 5 after the heat is off. */
const aroundABoil = 30 + 5;
/** USDA G1 p1-17, p1-20 to p1-22: 12 to 15 to vent, 10 of venting, 3 to 5 to pressure, 20 to 60 down, 10 with the weight off. */
const aroundPressure = 15 + 10 + 5 + 60 + 10;

let home: HouseholdByPages;
let plan: Plan;
let recipes: ReadonlyMap<string, PlannedRecipe>;
beforeAll(async () => {
  home = await HouseholdByPages.beginning(asDate('2026-02-10'));
  await home.setUp({
    town: 'Montrose, CO',
    altitude: '5300',
    pressure: 'on',
    gauge: 'dial',
    gaugeCheckedOn: '2025-06-14',
    sourceKind: 'garden',
    halfPints: '100',
    pints: '200',
    lids: '300',
    'eats-quick-dill-pickles': '',
    'eats-beans-snap-pints': 'week:1',
    'eats-carrots-pints': 'month:2',
  });
  await home.gaugeFoundRight(asDate('2025-06-14'));
  plan = await home.plan();
  recipes = new Map((await home.loaded()).recipes.planned.map((one) => [one.id as string, one]));
});
afterAll(async () => {
  await home.close();
});

const recipe = (id: string): PlannedRecipe => {
  const found = recipes.get(id);
  if (found === undefined)
    throw new Error(`expected ${id} in the plan; found ${[...recipes.keys()].join(', ')}`);
  return found;
};
/** A figure of the plan for one batch, the mean over all planned of it. */
const aBatch = (
  id: string,
  figure: (session: Plan['weeks'][number]['sessions'][number]) => number,
): number => {
  const own = plan.weeks.flatMap(({ sessions }) => sessions).filter((session) => session.recipe === id);
  const batches = own.reduce((sum, session) => sum + session.batches, 0);
  return own.reduce((sum, session) => sum + figure(session), 0) / batches;
};
const pounds = (id: string): number => recipe(id).produce[0]?.lb ?? 0;
const supply = (id: string, what: string): number =>
  recipe(id).supplies.find(({ supplyId }) => supplyId === what)?.quantity ?? 0;

describe('figures of a plan, worked out by hand', () => {
  test.each([
    // Jars a plan counts on: the low published yield.
    [
      'strawberry jam, jars of a batch',
      () => aBatch('strawberry-jam', ({ units }) => units),
      9,
      '9 to 10 half-pints: USDA G7',
    ],
    [
      'chile salsa, jars of a batch',
      () => aBatch('chile-salsa', ({ units }) => units),
      6,
      '6 to 8 pints: USDA G3',
    ],
    [
      'apple butter, jars of a batch',
      () => aBatch('apple-butter', ({ units }) => units),
      8 * 2,
      '8 to 9 pints are 16 to 18 half-pints: USDA G2',
    ],
    [
      'crushed tomatoes, jars of a batch',
      () => aBatch('crushed-tomatoes', ({ units }) => units),
      9,
      'a canner load of 9 pints: USDA G3 p3-8',
    ],
    // Pounds of a batch.
    ['crushed tomatoes, pounds', () => pounds('crushed-tomatoes'), 14, '14 lb for 9 pints: USDA G3 p3-8'],
    ['applesauce, pounds', () => pounds('applesauce'), 13.5, '13½ lb for 9 pints: USDA G2'],
    ['peach halves, pounds', () => pounds('peach-halves'), 11, '11 lb for 9 pints: USDA G2'],
    ['green beans, pounds', () => pounds('green-beans'), 9, '9 lb for 9 pints: USDA G4'],
    ['carrots, pounds', () => pounds('carrots'), 11, '11 lb for 9 pints: USDA G4'],
    ['chile salsa, pounds of tomatoes', () => pounds('chile-salsa'), 5, '5 lb: USDA G3'],
    ['apple butter, pounds', () => pounds('apple-butter'), 8, '8 lb: USDA G2'],
    // What goes into it.
    [
      'jam, pounds of sugar',
      () => supply('strawberry-jam', 'sugar'),
      poundsOf(8, 200),
      '8 cups of 200 g: USDA G7',
    ],
    [
      'peaches, pounds of sugar',
      () => supply('peach-halves', 'sugar'),
      poundsOf(1.5, 200),
      '1½ cups for a light syrup of 9 pints: USDA G2 p2-5',
    ],
    [
      'apple butter, pounds of sugar',
      () => supply('apple-butter', 'sugar'),
      poundsOf(2.25, 200),
      '2¼ cups: USDA G2',
    ],
    [
      'apple butter, pounds of brown sugar',
      () => supply('apple-butter', 'brown-sugar'),
      poundsOf(2.25, 220),
      '2¼ packed cups of 220 g: USDA G2',
    ],
    [
      'tomatoes, cups of lemon juice',
      () => supply('crushed-tomatoes', 'bottled-lemon-juice'),
      9 / 16,
      '9 pints with a tablespoon each: USDA G3 p3-5',
    ],
    ['salsa, quarts of vinegar', () => supply('chile-salsa', 'vinegar-5'), 1 / 4, '1 cup: USDA G3'],
    // Loads of a batch, and a jar that stays out.
    [
      'strawberry jam, loads',
      () => aBatch('strawberry-jam', ({ loads }) => loads),
      1,
      '10 jars, 9 fit, the tenth alone gets no load',
    ],
    [
      'strawberry jam, jars aside',
      () => aBatch('strawberry-jam', ({ jarsAside = 0 }) => jarsAside),
      10 - 9,
      'the same',
    ],
    ['apple butter, loads', () => aBatch('apple-butter', ({ loads }) => loads), 18 / 9, '18 jars, 9 fit'],
    // Minutes a load keeps its canner busy, at 5,300 ft.
    [
      'crushed tomatoes, minutes of a load',
      () => recipe('crushed-tomatoes').processing?.loadMinutes,
      45 + aroundABoil,
      'pints, hot, 3,001 to 6,000 ft: 45, USDA G3 p3-8',
    ],
    [
      'peach halves, minutes of a load',
      () => recipe('peach-halves').processing?.loadMinutes,
      30 + aroundABoil,
      'pints, hot, 3,001 to 6,000 ft: 30, USDA G2',
    ],
    [
      'green beans, minutes of a load',
      () => recipe('green-beans').processing?.loadMinutes,
      20 + aroundPressure,
      'pints: 20 at 13 psi of a dial, 4,001 to 6,000 ft, USDA G4',
    ],
    [
      'carrots, minutes of a load',
      () => recipe('carrots').processing?.loadMinutes,
      25 + aroundPressure,
      'pints: 25 at 13 psi of a dial, USDA G4',
    ],
    [
      'apple butter, minutes of work',
      () => aBatch('apple-butter', ({ handsOnMinutes }) => handsOnMinutes),
      120 + 2 * 10,
      'our guess of 120, and 10 at each of 2 loads',
    ],
  ])('%s', (_what, figure, byHand, why) => {
    expect(figure(), why).toBeCloseTo(byHand, 6);
  });

  test('cents: sugar for all that is planned, in packs of 4 lb at $3.99', () => {
    const needed = plan.weeks
      .flatMap(({ sessions }) => sessions)
      .reduce((sum, { recipe: id, batches }) => sum + batches * supply(id, 'sugar'), 0);
    const bought = plan.weeks
      .flatMap(({ purchases }) => purchases)
      .filter(({ what }) => what === 'sugar')
      .reduce((sum, { cost }) => sum + cost, 0);

    expect(bought).toBe(Math.ceil(needed / 4 - 1e-9) * 399);
  });

  test('cents: the garden’s produce costs nothing, and the fund at the year’s end is what was there and set aside, less what is spent', () => {
    const purchases = plan.weeks.flatMap((week) => week.purchases);
    expect(purchases.filter(({ kind, cost }) => kind === 'produce' && cost > 0)).toEqual([]);
    const spent = purchases.reduce((sum, { cost }) => sum + cost, 0);
    const weeks = plan.weeks.length;
    expect([15_000 + weeks * 2000 - spent, 15_000 + (weeks - 1) * 2000 - spent]).toContain(
      plan.weeks.at(-1)?.fundAfter,
    );
  });
});
