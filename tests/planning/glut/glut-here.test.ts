import { describe, expect, test } from 'vitest';
import { bounds } from '../../../shared/bounds.ts';
import { sizeOf } from '../../../shared/jar.ts';
import { cropsOfBook, yearFromBook } from '../../../src/planning/glut/glut-from-book.ts';
import { cropsHere, glutHere } from '../../../src/planning/glut/glut-here.ts';
import { handsOnGuess } from '../../../src/preserving/recipes/hands-on-guess.ts';
import { householdAt, kettle, ofBook } from '../../preserving/own-kitchen.ts';
import { answerOf, codesOf, tables } from '../../preserving/tables.ts';
import { factsOf, peachBatch, yearOf } from '../year/orchard-street.ts';

const guessed = () => ({ pack: 5, price: 400 as never });
const read = (typed: unknown, change: object = {}, weight: 'lb' | 'kg' = 'lb') =>
  glutHere(yearOf(change), typed, tables, guessed, weight);
const glutOf = (typed: unknown, change: object = {}, weight: 'lb' | 'kg' = 'lb') =>
  answerOf(read(typed, change, weight)).glut;
const fieldsOf = (answer: ReturnType<typeof read>) =>
  answer.ok ? [] : answer.problems.map(({ path, code }) => `${path.join('.')} ${code}`);

describe('a glut as a person says it', () => {
  test('is a crop that something here is made of, in pounds', () => {
    expect(glutOf({ crop: 'peaches', amount: '40', unit: 'lb' })).toEqual({
      crop: 'peach',
      name: 'Peaches',
      isKept: true,
      lb: 40,
    });
    expect(glutOf({ crop: 'Peach', amount: '40' }).lb).toBe(40);
  });

  // USDA Complete Guide 2, p2-19: a bushel of peaches is 48 pounds; a half-bushel half of it.
  test('in the measures its crop is sold by, beside the amount or within it', () => {
    expect(glutOf({ crop: 'peaches', amount: '2', unit: 'bushel' }).lb).toBe(96);
    expect(glutOf({ crop: 'peaches', amount: '2 bushels', unit: 'lb' }).lb).toBe(96);
    expect(glutOf({ crop: 'peaches', amount: '2 bushels' }).lb).toBe(96);
    expect(glutOf({ crop: 'peaches', amount: '10 kg', unit: 'lb' }).lb).toBeCloseTo(22.0462, 3);
    expect(fieldsOf(read({ crop: 'peaches', amount: '2', unit: 'armful' }))).toEqual([
      expect.stringMatching(/^unit /),
    ]);
  });

  test('of a crop nothing here is made of is looked up in the recipe book', () => {
    expect(glutOf({ crop: 'plums', amount: '20', unit: 'lb' })).toMatchObject({
      crop: 'plum',
      isKept: false,
      lb: 20,
    });
    expect(codesOf(read({ crop: 'durian', amount: '20' }))).toEqual(['crop-unknown']);
    expect(read({ crop: 'durian', amount: '20' })).toMatchObject({
      problems: [
        {
          path: ['crop'],
          message: expect.stringMatching(
            /^Nothing here is made of “durian”\. Choose one of these: Peaches; Strawberries.*; or one of the recipe book: /,
          ),
        },
      ],
    });
  });

  test('that may be several is asked about', () => {
    const cherry = (crop: string) => ({ crop: crop as never, lb: 5, mayBeFrozen: false });
    const recipes = [
      {
        ...peachBatch,
        process: null,
        basedOn: 'own',
        produce: [cherry('cherry-sweet'), cherry('cherry-tart')],
      },
    ];
    const items = [{ ...factsOf().items[0], keeping: 'frozen' }];
    const asked = read({ crop: 'cherries', amount: '20' }, { recipes, items });
    expect(codesOf(asked)).toEqual(['crop-ambiguous']);
    expect(asked).toMatchObject({
      problems: [
        {
          path: ['crop'],
          message: expect.stringMatching(/^“cherries” may mean .*; .*\. Write the whole name\.$/),
        },
      ],
    });
  });

  test('with everything wrong is answered for each field', () => {
    expect(fieldsOf(read({ crop: 'durian', amount: 'many' }))).toEqual([
      expect.stringMatching(/^amount /),
      'crop crop-unknown',
    ]);
    expect(fieldsOf(read({ amount: '20' }))).toEqual([expect.stringMatching(/^crop /)]);
    expect(fieldsOf(read({ crop: 'peaches' }))).toEqual([expect.stringMatching(/^amount /)]);
  });

  test('to the most that anybody brings home, weighed out, is one; a pound more is not', () => {
    expect(glutOf({ crop: 'peaches', amount: String(bounds.glut.to) }).lb).toBe(bounds.glut.to);
    expect(read({ crop: 'peaches', amount: String(bounds.glut.to + 1) }).ok).toBe(false);
  });

  test('more than anybody brings home is refused by its weight', () => {
    const asked = read({ crop: 'peaches', amount: '400', unit: 'bushel' });
    expect(codesOf(asked)).toEqual(['glut-too-much']);
    expect(asked).toMatchObject({
      problems: [
        {
          path: ['amount'],
          message: expect.stringMatching(/^400 of these are 19200 lb, more than \d+ lb\. Write less\.$/),
        },
      ],
    });
  });
});

