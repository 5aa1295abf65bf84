import { compare } from '../../shared/compare.ts';
import type { CalendarDate } from '../../shared/week.ts';

/** Units of one item put up or bought on one day, as far as eating them is concerned. */
export interface ShelfLot {
  readonly lotId: string;
  /** Units left, 0 or more; a jar of another size than the usual one is a fraction or a multiple. */
  readonly units: number;
  /** First day on which a unit may be taken. */
  readonly readyFrom: CalendarDate;
  /** Last day of best quality. */
  readonly bestQualityUntil: CalendarDate;
}

export interface Issue<Lot extends ShelfLot = ShelfLot> {
  /** What leaves each lot, in the order it is taken; lots that give nothing are left out. */
  readonly taken: readonly { readonly lotId: string; readonly units: number }[];
  /** Units wanted that no ready lot could give. */
  readonly unmet: number;
  /** The lots afterwards, first to expire first; a lot at 0 units is left out. */
  readonly left: readonly Lot[];
}

/** Amounts below this many units are rounding, not food. */
export const crumb = 1e-9;

/** First to expire first; among equals the longest ready, then the lot id, so that the order of the input never matters. */
export const byExpiry = (one: ShelfLot, other: ShelfLot): number =>
  compare(one.bestQualityUntil, other.bestQualityUntil) ||
  compare(one.readyFrom, other.readyFrom) ||
  compare(one.lotId, other.lotId);

/**
 * Takes units from the shelf, first-expired-first-out: each unit comes from the ready lot whose best quality ends first,
 * https://en.wikipedia.org/wiki/FEFO.
 *
 * wanted (units, 0 or more) = sum of taken + unmet; sum of lots before = sum of taken + sum of left.
 * A lot whose `readyFrom` is after `on` gives nothing. No lots: nothing taken, all unmet. Throws RangeError for a negative
 * or non-finite amount.
 * Example: 6 units until 3 March and 4 until 9 May, 7 wanted: 6 from the first, 1 from the second.
 */
export function issueFirstExpired<Lot extends ShelfLot>(
  lots: readonly Lot[],
  wanted: number,
  on: CalendarDate,
): Issue<Lot> {
  requireUnits('wanted units', wanted);
  for (const lot of lots) requireUnits(`units of lot ${lot.lotId}`, lot.units);
  const inOrder = [...lots].sort(byExpiry);
  const remaining = Float64Array.from(inOrder, (lot) => lot.units);
  const unmet = takeInOrder(
    remaining,
    wanted,
    inOrder.map((lot) => (lot.readyFrom <= on ? 0 : 1)),
    0,
  );

  const taken: { lotId: string; units: number }[] = [];
  const left: Lot[] = [];
  inOrder.forEach((lot, place) => {
    const units = remaining[place] ?? 0;
    if (lot.units - units > crumb) taken.push({ lotId: lot.lotId, units: lot.units - units });
    if (units > crumb) left.push({ ...lot, units });
  });
  return { taken, unmet, left };
}

/**
 * The one rule of issue: goes through lots in the order given, takes from those that are ready (`readyAt` of the same place
 * is at most `now`), and answers the units that stayed unmet. `remaining` is changed in place, and the shelf may begin at any place
 * of it (`first`), so that thousands of possible years can be played without copying.
 */
export function takeInOrder(
  remaining: Float64Array,
  wanted: number,
  readyAt: ArrayLike<number>,
  now: number,
  first = 0,
): number {
  let missing = wanted;
  for (let place = 0; place < readyAt.length && missing > crumb; place += 1) {
    const units = remaining[first + place] ?? 0;
    if (units <= 0 || (readyAt[place] ?? now) > now) continue;
    const given = Math.min(units, missing);
    remaining[first + place] = units - given > crumb ? units - given : 0;
    missing -= given;
  }
  return missing > crumb ? missing : 0;
}

function requireUnits(what: string, units: number): void {
  if (!Number.isFinite(units) || units < 0) {
    throw new RangeError(`issueFirstExpired: expected ${what} to be 0 or more, got ${units}`);
  }
}
