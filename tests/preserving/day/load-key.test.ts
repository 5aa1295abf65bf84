import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { batchesBegun, loadKeyOf, loadPlaceOf } from '../../../src/preserving/day/load-key.ts';

describe('the key of a load', () => {
  test('names recipe, pot and load, and is read back, whatever the recipe is called (seed 20260817)', () => {
    const place = fc.record({
      recipe: fc.stringMatching(/^[a-z0-9.-]{1,20}$/),
      pot: fc.integer({ min: 1, max: 40 }),
      load: fc.integer({ min: 1, max: 20 }),
    });

    fc.assert(
      fc.property(place, (one) => {
        expect(loadPlaceOf(loadKeyOf(one))).toEqual(one);
      }),
      { seed: 20260817 },
    );
    expect(loadPlaceOf('peach-halves')).toBeNull();
  });
});

describe('batches that are begun', () => {
  test('reach up to the last pot that was ticked or timed, of this recipe alone', () => {
    const touched = ['peach-halves.2.1', 'peach-halves.1.3', 'plum-jam.5.1'];

    expect(batchesBegun('peach-halves', touched, 0)).toBe(2);
    expect(batchesBegun('plum-jam', touched, 0)).toBe(5);
    expect(batchesBegun('salsa', touched, 0)).toBe(0);
  });

  test('are at least those that were written down', () => {
    expect(batchesBegun('peach-halves', ['peach-halves.2.1'], 3)).toBe(3);
  });
});
