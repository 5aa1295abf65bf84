import { asCents, type Cents } from '../../shared/money.ts';
import type { Item } from '../household/item.ts';
import type { StorePrice } from '../household/store-price.ts';

/** What of one item was put up, what it took, and what a store asks for as much. */
export interface PutUpWorth {
  readonly item: Item;
  /** Units put up, in the item's usual jar. */
  readonly units: number;
  /** What its batches took at the prices of now. */
  readonly home: Cents;
  /** Hands-on minutes of its batches. */
  readonly minutes: number;
  readonly price: StorePrice;
  /** What a store asks for as many units. */
  readonly store: Cents;
  /** Store less home; negative where the store is cheaper. */
  readonly saved: Cents;
}

/** What a year's putting up was worth beside a store, as far as its prices are known. */
export interface Worth {
  /** What saved most first. */
  readonly items: readonly PutUpWorth[];
  /** Put up, and nobody knows what a store asks for it. */
  readonly unknown: readonly Item[];
  readonly home: Cents;
  readonly store: Cents;
  readonly saved: Cents;
  readonly minutes: number;
  /** What an hour at the stove saved; null without hours. */
  readonly savedPerHour: Cents | null;
}

/** What was put up of an item. */
export interface PutUp {
  readonly item: Item;
  readonly units: number;
  readonly home: Cents;
  readonly minutes: number;
  /** Null where it is not known. */
  readonly price: StorePrice | null;
}

/** Holds what was put up against what a store asks for as much of it. What was not put up is left out. */
export function worthOf(putUp: readonly PutUp[]): Worth {
  const made = putUp.filter(({ units }) => units > 0);
  const items = made
    .flatMap(({ price, ...line }): PutUpWorth[] => {
      if (price === null) return [];
      const store = asCents(price.centsEach * line.units);
      return [{ ...line, price, store, saved: asCents(store - line.home) }];
    })
    .toSorted((one, other) => other.saved - one.saved);
  const sum = (of: (line: PutUpWorth) => number): number =>
    items.reduce((total, line) => total + of(line), 0);
  const saved = asCents(sum((line) => line.saved));
  const minutes = sum((line) => line.minutes);
  return {
    items,
    unknown: made.filter(({ price }) => price === null).map(({ item }) => item),
    home: asCents(sum(({ home }) => home)),
    store: asCents(sum(({ store }) => store)),
    saved,
    minutes,
    savedPerHour: minutes > 0 ? asCents((saved * 60) / minutes) : null,
  };
}
