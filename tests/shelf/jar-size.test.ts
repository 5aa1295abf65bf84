import { describe, expect, it } from 'vitest';
import { jarSizes, nominalMl } from '../../shared/jar.ts';
import {
  type JarSizeQuestion,
  jarSizeAdvice,
  jarSizeNames,
} from '../../src/shelf/jar-size/jar-size-advice.ts';
import { openedJarWaste } from '../../src/shelf/jar-size/opened-jar-waste.ts';
import { seeded } from './households-use.ts';

const tablespoonMl = 14.78676478125;
const question = (changes: Partial<JarSizeQuestion> = {}): JarSizeQuestion => ({
  item: 'Plum jam',
  servingMl: tablespoonMl,
  mealServings: null,
  sittings: { perWeek: 5, spread: 1, servings: 1 },
  keepColdDays: 30,
  ownSizes: [],
  candidates: [
    { size: 'quarter-pint', hasTestedProcess: true, costCents: 30 },
    { size: 'half-pint', hasTestedProcess: true, costCents: 32 },
    { size: 'pint', hasTestedProcess: true, costCents: 36 },
  ],
  ...changes,
});

/**
 * Plays jar after jar: the first sitting opens one, each sitting eats from it, it is thrown away when its days are over. Sittings are a Poisson
 * stream; nothing of the code under test is used.
 */
function thrownByPlaying(
  servingsInJar: number,
  perWeek: number,
  servings: number,
  keepColdDays: number,
  jars: number,
  random: () => number,
): number {
  let thrown = 0;
  for (let jar = 0; jar < jars; jar += 1) {
    let left = servingsInJar - servings;
    for (let day = 0; left > 0; ) {
      day += (-Math.log(1 - random()) * 7) / perWeek;
      if (day > keepColdDays) break;
      left -= servings;
    }
    thrown += Math.max(0, left);
  }
  return thrown / (jars * servingsInJar);
}

describe('what is thrown away of an opened jar', () => {
  it('is 21.3 % of 16 servings at 4 a week and 21 days', () => {
    expect(openedJarWaste(16, { perWeek: 4, spread: 1, servings: 1 }, 21)).toBeCloseTo(0.21262127, 8);
  });

  it.each([
    { jar: 16, perWeek: 4, servings: 1, days: 21 },
    { jar: 32, perWeek: 5, servings: 1, days: 30 },
    { jar: 8, perWeek: 1, servings: 2, days: 5 },
    { jar: 7.5, perWeek: 2, servings: 2, days: 7 },
    { jar: 64, perWeek: 14, servings: 3, days: 10 },
  ])(
    'agrees with jars played one by one: $jar servings, $perWeek sittings of $servings, $days days',
    ({ jar, perWeek, servings, days }) => {
      const jars = 40_000;
      const exact = openedJarWaste(jar, { perWeek, spread: 1, servings }, days);
      const played = thrownByPlaying(jar, perWeek, servings, days, jars, seeded(51));
      // A share of one jar has a standard deviation of at most 0.5: four standard errors of the mean over the jars played.
      expect(Math.abs(exact - played)).toBeLessThan((4 * 0.5) / Math.sqrt(jars));
    },
  );

  it('grows with the jar and shrinks with appetite and days', () => {
    const waste = (jar: number, perWeek: number, days: number): number =>
      openedJarWaste(jar, { perWeek, spread: 1.3, servings: 1 }, days);
    expect(waste(32, 4, 21)).toBeGreaterThan(waste(16, 4, 21));
    expect(waste(16, 8, 21)).toBeLessThan(waste(16, 4, 21));
    expect(waste(16, 4, 30)).toBeLessThan(waste(16, 4, 21));
  });

  it('is nothing without a limit, and all but the first sitting when nobody comes back', () => {
    expect(openedJarWaste(16, { perWeek: 4, spread: 1, servings: 1 }, null)).toBe(0);
    expect(openedJarWaste(16, { perWeek: 0, spread: 1, servings: 1 }, 21)).toBeCloseTo(15 / 16, 12);
  });

  it('refuses a jar that holds nothing', () => {
    expect(() => openedJarWaste(0, { perWeek: 1, spread: 1, servings: 1 }, 5)).toThrow('servings above 0');
  });
});

