import { describe, expect, test } from 'vitest';
import { firstJarBands } from '../../../src/planning/model/first-jars.ts';
import type { Model } from '../../../src/planning/model/model.ts';
import type { PlannedGroup, PlannedItem } from '../../../src/planning/planning-year.ts';
import {
  costOfWishes,
  missedOn,
  modelOfRung,
  type WishRung,
  wishRungs,
  withRungKept,
  withWishPrices,
} from '../../../src/planning/solving/wish-rungs.ts';
import { batchOf, food, pack, packsAround, shortYear, sourceOf } from '../short-year.ts';

const members = ['jam', 'oats'].map((itemId) => ({
  itemId: itemId as PlannedItem['id'],
  groupUnitsPerUnit: 1,
}));
const year = shortYear(4, {
  foods: [
    food('jam', {
      kind: 'preserve',
      familyMinimumUnits: 2,
      yearEndUnits: 1,
      reserveUnits: 2,
      useByWeek: [1, 1, 1, 4],
    }),
    food('oats', { packs: [pack('bag', 1, 300)], freezerQuartsPerUnit: 1 }),
  ],
  sources: [sourceOf('tree', { kind: 'garden' })],
  recipes: [batchOf('jam-of-plums', 'jam', { jarKind: null, supplies: [] })],
  groups: [
    {
      id: 'breakfast' as PlannedGroup['id'],
      name: 'Breakfast',
      members,
      totalUnits: 9,
      leastKinds: 2,
      largestShare: 0.5,
    },
  ],
  kept: [
    {
      recipeId: 'jam-of-plums' as never,
      week: '2027-W02' as never,
      decision: 'pinned',
      batches: 1,
    },
  ],
});
const built = packsAround(year);
const rungs = wishRungs(built);
const names = (rung: WishRung | undefined) =>
  (rung?.entries ?? []).map(([column, units]) => [built.model.columns[column]?.name, units]);
const rungOf = (name: string) => rungs.find((rung) => rung.name === name);

describe('the rungs of a year', () => {
  test('are heaviest first, those alone that have a wish on them', () => {
    expect(rungs.map(({ name }) => name)).toEqual([
      'cash and hours',
      'pins',
      'family minimums and groups',
      'coming weeks',
      'first jars',
      'garden crop',
      'use',
      'reserve',
      'variety',
    ]);
    expect(
      wishRungs(packsAround(shortYear(1, { foods: [food('oats')] }))).map(({ name }) => name),
    ).not.toContain('pins');
  });

  test('are what is missed of each wish, in units of it', () => {
    expect(names(rungOf('family minimums and groups'))).toEqual([
      ['family_shortage[jam]', 1],
      ['group_shortage[breakfast]', 1],
    ]);
    expect(names(rungOf('variety')).map(([name]) => name)).toEqual([
      'kinds_missing[breakfast]',
      'share_over[breakfast,jam]',
      'share_over[breakfast,oats]',
    ]);
    expect(names(rungOf('use'))).toContainEqual(['year_end_shortage[jam]', 1]);
    expect(names(rungOf('use'))).toContainEqual(['shortage[oats,2027-W01]', 1]);
    // What the year's end lacks of a reserve counts twice (`reserveAtEndTimes`).
    expect(names(rungOf('reserve'))).toEqual([['reserve_at_end_shortage[jam]', 2]]);
    expect(names(rungOf('garden crop')).map(([name]) => name)).toEqual(['garden_lost[plum]']);
    expect(names(rungOf('first jars')).length).toBeGreaterThanOrEqual(firstJarBands.length);
    const pins = names(rungOf('pins'));
    expect(pins).toHaveLength(1);
    expect(pins[0]?.[1]).toBe(1);
    // Quarts over the freezer weigh as a pin does; cents over the fund their own price.
    expect(names(rungOf('cash and hours'))).toContainEqual(['freezer_over[2027-W01]', 1]);
    expect(names(rungOf('cash and hours'))).toContainEqual(['fund_over[2027-W01]', 50 / built.prices.pinned]);
  });

  test('cost what their prices say', () => {
    const { prices } = built;

    expect(rungs.map(({ cents }) => cents)).toEqual([
      prices.pinned,
      prices.pinned,
      prices.group,
      prices.comingWeeks,
      prices.firstJars,
      prices.gardenUnit,
      prices.use,
      prices.reserve,
      prices.variety,
    ]);
  });
});

const column = (name: string, cost: number) => ({ name, lower: 0, upper: 9, integer: false, cost });
const model: Model = {
  constant: 5,
  columns: [column('money', 1), column('use', 20), column('both', 33)],
  rows: [{ name: 'row', lower: 0, upper: 1, entries: [[0, 1]] }],
};
const use: WishRung = {
  name: 'use',
  cents: 10,
  entries: [
    [1, 2],
    [2, 1],
    [2, 1],
  ],
};
const variety: WishRung = { name: 'variety', cents: 4, entries: [[2, 3]] };

describe('what values miss', () => {
  test('on a rung is the sum of its columns, never below none', () => {
    expect(missedOn(use, [9, 1, 2])).toBe(6);
    expect(missedOn(use, [9, 0, 0])).toBe(0);
    expect(missedOn(use, [9, -1e-9, 0])).toBe(0);
  });

  test('on all rungs costs their prices', () => {
    expect(costOfWishes([use, variety], [9, 1, 2])).toBe(6 * 10 + 6 * 4);
    expect(costOfWishes([], [9, 1, 2])).toBe(0);
  });
});

describe('a model of the wishes', () => {
  test('of one rung costs what that misses and nothing else', () => {
    expect(modelOfRung(model, use)).toEqual({
      constant: 0,
      columns: [column('money', 0), column('use', 2), column('both', 2)],
      rows: model.rows,
    });
  });

  test('with prices so many times what they are leaves money as it is', () => {
    expect(withWishPrices(model, [use, variety], 0)).toEqual({
      ...model,
      columns: [column('money', 1), column('use', 0), column('both', 1)],
    });
    expect(withWishPrices(model, [use, variety], 1)).toEqual(model);
    expect(withWishPrices(model, [use, variety], 3).columns.map(({ cost }) => cost)).toEqual([1, 60, 97]);
  });

  test('with a rung kept misses no more on it than said, but for rounding', () => {
    const kept = withRungKept(model, use, 3);

    expect(kept.rows).toEqual([
      ...model.rows,
      { name: 'rung[use]', lower: Number.NEGATIVE_INFINITY, upper: 3 + 4e-6, entries: use.entries },
    ]);
    expect({ ...kept, rows: model.rows }).toEqual(model);
    expect(withRungKept(model, use, 0).rows.at(-1)?.upper).toBe(1e-6);
  });
});
