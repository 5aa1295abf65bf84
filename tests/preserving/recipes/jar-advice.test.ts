import { describe, expect, test } from 'vitest';
import { asJarKind, type JarSize, nominalMl } from '../../../shared/jar.ts';
import { asDate } from '../../../shared/week.ts';
import type { DeclaredUseSetting, JarWish } from '../../../src/household/appetite.ts';
import type { Item } from '../../../src/household/item.ts';
import type { Canner } from '../../../src/household/kitchen.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import type { JarStock, LidStock } from '../../../src/household/supplies.ts';
import {
  type JarAdviceAsked,
  type JarAdviceHere,
  jarAdvice,
} from '../../../src/preserving/recipes/jar-advice.ts';
import { openedJarWaste } from '../../../src/shelf/jar-size/opened-jar-waste.ts';
import { copyOf, householdAt, itemOf, kettle, ownRecipe, pressureCanner } from '../own-kitchen.ts';
import { tables } from '../tables.ts';

const asOf = asDate('2026-08-01');
const peaches = copyOf('peaches-pints');
const item = itemOf('Peaches');

const stockOf = (size: JarSize, mouth: 'regular' | 'wide', change: Partial<JarStock> = {}): JarStock =>
  ({ kind: asJarKind(size, mouth), owned: 12, price: 1200, pack: 12, returnShare: 1, ...change }) as JarStock;
const lidsOf = (mouth: 'regular' | 'wide', boxPrice: number): LidStock =>
  ({ mouth, onHand: 12, box: 12, boxPrice }) as unknown as LidStock;

interface Said {
  readonly perWeek?: number | null;
  readonly declared?: Partial<DeclaredUseSetting> | null;
  readonly wish?: Partial<JarWish>;
  readonly facts?: Partial<JarAdviceAsked['facts']>;
  readonly recipes?: readonly Recipe[];
  readonly of?: Item;
}

const askedOf = ({ perWeek = 2, declared = null, wish, facts, recipes = [peaches], of = item }: Said) =>
  jarAdvice(
    {
      facts: {
        household: householdAt(5300),
        canners: [kettle, pressureCanner],
        recipes,
        jars: [stockOf('pint', 'regular'), stockOf('quart', 'regular')],
        lids: [lidsOf('regular', 360), lidsOf('wide', 600)],
        jarWishes: new Map(
          wish === undefined
            ? []
            : [[item.id, { itemId: item.id, mealServings: null, gifts: null, lunches: null, ...wish }]],
        ),
        ...facts,
      } as JarAdviceAsked['facts'],
      asOf,
      use: {
        declared:
          declared &&
          ({ per: 'week', countedIn: 'servings', people: null, ...declared } as DeclaredUseSetting),
        forecast: perWeek === null ? null : ({ perWeek } as never),
      },
    },
    of,
    tables,
  );

const adviceOf = (said: Said): JarAdviceHere => {
  const answer = askedOf(said);
  if (typeof answer === 'string') throw new Error(`expected advice, got "${answer}"`);
  return answer;
};
const sizesOf = (said: Said) =>
  adviceOf({ wish: { mealServings: 4 }, ...said }).advice.findings.map(({ size }) => size);

describe('why there is no advice about a jar', () => {
  test('it is not canned here: no recipe of it names a process, or it goes into no jar', () => {
    expect(askedOf({ recipes: [] })).toBe('not canned');
    expect(askedOf({ recipes: [ownRecipe('Peaches')] })).toBe('not canned');
    expect(askedOf({ recipes: [{ ...peaches, itemId: 'another' as never }] })).toBe('not canned');
    expect(askedOf({ of: { ...item, usualJar: null } })).toBe('not canned');
  });

  test('nobody says, and nothing shows, how much of it is eaten', () => {
    expect(askedOf({ perWeek: null })).toBe('no use');
    expect(
      jarAdvice(
        {
          facts: {
            household: householdAt(5300),
            canners: [kettle],
            recipes: [peaches],
            jars: [],
            lids: [],
            jarWishes: new Map(),
          },
          asOf,
          use: undefined,
        },
        item,
        tables,
      ),
    ).toBe('no use');
  });

  test('nobody says how many servings a jar is, unless a meal is counted in jars', () => {
    const of = { ...item, servingsPerUnit: null };
    expect(askedOf({ of })).toBe('no servings');
    expect(askedOf({ of, declared: { per: 'meal', countedIn: 'servings', amount: 1 } })).toBe('no servings');
    expect(askedOf({ of, declared: { per: 'week', countedIn: 'units', amount: 1 } })).toBe('no servings');
    expect(adviceOf({ of, declared: { per: 'meal', countedIn: 'units', amount: 1 } }).mealServings).toBe(1);
  });

  // A serving of 30 mL, two tablespoons, is the last that goes by the spoonful.
  test('nobody says what a meal is, of what is not eaten by the spoonful', () => {
    expect(askedOf({})).toBe('no meal');
    const servings = (ml: number) => nominalMl.pint / ml;
    expect(askedOf({ of: { ...item, servingsPerUnit: servings(30.1) } })).toBe('no meal');
    expect(adviceOf({ of: { ...item, servingsPerUnit: servings(30) } }).mealServings).toBeNull();
  });
});