describe('crops something here can be made of', () => {
  test('stand once each, by name', () => {
    const twice = { recipes: [...factsOf().recipes, { ...peachBatch, id: 'again' }] };
    expect(cropsHere(yearOf(twice), tables.harvestWindows)).toMatchObject([
      { crop: 'peach', name: 'Peaches' },
      { crop: 'strawberry' },
    ]);
    // However the recipes stand.
    for (const recipes of [factsOf().recipes, [...factsOf().recipes].reverse()])
      expect(cropsHere(yearOf({ recipes }), tables.harvestWindows).map(({ crop }) => crop)).toEqual([
        'peach',
        'strawberry',
      ]);
  });

  test('of the book are those of its recipes, with hyphens', () => {
    const crops = cropsOfBook(tables).map(({ crop }) => crop);
    expect(new Set(crops).size).toBe(crops.length);
    expect(crops).toEqual(expect.arrayContaining(['peach', 'plum', 'pepper-sweet']));
    expect(crops.filter((crop) => crop.includes('_'))).toEqual([]);
    expect(crops.filter((crop) => !/^[a-z-]+$/.test(crop))).toEqual([]);
  });
});

describe('the book’s own recipes of a crop', () => {
  const fromBook = (crop: string, change: object = {}) =>
    yearFromBook(yearOf(change), crop as never, tables, guessed);

  test('stand in place of the household’s, each as an item of its own', () => {
    const plums = fromBook('plum');
    const { planned, leftOut } = plums.recipes;
    expect(leftOut).toEqual([]);
    expect(planned.map(({ id }) => id)).toEqual(plums.year.recipes.map(({ id }) => id));
    expect(planned.map(({ id }) => id)).toContain('book-plums-pints');
    expect(planned.map(({ id }) => id)).not.toContain('peach-batch');
    for (const recipe of planned) {
      const tested = ofBook(recipe.id.replace(/^book-/, ''));
      expect(recipe).toMatchObject({ name: tested.name, handsOnMinutes: handsOnGuess[tested.kind] });
      expect(recipe.itemId).toBe(recipe.id);
      expect(recipe.produce.some(({ crop }) => crop === 'plum')).toBe(true);
      expect(recipe.processing?.cannerId).toBe('kettle');
    }
    const item = plums.facts.items.find(({ id }) => id === 'book-plums-pints');
    expect(item).toMatchObject({
      name: ofBook('plums-pints').name,
      kind: 'preserve',
      keeping: 'canned',
      unit: 'jar',
      usualJar: 'pint/regular',
      family: 'stone-fruit',
      chanceWanted: 0.9,
      retiredOn: null,
    });
    expect(plums.facts.items.slice(0, 3)).toEqual(factsOf().items);
  });

  test('leave out what has no tested schedule in this kitchen, and what has no published pounds', () => {
    expect(
      fromBook('plum', { household: householdAt(null, { ...factsOf().household, altitudeFt: null }) }).year
        .recipes,
    ).toEqual([]);
    const withoutPressure = fromBook('green-bean', { canners: [kettle] }).year.recipes.map(({ id }) => id);
    expect(fromBook('green-bean').year.recipes.map(({ id }) => id)).toContain('book-beans-snap-pints');
    expect(withoutPressure).not.toContain('book-beans-snap-pints');
    expect(withoutPressure).toContain('book-dilled-beans');
    expect(fromBook('blackberry').year.recipes.map(({ id }) => id)).not.toContain('book-berry-jam-no-pectin');
  });

  test('take supplies the household has by their name and unit; the others are begun with a guess and none on hand', () => {
    const sugar = { id: 'own-sugar', name: 'Sugar', unit: 'lb', packQuantity: 10, packPrice: 700, onHand: 3 };
    const cups = { ...sugar, id: 'cups', unit: 'cup' };
    const plums = fromBook('plum', { supplies: [cups, sugar] });
    const pints = plums.year.recipes.find(({ id }) => id === 'book-plums-pints');
    expect(pints?.supplies.map(({ supplyId }) => supplyId)).toContain('own-sugar');
    const without = fromBook('plum');
    const begun = without.year.supplies.find(({ id }) => id === 'book-plums-pints-sugar');
    expect(begun).toEqual({
      id: 'book-plums-pints-sugar',
      name: 'sugar',
      unit: 'lb',
      onHand: 0,
      packQuantity: 5,
      packPrice: 400,
    });
    expect(plums.year.supplies.some(({ id }) => id === 'book-plums-pints-sugar')).toBe(false);
    expect(plums.year.supplies.filter(({ id }) => id === 'own-sugar')).toHaveLength(1);
  });

  test('go into the jars their source prints for a batch, of all that are tested here', () => {
    const sizes = (crop: string) =>
      Object.fromEntries(
        fromBook(crop).year.recipes.map(({ id, jarKind }) => [id, jarKind === null ? null : sizeOf(jarKind)]),
      );
    for (const crop of ['apple', 'plum', 'peach', 'tomato'])
      for (const [id, size] of Object.entries(sizes(crop)))
        expect([id, size]).toEqual([id, ofBook(id.replace(/^book-/, '')).yield.jar]);
    expect(sizes('apple')).toMatchObject({ 'book-apple-butter': 'pint' });
  });

  test('give and take as their source prints: its yield, the low end to count on, and fresh produce alone', () => {
    for (const crop of ['apple', 'plum', 'tomato'])
      for (const { id, yieldLowUnits, yieldHighJars, produce, gives, uses } of fromBook(crop).year.recipes) {
        const printed = ofBook(id.replace(/^book-/, ''));
        expect([id, yieldLowUnits, yieldHighJars]).toEqual([id, printed.yield.low, printed.yield.high]);
        expect(produce.map(({ mayBeFrozen }) => mayBeFrozen)).toEqual(produce.map(() => false));
        expect([gives, uses]).toEqual([[], []]);
      }
  });

  test('take no supply of another name, whatever its unit', () => {
    const salt = { id: 'own-salt', name: 'Salt', unit: 'lb', packQuantity: 3, packPrice: 100, onHand: 9 };
    const pints = fromBook('plum', { supplies: [salt] }).year.recipes.find(
      ({ id }) => id === 'book-plums-pints',
    );
    expect(pints?.supplies.map(({ supplyId }) => supplyId)).toEqual(['book-plums-pints-sugar']);
  });

  test('go into the mouth of which most empty jars are there, the regular where there are as many', () => {
    const jarKind = (wide: number, regular: number) => {
      const stock = (kind: string, empty: number) => ({
        kind,
        empty,
        owned: empty,
        full: 0,
        away: 0,
        price: 1,
        pack: 12,
        returnShare: 1,
      });
      const jars = [stock('pint/wide', wide), stock('pint/regular', regular)];
      return fromBook('plum', { jars }).year.recipes.find(({ id }) => id === 'book-plums-pints')?.jarKind;
    };
    expect(jarKind(4, 3)).toBe('pint/wide');
    expect(jarKind(3, 3)).toBe('pint/regular');
    expect(jarKind(0, 9)).toBe('pint/regular');
  });

  test('are what a glut of a crop is looked up in that nothing here is made of, and only that', () => {
    const plums = answerOf(read({ crop: 'plums', amount: '20', unit: 'lb' })).loaded;
    expect(plums.year.recipes.map(({ id }) => id)).toContain('book-plums-pints');
    const kept = answerOf(read({ crop: 'peaches', amount: '20', unit: 'lb' })).loaded;
    expect(kept.year.recipes.map(({ id }) => id)).toEqual(['peach-batch', 'berry-batch']);
  });
});
