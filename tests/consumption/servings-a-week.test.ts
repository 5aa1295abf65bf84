import { describe, expect, test } from 'vitest';
import type { ItemId } from '../../shared/ids.ts';
import { servingsAWeek } from '../../src/consumption/servings-a-week.ts';
import { countsAs, guessedCountsAs } from '../../src/household/counts-as.ts';
import type { Item } from '../../src/household/item.ts';

const item = (name: string, family: Item['family'], over: Partial<Item> = {}) =>
  ({ id: name, name, family, shelfLifeKey: null, servingsPerUnit: null, countsAs: null, ...over }) as Item;

describe('what an item counts as', () => {
  test.each([
    ['Peach halves', 'stone-fruit', 'hc_fruit', 'fruit'],
    ['Peach jam', 'stone-fruit', 'jam_home', 'sweet'],
    ['Grandmother’s red', 'berries', 'jam_home', 'sweet'],
    ['Freezer jam', 'berries', null, 'sweet'],
    ['Apple butter', 'apples-pears', 'fruit_butter_home', 'sweet'],
    ['Applesauce', 'apples-pears', 'hc_applesauce', 'fruit'],
    ['Tomato sauce', 'tomatoes', 'hc_tomato_sauce', 'vegetable'],
    ['Green beans', 'greens-beans', 'hc_green_beans', 'vegetable'],
    ['Pinto beans', 'greens-beans', 'hc_dry_beans', 'protein'],
    ['Dry beans', 'dry-goods', 'beans_dry', 'protein'],
    ['Lentils', 'dry-goods', 'lentils', 'protein'],
    ['Peanut butter', 'dry-goods', 'peanut_butter', 'protein'],
    ['Chicken stock', 'meat-stock', 'hc_soup', 'none'],
    ['Venison', 'meat-stock', 'hc_meat', 'protein'],
    ['Honey', 'dry-goods', 'honey', 'sweet'],
    ['White flour', 'dry-goods', 'flour_white', 'none'],
  ] as const)('%s is guessed by its name and kind', (name, family, shelfLifeKey, guess) => {
    expect(guessedCountsAs(item(name, family, { shelfLifeKey }))).toBe(guess);
  });

  test('what the household said goes before the guess', () => {
    expect(countsAs(item('Peach jam', 'stone-fruit', { countsAs: 'fruit' }))).toBe('fruit');
    expect(countsAs(item('Peach jam', 'stone-fruit'))).toBe('sweet');
  });
});

describe('servings for each person and week', () => {
  const beans = item('Green beans', 'greens-beans', { servingsPerUnit: 2.5 });
  const corn = item('Sweet corn', 'greens-beans', { servingsPerUnit: 4 });
  const salsa = item('Salsa', 'tomatoes');
  const flour = item('Flour', 'dry-goods');
  const uneaten = item('Beets', 'roots', { servingsPerUnit: 3 });
  const eaten = new Map<ItemId, number>([
    [beans.id, 0.8],
    [corn.id, 1],
    [salsa.id, 0.5],
    [flour.id, 2],
  ]);

  test('are units eaten times servings in one, shared among the people, the most first', () => {
    const kinds = servingsAWeek([beans, corn, salsa, flour, uneaten], eaten, 4);

    expect(kinds.map(({ kind }) => kind)).toEqual(['fruit', 'vegetable', 'protein', 'sweet']);
    const vegetables = kinds[1];
    expect(vegetables?.perPerson).toBeCloseTo((0.8 * 2.5 + 1 * 4) / 4, 12);
    expect(vegetables?.from.map(({ item: { name }, perPerson }) => [name, perPerson])).toEqual([
      ['Sweet corn', 1],
      ['Green beans', 0.5],
    ]);
    expect(vegetables?.uncounted.map(({ name }) => name)).toEqual(['Salsa']);
    expect(kinds[0]).toEqual({ kind: 'fruit', perPerson: 0, from: [], uncounted: [] });
  });

  test('are of a household that has people', () => {
    expect(() => servingsAWeek([beans], eaten, 0)).toThrow(RangeError);
  });
});
