import type { CalendarDate, WeekKey } from '../../shared/week.ts';
import { weekOf } from '../../shared/week.ts';
import { type DaySpan, dayNumber, weekFacts } from './household-calendar.ts';
import type { Occasion } from './use-forecast.ts';
import type { WeekOfUse } from './week-of-use.ts';

/** Units that came onto the shelf (positive, on the day they were ready) or left it for any reason (negative). */
export interface ShelfMovement {
  readonly on: CalendarDate;
  readonly units: number;
}

/** A unit that somebody said was taken to be eaten. */
export interface RecordedTaking {
  readonly on: CalendarDate;
  readonly units: number;
}

/** The shelf of this item as somebody counted it, at the end of that day. */
export interface ShelfCounting {
  readonly on: CalendarDate;
  readonly counted: number;
  /**
   * Units that the count showed to have been taken without saying so, 0 or more. A difference said to be a miscount, a breakage or
   * a gift is not: give 0.
   */
  readonly takenUnsaid: number;
  /**
   * First day of what it tells of, where that is not the count before: "put up 30 in August, 8 left" is a use of 22 since August. It
   * speaks of those jars alone and closes no day for others.
   */
  readonly since?: CalendarDate;
}

/** What the ledger knows about one item, in units of the item, in any order. Reversed events are left out. */
export interface UseFacts {
  /** The first day that can count. */
  readonly from: CalendarDate;
  readonly asOf: CalendarDate;
  readonly movements: readonly ShelfMovement[];
  readonly takings: readonly RecordedTaking[];
  readonly countings: readonly ShelfCounting[];
  readonly occasions: readonly Occasion[];
  readonly away: readonly DaySpan[];
  /** Days on which nothing could have been recorded (see `recordingBegins`): they do not count, nor does what was taken then. */
  readonly unrecorded: readonly DaySpan[];
  /** Days of which a record on paper was brought in: all of them count in full. */
  readonly onPaper: readonly DaySpan[];
  /** Weeks in which the household recorded nothing of anything (see `silentWeeks`). */
  readonly silent: ReadonlySet<WeekKey>;
  /** Share of takings that this household records as they happen, 0..1 (see `tappedShare`); 1 when it never counts. */
  readonly tappedShare: number;
}

/**
 * Weeks of use with the days that could have had any, oldest first, from the week of `from` to the week of `asOf`.
 *
 * A day counts when it could have been recorded, a unit stood on the shelf and somebody was at home; the day the last unit was taken counts half. What a shelf
 * count revealed is spread over the days since the count before, as far as they count; those weeks are marked as one interval.
 * When the count found the shelf empty, its `k` units are taken to have lasted `k/(k+1)` of the time (the mean place of the last
 * of `k` points spread at random). Since the last count, a day counts only for the share that this household taps, and silent weeks
 * not at all. Takings for a dated occasion are left out, and so are takings while away.
 * Empty when `from` is after `asOf`.
 */
export function useHistory(facts: UseFacts): WeekOfUse[] {
  const first = dayNumber(facts.from);
  const days = dayNumber(facts.asOf) - first + 1;
  if (!(days > 0)) return [];
  const tapped = tappedByDay(facts, first, days);
  const exposure = exposureByDay(facts, tapped, first, days);
  const found = new Float64Array(days);
  const intervalByDay = new Int32Array(days);
  const open = spreadCountings(facts, first, tapped, exposure, found, intervalByDay);
  const isOnPaper = new Uint8Array(days);
  for (const [from, until] of placesOf(facts.onPaper, first, days)) isOnPaper.fill(1, from, until);
  return byWeek(facts, first, days, (day) => {
    const closed = day < open || isOnPaper[day] === 1;
    const counts = closed ? 1 : facts.tappedShare;
    return {
      tapped: tapped[day] ?? 0,
      found: found[day] ?? 0,
      exposure: (exposure[day] ?? 0) * counts,
      interval: intervalByDay[day] ?? 0,
      closed,
    };
  });
}

const uncounted = ({ away, unrecorded }: UseFacts): readonly DaySpan[] => [...away, ...unrecorded];

/** Spans as places in a vector of days: first included, last not. */
const placesOf = (spans: readonly DaySpan[], first: number, days: number): (readonly [number, number])[] =>
  spans
    .map(
      ({ from, until }) =>
        [Math.max(0, dayNumber(from) - first), Math.min(days, dayNumber(until) - first)] as const,
    )
    .filter(([from, until]) => from < until);

/** Days before the occasion on which a taking may be meant for it. */
const daysToPrepare = 2;

