import { describe, expect, test } from 'vitest';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import { checkPlanningYear } from '../../../src/planning/year/input-checks.ts';
import { jamRecipe, plumJam, plumWeeks, plumYear } from '../plum-year.ts';

const processing = jamRecipe.processing as NonNullable<typeof jamRecipe.processing>;
const checked = (change: object) =>
  checkPlanningYear(plumYear(change as Partial<PlanningYear>)).map(
    ({ code, path, message }) => `${code} ${path.join('.')}: ${message}`,
  );
const recipe = (change: object) => checked({ recipes: [{ ...jamRecipe, ...change }] });
const item = (change: object) => checked({ items: [{ ...plumJam, ...change }] });
const source = (change: object) =>
  checked({ sources: plumYear().sources.map((one) => ({ ...one, ...change })) });
const short = plumWeeks.slice(1);
const everyWeek = (value: unknown) => plumWeeks.map(() => value);
const oneBad = (value: number) => plumWeeks.map((_, at) => (at === 30 ? value : 1));

describe('a sound year', () => {
  test('has nothing in its way, what is empty or at its edge among it', () => {
    expect(checked({})).toEqual([]);
    expect(item({ reserveUnits: 0, yearEndUnits: 0, openingLots: [], useByWeek: everyWeek(0) })).toEqual([]);
    expect(recipe({ handsOnMinutes: 0, yieldHighJars: 0, yieldLowUnits: 0.1, supplies: [] })).toEqual([]);
    expect(recipe({ processing: null, allowedByWeek: everyWeek(false) })).toEqual([]);
    expect(checked({ fund: { opening: 0, setAsideByWeek: everyWeek(0) } })).toEqual([]);
    expect(checked({ time: { ...plumYear().time, handsByWeek: everyWeek(2) } })).toEqual([]);
    expect(recipe({ jarKind: null })).toEqual([]);
  });
});

describe('lists that do not cover the year', () => {
  const words = (what: string) => `${what} should have one entry for each of the 52 weeks; it has 51.`;

  test('are each named', () => {
    expect(item({ useByWeek: everyWeek(1).slice(1) })).toEqual([
      `list-length items.0.useByWeek: ${words('Use of Plum jam')}`,
    ]);
    expect(item({ packs: [{ id: 'a', units: 1, priceByWeek: short.map(() => 1) }] })).toEqual([
      `list-length items.0.packs: ${words('Prices of Plum jam')}`,
    ]);
    expect(source({ lbByWeek: short.map(() => 1) })).toEqual([
      `list-length sources.0.lbByWeek: ${words('Pounds from Orchard')}`,
    ]);
    expect(source({ priceCentsPerLbByWeek: short.map(() => 1) })).toEqual([
      `list-length sources.0.priceCentsPerLbByWeek: ${words('Prices at Orchard')}`,
    ]);
    expect(recipe({ allowedByWeek: short.map(() => true) })).toEqual([
      `list-length recipes.0.allowedByWeek: ${words('Allowed weeks of Jam of plums')}`,
    ]);
    const { time } = plumYear();
    expect(checked({ time: { ...time, maxSessionsByWeek: short.map(() => 1) } })).toEqual([
      `list-length time.maxSessionsByWeek: ${words('Sessions')}`,
    ]);
    expect(checked({ time: { ...time, hoursPerSessionByWeek: short.map(() => 1) } })).toEqual([
      `list-length time.hoursPerSessionByWeek: ${words('Hours of a session')}`,
    ]);
    expect(checked({ time: { ...time, handsByWeek: short.map(() => 1) } })).toEqual([
      `list-length time.handsByWeek: ${words('Hands in the kitchen')}`,
    ]);
    expect(checked({ fund: { opening: 0, setAsideByWeek: short.map(() => 0) } })).toEqual([
      `list-length fund.setAsideByWeek: ${words('Money set aside')}`,
    ]);
  });
});

