import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asCents } from '../../shared/money.ts';
import type { Item } from '../../src/household/item.ts';
import { storePrice } from '../../src/household/store-price.ts';
import { type PutUp, worthOf } from '../../src/look-back/worth.ts';

const food = (id: string): Item => ({ id, name: id }) as unknown as Item;
const line = (id: string, units: number, home: number, minutes: number, each: number | null): PutUp => ({
  item: food(id),
  units,
  home: asCents(home),
  minutes,
  price: each === null ? null : { centsEach: each, from: 'pack' },
});

describe('what a year’s putting up was worth', () => {
  // Ten foods by hand: units, cents here, minutes, cents each in a store → store, saved.
  const year = [
    line('plum jam', 14, 980, 180, 319), // 4,466; 3,486
    line('peaches', 21, 4_410, 420, 449), // 9,429; 5,019
    line('applesauce', 27, 1_350, 300, 219), // 5,913; 4,563
    line('salsa', 16, 2_400, 380, 379), // 6,064; 3,664
    line('green beans', 36, 2_160, 480, 149), // 5,364; 3,204
    line('corn', 18, 3_240, 260, 149), // 2,682; -558
    line('stock', 9, 1_125, 90, 249), // 2,241; 1,116
    line('kraut', 5, 450, 75, 429), // 2,145; 1,695
    line('beets', 12, 900, 150, 289), // 3,468; 2,568
    line('pickles', 7, 630, 90, 329), // 2,303; 1,673
  ];

  it('is what a store asks for as much, less what it took here, food by food', () => {
    const { items } = worthOf(year);

    expect(Object.fromEntries(items.map(({ item, store, saved }) => [item.name, [store, saved]]))).toEqual({
      'plum jam': [4_466, 3_486],
      peaches: [9_429, 5_019],
      applesauce: [5_913, 4_563],
      salsa: [6_064, 3_664],
      'green beans': [5_364, 3_204],
      corn: [2_682, -558],
      stock: [2_241, 1_116],
      kraut: [2_145, 1_695],
      beets: [3_468, 2_568],
      pickles: [2_303, 1_673],
    });
  });

  it('adds up to the whole year, its hours apart, what saved most first', () => {
    const worth = worthOf(year);

    expect(worth.home).toBe(17_645);
    expect(worth.store).toBe(44_075);
    expect(worth.saved).toBe(26_430);
    expect(worth.minutes).toBe(2_425);
    // $264.30 in 40 h 25 min.
    expect(worth.savedPerHour).toBe(654);
    expect(worth.items[0]?.item.name).toBe('peaches');
    expect(worth.items.at(-1)?.item.name).toBe('corn');
  });

  it('leaves out of every sum what no store price is known for, and names it', () => {
    const worth = worthOf([...year, line('quince paste', 6, 700, 200, null), line('relish', 0, 0, 0, null)]);

    expect(worth.unknown.map(({ name }) => name)).toEqual(['quince paste']);
    expect([worth.home, worth.minutes]).toEqual([17_645, 2_425]);
  });

  it('is the store less the kitchen in every year', () => {
    const anyLine = fc
      .record({
        units: fc.integer({ min: 0, max: 90 }),
        home: fc.integer({ min: 0, max: 90_000 }),
        minutes: fc.integer({ min: 0, max: 900 }),
        each: fc.option(fc.integer({ min: 1, max: 2_000 })),
      })
      .map(({ units, home, minutes, each }) => line('x', units, home, minutes, each));
    fc.assert(
      fc.property(fc.array(anyLine, { maxLength: 12 }), (lines) => {
        const worth = worthOf(lines);

        expect(worth.saved).toBe(worth.store - worth.home);
        expect(worth.items.length + worth.unknown.length).toBe(lines.filter(({ units }) => units > 0).length);
        expect(worth.savedPerHour === null).toBe(worth.minutes === 0);
      }),
    );
  });
});

describe('what a store asks for one', () => {
  it('is the cheapest pack written down, else what was paid, else not known', () => {
    const packs = [
      { units: 2.25, price: asCents(549) },
      { units: 1, price: asCents(289) },
    ];

    expect(storePrice(packs, { units: 3, cents: 600 })).toEqual({ centsEach: 244, from: 'pack' });
    expect(storePrice([], { units: 3, cents: 600 })).toEqual({ centsEach: 200, from: 'paid' });
    expect(storePrice([], { units: 3, cents: 0 })).toBeNull();
    expect(storePrice([], { units: 0, cents: 0 })).toBeNull();
  });
});
