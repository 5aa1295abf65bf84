import { describe, expect, test } from 'vitest';
import { asJarKind, type JarSize } from '../../../shared/jar.ts';
import { asDate } from '../../../shared/week.ts';
import type { Canner } from '../../../src/household/kitchen.ts';
import {
  canningPlace,
  type OwnChoice,
  recipeToKeep,
} from '../../../src/preserving/recipes/recipe-to-keep.ts';
import { testedWays } from '../../../src/preserving/recipes/tested-ways.ts';
import { kettle, ofBook, pressureCanner } from '../own-kitchen.ts';
import { answerOf, codesOf, tables } from '../tables.ts';

const on = asDate('2026-08-22');
const placeOf = (canners: readonly Canner[] = [kettle, pressureCanner], altitudeFt: number | null = 5300) =>
  canningPlace({ altitudeFt }, canners, on);
const guessed = (name: string, unit: string) => ({ pack: name.length, price: unit.length as never });

const keep = (
  key: string,
  choice: Partial<OwnChoice> & { readonly jar?: JarSize } = {},
  place = placeOf(),
) => {
  const recipe = ofBook(key);
  const { jar = recipe.yield.jar, ...more } = choice;
  return recipeToKeep(
    recipe,
    {
      name: recipe.name,
      jarKind: asJarKind(jar, 'wide'),
      handsOnMinutes: 75,
      minutesGuessed: true,
      lbByCrop: new Map(),
      ...more,
    },
    place,
    tables,
    guessed,
  );
};

describe('a kitchen as it is asked whether something can be canned', () => {
  test('is its altitude, its canners by their ids and the day', () => {
    expect(placeOf([kettle, { ...pressureCanner, method: 'steam' }])).toMatchObject({
      altitudeFt: 5300,
      on,
      canners: [
        { id: 'kettle', method: 'boiling-water', uprightQuarts: 7 },
        { id: 'pressure', method: 'atmospheric-steam' },
      ],
    });
  });
});

describe('a recipe of the book as a household takes it', () => {
  test('is by the canner that fits, with what a batch takes and gives', () => {
    expect(answerOf(keep('peaches-pints'))).toMatchObject({
      name: 'Peaches, halved or sliced (9 pints)',
      nameDenials: [],
      basedOn: 'peaches-pints',
      jarKind: 'pint/wide',
      process: { food: 'peaches', style: 'halved or sliced' },
      cannerId: 'kettle',
      yieldLow: 9,
      yieldHigh: 9,
      handsOnMinutes: 75,
      minutesGuessed: true,
      readyAfterDays: 0,
      crock: null,
      produce: [{ crop: 'peach', lb: 11 }],
    });
  });

  // The first process of the printed ones that has a schedule here; snap beans only under pressure.
  test('takes the pressure canner where boiling water is not printed', () => {
    expect(answerOf(keep('beans-snap-pints')).cannerId).toBe('pressure');
  });

  test('each thing it uses up is begun with a pack and a price guessed for it', () => {
    const { supplies } = answerOf(keep('peaches-pints'));
    expect(supplies.length).toBeGreaterThan(0);
    for (const supply of supplies)
      expect(supply).toMatchObject({ pack: supply.name.length, packPrice: supply.unit.length });
  });

  test('in a jar it is not printed for it is refused, with those it is', () => {
    const refused = keep('peaches-pints', { jar: 'quart' });
    expect(refused).toMatchObject({
      ok: false,
      problems: [
        {
          code: 'jar-not-tested',
          path: ['jarKind'],
          message:
            'Peaches, halved or sliced (9 pints) is tested for these jars: pint; quart is none of them. Choose one.',
        },
      ],
    });
    const { printed } = testedWays(tables, ofBook('chile-salsa'), placeOf());
    expect(printed.length).toBeGreaterThan(1);
    expect(keep('chile-salsa', { jar: 'half-gallon' })).toMatchObject({
      problems: [
        { message: expect.stringContaining(`these jars: ${printed.join(', ')}; half-gallon is none`) },
      ],
    });
  });

  test('the household’s own pounds go before the published ones, crop by crop', () => {
    const lbByCrop = new Map([
      ['peach', 10],
      ['pear', 7],
    ]);
    expect(answerOf(keep('peaches-pints', { lbByCrop })).produce).toEqual([{ crop: 'peach', lb: 10 }]);
    expect(answerOf(keep('mixed-fruit-cocktail', { lbByCrop })).produce).toEqual([
      { crop: 'peach', lb: 10 },
      { crop: 'pear', lb: 7 },
      { crop: 'grape', lb: 1.5 },
    ]);
  });

  test('where no weight is published each crop is asked for, by its name', () => {
    const refused = keep('berry-jam-no-pectin');
    expect(refused).toMatchObject({
      problems: [{ code: 'pounds-unknown', path: ['lb-blackberry'] }],
    });
    expect(refused).toMatchObject({
      problems: [{ message: expect.stringMatching(/^No weight of .*berries is published for a batch\./) }],
    });
    const lbByCrop = new Map([['blackberry', 2.5]]);
    expect(answerOf(keep('berry-jam-no-pectin', { lbByCrop })).produce).toEqual([
      { crop: 'blackberry', lb: 2.5 },
    ]);
  });

  test('its name and its item’s are held against the tested food; what was answered is kept with it', () => {
    expect(codesOf(keep('apple-butter', { name: 'Quince butter' }))).toEqual(['name-of-another-food']);
    expect(codesOf(keep('apple-butter', { itemName: 'Quince butter' }))).toEqual(['name-of-another-food']);
    const nameDenials = [{ name: 'Quince butter', otherFood: 'quince' }];
    expect(answerOf(keep('apple-butter', { name: 'Quince butter', nameDenials }))).toMatchObject({
      name: 'Quince butter',
      nameDenials,
    });
  });
});

describe('a recipe no canner of the kitchen fits', () => {
  test('is kept without one, by its first printed process', () => {
    const [printed] = ofBook('beans-snap-pints').processes;
    expect(answerOf(keep('beans-snap-pints', {}, placeOf([kettle])))).toMatchObject({
      cannerId: null,
      process: { food: printed?.foodKey, style: printed?.style, pack: printed?.pack },
    });
  });

  test('but whose canner only waits for the altitude has its canner already', () => {
    const place = placeOf([kettle, pressureCanner], null);
    expect(testedWays(tables, ofBook('peaches-pints'), place).here).toEqual([]);
    expect(answerOf(keep('peaches-pints', {}, place)).cannerId).toBe('kettle');
    expect(answerOf(keep('beans-snap-pints', {}, place)).cannerId).toBe('pressure');
  });
});