describe('amounts below nothing, or no amounts', () => {
  test.each([-1, Number.NaN, Number.POSITIVE_INFINITY])('%d', (bad) => {
    const ofItem =
      'amount-below-zero items.0: Use, reserve and stock of Plum jam must be 0 or more; correct its target or its count.';
    expect(item({ useByWeek: oneBad(bad) })).toEqual([ofItem]);
    expect(item({ reserveUnits: bad })).toEqual([ofItem]);
    expect(item({ yearEndUnits: bad })).toEqual([ofItem]);
    expect(item({ openingLots: plumJam.openingLots.map((lot) => ({ ...lot, units: bad })) })).toEqual([
      ofItem,
    ]);
    const ofSource =
      'amount-below-zero sources.0: Pounds and prices of Orchard must be 0 or more; correct the source.';
    expect(source({ lbByWeek: oneBad(bad) })).toEqual([ofSource]);
    expect(source({ priceCentsPerLbByWeek: oneBad(bad) })).toEqual([ofSource]);
    const ofFund = 'fund-below-zero fund: The season fund and what is set aside each week must be 0 or more.';
    expect(checked({ fund: { opening: bad, setAsideByWeek: everyWeek(0) } })).toEqual([ofFund]);
    expect(checked({ fund: { opening: 0, setAsideByWeek: oneBad(bad) } })).toEqual([ofFund]);
  });

  test('a batch gives something, and takes no less than no time', () => {
    for (const change of [{ yieldLowUnits: 0 }, { yieldHighJars: -1 }, { handsOnMinutes: -5 }])
      expect(recipe(change)).toEqual([
        expect.stringMatching(
          /^batch-gives-nothing recipes\.0: A batch of Jam of plums must give more than 0 units/,
        ),
      ]);
  });

  test('a pack holds something', () => {
    const pack = (change: object) =>
      item({ packs: [{ id: 'a', units: 1, priceByWeek: everyWeek(1), ...change }] });
    expect(pack({})).toEqual([]);
    expect(pack({ units: 0 })).toEqual([
      'empty-pack items.0.packs: Every pack of Plum jam must hold more than 0 and cost 0 or more.',
    ]);
    expect(pack({ priceByWeek: oneBad(-1) })).toHaveLength(1);
    const { supplies, jars, lids } = plumYear();
    expect(checked({ supplies: supplies.map((one) => ({ ...one, packQuantity: 0 })) })).toEqual([
      'empty-pack supplies.0: A pack of Sugar must hold more than 0.',
    ]);
    expect(checked({ jars: jars.map((one) => ({ ...one, pack: 0 })) })).toEqual([
      'empty-pack jars.0: A pack of pint/regular jars must hold more than 0.',
    ]);
    expect(checked({ lids: lids.map((one) => ({ ...one, box: 0 })) })).toEqual([
      'empty-pack lids.0: A box of regular-mouth lids must hold more than 0.',
    ]);
  });
});

describe('schedules and canners', () => {
  test('a canned recipe has a whole schedule', () => {
    for (const change of [{ scheduleKey: '' }, { minutes: 0 }, { jarsPerLoad: 0 }, { loadMinutes: 0 }])
      expect(recipe({ processing: { ...processing, ...change } })).toEqual([
        expect.stringMatching(
          /^schedule-not-whole recipes\.0\.processing: Jam of plums \(jam-of-plums\) needs a tested schedule/,
        ),
      ]);
  });

  test('what is low in acid goes under pressure, in whatever canner it stands otherwise', () => {
    const low = { recipes: [{ ...jamRecipe, processing: { ...processing, lowAcid: true } }] };
    const in_ = (method: string) => checked({ ...low, canners: [{ id: 'kettle', name: 'Kettle', method }] });
    expect(in_('pressure')).toEqual([]);
    for (const method of ['boiling-water', 'steam'])
      expect(in_(method)).toEqual([
        `low-acid-needs-pressure recipes.0.processing: Jam of plums (jam-of-plums) is low-acid food and must be processed in a pressure canner; Kettle is a ${method} canner. Choose a pressure canner, or freeze it.`,
      ]);
  });
});