function tappedByDay(facts: UseFacts, first: number, days: number): Float64Array {
  const tapped = new Float64Array(days);
  for (const taking of facts.takings) {
    const day = dayNumber(taking.on) - first;
    if (day >= 0 && day < days) tapped[day] = (tapped[day] ?? 0) + taking.units;
  }
  for (const [from, until] of placesOf(uncounted(facts), first, days)) tapped.fill(0, from, until);
  for (const occasion of facts.occasions) {
    let left = occasion.units;
    const last = dayNumber(occasion.on) - first;
    for (let day = last; day >= last - daysToPrepare && left > 0; day -= 1) {
      const meant = Math.min(left, tapped[day] ?? 0);
      if (meant > 0) tapped[day] = (tapped[day] ?? 0) - meant;
      left -= meant;
    }
  }
  return tapped;
}

function exposureByDay(facts: UseFacts, tapped: Float64Array, first: number, days: number): Float64Array {
  const came = new Float64Array(days);
  const left = new Float64Array(days);
  let stock = 0;
  for (const { on, units } of facts.movements) {
    const day = dayNumber(on) - first;
    if (day >= days) continue;
    if (day < 0) stock += units;
    else if (units > 0) came[day] = (came[day] ?? 0) + units;
    else left[day] = (left[day] ?? 0) - units;
  }
  const nothing = 1e-9;
  const exposure = new Float64Array(days);
  for (let day = 0; day < days; day += 1) {
    stock += came[day] ?? 0;
    const stood = stock > nothing || (tapped[day] ?? 0) > 0;
    stock -= left[day] ?? 0;
    const wentEmpty = (left[day] ?? 0) > 0 && stock <= nothing;
    exposure[day] = stood ? (wentEmpty ? 0.5 : 1) : 0;
  }
  for (const [from, until] of placesOf(uncounted(facts), first, days)) exposure.fill(0, from, until);
  return exposure;
}

/** Spreads what the counts revealed; returns the first day that no count has closed. */
function spreadCountings(
  facts: UseFacts,
  first: number,
  tapped: Float64Array,
  exposure: Float64Array,
  found: Float64Array,
  intervalByDay: Int32Array,
): number {
  const inOrder = [...facts.countings].sort((left, right) => (left.on < right.on ? -1 : 1));
  let closedUntil = 0;
  for (const [place, counting] of inOrder.entries()) {
    const end = Math.min(tapped.length, dayNumber(counting.on) - first + 1);
    const start = counting.since === undefined ? closedUntil : Math.max(0, dayNumber(counting.since) - first);
    if (end <= start) continue;
    const days = end - start;
    const units = counting.takenUnsaid;
    if (units > 0) {
      const taken = units + sumOf(tapped, start, end);
      const lasted = counting.counted > 0 ? 1 : taken / (taken + 1);
      const counted = sumOf(exposure, start, end);
      for (let day = start; day < end; day += 1) {
        const share = counted > 0 ? (exposure[day] ?? 0) / counted : 1 / days;
        found[day] = (found[day] ?? 0) + units * share;
        exposure[day] = (exposure[day] ?? 0) * lasted;
        intervalByDay[day] = place + 1;
      }
    }
    if (counting.since === undefined) closedUntil = end;
  }
  return closedUntil;
}

function sumOf(values: Float64Array, start: number, end: number): number {
  let sum = 0;
  for (let place = start; place < end; place += 1) sum += values[place] ?? 0;
  return sum;
}

interface DayOfUse {
  readonly tapped: number;
  readonly found: number;
  readonly exposure: number;
  /** Number of the count that revealed something about this day, 0 when none did. */
  readonly interval: number;
  readonly closed: boolean;
}

function byWeek(facts: UseFacts, first: number, days: number, dayAt: (day: number) => DayOfUse): WeekOfUse[] {
  const weeks: WeekOfUse[] = [];
  let week = weekOf(facts.from);
  for (let start = weekFacts(week).firstDay - first; start < days; start += 7) {
    const silent = facts.silent.has(week);
    let taken = 0;
    let foundAtCount = 0;
    let exposure = 0;
    let interval = 0;
    for (let day = Math.max(0, start); day < Math.min(days, start + 7); day += 1) {
      const use = dayAt(day);
      interval = use.interval;
      taken += use.tapped + use.found;
      foundAtCount += use.found;
      if (use.closed || !silent) exposure += use.exposure / 7;
    }
    weeks.push({
      week,
      taken,
      exposure,
      ...(foundAtCount > 0 ? { foundAtCount } : {}),
      ...(interval > 0 ? { countInterval: interval } : {}),
    });
    week = weekFacts(week).next;
  }
  return weeks;
}
