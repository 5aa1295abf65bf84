import { describe, expect, test } from 'vitest';
import { asJarKind } from '../../../shared/jar.ts';
import type { PlannedRecipe, PlannedSource } from '../../../src/planning/planning-year.ts';
import { madeAsPlanned, madeInYear } from '../../../src/planning/simulation/made-in-year.ts';
import { type InWeek, planOf } from '../short-plan.ts';
import { batchOf, food, pint, shortYear, sourceOf } from '../short-year.ts';

const quart = asJarKind('quart', 'regular');
const crop = (name: string, lb = 5) => ({
  crop: name as PlannedSource['crop'],
  lb,
  mayBeFrozen: false,
});
const year = shortYear(6, {
  foods: [
    food('jam', { jarKind: pint, bestQualityWeeks: 30 }),
    food('oats', { bestQualityWeeks: 9 }),
    food('soup', { jarKind: quart, bestQualityWeeks: 4 }),
  ],
  sources: [sourceOf('tree'), sourceOf('bush', { crop: crop('berry').crop })],
  recipes: [
    batchOf('jam-of-plums', 'jam', { yieldLowUnits: 4, yieldHighJars: 6, readyAfterWeeks: 1 }),
    batchOf('jam-of-both', 'jam', { produce: [crop('plum'), crop('berry')] }),
    batchOf('soup-in-pints', 'soup', { yieldLowUnits: 3, yieldHighJars: 8 }),
    batchOf('oats-in-bags', 'oats', { jarKind: null, yieldLowUnits: 3, yieldHighJars: 8 }),
    batchOf('soup-in-bags', 'soup', { jarKind: null, yieldLowUnits: 3, yieldHighJars: 8 }),
    batchOf('pickled', 'jam', {
      yieldLowUnits: 7,
      yieldHighJars: 6,
      stages: { weeks: 2, daysFromMonday: 0, handsOnByWeek: [10, 0, 20], possibleByWeek: null },
    }),
    batchOf('pickled', 'jam', { jarKind: quart, yieldLowUnits: 40, yieldHighJars: 40, produce: [] }),
  ],
});
/** A year in which crops do as they are planned, but for what is told. */
const harvest = (
  later: Readonly<Record<string, number>> = {},
  shareOf: (crop: string, week: number) => number = () => 1,
) => ({ shareOf, weeksLater: (name: string) => later[name] ?? 0 });
const made = (byWeek: Readonly<Record<number, InWeek>>, crops = harvest(), random: () => number = () => 0) =>
  madeInYear(year, planOf(year, byWeek), crops, random);
const batch = (recipe: string, batches = 1) => ({ sessions: [{ recipe, batches }] });

describe('batches of a sampled year', () => {
  test('stand on their item’s shelf from the week in which they are ready, best for its weeks from being made', () => {
    const { cohorts, lost, weeksLate } = made({ 2: batch('jam-of-plums', 2), 3: batch('soup-in-bags') });

    expect(cohorts.get('jam')).toEqual([{ units: 8, readyWeek: 3, olderFromWeek: 32 }]);
    expect(cohorts.get('soup')).toEqual([{ units: 3, readyWeek: 3, olderFromWeek: 7 }]);
    expect(cohorts.get('oats')).toBeUndefined();
    expect(lost).toBe(0);
    expect([...weeksLate]).toEqual([
      ['jam', 0],
      ['soup', 0],
    ]);
  });

  test.each([
    [0, 8],
    [0.25, 9],
    [1, 12],
  ])('yield between the low and the high figure: at %d', (draw, units) => {
    expect(made({ 2: batch('jam-of-plums', 2) }, harvest(), () => draw).cohorts.get('jam')?.[0]?.units).toBe(
      units,
    );
  });

  test('yield the low figure where the high one is not counted in the item’s own jar, or is lower', () => {
    const units = (recipe: string) =>
      [...made({ 2: batch(recipe) }, harvest(), () => 1).cohorts.values()][0]?.[0]?.units;

    expect(units('soup-in-pints')).toBe(3);
    expect(units('soup-in-bags')).toBe(3);
    expect(units('oats-in-bags')).toBe(3);
    expect(units('pickled')).toBe(7);
  });

  test('are those of the jar they are planned in', () => {
    const { cohorts } = made({
      2: { sessions: [{ recipe: 'pickled', batches: 1, jars: [{ kind: quart, count: 40 }] }] },
    });

    expect(cohorts.get('jam')?.[0]?.units).toBe(40);
    expect(
      made({ 2: { sessions: [{ recipe: 'pickled', batches: 1, jars: [] }] } }).cohorts.get('jam'),
    ).toBeUndefined();
    expect(made({ 2: batch('gone') }).cohorts.size).toBe(0);
  });

  test('are made as far as the scarcest crop reaches; each that falls short is lost', () => {
    const shares = harvest({}, (name) => (name === 'plum' ? 0.75 : 0.5));

    const { cohorts, lost } = made({ 2: batch('jam-of-both', 2) }, shares);

    expect(cohorts.get('jam')?.[0]?.units).toBe(4);
    expect(lost).toBe(1);
    // One and a half of two batches, and half of one: one lost of each.
    expect(made({ 1: batch('jam-of-plums', 2), 2: batch('jam-of-both') }, shares).lost).toBe(2);
    expect(
      made(
        { 2: batch('jam-of-plums', 5) },
        harvest({}, () => 0.5),
      ).lost,
    ).toBe(3);
  });

  test('are no more than planned where crops give more, and none is lost to rounding', () => {
    expect(
      made(
        { 2: batch('jam-of-plums', 2) },
        harvest({}, () => 1.5),
      ).cohorts.get('jam')?.[0]?.units,
    ).toBe(8);
    expect(
      made(
        { 2: batch('jam-of-plums', 2) },
        harvest({}, () => 1 - 1e-8),
      ).lost,
    ).toBe(0);
  });

  test('take their crop in the week in which they are begun', () => {
    const asked: number[] = [];
    const crops = harvest({}, (_, week) => {
      asked.push(week);
      return 1;
    });

    made({ 3: batch('pickled'), 4: batch('jam-of-plums') }, crops);

    expect(asked).toEqual([1, 4]);
  });

  test('that are begun have their produce already, whatever the crop does', () => {
    const begun = { id: 'crock', on: year.asOf };
    const { cohorts, lost, weeksLate } = made(
      { 2: { sessions: [{ recipe: 'jam-of-plums', batches: 1, begun }] } },
      harvest({ plum: 3 }, () => 0),
    );

    expect(cohorts.get('jam')).toEqual([{ units: 4, readyWeek: 3, olderFromWeek: 32 }]);
    expect(lost).toBe(0);
    expect(weeksLate.get('jam')).toBe(0);
  });
});

