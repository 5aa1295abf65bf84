import { describe, expect, it } from 'vitest';
import { plantsFor, produceLbFor, yieldPerPlant } from '../../src/consumption/produce-for-target.ts';

// USDA, Complete Guide to Home Canning (2015), applesauce: 21 lb for 7 quarts, 13.5 lb for 9 pints (read).
describe('from jars to pounds to plants', () => {
  it('needs 3 lb of apples a quart of sauce', () => {
    const perQuart = 21 / 7;
    expect(produceLbFor(7, { lowLb: perQuart, highLb: perQuart })).toEqual({ low: 21, high: 21 });
    expect(produceLbFor(9, { lowLb: 13.5 / 9, highLb: 13.5 / 9 }).low).toBeCloseTo(13.5, 12);
  });

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
