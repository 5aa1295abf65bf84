import { describe, expect, test } from 'vitest';
import { scheduleFor } from '../../../src/preserving/lookup/process-lookup.ts';
import { cautionsFor } from '../../../src/preserving/sheet/cautions.ts';
import { book } from '../own-kitchen.ts';
import { answerOf, queryForRow, tables } from '../tables.ts';

const known = new Set(tables.sources.map((source) => source.sourceId));

describe('cautions', () => {
  test('the common ones stand on every schedule that can be served, each with a known source', () => {
    for (const row of tables.processTimes.filter(({ basis }) => basis === 'read')) {
      const cautions = cautionsFor(answerOf(scheduleFor(tables, queryForRow(row, row.altitudeFromFt))));
      const codes = cautions.map(({ code }) => code);

      expect(codes).toEqual(
        expect.arrayContaining([
          'restart-clock',
          'official-guide-first',
          'altitude',
          'botulism-signs',
          'do-not-taste',
          'gauge-check',
        ]),
      );
      expect(new Set(codes).size).toBe(codes.length);
      expect(cautions.filter(({ source }) => !known.has(source.sourceId))).toEqual([]);
    }
  });

  test.each([
    ['peaches', 'boiling-water', 'yellow-flesh-only'],
    ['tomato-sauce', 'boiling-water', 'no-frosted-vines'],
    ['winter-squash', 'pressure', 'cubes-only'],
    ['mushrooms', 'pressure', 'no-wild-mushrooms'],
    ['fruit-puree', 'boiling-water', 'puree-fruits'],
  ] as const)('%s says what must not go in: %s, %s', (foodKey, method, code) => {
    const schedule = answerOf(
      scheduleFor(tables, { foodKey, pack: 'hot', jar: 'pint', method, gauge: 'weighted', altitudeFt: 500 }),
    );

    expect(cautionsFor(schedule).map((caution) => caution.code)).toContain(code);
  });

  test('foods with a caution of their own are foods of the table', () => {
    const foods = new Set(tables.processTimes.map((row) => row.foodKey));

    for (const foodKey of ['peaches', 'berries-whole', 'tomato-taco-sauce', 'spaghetti-sauce-meat', 'soup']) {
      expect(foods).toContain(foodKey);
    }
  });

  const foods = [...new Set(tables.processTimes.map(({ foodKey }) => foodKey))];
  const codesOf = (foodKey: string) =>
    cautionsFor({
      foodKey,
      method: 'boiling-water',
      acid: null,
      acidity: 'acid',
      sterileJars: false,
      minutes: 20,
      altitudeFt: 100,
    } as never).map(({ code }) => code);
  const madeOf = (crop: string) =>
    new Set(
      book
        .filter(({ produce }) => produce.some(({ cropKey }) => cropKey === crop))
        .flatMap(({ processes }) => processes.map(({ foodKey }) => foodKey)),
    );
  const saying = (words: RegExp) => foods.filter((foodKey) => words.test(foodKey));
  const without = (code: string, of: readonly string[]) =>
    of.filter((foodKey) => !codesOf(foodKey).includes(code));

  // USDA Complete Guide 3, p3-5: tomatoes of dead or frost-killed vines are not canned; green ones are more acid.
  test('whatever is made of ripe tomatoes says that they are of no frosted vine, whether its name tells or not', () => {
    const tomatoes = madeOf('tomato');
    const ripe = foods.filter(
      (foodKey) =>
        !/green-tomato/.test(foodKey) &&
        (/tomato(?!-?illo)|chile-salsa|choice-salsa/.test(foodKey) || tomatoes.has(foodKey)),
    );
    expect(ripe.length).toBeGreaterThan(18);
    expect(without('no-frosted-vines', ripe)).toEqual([]);
    expect(codesOf('tomatillo-green-salsa')).not.toContain('no-frosted-vines');
    expect(codesOf('peaches')).not.toContain('no-frosted-vines');
  });

  // USDA Complete Guide 3, p3-19 to p3-21.
  test('every salsa keeps its printed proportions', () => {
    expect(saying(/salsa|taco/).length).toBeGreaterThan(10);
    expect(without('proportions-fixed', saying(/salsa|taco/))).toEqual([]);
    expect(codesOf('tomato-juice')).not.toContain('proportions-fixed');
  });

  test('whatever is made of peaches says that they are yellow', () => {
    const peaches = madeOf('peach');
    expect(
      without(
        'yellow-flesh-only',
        foods.filter(
          (foodKey) => /peach/.test(foodKey) || (peaches.has(foodKey) && foodKey !== 'jam-no-pectin'),
        ),
      ),
    ).toEqual([]);
  });

  test('berries that may be mixed are no elderberries', () => {
    expect(without('no-elderberries', ['berries-whole', 'berry-syrup', 'berry-jam', 'fruit-puree'])).toEqual(
      [],
    );
  });

  test.each([
    ['winter-squash', 'cubes-only'],
    ['sweet-potatoes', 'pieces-in-liquid'],
    ['mushrooms', 'no-wild-mushrooms'],
    ['soup', 'no-thickener'],
    ['spaghetti-sauce-meat', 'vegetables-capped'],
    ['spaghetti-sauce-no-meat', 'vegetables-capped'],
    ['fruit-puree', 'puree-fruits'],
  ])('%s: %s, and no other food', (foodKey, code) => {
    expect(codesOf(foodKey)).toContain(code);
    expect(codesOf('peaches')).not.toContain(code);
    expect(codesOf('__proto__')).not.toContain(code);
  });
});
