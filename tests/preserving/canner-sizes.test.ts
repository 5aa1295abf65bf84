import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { cannerSizes } from '../../src/preserving/canner-sizes.ts';
import { loadsOfBatch } from '../../src/preserving/day/load-time.ts';

const { cannerFacts } = loadReferenceTables();

describe('canners as they are sold', () => {
  // USDA Complete Guide 1 (2015), p1-17: a boiling-water canner holds 7 quarts or 8 to 9 pints; a pressure canner 7 quarts or 8 to 9
  // pints, a large one 18 pints in two layers, a small one 4 quarts. Read.
  test.each([
    ['pot', 'boiling-water', 7, 9],
    ['narrow-pot', 'boiling-water', 7, 8],
    ['pressure', 'pressure', 7, 9],
    ['narrow-pressure', 'pressure', 7, 8],
    ['tall-pressure', 'pressure', 7, 18],
    ['small-pressure', 'pressure', 4, 4],
  ])('%s: %s, %i quarts or %i pints', (key, method, quarts, pints) => {
    expect(cannerSizes(cannerFacts).find((size) => size.key === key)).toMatchObject({
      method,
      holds: { quarts, pints },
    });
  });

  test('none is named after a maker or a model: only sizes and what stands in them', () => {
    for (const { words } of cannerSizes(cannerFacts)) expect(words).toMatch(/^[a-z0-9 ,-]+$/);
  });
});

describe('a jar that alone would need another load', () => {
  test.each([
    [9, 9, 1, 0],
    [9, 8, 1, 1],
    [17, 8, 2, 1],
    [10, 8, 2, 0],
    [1, 8, 1, 0],
    [3, 1, 3, 0],
  ])('of %i jars where %i fit: %i loads, %i aside', (jars, perLoad, loads, jarsAside) => {
    expect(loadsOfBatch(jars, perLoad)).toEqual({ loads, jarsAside });
  });

  test('all jars stand in loads but for at most one, and no load is there for one jar alone', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 2, max: 20 }), (jars, perLoad) => {
        const { loads, jarsAside } = loadsOfBatch(jars, perLoad);
        const canned = jars - jarsAside;
        expect(canned).toBeLessThanOrEqual(loads * perLoad);
        expect(canned).toBeGreaterThan((loads - 1) * perLoad);
        if (jars > 1) expect(canned - (loads - 1) * perLoad).toBeGreaterThan(1);
      }),
    );
  });
});
