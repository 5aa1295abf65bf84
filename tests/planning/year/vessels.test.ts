import { describe, expect, it } from 'vitest';
import { planYear } from '../../../server/solver/plan-year.ts';
import { asJarKind, jarSizes, mouthOf, mouths } from '../../../shared/jar.ts';
import { asCents } from '../../../shared/money.ts';
import type { JarStock } from '../../../src/household/supplies.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import { checkPlanningYear } from '../../../src/planning/year/input-checks.ts';
import { jarsToFill, lidsToClose, type VesselGuesses } from '../../../src/planning/year/vessels.ts';
import { checkPlan } from '../independent-checker.ts';
import { tinyYear } from '../tiny-year.ts';

const kinds = jarSizes.flatMap((size) => mouths.map((mouth) => asJarKind(size, mouth)));
const guesses: VesselGuesses = {
  jars: [
    { kind: asJarKind('pint', 'regular'), pack: 12, price: asCents(1499) },
    { kind: asJarKind('quart', 'regular'), pack: 12, price: asCents(1699) },
  ],
  lids: { box: 12, boxPrice: asCents(499) },
};
const counted = (kind: JarStock['kind'], price: number): JarStock => ({
  kind,
  owned: 30,
  full: 20,
  empty: 10,
  away: 0,
  price: asCents(price),
  pack: 12,
  returnShare: 0.5,
});

/** The tiny year put up in jars of one kind, with what the household is taken to own of them. */
function yearIn(kind: JarStock['kind'], stocks: readonly JarStock[] = []): PlanningYear {
  const year = tinyYear(3);
  const recipes = year.recipes.map((recipe) => ({ ...recipe, jarKind: kind }));
  return {
    ...year,
    recipes,
    items: year.items.map((item) => ({
      ...item,
      jarKind: kind,
      openingLots: [],
      useByWeek: item.useByWeek.map(() => 2),
    })),
    jars: jarsToFill(recipes, stocks, guesses),
    lids: lidsToClose(recipes, [], guesses),
  };
}

describe('jars of a kind nobody counted', () => {
  it.each(kinds)('%s: each one filled is bought, and so is its lid', async (kind) => {
    const year = yearIn(kind);
    expect(checkPlanningYear(year)).toEqual([]);

    const answer = await planYear(year, { gap: 0 });

    if (answer.outcome !== 'planned') throw new Error(answer.detail);
    const { weeks } = answer.plan;
    const filled = weeks.flatMap(({ sessions }) => sessions.flatMap(({ jars }) => jars));
    const bought = weeks.flatMap(({ purchases }) => purchases);
    const sumOf = (list: readonly { readonly count?: number; readonly quantity?: number }[]) =>
      list.reduce((sum, { count = 0, quantity = 0 }) => sum + count + quantity, 0);
    expect(sumOf(filled)).toBeGreaterThan(0);
    expect(sumOf(bought.filter(({ what }) => what === kind))).toBeGreaterThanOrEqual(
      Math.min(...year.recipes.map(({ yieldHighJars }) => yieldHighJars)),
    );
    expect(sumOf(bought.filter(({ what }) => what === mouthOf(kind)))).toBeGreaterThanOrEqual(sumOf(filled));
    expect(checkPlan(answer.plan, year)).toEqual([]);
    // The checker itself sees jars that no holding stands for.
    const other = kinds.find((one) => mouthOf(one) !== mouthOf(kind)) ?? kind;
    const without = {
      ...year,
      jars: [counted(other, 1)].map(({ price, ...jars }) => ({ ...jars, packPrice: price })),
    };
    expect(checkPlan(answer.plan, without).join('\n')).toContain('nobody said how many there are');
    expect(checkPlan(answer.plan, { ...year, lids: [] }).join('\n')).toContain('no lid for them is known');
  });

  it.each(kinds)('%s: a year that says nothing of it is refused, with what to do', (kind) => {
    const problems = checkPlanningYear({ ...yearIn(kind), jars: [], lids: [] });

    expect(problems.map(({ code }) => code)).toEqual(
      yearIn(kind).recipes.flatMap(() => ['unknown-jar', 'unknown-lid']),
    );
    expect(problems[0]?.message).toContain('Say how many there are and what a pack costs.');
  });
});

describe('what new jars of a kind nobody counted cost', () => {
  const recipes = [{ jarKind: asJarKind('pint', 'wide') }];
  const priceOf = (stocks: readonly JarStock[], known: VesselGuesses) =>
    jarsToFill(recipes, stocks, known).find(({ kind }) => kind === 'pint/wide')?.packPrice;

  it.each([
    ['the household’s own price for that size', [counted(asJarKind('pint', 'regular'), 1850)], 1850],
    ['else what is guessed for that size', [counted(asJarKind('quart', 'wide'), 2600)], 1499],
  ])('is %s', (_, stocks, price) => {
    expect(priceOf(stocks, guesses)).toBe(price);
  });

  it('is the dearest known where none of its size is', () => {
    expect(
      jarsToFill(
        [{ jarKind: asJarKind('12-oz', 'regular') }],
        [counted(asJarKind('pint', 'wide'), 1550)],
        guesses,
      ).find(({ kind }) => kind === '12-oz/regular')?.packPrice,
    ).toBe(1699);
  });

  it('is not made up where no price of any jar is known', () => {
    expect(jarsToFill(recipes, [], { jars: [], lids: null })).toEqual([]);
    expect(lidsToClose(recipes, [], { jars: [], lids: null })).toEqual([]);
  });

  it('leaves what was counted as it was', () => {
    const own = counted(asJarKind('pint', 'wide'), 1700);
    expect(jarsToFill(recipes, [own], guesses)).toEqual([
      expect.objectContaining({ kind: 'pint/wide', empty: 10, packPrice: 1700 }),
    ]);
  });
});
