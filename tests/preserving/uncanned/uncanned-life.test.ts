import { describe, expect, test } from 'vitest';
import { type Family, families } from '../../../shared/family.ts';
import type { UncannedKeeping } from '../../../shared/schemas/item.ts';
import { namedIn } from '../../../src/preserving/foods/name-reading.ts';
import { lifeOfKey, uncannedLife } from '../../../src/preserving/uncanned/uncanned-life.ts';
import { tables } from '../tables.ts';

const lineFor = (keeping: UncannedKeeping, crop: string, family: Family): string | null =>
  uncannedLife(keeping, crop, family, tables.shelfLives)?.shelfLifeKey ?? null;

const fruit: readonly Family[] = ['berries', 'stone-fruit', 'apples-pears'];
const vegetables: readonly Family[] = ['tomatoes', 'greens-beans', 'roots'];
const ofFamily = (family: Family, ofFruit: string, ofVegetables: string): string | null => {
  if (fruit.includes(family)) return ofFruit;
  return vegetables.includes(family) ? ofVegetables : null;
};

describe('how long something that is not canned keeps, by the published line', () => {
  // FSIS-SHELF-DATA, id 481 (freezer): strawberries frozen, 8 to 12 months.
  test('strawberries, frozen: 243 to 365 days, with where it stands', () => {
    expect(uncannedLife('frozen', 'strawberry', 'berries', tables.shelfLives)).toEqual({
      shelfLifeKey: 'frozen_strawberry',
      leastDays: 243,
      mostDays: 365,
      food: 'Strawberries, frozen',
      kept: '0F',
      source: { sourceId: 'FSIS-SHELF-DATA', locator: 'id 481 (freezer)', basis: 'read' },
    });
  });

  test.each([
    ['strawberry', 'frozen_strawberry'],
    ['raspberry-red', 'frozen_raspberry'],
    ['blueberry', 'frozen_blueberry'],
    ['cherry-sour', 'frozen_cherry'],
    ['cranberry', 'frozen_cranberry'],
    ['apple', 'frozen_apples'],
    ['tomato-paste', 'frozen_tomato'],
    ['asparagus', 'frozen_asparagus'],
    ['green_bean', 'frozen_green_bean'],
    ['green-bean', 'frozen_green_bean'],
    ['carrot', 'frozen_carrot'],
    // Another crop that only ends so has no line of that crop: the line of its family counts.
    ['crab-apple', 'frozen_fruit_home'],
    ['pineapple', 'frozen_fruit_home'],
    ['', 'frozen_fruit_home'],
  ])('%s, frozen, goes by %s', (crop, line) => {
    expect(lineFor('frozen', crop, 'berries')).toBe(line);
  });

  test.each([
    ['potato', 'fresh_potato'],
    ['onion', 'fresh_onion'],
    ['garlic', 'fresh_garlic'],
    ['pumpkin', 'fresh_pumpkin'],
    ['winter_squash', 'fresh_winter_squash_pantry'],
    ['apple', 'fresh_apple'],
    ['carrot', 'fresh_carrot'],
    ['beet', 'fresh_beet'],
    ['cabbage', 'fresh_cabbage'],
    // Of sweet potatoes, green onions and summer squash nothing is published here.
    ['sweet-potato', null],
    ['green-onion', null],
    ['summer-squash', null],
    ['', null],
  ])('%s in a cellar goes by %s', (crop, line) => {
    expect(lineFor('cellar', crop, 'roots')).toBe(line);
  });

  test.each(families)('%s that names no crop of the table: by fruit, by vegetable, or nothing', (family) => {
    expect(lineFor('frozen', 'something', family)).toBe(
      ofFamily(family, 'frozen_fruit_home', 'frozen_fruit_veg'),
    );
    expect(lineFor('dried', 'something', family)).toBe(ofFamily(family, 'dried_fruit_60f', 'dried_veg_60f'));
    expect(lineFor('dried', 'strawberry', family)).toBe(ofFamily(family, 'dried_fruit_60f', 'dried_veg_60f'));
    expect(lineFor('cellar', 'something', family)).toBeNull();
  });

  test.each(['fermented', 'refrigerated'] as const)('nothing is published for what is %s', (keeping) => {
    expect(lineFor(keeping, 'cabbage', 'greens-beans')).toBeNull();
  });

  test('peas are frozen as green beans are; peaches and pears, which only begin so, are not', () => {
    for (const crop of ['pea', 'peas', 'pea-shelling'])
      expect(lineFor('frozen', crop, 'roots')).toBe('frozen_green_bean');
    for (const crop of ['peach', 'pear'])
      expect(lineFor('frozen', crop, 'berries')).toBe('frozen_fruit_home');
  });

  const crops = [...new Set(tables.harvestWindows.map(({ cropKey }) => cropKey))];

  test.each(['frozen', 'cellar'] as const)(
    'no crop of the harvest table is %s by a line of another crop',
    (keeping) => {
      const ofFamilies = new Set(families.map((family) => lineFor(keeping, '', family)));
      const apart = crops.flatMap((crop) => {
        const life = uncannedLife(keeping, crop, 'berries', tables.shelfLives);
        return life === null || ofFamilies.has(life.shelfLifeKey) ? [] : [{ crop, food: life.food }];
      });
      expect(apart.length).toBeGreaterThan(5);
      for (const { crop, food } of apart) {
        const said = namedIn(food).map((one) => one.food);
        const own = namedIn(crop.replaceAll('_', ' ')).map((one) => one.food);
        expect({ crop, food, isOfIt: own.some((one) => said.includes(one)) }).toEqual({
          crop,
          food,
          isOfIt: true,
        });
      }
    },
  );
});

describe('a line of the table by its key', () => {
  test('is that of the unopened, though the opened has the same key', () => {
    const twice = tables.shelfLives.filter(
      ({ itemKey, state }) =>
        state !== 'unopened' &&
        tables.shelfLives.some((one) => one.itemKey === itemKey && one.state === 'unopened'),
    );
    expect(twice.length).toBeGreaterThan(0);
    for (const { itemKey } of twice) {
      const unopened = tables.shelfLives.find((one) => one.itemKey === itemKey && one.state === 'unopened');
      expect(lifeOfKey(itemKey, tables.shelfLives)?.mostDays).toBe(unopened?.maxDays);
      expect(lifeOfKey(itemKey, tables.shelfLives.toReversed())?.mostDays).toBe(unopened?.maxDays);
    }
  });

  test('is nothing where none is named, or the table has none of it', () => {
    expect(lifeOfKey(null, tables.shelfLives)).toBeNull();
    expect(lifeOfKey('of-before', tables.shelfLives)).toBeNull();
  });
});
