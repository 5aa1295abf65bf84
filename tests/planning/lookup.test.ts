import { describe, expect, it } from 'vitest';
import { cell, entry, found, noneBeyond, orNone } from '../../src/planning/lookup.ts';

describe('what has to be there', () => {
  it('is given, nought included', () => {
    expect(entry([3, 0], 1, 'use')).toBe(0);
    expect(cell([[1], [0, 7]], 1, 1, 'most batches')).toBe(7);
    expect(found(new Map([['pint', 0]]), 'pint', 'jars')).toBe(0);
    expect(entry([null], 0, 'column')).toBeNull();
  });

  it.each([-1, 2, 0.5, Number.NaN])('is missed by name and place at %d', (at) => {
    expect(() => entry([3, 0], at, 'use by week')).toThrow(
      `use by week: expected an entry at ${at}, found 2`,
    );
    expect(() => cell([[1, 2]], 0, at, 'most batches')).toThrow('most batches');
  });

  it('is missed by its key in a map', () => {
    expect(() => found(new Map([['pint', 1]]), 'quart', 'jars')).toThrow(
      'jars: expected quart among 1, found none',
    );
  });
});

describe('what may be absent', () => {
  it('is none where it is not said', () => {
    expect(orNone(undefined)).toBe(0);
    expect(orNone(4)).toBe(4);
  });

  it('is none before the first week and after the last, and an error within', () => {
    expect([-1, 0, 1, 2].map((week) => noneBeyond([5, 6], week))).toEqual([0, 5, 6, 0]);
    expect(() => noneBeyond([5, undefined as unknown as number], 1)).toThrow('by week');
  });
});
