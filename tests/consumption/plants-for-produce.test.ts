import { describe, expect, it } from 'vitest';
import { plantsFor, yieldPerPlant } from '../../src/consumption/plants-for-produce.ts';

describe('from pounds to plants', () => {
  it('plants whole plants, enough of them', () => {
    expect(plantsFor(60, 8)).toBe(8);
    expect(plantsFor(64, 8)).toBe(8);
    expect(plantsFor(64.1, 8)).toBe(9);
    expect(plantsFor(0, 8)).toBe(0);
    expect(() => plantsFor(10, 0)).toThrow('plantsFor: expected a yield per plant above 0, got 0');
  });

  it('learns what a plant gives here', () => {
    expect(yieldPerPlant(10, [])).toBe(10);
    expect(yieldPerPlant(10, [6, 8])).toBeCloseTo(8.5, 12);
    expect(yieldPerPlant(10, new Array(40).fill(6))).toBeCloseTo(6.19, 2);
  });
});
