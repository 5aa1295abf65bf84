import { groupedBy } from '../../../shared/grouped-by.ts';
import type { LotId } from '../../../shared/ids.ts';
import { addDays, type CalendarDate, dateInZone, firstOf, lastOf } from '../../../shared/week.ts';
import type { HouseholdFacts } from '../../household/facts.ts';
import type { Item } from '../../household/item.ts';
import type { CountOfItem, JarEvent } from '../../household/ledger.ts';
import { type LotOnShelf, usualUnits } from '../../household/lot.ts';
import { eatenBeforeReason, pastUseReason } from '../../household/paper-record.ts';
import type { DaySpan } from '../household-calendar.ts';
import type { CheckedTakings } from '../recording-habit.ts';
import {
  daysUnrecorded,
  isRecordedAsItHappened,
  recordingBegins,
  type WrittenDown,
} from '../recording-start.ts';
import type { ShelfCounting, UseFacts } from '../use-history.ts';

/** What the ledger knows about the use of one item, in units of its usual jar. */
export interface ItemLedger
  extends Pick<UseFacts, 'movements' | 'takings' | 'countings' | 'unrecorded' | 'onPaper'> {
  /** First day that counts; null while no use was recorded or brought in from paper. */
  readonly from: CalendarDate | null;
  /** Since when what is eaten is recorded as it happens; null before. */
  readonly recordedSince: CalendarDate | null;
  readonly checked: CheckedTakings;
}

type Arrival = 'as it came' | 'stock-taking' | 'from paper';

interface LotInBook {
  readonly arrival: Arrival;
  /** First day it stood on the shelf as far as the book can count it. */
  readonly standsFrom: CalendarDate;
}

/** What the ledger of one item is read from. */
export interface LedgerAsked {
  readonly item: Item;
  /** Events of the item without what was reversed, in the order they were recorded. */
  readonly events: readonly JarEvent[];
  /** The item's lots and shelf counts. */
  readonly lots: readonly Pick<LotOnShelf, 'id' | 'readyFrom'>[];
  readonly counts: readonly CountOfItem[];
  readonly timeZone: string;
  /** "We have recorded since …", as the household said it. */
  readonly saidSince: CalendarDate | null;
  readonly asOf: CalendarDate;
}

/**
 * Reads the use of one item out of its ledger, up to `asOf`; amounts in units of its usual jar, 0 or more, days in the household's zone.
 * An empty ledger knows nothing: `from` and `recordedSince` are null.
 */
export function itemLedger(asked: LedgerAsked): ItemLedger {
  const { item, events, counts, timeZone: zone, asOf } = asked;
  const unitsOf = (event: JarEvent) => usualUnits(item, event.jarKind, event.units);
  const readyFrom = new Map(asked.lots.map((lot) => [lot.id, lot.readyFrom]));
  const inBook = lotsInBook(readyFrom, events, zone);
  const takings = events.filter((event) => event.kind === 'taken' && event.trainsUse);
  const recordedSince = recordingBegins({
    saidSince: asked.saidSince,
    takings: takings
      .filter(({ reason }) => reason !== pastUseReason)
      .map((event) => writtenDown(event, zone)),
    others: events.filter((event) => showsRecording(event, inBook)).map((event) => writtenDown(event, zone)),
    countedOn: counts.map((count) => count.countedOn),
    inBookFrom: [...inBook.values()].map((lot) => lot.standsFrom),
  });
  const onPaper = [...pastUseSpans(events), ...eatenBeforeSpans(readyFrom, events)];
  const paperCountings = eatenBeforeCountings(readyFrom, events, unitsOf);
  const live: readonly DaySpan[] =
    recordedSince === null ? [] : [{ from: recordedSince, until: addDays(asOf, 1) }];
  const from = firstOf([...live, ...onPaper].map((span) => span.from));
  const unsaidOn = (day: CalendarDate) =>
    events
      .filter((event) => isFoundAtCount(event) && event.occurredOn === day)
      .reduce((total, event) => total - unitsOf(event), 0);
  const countings: readonly ShelfCounting[] = counts.map((count) => ({
    on: count.countedOn,
    counted: count.countedUnits,
    takenUnsaid: unsaidOn(count.countedOn),
  }));
  const lastCount = countings.at(-1)?.on ?? null;
  const isChecked = ({ reason, occurredOn }: JarEvent) =>
    reason !== pastUseReason && lastCount !== null && occurredOn <= lastCount;
  return {
    from,
    recordedSince,
    onPaper,
    unrecorded: from === null ? [] : daysUnrecorded([...live, ...onPaper], from, addDays(asOf, 1)),
    takings: takings.map((event) => ({ on: event.occurredOn, units: -unitsOf(event) })),
    countings: [...countings, ...paperCountings],
    movements: events.map((event) => {
      const units = unitsOf(event);
      const ready = inBook.get(event.lotId)?.standsFrom ?? event.occurredOn;
      return { on: units > 0 && ready > event.occurredOn ? ready : event.occurredOn, units };
    }),
    checked: {
      tapped: takings.filter(isChecked).reduce((total, event) => total - unitsOf(event), 0),
      takenUnsaid: countings.reduce((total, { takenUnsaid }) => total + takenUnsaid, 0),
    },
  };
}

