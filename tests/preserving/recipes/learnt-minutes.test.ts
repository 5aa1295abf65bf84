import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { learntMinutes } from '../../../src/preserving/recipes/learnt-minutes.ts';

describe('the minutes a batch takes', () => {
  test('said 120, seen 150 twice: 130', () => {
    expect(learntMinutes(120, [150, 150])).toBe(130);
  });

  test('stay as they were said until a batch was seen', () => {
    expect(learntMinutes(90, [])).toBe(90);
  });

  test('lie between what was said and what was seen, and come to it with many batches', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 5, max: 600 }),
        fc.integer({ min: 5, max: 600 }),
        fc.integer({ min: 1, max: 40 }),
        (said, took, batches) => {
          const learnt = learntMinutes(
            said,
            Array.from({ length: batches }, () => took),
          );
          expect(learnt).toBeGreaterThanOrEqual(Math.min(said, took) - 1e-9);
          expect(learnt).toBeLessThanOrEqual(Math.max(said, took) + 1e-9);
          expect(Math.abs(learnt - took)).toBeCloseTo((Math.abs(said - took) * 4) / (4 + batches), 6);
        },
      ),
      { seed: 20_260_822 },
    );
  });
});
