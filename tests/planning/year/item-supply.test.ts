import { describe, expect, it } from 'vitest';
import { asDate } from '../../../shared/week.ts';
import { itemTarget } from '../../../src/planning/year/item-target.ts';
import { writtenYears } from '../../../src/planning/year/year-supply.ts';
import {
  asOf,
  berries,
  berryBatch,
  oats,
  orchard,
  patch,
  peachBatch,
  peaches,
  season,
  sourceOf,
  yearOf,
} from './orchard-street.ts';

const supplyOf = (change: object, item = peaches, on = asOf) => yearOf(change, on).supplyByItem.get(item.id);

describe('when an item can be had again', () => {
  it('is next week, and always, for what is bought', () => {
    expect(supplyOf({}, oats)).toEqual({
      canArrive: Array.from({ length: 104 }, () => true),
      nextSupplyWeek: '2026-W33',
      nextSeasonWeek: '2026-W33',
      seasonAfterWeek: null,
      failsChance: 0,
      by: 'bought',
    });
  });

  it('is never of what is bought no more, or has no pack', () => {
    const retired = { ...oats, retiredOn: asDate('2026-08-01') };
    expect(supplyOf({ items: [retired] }, retired)).toMatchObject({ by: 'made', nextSupplyWeek: null });
    expect(supplyOf({ packs: new Map([[oats.id, []]]) }, oats)).toMatchObject({
      by: 'made',
      nextSupplyWeek: null,
    });
  });

  it('is the season of its crop, this year and the next', () => {
    const supply = supplyOf({});
    expect(supply).toMatchObject({
      by: 'made',
      failsChance: 0,
      nextSupplyWeek: '2026-W33',
      nextSeasonWeek: '2026-W33',
      seasonAfterWeek: '2027-W32',
    });
    // Weeks 33 to 36 from week 32 on, and again a year later.
    expect(supply?.canArrive.slice(0, 6)).toEqual([false, true, true, true, true, false]);
    expect(supply?.canArrive.filter((arrives) => arrives).length).toBeGreaterThan(7);
  });

  it('in a season that runs is now, and the next is a year away', () => {
    expect(supplyOf({}, peaches, asDate('2026-08-19'))).toMatchObject({
      nextSupplyWeek: '2026-W34',
      nextSeasonWeek: '2027-W32',
      seasonAfterWeek: '2028-W32',
    });
  });

  it('fails as often as all its sources are poor together', () => {
    const poor = { poorYearChance: 0.2, poorYearShare: 0 } as const;
    expect(supplyOf({ sources: [{ ...orchard, ...poor }, patch] })?.failsChance).toBeCloseTo(0.2, 12);
    expect(
      supplyOf({
        sources: [
          { ...orchard, ...poor },
          { ...orchard, ...poor, id: 'stall' },
        ],
      })?.failsChance,
    ).toBeCloseTo(0.04, 12);
    expect(supplyOf({ sources: [{ ...orchard, ...poor, fallBack: 'buy' }] })?.failsChance).toBe(0);
  });

  it('is never without a session to make it in', () => {
    const { hours } = yearOf().facts;
    expect(supplyOf({ hours: { ...hours, sessionsPerWeek: 0 } })).toMatchObject({
      nextSupplyWeek: null,
      nextSeasonWeek: null,
    });
  });

  it('of what is made of leavings is the season of what leaves them, or now where some wait', () => {
    const material = {
      id: 'cores',
      name: 'Cores',
      unit: 'lb',
      keepsDaysCold: 7,
      keepsMonthsFrozen: null,
      quartsPerUnit: 1,
      waitingBy: [],
    };
    const recipes = [
      { ...peachBatch, gives: [{ materialId: 'cores', quantity: 2 }] },
      { ...berryBatch, produce: [], uses: [{ materialId: 'cores', quantity: 1 }] },
    ];
    const waits = (waiting: number) =>
      supplyOf({ recipes, materials: [{ ...material, waiting }] }, berries)?.nextSupplyWeek;
    expect(waits(0)).toBe('2026-W33');
    expect(waits(3)).toBe('2026-W32');
  });
});

it('a window is written with its last day', () => {
  const source = sourceOf('orchard', 'peach', [
    season('2026-08-10', '2026-09-06', 70, {
      mostActive: { fromOn: asDate('2026-08-17'), untilOn: asDate('2026-08-24') },
      usualLbPerWeek: 90,
      firstPickedOn: asDate('2026-08-12'),
    }),
    season('2027-08-09', '2027-09-05', 60),
  ]);
  expect(writtenYears(source)).toEqual([
    {
      year: 2026,
      beginsOn: '2026-08-10',
      endsOn: '2026-09-06',
      mostActive: { from: '2026-08-17', to: '2026-08-23' },
      lbPerWeek: 70,
      usualLbPerWeek: 90,
      firstPickedOn: '2026-08-12',
    },
    {
      year: 2027,
      beginsOn: '2027-08-09',
      endsOn: '2027-09-05',
      mostActive: null,
      lbPerWeek: 60,
      usualLbPerWeek: 60,
      firstPickedOn: null,
    },
  ]);
});

describe('the target of an item', () => {
  const targetOf = (change: object = {}, item = peaches) => yearOf(change).targetByItem.get(item.id);

  it('is what is eaten in a year and a reserve', () => {
    const target = targetOf();
    expect(target?.parts.use).toBeCloseTo(52, 0);
    expect(target?.parts.hungryYear).toBeGreaterThan(0);
    expect(target?.parts.failedCrop).toBe(0);
    expect(target?.byHand).toBeNull();
  });

  it('has a reserve for a poor year of the source that gives most of its crops', () => {
    const risky = { ...orchard, poorYearChance: 0.3, poorYearShare: 0.1 };
    const small = sourceOf('small', 'peach', [season('2026-08-10', '2026-09-06', 20)], {
      poorYearChance: 0.9,
      poorYearShare: 0,
    });
    const other = sourceOf('other', 'pear', [season('2026-08-10', '2026-09-06', 900)]);
    const most = targetOf({ sources: [risky] })?.parts.failedCrop;
    expect(most).toBeGreaterThan(0);
    expect(targetOf({ sources: [small, risky] })?.parts.failedCrop).toBe(most);
    expect(targetOf({ sources: [risky, other, small] })?.parts.failedCrop).toBe(most);
    expect(targetOf({ sources: [small] })?.parts.failedCrop).not.toBe(most);
    expect(targetOf({ sources: [] })?.parts.failedCrop).toBe(0);
  });

  it('of what is bought has no reserve for a failed crop', () => {
    expect(
      targetOf({ sources: [{ ...orchard, poorYearChance: 0.3, poorYearShare: 0 }] }, oats)?.parts.failedCrop,
    ).toBe(0);
  });

  it('is none of what nobody eats', () => {
    expect(targetOf({ declaredUses: new Map() })).toBeUndefined();
    const loaded = yearOf({ declaredUses: new Map() });
    const use = loaded.useByItem.get(peaches.id);
    const supply = loaded.supplyByItem.get(peaches.id);
    if (use === undefined || supply === undefined) throw new Error('expected use and supply');
    expect(
      itemTarget({
        item: peaches,
        use,
        supply,
        recipes: loaded.recipes,
        lbBySource: new Map(),
        sources: [],
        discardCeilingMonths: 18,
        byHand: null,
      }),
    ).toBeNull();
  });
});