describe('what a meal is', () => {
  test.each([
    // Three people at 1½ servings each; one, where nobody says how many.
    { declared: { per: 'meal', countedIn: 'servings', amount: 1.5, people: 3 }, meal: 4.5 },
    { declared: { per: 'meal', countedIn: 'servings', amount: 1.5 }, meal: 1.5 },
    // Half a jar of four servings, however many eat it.
    { declared: { per: 'meal', countedIn: 'units', amount: 0.5, people: 3 }, meal: 2 },
  ] as const)('$declared is $meal servings', ({ declared, meal }) => {
    expect(adviceOf({ declared }).mealServings).toBe(meal);
  });

  test('the wish for its jars goes before what was declared, though it names no meal', () => {
    const declared = { per: 'meal', countedIn: 'servings', amount: 2, people: 2 } as const;
    expect(adviceOf({ declared, wish: { mealServings: 6 } }).mealServings).toBe(6);
    expect(adviceOf({ declared, wish: { mealServings: null } }).mealServings).toBeNull();
  });

  test('a use counted by the week says nothing of a meal', () => {
    expect(adviceOf({ declared: { amount: 3, people: 2 }, wish: {} }).mealServings).toBeNull();
  });

  test('four servings of a pint that holds four are one pint', () => {
    expect(adviceOf({ wish: { mealServings: 4 } }).advice).toMatchObject({ size: 'pint', decidedBy: 'meal' });
    expect(adviceOf({ wish: { mealServings: 8 } }).advice).toMatchObject({
      size: 'quart',
      decidedBy: 'meal',
    });
  });
});

describe('the sizes that are looked at', () => {
  test('are those with a printed process for its recipe here, as the gate answers for each', () => {
    // USDA Complete Guide 2, p2-20: peaches are printed in pints and quarts; smaller jars go by the pint’s time.
    const sizes = sizesOf({});
    expect(sizes).toEqual(expect.arrayContaining(['half-pint', 'pint', 'quart']));
    expect(sizes).not.toContain('half-gallon');
  });

  test('without an altitude there is none, and it says so', () => {
    const { advice } = adviceOf({ wish: { mealServings: 4 }, facts: { household: householdAt(null) } });
    expect(advice).toMatchObject({ size: null, decidedBy: 'no-tested-size', findings: [] });
  });

  test('metric jars are looked at only where some are held', () => {
    const isMetric = (size: string) => size.endsWith('-ml') || size.endsWith('-l');
    expect(sizesOf({}).filter(isMetric)).toEqual([]);
    const held = sizesOf({ facts: { jars: [stockOf('500-ml', 'regular')] } });
    expect(held.filter((size) => size === '250-ml' || size === '1-l')).toEqual([]);
    const litres = copyOf('peaches-quarts');
    expect(
      sizesOf({ recipes: [litres], facts: { jars: [stockOf('250-ml', 'regular')] } }).filter(isMetric),
    ).toEqual(['250-ml']);
  });

  test('any one recipe of the item that may be put up in a size is enough', () => {
    const small: Canner = { ...kettle, holds: { quarts: 0, pints: 0, halfPints: 12 } };
    const quartsOnly: Canner = {
      ...kettle,
      id: 'tall' as never,
      holds: { quarts: 7, pints: 0, halfPints: 0 },
    };
    const facts = { canners: [small, quartsOnly] };
    const inTall = { ...copyOf('peaches-quarts', { in: quartsOnly }), id: 'tall-peaches' as never };
    expect(sizesOf({ facts })).not.toContain('quart');
    expect(sizesOf({ facts, recipes: [peaches, inTall] })).toEqual(
      expect.arrayContaining(['half-pint', 'quart']),
    );
  });

  // A dial gauge whose yearly check ran out is counted on from next Monday, when a way could be made to have it checked.
  test('a dial gauge that was checked once is counted on again', () => {
    const dial: Canner = {
      ...pressureCanner,
      gauge: 'dial',
      gaugeOff: { at5: 0, at10: 0, at15: 0 },
      gaugeCheckedOn: asDate('2025-01-10'),
    };
    const beans = copyOf('beans-snap-pints', { in: dial });
    const facts = { canners: [dial] };
    expect(sizesOf({ recipes: [beans], facts, of: itemOf('Green beans') })).toContain('pint');
  });
});