describe('which jar', () => {
  it('is the one that is a meal, before anything else', () => {
    const advice = jarSizeAdvice(
      question({ item: 'Beans', servingMl: 118.3, mealServings: 4, keepColdDays: 3 }),
    );
    expect(advice).toMatchObject({ size: 'pint', decidedBy: 'meal' });
    expect(advice.sentence).toBe('Beans: pints, because one of them is one meal for you.');
  });

  it('is the smallest for a spread eaten by the spoonful, and says what a larger one would lose', () => {
    const advice = jarSizeAdvice(question({ sittings: { perWeek: 1.5, spread: 1, servings: 1 } }));
    expect(advice).toMatchObject({ size: 'quarter-pint', decidedBy: 'waste' });
    expect(advice.sentence).toMatch(
      /^Plum jam: quarter-pints, because an opened one keeps 30 days and \d+% of it is thrown away, against \d+% of the half-pints\.$/,
    );
  });

  it('is the cheaper a serving only when as little is thrown away', () => {
    const eager = jarSizeAdvice(question({ sittings: { perWeek: 14, spread: 1, servings: 1 } }));
    expect(eager).toMatchObject({ size: 'pint', decidedBy: 'cost' });
    const dear = question({ sittings: { perWeek: 14, spread: 1, servings: 1 } }).candidates.map(
      (candidate) => (candidate.size === 'pint' ? { ...candidate, costCents: 300 } : candidate),
    );
    const other = jarSizeAdvice(
      question({ sittings: { perWeek: 14, spread: 1, servings: 1 }, candidates: dear }),
    );
    expect(other.size).toBe('half-pint');
  });

  it('is between equals one that is owned, and the largest where none is', () => {
    const sittings = { perWeek: 14, spread: 1, servings: 1 };
    const priced = (owned: readonly string[]) =>
      question({ sittings }).candidates.map((candidate) =>
        owned.includes(candidate.size) ? candidate : { ...candidate, costCents: null },
      );
    const some = jarSizeAdvice(question({ sittings, candidates: priced(['half-pint']) }));
    expect(some).toMatchObject({ size: 'half-pint', decidedBy: 'cost' });
    expect(some.sentence).toContain('of the jars you have a serving costs least in them.');
    const none = jarSizeAdvice(question({ sittings, candidates: priced([]) }));
    expect(none).toMatchObject({ size: 'pint', decidedBy: 'fewest-jars' });
    expect(none.sentence).toContain('about as little as with any size, and that makes the fewest jars.');
  });

  it('is never a size without a tested process', () => {
    const onlyPint = question().candidates.map((candidate) => ({
      ...candidate,
      hasTestedProcess: candidate.size === 'pint',
    }));
    expect(jarSizeAdvice(question({ candidates: onlyPint }))).toMatchObject({
      size: 'pint',
      decidedBy: 'only-size',
    });
    const none = onlyPint.map((candidate) => ({ ...candidate, hasTestedProcess: false }));
    const refused = jarSizeAdvice(question({ candidates: none }));
    expect(refused).toMatchObject({ size: null, decidedBy: 'no-tested-size', findings: [] });
    expect(refused.sentence).toBe('Plum jam: no size of jar has a tested process here.');
  });

  it('keeps gift and lunch sizes beside it, as far as they have a tested process', () => {
    const advice = jarSizeAdvice(
      question({
        ownSizes: [
          { size: 'quarter-pint', jars: 12, purpose: 'presents' },
          { size: '12-oz', jars: 6, purpose: 'lunches' },
        ],
      }),
    );
    expect(advice.ownSizes.map((own) => own.size)).toEqual(['quarter-pint']);
    expect(advice.sentence).toContain('12 in quarter-pints for presents.');
  });

  it('is called by its name, one and several, in every size', () => {
    const names = Object.values(jarSizeNames).map(({ one, many }) => `${one}, ${many}`);
    expect(names).toEqual([
      'quarter-pint, quarter-pints',
      'half-pint, half-pints',
      '12-oz jar, 12-oz jars',
      'pint, pints',
      '24-oz jar, 24-oz jars',
      '28-oz jar, 28-oz jars',
      'quart, quarts',
      'half-gallon, half-gallons',
      '250 mL jar, 250 mL jars',
      '500 mL jar, 500 mL jars',
      '1 L jar, 1 L jars',
    ]);
    expect(Object.keys(jarSizeNames)).toEqual(jarSizes);
  });

  it('is thrown away in hundredths, or not at all', () => {
    const of = (perWeek: number) =>
      jarSizeAdvice(question({ sittings: { perWeek, spread: 1, servings: 1 } })).sentence;
    expect(of(60)).toBe(
      'Plum jam: pints, because none of an opened one is thrown away, about as little as with any size, and a serving costs least in them.',
    );
    expect(jarSizeAdvice(question({ keepColdDays: null })).sentence).toBe(
      'Plum jam: pints, because an opened jar has no limit and a serving costs least in them.',
    );
  });

  it('is a meal within a fifth of it, and no further', () => {
    const decided = (mealServings: number) =>
      jarSizeAdvice(question({ servingMl: 100, mealServings, candidates: question().candidates.slice(2) }))
        .decidedBy;
    const pint = nominalMl.pint / 100;
    expect(decided(pint / 1.19)).toBe('meal');
    expect(decided(pint / 1.21)).toBe('only-size');
    expect(decided(pint / 0.81)).toBe('meal');
    expect(decided(pint / 0.79)).toBe('only-size');
  });

  it('of two sizes about as near is the one that is nearer by its share', () => {
    // A half-pint holds half of a meal of a pint, a quart twice as much; of 1.5 pints the pint is nearer.
    const candidates = (['half-pint', 'pint', 'quart'] as const).map((size) => ({
      size,
      hasTestedProcess: true,
      costCents: 1,
    }));
    const size = (pints: number) =>
      jarSizeAdvice(
        question({
          servingMl: nominalMl.pint,
          mealServings: pints,
          sittings: { perWeek: 9, spread: 1, servings: pints },
          candidates,
        }),
      ).size;
    expect(size(1.1)).toBe('pint');
    expect(size(1.8)).toBe('quart');
    expect(size(0.55)).toBe('half-pint');
  });

  it('is looked at from the smallest on, whatever order they come in', () => {
    const backwards = jarSizeAdvice(question({ candidates: question().candidates.toReversed() }));
    expect(backwards).toEqual(jarSizeAdvice(question()));
    expect(backwards.findings.map(({ size }) => size)).toEqual(['quarter-pint', 'half-pint', 'pint']);
    expect(backwards.findings.map(({ servings }) => Math.round(servings))).toEqual([8, 16, 32]);
    expect(backwards.findings[1]?.costCentsPerServing).toBeCloseTo(2, 9);
  });
});
