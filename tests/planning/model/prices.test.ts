import { describe, expect, it } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { wishPrices } from '../../../src/planning/model/prices.ts';
import { householdRules } from '../../../src/planning/model/rules.ts';
import { planningSets } from '../../../src/planning/model/sets.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import { handMadeYear, pack, pint, produceOf, recipe, source, used, wideQuart } from './hand-made-year.ts';

const step = (parts: Partial<PlanningYear>) =>
  wishPrices(planningSets(handMadeYear(2, parts)), householdRules).dearestStep;
const jam = [used('jam', [1, 1])];

describe('the dearest step', () => {
  it('is a batch with all it takes at its dearest, and its session', () => {
    const year: Partial<PlanningYear> = {
      items: jam,
      recipes: [
        recipe('boil', 'jam', {
          jarKind: pint,
          yieldHighJars: 6,
          produce: [produceOf('plum', 4), produceOf('fig', 9)],
          supplies: [
            { supplyId: 'sugar', quantity: 2 },
            { supplyId: 'unknown', quantity: 50 },
          ],
        }),
        recipe('dry', 'jam'),
      ],
      sources: [
        source('orchard', 'plum', [1, 1], { priceCentsPerLbByWeek: [120, 150].map(asCents) }),
        source('stall', 'plum', [1, 1], { priceCentsPerLbByWeek: [90, 90].map(asCents) }),
        source('meadow', 'pear', [1, 1], { priceCentsPerLbByWeek: [900, 900].map(asCents) }),
      ],
      supplies: [
        { id: 'salt', name: 'Salt', unit: 'lb', onHand: 0, packQuantity: 1, packPrice: asCents(9000) },
        { id: 'sugar', name: 'Sugar', unit: 'lb', onHand: 0, packQuantity: 4, packPrice: asCents(350) },
      ],
      jars: [
        { kind: wideQuart, owned: 0, empty: 0, pack: 1, packPrice: asCents(9000), returnShare: 0 },
        { kind: pint, owned: 0, empty: 0, pack: 12, packPrice: asCents(1500), returnShare: 0 },
      ],
      lids: [
        { mouth: 'wide', onHand: 0, box: 1, boxPrice: asCents(9000) },
        { mouth: 'regular', onHand: 0, box: 12, boxPrice: asCents(402) },
      ],
    };
    // 4 × 150 + 2 × 350 / 4 + 6 × (125 + 33.5) and a session of 40.
    expect(step(year)).toBe(600 + 175 + 951 + 40);
    expect(step({ ...year, jars: [], lids: [] })).toBe(600 + 175 + 40);
    expect(step({ ...year, sources: [] })).toBe(175 + 951 + 40);
  });

  it('is what a set-up costs too, in whole cents', () => {
    const recipes = [recipe('cast', 'jam', { setUp: { minutes: 1, cents: 700.2 } })];
    expect(step({ items: jam, recipes })).toBe(741);
  });

  it('is a pack where that is dearer', () => {
    const items = [used('salt', [1, 1], { packs: [pack('bag', 1, [90, 80]), pack('sack', 9, [500, 700])] })];
    expect(step({ items })).toBe(700);
    expect(step({ items: [used('salt', [1, 1], { packs: [pack('bag', 1, [9, 8])] })] })).toBe(40);
  });
});

describe('the order of wishes', () => {
  it('has each outweigh three units of the next lighter', () => {
    const prices = wishPrices(
      planningSets(handMadeYear(2, { items: jam, recipes: [recipe('boil', 'jam')] })),
      householdRules,
    );
    expect(prices).toEqual({
      dearestStep: 40,
      variety: 40,
      reserve: 120,
      use: 360,
      gardenUnit: 1080,
      firstJars: 3240,
      comingWeeks: 9720,
      group: 29160,
      pinned: 87480,
    });
  });

  it('is never for nothing', () => {
    expect(wishPrices(planningSets(handMadeYear(1)), { ...householdRules, sessionCents: 0 }).variety).toBe(1);
  });
});