describe('batches of a crop that comes', () => {
  const at = (later: Readonly<Record<string, number>>, recipe = 'jam-of-both', week = 2) => {
    const { cohorts, weeksLate } = made({ [week]: batch(recipe) }, harvest(later));
    return [cohorts.get('jam')?.[0]?.readyWeek, weeksLate.get('jam')];
  };

  test('later are made so much later, with the latest of their crops', () => {
    expect(at({ plum: 2, berry: 1 })).toEqual([4, 2]);
    expect(at({ plum: 1, berry: 3 })).toEqual([5, 3]);
  });

  test('earlier are made so much earlier, and none is late by that', () => {
    expect(at({ plum: -1 })).toEqual([1, 0]);
    expect(at({ plum: -5 })).toEqual([0, 0]);
    expect(at({ plum: 2, berry: -1 })).toEqual([3, 1]);
  });

  test('late make an item late by its first batch alone', () => {
    const { weeksLate } = made(
      { 1: batch('jam-of-plums'), 2: batch('jam-of-both'), 3: batch('soup-in-pints') },
      harvest({ plum: 1, berry: 3 }),
    );

    expect(weeksLate.get('jam')).toBe(1);
    expect(weeksLate.get('soup')).toBe(1);
  });
});

describe('what is bought in a sampled year', () => {
  test('stands from its week on, beside what is made; other lines bring nothing to eat', () => {
    const { cohorts } = made({
      1: {
        purchases: [
          { kind: 'item', what: 'oats', quantity: 6 },
          { kind: 'produce', what: 'oats', quantity: 9 },
          { kind: 'supply', what: 'sugar', quantity: 9 },
        ],
      },
      3: { purchases: [{ kind: 'item', what: 'oats', quantity: 2 }] },
    });

    expect([...cohorts]).toEqual([
      [
        'oats',
        [
          { units: 6, readyWeek: 1, olderFromWeek: 10 },
          { units: 2, readyWeek: 3, olderFromWeek: 12 },
        ],
      ],
    ]);
  });
});

describe('a year as planned', () => {
  test('brings every batch in its week, at the low yield', () => {
    const plan = planOf(year, { 2: batch('jam-of-plums', 2) });

    expect([...madeAsPlanned(year, plan).cohorts]).toEqual([
      ['jam', [{ units: 8, readyWeek: 3, olderFromWeek: 32 }]],
    ]);
  });

  test('is refused of a recipe whose item nobody has', () => {
    const without = { ...year, recipes: [batchOf('lost', 'gone') as PlannedRecipe] };

    expect(() => madeAsPlanned(without, planOf(without, { 0: batch('lost') }))).toThrow('items');
  });
});
