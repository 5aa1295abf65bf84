import { describe, expect, test } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { sharedColumns, storesForCanning, storesOfItems } from '../../../src/planning/packs/stores.ts';
import type { PlannedGroup } from '../../../src/planning/planning-year.ts';
import { batchOf, canningOf, food, pack, packsAround, pint, shortYear, sourceOf } from '../short-year.ts';

const year = shortYear(3, {
  foods: [
    food('oats', {
      packs: [pack('bag', 1, 300), pack('sack', 5, 900)],
      stands: 1,
      bestQualityWeeks: 2,
      reserveUnits: 1,
      yearEndUnits: 2,
      familyMinimumUnits: 1,
      freezerQuartsPerUnit: 1,
    }),
    food('jam', { kind: 'preserve', jarKind: pint }),
    food('rice', { packs: [pack('bag', 1, 100)] }),
  ],
  sources: [sourceOf('stall')],
  recipes: [batchOf('jam-of-plums', 'jam')],
  supplies: [
    { id: 'pectin', name: 'Pectin', unit: 'box', onHand: 0, packQuantity: 1, packPrice: asCents(300) },
    { id: 'sugar', name: 'Sugar', unit: 'lb', onHand: 0, packQuantity: 5, packPrice: asCents(400) },
  ],
  jars: [{ kind: pint, owned: 0, empty: 0, pack: 6, packPrice: asCents(900), returnShare: 0 }],
  lids: [{ mouth: 'regular', onHand: 0, box: 12, boxPrice: asCents(300) }],
  groups: [
    {
      id: 'grain' as PlannedGroup['id'],
      name: 'Grain',
      members: [
        { itemId: 'oats' as PlannedGroup['members'][number]['itemId'], groupUnitsPerUnit: 1 },
        { itemId: 'rice' as PlannedGroup['members'][number]['itemId'], groupUnitsPerUnit: 1 },
      ],
      totalUnits: 4,
      leastKinds: 2,
      largestShare: 0.7,
    },
  ],
});
const built = packsAround(year, canningOf(year, { 'jam-of-plums': [1, 1, 1] }));
const names = (columns: readonly number[]) =>
  columns.map((at) => built.model.columns[at]?.name ?? `none ${at}`);
const [one, two, three] = ['2027-W01', '2027-W02', '2027-W03'];

describe('a store of something eaten', () => {
  test('has its packs, what stands of it and everything that is missed of it; nothing of what is only made', () => {
    const [oats, rice, ...more] = storesOfItems(built).map(({ columns }) => names(columns));

    expect(more).toEqual([]);
    expect(oats).toEqual([
      ...[one, two, three].map((week) => `purchases[oats,bag,${week}]`),
      ...[one, two, three].map((week) => `purchases[oats,sack,${week}]`),
      ...[one, two, three].map((week) => `stock[oats,${week}]`),
      `older[oats,${three}]`,
      ...[one, two, three].map((week) => `shortage[oats,${week}]`),
      'reserve_shortage[oats]',
      'reserve_at_end_shortage[oats]',
      'coming_reserve_shortage[oats]',
      'year_end_shortage[oats]',
      'family_shortage[oats]',
      'first_jars_missing[oats,first-half]',
      'first_jars_missing[oats,first-quarter]',
    ]);
    expect(rice?.slice(0, 3)).toEqual([one, two, three].map((week) => `purchases[rice,bag,${week}]`));
    expect(rice).not.toContain('reserve_shortage[rice]');
  });
});

describe('stores for canning', () => {
  test('are supplies, jars and lids that something takes, with what is left of them', () => {
    expect(storesForCanning(built).map(({ columns }) => names(columns))).toEqual([
      [
        ...[one, two].map((week) => `supply_bought[sugar,${week}]`),
        ...[one, two, three].map((week) => `supply_left[sugar,${week}]`),
      ],
      [
        ...[one, two].map((week) => `jars_bought[pint/regular,${week}]`),
        ...[one, two, three].map((week) => `jars_empty[pint/regular,${week}]`),
      ],
      [
        ...[one, two].map((week) => `lids_bought[regular,${week}]`),
        ...[one, two, three].map((week) => `lids_left[regular,${week}]`),
      ],
    ]);
  });
});

describe('what all stores share', () => {
  test('is money, freezer and what groups ask for', () => {
    expect(names(sharedColumns(built))).toEqual([
      ...[one, two, three].map((week) => `fund[${week}]`),
      ...[one, two, three].map((week) => `fund_over[${week}]`),
      ...[one, two, three].map((week) => `freezer_over[${week}]`),
      'group_shortage[grain]',
      'kind[grain,oats]',
      'kind[grain,rice]',
      'kinds_missing[grain]',
      'share_over[grain,oats]',
      'share_over[grain,rice]',
    ]);
  });
});
