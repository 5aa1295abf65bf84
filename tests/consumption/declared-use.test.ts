import { describe, expect, it } from 'vitest';
import { asDate } from '../../shared/week.ts';
import { declaredPerWeek, declareUse, type UseInWords } from '../../src/consumption/declared-use.ts';
import { forecastUse } from '../../src/consumption/use-forecast.ts';
import { yearlyTarget } from '../../src/consumption/yearly-target.ts';

const words = (changes: Partial<UseInWords>): UseInWords => ({
  amount: 1,
  per: 'week',
  countedIn: 'units',
  people: null,
  mealsPerWeek: null,
  ...changes,
});
const perWeek = (
  changes: Partial<UseInWords>,
  servings: number | null = null,
  ordinaryWeeks = 52,
): number => {
  const outcome = declaredPerWeek(words(changes), servings, ordinaryWeeks);
  if (!outcome.ok) throw new Error(outcome.problems[0]?.message);
  return outcome.value;
};
const asOf = asDate('2026-01-05');

describe('use in the words of the household', () => {
  it.each([
    ['1.5 jars a week', { amount: 1.5 }, 1.5],
    ['4 jars a month', { amount: 4, per: 'month' as const }, (4 * 12 * 7) / 365.25],
    ['52 jars a year', { amount: 52, per: 'year' as const }, (52 * 7) / 365.25],
    ['a jar at each of 3 meals', { amount: 1, per: 'meal' as const, mealsPerWeek: 3 }, 3],
    ['2 jars in school weeks', { amount: 2, per: 'school-week' as const }, 2],
  ])('%s', (_, changes, expected) => {
    expect(perWeek(changes)).toBeCloseTo(expected, 12);
  });

  it("counts servings of so many people, by the household's own servings in a jar", () => {
    expect(perWeek({ amount: 2, countedIn: 'servings', people: 4 }, 8)).toBeCloseTo(1, 12);
    expect(perWeek({ amount: 6, countedIn: 'servings' }, 4)).toBeCloseTo(1.5, 12);
  });

  it('shares a yearly amount out over the weeks in which the item is eaten at all', () => {
    const winterOnly = [1, 1, 1, 0, 0, 0, 0, 0, 0, 0, 0, 1];
    const outcome = declareUse(
      {
        words: words({ amount: 20, per: 'year' }),
        servingsPerUnit: null,
        byMonth: winterOnly,
        occasions: [],
      },
      asOf,
    );
    if (!outcome.ok) throw new Error('expected a declaration');
    const year = forecastUse([], outcome.value, asOf, 52);
    expect(year.totalOver(52).mean).toBeCloseTo((20 * 364) / 365.25, 6);
    expect(year.weeklyMean[30]).toBe(0);
  });

  it('takes "none" as one a year, because learning cannot start from never', () => {
    expect(perWeek({ amount: 0 })).toBeCloseTo(1 / 52, 12);
  });

  it('never divides by a jar of no servings, nor shares a year out over no weeks', () => {
    for (const servings of [0, -1]) {
      const refused = declaredPerWeek(words({ countedIn: 'servings' }), servings, 52);
      expect(refused.ok ? '' : refused.problems[0]?.code).toBe('servings-unknown');
    }
    expect(perWeek({ amount: 2, countedIn: 'servings' }, 0.5)).toBeCloseTo(4, 12);
    expect(perWeek({ amount: 12, per: 'year' }, null, 0)).toBeCloseTo((12 * 7) / 365.25, 12);
    expect(perWeek({ amount: 12, per: 'year' }, null, 26)).toBeCloseTo((2 * 12 * 7) / 365.25, 12);
  });

  it('is held as firmly as it was said, and from the day it was said to begin', () => {
    const said = (change: object) => {
      const outcome = declareUse(
        { words: words({}), servingsPerUnit: null, byMonth: null, occasions: [], ...change },
        asOf,
      );
      if (!outcome.ok) throw new Error('expected a declaration');
      return outcome.value;
    };
    expect(said({}).weight).toBe(5);
    expect(said({ firmness: 'guess' }).weight).toBe(4);
    expect(said({ firmness: 'sure' }).weight).toBe(8);
    expect(said({})).not.toHaveProperty('since');
    expect(said({ since: asDate('2026-01-04') }).since).toBe('2026-01-04');
    expect(said({}).pattern).toEqual({ kind: 'all-year' });
    expect(said({ words: words({ per: 'school-week' }) }).pattern).toEqual({ kind: 'school-weeks' });
    const byMonth = new Array<number>(12).fill(1);
    expect(said({ byMonth }).pattern).toEqual({ kind: 'by-month', byMonth });
    const refused = declareUse(
      { words: words({ per: 'meal' }), servingsPerUnit: null, byMonth: null, occasions: [] },
      asOf,
    );
    expect(refused).toMatchObject({
      ok: false,
      problems: [{ code: 'meals-unknown', path: ['mealsPerWeek'] }],
    });
  });

  it('asks for what is missing', () => {
    const servings = declaredPerWeek(words({ countedIn: 'servings' }), null, 52);
    expect(servings.ok ? '' : servings.problems[0]?.path).toEqual(['servingsPerUnit']);
    const meals = declaredPerWeek(words({ per: 'meal' }), null, 52);
    expect(meals.ok ? '' : meals.problems[0]?.message).toContain('Fill in "meals a week"');
  });
});

// USDA, Complete Guide to Home Canning, Guide 1 (2015), page 1-32: servings per person and week, and 4 cups to the quart (read). The yearly
// quarts are arithmetic on them: servings × cups / 4 × 52 weeks.
describe('the published planning quantities, for one person over a year of 52 weeks', () => {
  it.each([
    { food: 'fruits', servings: 12, cups: 0.5, quarts: 78 },
    { food: 'juices', servings: 7, cups: 1, quarts: 91 },
    { food: 'vegetables', servings: 16, cups: 0.5, quarts: 104 },
    { food: 'meat and seafood', servings: 14, cups: 0.5, quarts: 91 },
    { food: 'soups', servings: 2, cups: 1, quarts: 26 },
    { food: 'sauces', servings: 2, cups: 0.5, quarts: 13 },
    { food: 'pickles and relishes', servings: 1, cups: 0.5, quarts: 6.5 },
    { food: 'fruit spreads', servings: 1, cups: 0.5, quarts: 6.5 },
  ])('$food: $quarts quarts', ({ servings, cups, quarts }) => {
    const outcome = declareUse(
      {
        words: words({ amount: servings, countedIn: 'servings', people: 1 }),
        servingsPerUnit: 4 / cups,
        byMonth: null,
        occasions: [],
      },
      asOf,
    );
    if (!outcome.ok) throw new Error('expected a declaration');
    const target = yearlyTarget(forecastUse([], outcome.value, asOf, 52), {
      dated: [],
      chanceOfLasting: 0.9,
      longestGapWeeks: 0,
      crop: null,
      keepsWeeks: 52,
      discardAfterWeeks: null,
      byHand: null,
    });
    expect(target.parts.use).toBeCloseTo(quarts, 9);
    expect(target.units).toBe(Math.ceil(quarts));
  });
});
