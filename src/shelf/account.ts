import { groupedBy } from '../../shared/grouped-by.ts';
import { addDays, type CalendarDate, daysBetween } from '../../shared/week.ts';
import { crumb } from './first-expired.ts';

/** One line of the ledger, as the account reads it. */
export interface AccountEvent {
  readonly seq: number;
  readonly itemId: string;
  readonly kind:
    | 'put up'
    | 'bought'
    | 'received'
    | 'taken'
    | 'given away'
    | 'discarded'
    | 'seal failed'
    | 'counted'
    | 'reversed';
  /** Units; positive comes to the shelf, negative leaves it. */
  readonly units: number;
  /** Of a count: true when the shortfall was eaten and not recorded. */
  readonly trainsUse: boolean;
  /** Why it was thrown away; null when nobody said. */
  readonly reason: string | null;
  readonly occurredOn: CalendarDate;
  readonly reversesSeq: number | null;
}

/** Known days on which the shelf had none: from the first such day, until the day something came (not included). */
export interface DaysWithout {
  readonly from: CalendarDate;
  readonly until: CalendarDate;
}

/**
 * What became of one item in the period, in units:
 * opening + putUp + bought + received + corrected - eaten - given - thrown away = closing.
 */
export interface ItemAccount {
  readonly itemId: string;
  readonly opening: number;
  readonly putUp: number;
  readonly bought: number;
  readonly received: number;
  /** Taken, and found eaten at a count. */
  readonly eaten: number;
  readonly given: number;
  /** By reason, the largest first; failed seals are the reason `seal failed`, an unsaid reason is `other`. */
  readonly thrownAway: readonly { readonly reason: string; readonly units: number }[];
  /** What counts put right and nobody ate: positive found, negative missing. */
  readonly corrected: number;
  readonly closing: number;
  readonly withoutAny: readonly DaysWithout[];
  readonly daysWithout: number;
  /** Days of the period of which the book knows what was eaten. */
  readonly days: number;
}

/** Units that a period is about: `from` included, `until` not. */
export interface AccountPeriod {
  readonly from: CalendarDate;
  readonly until: CalendarDate;
}

/**
 * The account of every item that moved before the period's end, by item id in alphabetical order. Reversed events and what
 * reversed them count as never having happened. The order of the events changes nothing. Throws RangeError for a period
 * that ends before it begins.
 *
 * @param knownFrom First day of which the book knows what was eaten of an item, null where it knows none yet: before it an empty
 * book says nothing about the shelf. Left out, it knows all days.
 */
export function accountOf(
  events: readonly AccountEvent[],
  period: AccountPeriod,
  knownFrom: (itemId: string) => CalendarDate | null = () => period.from,
): readonly ItemAccount[] {
  if (period.until <= period.from) {
    throw new RangeError(`accountOf: expected an end after ${period.from}, got ${period.until}`);
  }
  const byItem = groupedBy(
    standingEvents(events).filter(({ occurredOn }) => occurredOn < period.until),
    ({ itemId }) => itemId,
  );
  return [...byItem]
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([itemId, ofItem]) =>
      accountOfItem(itemId, ofItem, period, within(knownFrom(itemId) ?? period.until, period)),
    );
}

/** Events that were not taken back, without those that took others back. */
export function standingEvents(events: readonly AccountEvent[]): readonly AccountEvent[] {
  const reversed = new Set(events.map(({ reversesSeq }) => reversesSeq));
  return events.filter(({ kind, seq }) => kind !== 'reversed' && !reversed.has(seq));
}

const within = (day: CalendarDate, { from, until }: AccountPeriod): CalendarDate =>
  day < from ? from : day > until ? until : day;

function accountOfItem(
  itemId: string,
  events: readonly AccountEvent[],
  period: AccountPeriod,
  knownFrom: CalendarDate,
): ItemAccount {
  const inOrder = [...events].sort((one, other) =>
    one.occurredOn < other.occurredOn ? -1 : one.occurredOn > other.occurredOn ? 1 : one.seq - other.seq,
  );
  const opening = unitsOf(inOrder.filter((event) => event.occurredOn < period.from));
  const inPeriod = inOrder.filter((event) => event.occurredOn >= period.from);
  const came = (kind: AccountEvent['kind']): number =>
    unitsOf(inPeriod.filter((event) => event.kind === kind));
  const counted = inPeriod.filter((event) => event.kind === 'counted');
  const withoutAny = spansWithout(opening, inPeriod, period).flatMap(({ from, until }) =>
    until <= knownFrom ? [] : [{ from: from < knownFrom ? knownFrom : from, until }],
  );
  return {
    itemId,
    opening,
    putUp: came('put up'),
    bought: came('bought'),
    received: came('received'),
    eaten: positive(-came('taken') - unitsOf(counted.filter((event) => event.trainsUse))),
    given: positive(-came('given away')),
    thrownAway: thrownByReason(inPeriod),
    corrected: unitsOf(counted.filter((event) => !event.trainsUse)),
    closing: opening + unitsOf(inPeriod),
    withoutAny,
    daysWithout: withoutAny.reduce((sum, span) => sum + daysBetween(span.from, span.until), 0),
    days: daysBetween(knownFrom, period.until),
  };
}

function thrownByReason(events: readonly AccountEvent[]): { reason: string; units: number }[] {
  const byReason = new Map<string, number>();
  for (const event of events) {
    if (event.kind !== 'discarded' && event.kind !== 'seal failed') continue;
    const reason = event.kind === 'seal failed' ? 'seal failed' : (event.reason ?? 'other');
    byReason.set(reason, (byReason.get(reason) ?? 0) - event.units);
  }
  return [...byReason]
    .map(([reason, units]) => ({ reason, units }))
    .sort((one, other) => other.units - one.units || (one.reason < other.reason ? -1 : 1));
}

/** Only whole days count: a day on which the last jar left, or a new one came, was not without. */
function spansWithout(
  opening: number,
  events: readonly AccountEvent[],
  period: AccountPeriod,
): DaysWithout[] {
  const spans: DaysWithout[] = [];
  let stock = opening;
  let emptySince: CalendarDate | null = stock > crumb ? null : period.from;
  const close = (until: CalendarDate): void => {
    if (emptySince !== null && emptySince < until) spans.push({ from: emptySince, until });
    emptySince = null;
  };
  const days = [...new Set(events.map((event) => event.occurredOn))];
  for (const day of days) {
    stock += unitsOf(events.filter((event) => event.occurredOn === day));
    if (stock > crumb) close(day);
    else emptySince ??= addDays(day, 1);
  }
  close(period.until);
  return spans;
}

const unitsOf = (events: readonly AccountEvent[]): number =>
  events.reduce((sum, event) => sum + event.units, 0);

const positive = (units: number): number => (units === 0 ? 0 : units);
