import { describe, expect, it } from 'vitest';
import type { CropKey } from '../../../shared/ids.ts';
import { crockOf } from '../../../src/preserving/stages/crock-of.ts';
import { basedOnWay } from '../../../src/preserving/uncanned/uncanned-ways.ts';
import { tables } from '../tables.ts';

// A gallon for each 5 lb (USDA Complete Guide 6, 2015, p6-6), three to six weeks (p6-7, p6-8).
const batch = (change: Partial<Parameters<typeof crockOf>[0]> = {}): Parameters<typeof crockOf>[0] => ({
  basedOn: basedOnWay('sauerkraut-cold'),
  process: null,
  crock: null,
  produce: [{ crop: 'cabbage' as CropKey, lb: 7, mayBeFrozen: false }],
  readyAfterDays: 42,
  ...change,
});

describe('the crock of a recipe', () => {
  it('that ferments by a way of the book is as large as its pounds, for as long as it is printed to ferment', () => {
    expect(crockOf(batch(), tables)).toEqual({ quarts: expect.closeTo(5.6, 9), days: 42 });
    expect(
      crockOf(batch({ produce: [{ crop: 'cabbage' as CropKey, lb: 25, mayBeFrozen: false }] }), tables),
    ).toEqual({
      quarts: expect.closeTo(20, 9),
      days: 42,
    });
    expect(crockOf(batch({ basedOn: basedOnWay('dill-pickles-fermented-cold') }), tables)).toEqual({
      quarts: expect.closeTo(5.6, 9),
      days: 42,
    });
  });

  it('is free when the household says that it is ready, and no later than printed', () => {
    expect(crockOf(batch({ readyAfterDays: 28 }), tables)?.days).toBe(28);
    expect(crockOf(batch({ readyAfterDays: 90 }), tables)?.days).toBe(42);
    expect(crockOf(batch({ readyAfterDays: 0 }), tables)?.days).toBe(42);
  });

  it('is the one that was written down with it, where one was', () => {
    expect(crockOf(batch({ crock: { quarts: 12, days: 30 } }), tables)).toEqual({ quarts: 12, days: 30 });
  });

  it('is none of what stands in none, or of what is made of no known pounds', () => {
    expect(crockOf(batch({ basedOn: basedOnWay('apples-cellar') }), tables)).toBeNull();
    expect(crockOf(batch({ basedOn: 'own' }), tables)).toBeNull();
    expect(crockOf(batch({ produce: [] }), tables)).toBeNull();
  });
});
