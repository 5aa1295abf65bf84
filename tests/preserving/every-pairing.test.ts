import { describe, expect, test } from 'vitest';
import { recipeKind } from '../../shared/schemas/reference/recipe.ts';
import { keepColdLimit, openedFoods } from '../../src/preserving/afterwards/keep-cold-limit.ts';
import { potMinutesOf } from '../../src/preserving/day/pot-minutes.ts';
import { freshKeeping } from '../../src/preserving/foods/fresh-keeping.ts';
import { handsOnGuess } from '../../src/preserving/recipes/hands-on-guess.ts';
import { publishedLife, recipeLife } from '../../src/preserving/recipes/recipe-life.ts';
import { tables } from './tables.ts';

// Which line of a table speaks of which food is our own pairing; each is held here once more, line by line, with the days it gives.

const { shelfLives } = tables;

describe('how long fresh food stands before its session', () => {
  // FSIS shelf life data for fruit and vegetables (shorter figure); University of Illinois Extension for meat and fish, 1 to 2 days.
  test.each([
    ['fresh_strawberry', 2, 'strawberries'],
    ['fresh_raspberry', 2, 'raspberries'],
    ['fresh_blackberry', 3, 'blackberries, currants'],
    ['fresh_blueberry', 7, 'blueberries'],
    ['fresh_cherry', 2, 'cherries'],
    ['fresh_peach_pear_plum', 3, 'peaches, nectarines, plums, pears'],
    ['fresh_apricot', 2, 'apricots'],
    ['fresh_grape', 7, 'grapes'],
    ['fresh_cucumber', 4, 'cucumbers'],
    ['fresh_corn', 1, 'corn'],
    ['fresh_beet', 7, 'beets'],
    ['fresh_cabbage', 7, 'cabbage'],
    ['fresh_pepper', 4, 'peppers'],
    ['fresh_rhubarb', 3, 'rhubarb'],
    ['fresh_asparagus', 3, 'asparagus'],
    [
      'fresh_poultry',
      2,
      'chicken, turkey, duck, goose, quail, pheasant, giblet, giblets, gizzard, gizzards, hen, hens',
    ],
    ['fresh_ground_meat', 2, 'sausage, hamburger, burger'],
    ['fresh_variety_meat', 2, 'liver'],
    [
      'fresh_meat',
      2,
      'beef, pork, lamb, veal, venison, rabbit, bison, buffalo, goat, antelope, boar, steak, steaks, bear meat, soup bones',
    ],
    [
      'fresh_fish',
      2,
      'fish, tuna, cod, halibut, perch, walleye, tilapia, pollock, haddock, whitefish, bass, catfish, pike',
    ],
    [
      'fresh_shellfish',
      2,
      'clams, oysters, mussels, crab, shrimp, lobster, scallop, scallops, squid, crawfish',
    ],
  ])('%s, %i days: %s', (itemKey, days, names) => {
    for (const name of names.split(', ')) {
      const found = freshKeeping(name, shelfLives);
      expect({ name, itemKey: found?.row.itemKey, days: found?.days }).toEqual({ name, itemKey, days });
    }
  });

  const kept =
    'frozen freezer dried dry dehydrated canned tinned bottled jarred cured smoked salted jerky powder powdered flakes flake seed seeds juice cider sauce paste concentrate syrup vinegar pickled pickle candied crystallized glazed maraschino raisin raisins crushed broth stock bouillon soup base jam jelly preserves extract oil wine starch meal cornmeal popcorn spice spices seasoning rub salt sugar nectar kraut sauerkraut kimchi';
  test.each(kept.split(' '))('%s beside it says that it is not fresh', (word) => {
    expect(freshKeeping(`peppers ${word}`, shelfLives)).toBeNull();
  });

  test.each(['bone', 'bones', 'frame', 'frames', 'carcass', 'carcasses'])(
    'a %s is raw, whatever it is for',
    (word) => {
      for (const liquid of ['broth', 'stock', 'soup', 'base'])
        expect(freshKeeping(`${liquid} ${word}`, shelfLives)?.days).toBe(2);
      expect(freshKeeping(`frozen ${word}`, shelfLives)).toBeNull();
    },
  );

  test.each(['ground', 'minced', 'mince', 'hamburger', 'stew'])(
    '%s is a spice beside a vegetable, and meat beside an animal',
    (word) => {
      if (word !== 'hamburger') expect(freshKeeping(`${word} pepper`, shelfLives)).toBeNull();
      expect(freshKeeping(`${word} beef`, shelfLives)?.days).toBe(2);
    },
  );
});