describe('names nobody knows', () => {
  test('are each named, with what to do', () => {
    expect(recipe({ itemId: 'nobody' })).toEqual([
      'unknown-item recipes.0.itemId: Jam of plums makes nobody, which is not an item. Add the item first.',
    ]);
    expect(recipe({ supplies: [{ supplyId: 'salt', quantity: 1 }] })).toEqual([
      'unknown-supply recipes.0.supplies: Jam of plums needs salt, which is not a supply. Add the supply first.',
    ]);
    for (const change of [
      { gives: [{ materialId: 'pulp', quantity: 1 }] },
      { uses: [{ materialId: 'pulp', quantity: 1 }] },
    ])
      expect(recipe(change)).toEqual([
        'unknown-material recipes.0: Jam of plums names pulp, which is not a material. Add the material first.',
      ]);
    const group = {
      id: 'g',
      name: 'Spreads',
      members: [{ itemId: 'plum-jam' }, { itemId: 'nobody' }],
      totalUnits: 9,
      leastKinds: 1,
      largestShare: 1,
    };
    expect(checked({ groups: [group] })).toEqual([
      'unknown-item groups.0: Group Spreads holds nobody, which is not an item.',
    ]);
    expect(
      checked({ kept: [{ recipeId: 'gone', week: plumWeeks[3], decision: 'pinned', batches: 1 }] }),
    ).toEqual(['unknown-recipe kept: gone is kept in the plan and is not a recipe. Take the decision back.']);
    expect(
      checked({ kept: [{ recipeId: 'jam-of-plums', week: plumWeeks[3], decision: 'ruled-out' }] }),
    ).toEqual([]);
  });

  test('jars and lids are counted, or their price is known', () => {
    expect(checked({ jars: [] })).toEqual([
      'unknown-jar recipes.0.jarKind: Jam of plums fills pint/regular jars; none were counted and no price of new ones is known. Say how many there are and what a pack costs.',
    ]);
    expect(checked({ lids: [] })).toEqual([
      'unknown-lid recipes.0.jarKind: Jam of plums needs lids for regular-mouth jars; none were counted and no price of new ones is known. Say how many there are and what a box costs.',
    ]);
  });
});

describe('batches of several days', () => {
  const stages = (change: object = {}) =>
    recipe({
      stages: { weeks: 1, daysFromMonday: 0, handsOnByWeek: [30, 60], possibleByWeek: null, ...change },
    });

  test('have minutes for each week from beginning to load, as many together as a batch takes', () => {
    expect(stages()).toEqual([]);
    expect(stages({ handsOnByWeek: [30, 60.4], possibleByWeek: everyWeek(true) })).toEqual([]);
    expect(stages({ handsOnByWeek: [30, 61] })).toEqual([
      'stages-not-whole recipes.0.stages: The stages of Jam of plums need minutes for each week from beginning a batch to its load, 90 together; found 2 weeks and 91 minutes over 1 stage weeks.',
    ]);
    for (const change of [
      { weeks: 0 },
      { weeks: 1.5, handsOnByWeek: [30, 60] },
      { weeks: -1, handsOnByWeek: [] },
      { handsOnByWeek: [90] },
      { handsOnByWeek: [-10, 100] },
      { possibleByWeek: short.map(() => true) },
    ])
      expect(stages(change)).toHaveLength(1);
  });

  test('that are begun are whole, one or more, with every week', () => {
    const begun = (change: object = {}) =>
      checked({
        begun: [
          {
            id: 'a',
            recipeId: 'jam-of-plums',
            jarKind: null,
            batches: 1,
            begunOn: '2026-11-29',
            mayLoadByWeek: everyWeek(true),
            ...change,
          },
        ],
      });
    expect(begun()).toEqual([]);
    expect(begun({ batches: 0 })).toEqual([
      'begun-batches-not-whole begun.0: Batches begun (a) must be 1 or more, whole, with one entry for each of the 52 weeks; found 0 and 52.',
    ]);
    expect(begun({ batches: 1.5 })).toHaveLength(1);
    expect(begun({ mayLoadByWeek: short.map(() => true) })).toHaveLength(1);
  });
});

describe('a year of no weeks', () => {
  test('is refused in one sentence of its own', () => {
    const [first] = checkPlanningYear({ ...plumYear(), weeks: [] });
    expect(first).toEqual({
      code: 'no-weeks',
      path: ['weeks'],
      message: 'A plan needs at least one week; none were given. Choose a date to plan from.',
    });
  });
});