describe('what the advice is worked out from', () => {
  test('sittings a week by jars eaten, servings in a jar and servings of a meal', () => {
    const { advice } = adviceOf({ perWeek: 3, wish: { mealServings: 2 } });
    const pint = advice.findings.find(({ size }) => size === 'pint');
    // 3 jars of 4 servings a week, 2 at a sitting: 6 sittings; the jar keeps 3 days where nobody wrote down how long.
    expect(pint?.thrownShare).toBeCloseTo(openedJarWaste(4, { perWeek: 6, spread: 1, servings: 2 }, 3), 9);
    const spoonful = adviceOf({ perWeek: 3, wish: {} }).advice.findings.find(({ size }) => size === 'pint');
    expect(spoonful?.thrownShare).toBeCloseTo(
      openedJarWaste(4, { perWeek: 12, spread: 1, servings: 1 }, 3),
      9,
    );
  });

  test('the days an opened jar keeps, and whether somebody wrote them down', () => {
    expect(adviceOf({ wish: {} })).toMatchObject({ keepColdDays: 3, keepColdIsKnown: false });
    const of = { ...item, keepColdDays: 10 };
    const known = adviceOf({ of, wish: {} });
    expect(known).toMatchObject({ keepColdDays: 10, keepColdIsKnown: true });
    const pint = known.advice.findings.find(({ size }) => size === 'pint');
    expect(pint?.thrownShare).toBeCloseTo(openedJarWaste(4, { perWeek: 8, spread: 1, servings: 1 }, 10), 9);
  });

  // Lids at 360 cents for 12 are 30 cents each, of wide mouths 50; a jar of 1,200 cents for 12 is 100, of which what does not come back is lost.
  test.each([
    { jars: [stockOf('pint', 'regular')], cents: 30 },
    { jars: [stockOf('pint', 'wide')], cents: 50 },
    { jars: [stockOf('pint', 'regular', { returnShare: 0.75 })], cents: 30 + 25 },
    { jars: [stockOf('pint', 'regular', { returnShare: 0.75 }), stockOf('pint', 'wide')], cents: 50 },
    { jars: [stockOf('quart', 'regular')], cents: null },
  ])('a filled pint of $jars costs $cents cents beside its food', ({ jars, cents }) => {
    const { advice } = adviceOf({ wish: { mealServings: 4 }, facts: { jars } });
    const pint = advice.findings.find(({ size }) => size === 'pint');
    if (cents === null) expect(pint?.costCentsPerServing).toBeNull();
    else expect(pint?.costCentsPerServing).toBeCloseTo(cents / 4, 9);
  });

  test('without lids of its mouth only the wear of the jar counts', () => {
    const facts = { jars: [stockOf('pint', 'regular', { returnShare: 0.5 })], lids: [lidsOf('wide', 600)] };
    const { advice } = adviceOf({ wish: { mealServings: 4 }, facts });
    expect(advice.findings.find(({ size }) => size === 'pint')?.costCentsPerServing).toBeCloseTo(50 / 4, 9);
  });

  test('gifts and lunches have sizes of their own', () => {
    const { advice } = adviceOf({
      wish: { mealServings: 4, gifts: { size: 'half-pint', jars: 6 }, lunches: { size: 'pint', jars: 20 } },
    });
    expect(advice.ownSizes).toEqual([
      { size: 'half-pint', jars: 6, purpose: 'gifts' },
      { size: 'pint', jars: 20, purpose: 'lunches' },
    ]);
    expect(advice.sentence).toBe(
      'Peaches: pints, because one of them is one meal for you. 6 in half-pints for gifts. 20 in pints for lunches.',
    );
  });
});