/** Days on which somebody wrote down something as it happened; what takes stock of the past shows no rhythm of recording. */
export function daysOfRecording(
  facts: Pick<HouseholdFacts, 'household' | 'counts'>,
  events: readonly JarEvent[],
): readonly CalendarDate[] {
  const zone = facts.household.timeZone;
  return [
    ...events
      .filter((event) => !isArrival(event) || isRecordedAsItHappened(writtenDown(event, zone)))
      .filter((event) => event.reason !== eatenBeforeReason)
      .map((event) => event.occurredOn),
    ...facts.counts.map((count) => count.countedOn),
  ];
}

const writtenDown = (event: JarEvent, zone: string): WrittenDown => ({
  on: event.occurredOn,
  writtenOn: dateInZone(event.recordedAt, zone),
});

const arrivalKinds: ReadonlySet<JarEvent['kind']> = new Set(['put up', 'bought', 'received']);
const isArrival = ({ kind }: JarEvent): boolean => arrivalKinds.has(kind);
const isFoundAtCount = ({ kind, trainsUse, reason }: JarEvent): boolean =>
  kind === 'counted' && trainsUse && reason !== eatenBeforeReason;

const lossKinds: ReadonlySet<JarEvent['kind']> = new Set(['given away', 'discarded', 'seal failed']);
const showsRecording = (event: JarEvent, inBook: ReadonlyMap<LotId, LotInBook>): boolean =>
  lossKinds.has(event.kind) || (isArrival(event) && inBook.get(event.lotId)?.arrival === 'as it came');

/**
 * How each lot came into the book. One that was written down late stands from the day it was written down, or from the first day
 * something of it was said to be gone.
 */
function lotsInBook(
  readyFrom: ReadonlyMap<LotId, CalendarDate>,
  events: readonly JarEvent[],
  zone: string,
): ReadonlyMap<LotId, LotInBook> {
  return new Map(
    [...groupedBy(events, (event) => event.lotId)].flatMap(([lotId, ofLot]): [LotId, LotInBook][] => {
      const came = ofLot.find(isArrival);
      if (came === undefined) return [];
      const written = writtenDown(came, zone);
      const ready = lastOf([readyFrom.get(lotId) ?? came.occurredOn, came.occurredOn]) ?? came.occurredOn;
      if (came.reason === pastUseReason) return [[lotId, { arrival: 'from paper', standsFrom: ready }]];
      if (ofLot.some(({ reason }) => reason === eatenBeforeReason))
        return [[lotId, { arrival: 'from paper', standsFrom: ready }]];
      if (isRecordedAsItHappened(written)) return [[lotId, { arrival: 'as it came', standsFrom: ready }]];
      const gone = ofLot.filter(({ units }) => units < 0).map(({ occurredOn }) => occurredOn);
      const inBookFrom = firstOf([...gone, written.writtenOn]) ?? written.writtenOn;
      return [[lotId, { arrival: 'stock-taking', standsFrom: lastOf([ready, inBookFrom]) ?? ready }]];
    }),
  );
}

/** From the first to the last day of every list of past use. */
const pastUseSpans = (events: readonly JarEvent[]): readonly DaySpan[] =>
  [
    ...groupedBy(
      events.filter(({ reason }) => reason === pastUseReason),
      ({ lotId }) => lotId,
    ).values(),
  ].flatMap((ofLot) => {
    const days = ofLot.map(({ occurredOn }) => occurredOn);
    const [came] = days;
    const from = firstOf(days) ?? came;
    return from === undefined ? [] : [{ from, until: addDays(lastOf(days) ?? from, 1) }];
  });

interface EatenBefore {
  readonly event: JarEvent;
  readonly since: CalendarDate;
}

const eatenBefore = (
  readyFrom: ReadonlyMap<LotId, CalendarDate>,
  events: readonly JarEvent[],
): readonly EatenBefore[] =>
  events
    .filter(({ reason }) => reason === eatenBeforeReason)
    .map((event) => {
      const ready = readyFrom.get(event.lotId) ?? event.occurredOn;
      return { event, since: firstOf([ready, event.occurredOn]) ?? ready };
    });

const eatenBeforeSpans = (
  readyFrom: ReadonlyMap<LotId, CalendarDate>,
  events: readonly JarEvent[],
): readonly DaySpan[] =>
  eatenBefore(readyFrom, events).map(({ event, since }) => ({
    from: since,
    until: addDays(event.occurredOn, 1),
  }));

/** "Put up 30 in August, 8 left": what all lots said so on one day lost since the first of them was put up. */
const eatenBeforeCountings = (
  readyFrom: ReadonlyMap<LotId, CalendarDate>,
  events: readonly JarEvent[],
  unitsOf: (event: JarEvent) => number,
): readonly ShelfCounting[] =>
  [...groupedBy(eatenBefore(readyFrom, events), ({ event }) => event.occurredOn)].map(([on, said]) => {
    const lots = new Set(said.map(({ event }) => event.lotId));
    return {
      on,
      since: firstOf(said.map(({ since }) => since)) ?? on,
      takenUnsaid: said.reduce((total, { event }) => total - unitsOf(event), 0),
      counted: events
        .filter(({ lotId, occurredOn }) => lots.has(lotId) && occurredOn <= on)
        .reduce((total, event) => total + unitsOf(event), 0),
    };
  });