describe('how long an opened jar keeps cold', () => {
  test('by the line and the days of each food', () => {
    const found = Object.fromEntries(
      openedFoods.map((food) => {
        const { itemKey, days, kind } = keepColdLimit(food, shelfLives);
        return [food, `${itemKey} ${days} ${kind}`];
      }),
    );
    expect(found).toEqual({
      jam: 'jam_home 30 quality',
      'jam-reduced-sugar': 'jam_home_lowsugar 14 quality',
      'fruit-butter': 'jam_home_lowsugar 14 quality',
      fruit: 'hc_fruit 5 quality',
      applesauce: 'hc_fruit 5 quality',
      'pie-filling': 'hc_fruit 5 quality',
      juice: 'hc_fruit 5 quality',
      tomatoes: 'hc_tomatoes 5 quality',
      'tomato-sauce': 'hc_tomato_sauce 3 quality',
      ketchup: 'hc_tomatoes 5 quality',
      salsa: 'hc_tomatoes 5 quality',
      pickle: 'pickle 30 quality',
      relish: 'pickle 30 quality',
      chutney: 'pickle 30 quality',
      sauerkraut: 'can_high_acid 5 quality',
      'low-acid-vegetable': 'hc_green_beans 3 safety',
      beans: 'can_refried_beans 2 safety',
      corn: 'hc_corn 3 safety',
      soup: 'hc_soup 3 safety',
      meat: 'hc_meat 3 safety',
      seafood: 'can_seafood 1 safety',
      'marinated-in-oil': 'marinated_veg_oil 3 safety',
    });
  });

  test('a table without any figure of it is an error, not no limit', () => {
    expect(() => keepColdLimit('jam', [])).toThrow('keepColdLimit: no opened figure for jam');
  });
});

describe('how long a sealed jar is at its best', () => {
  const lifeOf = (kind: string, foodKey = 'x') => {
    const life = recipeLife({ kind, processes: [{ foodKey }] } as never, shelfLives);
    return `${life.shelfLifeKey} ${life.published.least}-${life.published.most} ${life.opened.itemKey}`;
  };

  test('by the line of each kind of recipe', () => {
    expect(Object.fromEntries(recipeKind.options.map((kind) => [kind, lifeOf(kind)]))).toEqual({
      jam: 'jam_home 365-365 jam_home',
      jelly: 'jam_home 365-365 jam_home',
      spread: 'jam_home_lowsugar 182-365 jam_home_lowsugar',
      butter: 'fruit_butter_home 365-365 jam_home_lowsugar',
      syrup: 'hc_general 365-365 hc_fruit',
      fruit: 'hc_fruit 365-365 hc_fruit',
      'sauce-fruit': 'hc_applesauce 365-365 hc_fruit',
      juice: 'hc_juice 365-365 hc_fruit',
      'pie-filling': 'hc_pie_filling 365-365 hc_fruit',
      tomato: 'hc_tomatoes 365-365 hc_tomatoes',
      salsa: 'hc_salsa 274-365 hc_tomatoes',
      sauce: 'hc_tomato_sauce 274-365 hc_tomato_sauce',
      ketchup: 'hc_general 365-365 hc_tomatoes',
      chutney: 'hc_general 365-365 pickle',
      relish: 'hc_general 365-365 pickle',
      pickle: 'pickle_home 365-365 pickle',
      ferment: 'hc_sauerkraut 365-365 can_high_acid',
      vegetable: 'hc_general 365-365 hc_green_beans',
      beans: 'hc_dry_beans 365-365 can_refried_beans',
      meal: 'hc_meat 365-365 hc_meat',
    });
    expect(lifeOf('tomato', 'tomato-sauce')).toBe('hc_tomato_sauce 274-365 hc_tomato_sauce');
  });

  test('never beyond the year published for all home-canned food; that year where no line is named', () => {
    const row = (change: object) =>
      [{ itemKey: 'a', state: 'unopened', kind: 'quality', minDays: 400, maxDays: 700, ...change }] as never;
    expect(publishedLife('a', row({}))).toEqual({ least: 365, most: 365 });
    expect(publishedLife('a', row({ minDays: 100, maxDays: 200 }))).toEqual({ least: 100, most: 200 });
    for (const change of [{ state: 'opened-refrigerated' }, { kind: 'safety' }, { itemKey: 'b' }])
      expect(publishedLife('a', row({ minDays: 100, maxDays: 200, ...change }))).toEqual({
        least: 365,
        most: 365,
      });
    expect(publishedLife(null, shelfLives)).toEqual({ least: 365, most: 365 });
  });
});

describe('the work of one pot, by its kind', () => {
  // Common practice, no source.
  test('jams boil quickly and are stirred, sauces simmer an hour, the rest is heated through', () => {
    const of = (kind: (typeof recipeKind.options)[number] | null) => {
      const { cookMinutes, stirred } = potMinutesOf({ handsOnMinutes: 200, pack: 'hot', kind, loads: 1 });
      return `${cookMinutes}${stirred ? ' stirred' : ''}`;
    };
    const expected: Readonly<Record<string, string>> = {
      ...Object.fromEntries(['jam', 'jelly', 'spread', 'syrup'].map((kind) => [kind, '20 stirred'])),
      ...Object.fromEntries(
        ['butter', 'sauce', 'ketchup', 'chutney', 'beans', 'meal'].map((kind) => [kind, '60']),
      ),
      'sauce-fruit': '30',
    };
    for (const kind of recipeKind.options)
      expect({ kind, of: of(kind) }).toEqual({ kind, of: expected[kind] ?? '15' });
    expect(of(null)).toBe('15');
  });

  test('is least five minutes to prepare, whatever is left of it', () => {
    const least = potMinutesOf({ handsOnMinutes: 10, pack: 'hot', kind: 'jam', loads: 2 });
    expect(least).toEqual({ prepMinutes: 5, cookMinutes: 20, stirred: true, fillMinutesPerLoad: 15 });
  });

  test('is guessed for every kind, between one hour and two and a half', () => {
    expect(Object.keys(handsOnGuess).toSorted()).toEqual([...recipeKind.options].toSorted());
    for (const minutes of Object.values(handsOnGuess)) expect(minutes >= 60 && minutes <= 150).toBe(true);
  });
});
