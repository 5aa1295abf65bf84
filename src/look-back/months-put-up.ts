import { asCents, type Cents } from '../../shared/money.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { AccountEvent } from '../shelf/account.ts';

/** What one unit of an item cost to put up, by the year's account. */
export interface UnitPutUp {
  readonly itemId: string;
  readonly cents: number;
  readonly minutes: number;
}

/** One month of the year that is looked back on. */
export interface MonthPutUp {
  /** `2026-08` */
  readonly month: string;
  /** What its batches cost at today's prices. */
  readonly money: Cents;
  readonly minutes: number;
  /** The same for what a store's price is known of, and what the store would have asked; null where of nothing. */
  readonly inStore: { readonly own: Cents; readonly asked: Cents } | null;
}

/** What was put up month by month, and of how many of its foods a store's price is known. */
export interface MonthsPutUp {
  /** Every month of the year, the earliest first. */
  readonly months: readonly MonthPutUp[];
  readonly foods: number;
  readonly foodsWithPrice: number;
}

/**
 * The year's money and work put into the months in which jars were filled, beside what a store would have asked for the same:
 * `storeEach`, cents a unit by item, as far as it is known. What no price is known of is in no comparison; none is ever guessed.
 * What was taken back counts as never put up.
 */
export function monthsPutUp(
  events: readonly AccountEvent[],
  units: readonly UnitPutUp[],
  storeEach: ReadonlyMap<string, number>,
  { from, until }: { readonly from: CalendarDate; readonly until: CalendarDate },
): MonthsPutUp {
  const takenBack = new Set(events.map(({ reversesSeq }) => reversesSeq));
  const unitById = new Map(units.map((unit) => [unit.itemId, unit]));
  const putUp = events.filter(
    ({ kind, seq, itemId, occurredOn }) =>
      kind === 'put up' &&
      !takenBack.has(seq) &&
      unitById.has(itemId) &&
      occurredOn >= from &&
      occurredOn < until,
  );
  const foods = new Set(putUp.map(({ itemId }) => itemId));
  return {
    months: monthsFrom(from, until).map((month) => {
      let [money, minutes, own, asked] = [0, 0, 0, 0];
      let isCompared = false;
      for (const event of putUp) {
        const unit = unitById.get(event.itemId);
        if (unit === undefined || !event.occurredOn.startsWith(month)) continue;
        money += event.units * unit.cents;
        minutes += event.units * unit.minutes;
        const store = storeEach.get(event.itemId);
        if (store === undefined) continue;
        isCompared = true;
        own += event.units * unit.cents;
        asked += event.units * store;
      }
      return {
        month,
        money: asCents(Math.round(money)),
        minutes,
        inStore: isCompared ? { own: asCents(Math.round(own)), asked: asCents(Math.round(asked)) } : null,
      };
    }),
    foods: foods.size,
    foodsWithPrice: [...foods].filter((food) => storeEach.has(food)).length,
  };
}

/** `2025-08` to `2026-08` for a year that begins in the middle of a month. */
function monthsFrom(from: CalendarDate, until: CalendarDate): readonly string[] {
  const months: string[] = [];
  let [year = 0, month = 1] = from.split('-').map(Number);
  for (;;) {
    const key = `${year}-${String(month).padStart(2, '0')}`;
    if (`${key}-01` >= until) return months;
    months.push(key);
    [year, month] = month === 12 ? [year + 1, 1] : [year, month + 1];
  }
}
