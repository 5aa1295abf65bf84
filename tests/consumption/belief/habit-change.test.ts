import { describe, expect, it } from 'vitest';
import { type CountedWeek, suspectedChange } from '../../../src/consumption/belief/habit-change.ts';

const before = { perWeek: 1.5, weeksOfEvidence: 40, dispersion: 1.1 };
const weeksOf = (taken: readonly number[], changes: Partial<CountedWeek['before']> = {}): CountedWeek[] =>
  taken.map((units) => ({ taken: units, ordinaryWeeks: 1, before: { ...before, ...changes } }));

describe('a habit that nobody said had changed', () => {
  it('is hardly suspected while the weeks look as before', () => {
    const change = suspectedChange(weeksOf([1, 2, 1, 2, 1, 2, 2, 1, 1, 2, 1, 2, 2]));
    expect(change?.share ?? 0).toBeLessThan(0.05);
  });

  it('is believed when ten weeks are twice as full, and says from what to what', () => {
    const change = suspectedChange(weeksOf([1, 2, 1, 3, 3, 4, 3, 2, 3, 4, 3, 3, 3]));
    expect(change?.share).toBeGreaterThan(0.8);
    expect(change?.weeks).toBe(10);
    expect(change?.perWeekBefore).toBe(1.5);
    expect(change?.perWeek).toBeCloseTo((0.5 * 1.5 + 31) / 10.5, 10);
  });

  it('is believed when next to nothing is taken any more', () => {
    const change = suspectedChange(weeksOf(new Array(13).fill(0)));
    expect(change?.share).toBeGreaterThan(0.8);
    expect(change?.perWeek).toBeLessThan(0.2);
  });

  it('is not a single party', () => {
    const change = suspectedChange(weeksOf([1, 2, 1, 2, 1, 2, 30, 1, 1, 2, 1, 2, 2]));
    expect(change?.share ?? 0).toBeLessThan(0.1);
  });

  it('cannot be told with little history, or of an item eaten in spells', () => {
    const full = new Array(13).fill(4);
    expect(suspectedChange(weeksOf(full, { weeksOfEvidence: 10 }))).toBeUndefined();
    expect(suspectedChange(weeksOf(full, { dispersion: 2 }))).toBeUndefined();
    expect(suspectedChange(weeksOf(full.slice(0, 5)))).toBeUndefined();
  });
});
