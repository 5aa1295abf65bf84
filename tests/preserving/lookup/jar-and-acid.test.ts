import { describe, expect, test } from 'vitest';
import { jarSizes, nominalMl } from '../../../shared/jar.ts';
import { acidDoseFor } from '../../../src/preserving/lookup/acid-dose.ts';
import { testedJarFor } from '../../../src/preserving/lookup/jar-rule.ts';
import { scheduleFor } from '../../../src/preserving/lookup/process-lookup.ts';
import { foodStepsFor } from '../../../src/preserving/sheet/food-steps.ts';
import { sessionSteps } from '../../../src/preserving/sheet/session-steps.ts';
import { answerOf, tables } from '../tables.ts';

// What the size of a jar decides: whose time it takes, how much acid, how much water the canner gets.

// USDA Complete Guide 1, p1-23: half-pints as pints, 1½ pints as quarts; Kansas State University (2019, 2022): 4 oz as half-pints,
// 12 oz as pints, 24 and 28 oz as quarts; National Center for Home Food Preservation, jar sizes: the next larger tested one.
describe('a jar without a row of its own is processed as a larger one, by the rule that names it', () => {
  test.each([
    ['quarter-pint', ['half-pint', 'pint'], 'half-pint', 'KSU-JARS'],
    ['quarter-pint', ['pint'], 'pint', 'NCHFP-JARSIZE'],
    ['half-pint', ['pint', 'quart'], 'pint', 'USDA-G1'],
    ['12-oz', ['pint', 'quart'], 'pint', 'KSU-JARS'],
    ['12-oz', ['quart'], 'quart', 'NCHFP-JARSIZE'],
    ['24-oz', ['pint', 'quart'], 'quart', 'USDA-G1'],
    ['28-oz', ['pint', 'quart'], 'quart', 'KSU-JARS'],
    ['500-ml', ['pint', 'quart'], 'quart', 'NCHFP-JARSIZE'],
  ] as const)('%s among %j is a %s (%s)', (asked, tested, jar, sourceId) => {
    const as = testedJarFor(asked, new Set(tested), tables.cannerFacts);
    expect(as).toMatchObject({ kind: 'by-rule', jar, rule: { source: { sourceId } } });
  });

  test('and one larger than every row has none', () => {
    expect(testedJarFor('half-gallon', new Set(['pint', 'quart']), tables.cannerFacts).kind).toBe(
      'larger-than-tested',
    );
  });
});

// USDA Complete Guide 3, p3-5: 1 tbsp of bottled lemon juice or ¼ tsp of citric acid a pint, 2 tbsp or ½ tsp a quart.
describe('acid goes into a jar by its size', () => {
  const dose = (jar: (typeof jarSizes)[number]) =>
    acidDoseFor('tomato', jar, tables.cannerFacts)?.oneOf.map(({ quantity, unit }) => `${quantity} ${unit}`);

  test('of tomatoes a pint gets half of what a quart gets', () => {
    expect(dose('pint')).toEqual(expect.arrayContaining(['1 tbsp', '0.25 tsp']));
    expect(dose('quart')).toEqual(expect.arrayContaining(['2 tbsp', '0.5 tsp']));
    expect(dose('500-ml')).toEqual(dose('quart'));
  });

  test('and what is larger than a quart gets none, for none is printed', () => {
    const larger = jarSizes.filter((size) => nominalMl[size] > nominalMl.quart);
    expect(larger.length).toBeGreaterThan(0);
    expect(larger.map(dose)).toEqual(larger.map(() => undefined));
  });
});

// USDA Complete Guide 5, p5-12 (fish in quarts: 3 quarts of water) and p5-13 (smoked fish: 4 quarts of cool water); Guide 1, p1-21.
describe('water in the pressure canner', () => {
  const waterOf = (foodKey: string, pack: 'hot' | 'raw', jar: 'pint' | 'quart', style?: string) => {
    const asked = {
      foodKey,
      pack,
      jar,
      method: 'pressure',
      gauge: 'weighted',
      altitudeFt: 500,
      ...(style === undefined ? {} : { style }),
    } as const;
    const schedule = answerOf(scheduleFor(tables, asked));
    return sessionSteps(schedule, foodStepsFor(tables, schedule)).find(({ key }) => key === 'water-ready')
      ?.text;
  };

  test('is 3 quarts for quarts of fish alone', () => {
    expect(
      waterOf('fish', 'raw', 'quart', 'quart jars; special heat-up and vent of 30 min or more'),
    ).toContain('3 quarts');
    expect(waterOf('fish', 'raw', 'pint', 'pint or smaller jars')).toContain('2 to 3 inches');
    expect(waterOf('beans-snap', 'hot', 'quart')).toContain('2 to 3 inches');
  });
});
