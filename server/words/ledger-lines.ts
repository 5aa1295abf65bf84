import { addDays, asDate, type CalendarDate, isDay } from '../../shared/week.ts';
import type { Item } from '../../src/household/item.ts';
import type { Entry, JarEvent, JarEventKind } from '../../src/household/ledger.ts';
import type { ItemOnShelf, LotOnShelf } from '../../src/household/lot.ts';
import { isKeptTooLong } from '../../src/shelf/best-quality.ts';
import type { HistoryLine, LotLine } from '../../views/pages/shelf/shelf-item-page.tsx';
import type { UndoAction } from '../../views/pages/shelf/undo-bar.tsx';
import type { FormKeys } from '../../views/parts/form.tsx';
import type { ItemPart } from '../../views/parts/item-parts.tsx';
import { formatDate, formatDay, formatNumber } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import { amountOf, figureOf } from './shelf-units.ts';

const reasonWords: Readonly<Record<string, string>> = {
  taste: 'not to our taste',
  'not-sealed': 'swollen, leaking or unsealed',
  'past-best': 'past its best',
  broken: 'broken',
  'sorted-out': 'sorted out of the cellar',
  other: 'another reason',
  'taken-unrecorded': 'eaten, not written down',
  miscount: 'miscounted before',
  breakage: 'broken',
  gift: 'given away',
  found: 'found again',
};

/** Words of a reason; what was taken for a promise names the promise's day. */
export const reasonInWords = (reason: string | null): string =>
  reason === null ? '' : (reasonWords[reason] ?? reason.replace(/^promise (.+)$/, 'for the promise of $1'));

const doneWords: Readonly<Record<JarEventKind, string>> = {
  'put up': 'Put up',
  bought: 'Bought',
  received: 'Received',
  taken: 'Took',
  'given away': 'Gave away',
  discarded: 'Discarded',
  'seal failed': 'Seal failed on',
  counted: 'Counted',
  moved: 'Moved',
  finished: 'Finished',
  reversed: 'Undid',
};

/** How far back the undo bar reaches. */
const undoHours = 12;
const undoActions = 3;

/** The last things done that can still be taken back, newest first. */
export function undoable(entries: readonly Entry[], now: number): readonly Entry[] {
  const oldest = now - undoHours * 3_600_000;
  return entries.filter((entry) => !entry.isUndone && entry.recordedAt >= oldest).slice(0, undoActions);
}

export function presentUndoAction(
  entry: Entry,
  item: Item | undefined,
  setting: {
    readonly now: number;
    readonly today: CalendarDate;
    readonly reading: Reading;
    readonly keys: FormKeys;
    readonly answers: 'row' | ItemPart;
  },
): UndoAction {
  const { now, today, reading, keys, answers } = setting;
  const minutes = Math.floor((now - entry.recordedAt) / 60_000);
  const ago =
    minutes < 1 ? 'just now' : minutes < 60 ? `${minutes} min ago` : `${Math.floor(minutes / 60)} h ago`;
  const day = entry.occurredOn === today ? '' : `, for ${formatDay(entry.occurredOn, reading)}`;
  return {
    entryId: entry.id,
    itemId: entry.itemId,
    words: doneSentence(entry, item, reading),
    keep: keepColdWords(entry, item, reading),
    when: `${ago}${day}`,
    keys,
    answers,
  };
}

/** How long a jar just taken keeps once open; nothing for what is not opened at home or has no limit on record. */
function keepColdWords(entry: Entry, item: Item | undefined, reading: Reading): string | null {
  const isJar = entry.events.some(({ jarKind }) => jarKind !== null);
  if (entry.kind !== 'taken' || !isJar || item === undefined || item.keepColdDays === null) return null;
  return `Once open keep it cold, eat by ${formatDay(addDays(entry.occurredOn, item.keepColdDays), reading)}.`;
}

/** `Took 1 pint of Peach jam`, `Discarded 2 jars of Dill pickles: not to our taste` */
function doneSentence(entry: Entry, item: Item | undefined, reading: Reading): string {
  const units = Math.abs(entry.units);
  const [first] = entry.events;
  const alike = entry.events.every((event) => event.jarKind === first?.jarKind);
  const what =
    item === undefined
      ? formatNumber(units, reading)
      : amountOf(item, units, reading, alike ? (first?.jarKind ?? null) : null);
  const why = reasonInWords(entry.reason);
  if (entry.kind === 'moved' && first !== undefined)
    return `Moved batch ${first.batchCode} of ${entry.itemName}${moveWords(first)}`;
  if (entry.kind === 'finished') {
    const jars = item === undefined ? '' : ` ${amountOf(item, entry.events.length, reading, first?.jarKind)}`;
    return `Finished${jars} of ${entry.itemName}, ${openedWords(entry.reason, reading)}`;
  }
  const counted =
    entry.kind === 'counted'
      ? `Counted ${entry.itemName}: ${what} ${entry.units < 0 ? 'fewer' : 'more'}`
      : null;
  return `${counted ?? `${didWhat(entry)} ${what} of ${entry.itemName}`}${why === '' ? '' : `, ${why}`}`;
}

/** `Took`, or `Ida took` where the household says who. */
const didWhat = ({ kind, takenBy }: Entry): string =>
  takenBy === null ? doneWords[kind] : `${takenBy} ${doneWords[kind].toLowerCase()}`;

/** ` from Cellar to Kitchen shelf`; nothing where no move is on record. */
const moveWords = ({ move }: Pick<JarEvent, 'move'>): string =>
  move === null ? '' : `${move.from === null ? '' : ` from ${move.from}`} to ${move.to}`;

/** A finished jar carries the day it was opened as its reason. */
const openedWords = (reason: string | null, reading: Reading): string =>
  reason === null || !isDay(reason) ? 'opened some day' : `opened ${formatDay(asDate(reason), reading)}`;

export function presentLots(
  shelf: ItemOnShelf,
  nextLotId: string | null,
  today: CalendarDate,
  reading: Reading,
): readonly LotLine[] {
  return shelf.lots.map((lot) => ({
    id: lot.id,
    code: lot.batchCode,
    href: `/batches/${lot.id}`,
    left: amountOf(shelf.item, lot.unitsLeft, reading, lot.jarKind),
    made: formatDate(lot.madeOn, reading),
    bestUntil: formatDate(lot.bestQualityUntil, reading),
    place: lot.place?.name ?? '',
    placeHref: `/batches/${lot.id}#move`,
    remark: lotRemark(lot, shelf.item, { nextLotId, today, reading }),
    takeFrom: `/shelf/${shelf.item.id}?lot=${lot.id}`,
  }));
}

const keptTooLong = (
  { keeping }: Pick<Item, 'keeping'>,
  { keptUntil }: Pick<LotOnShelf, 'keptUntil'>,
  reading: Reading,
): string =>
  keeping === 'refrigerated' || keptUntil === null
    ? 'past its days in the refrigerator: throw it away'
    : `you keep it to ${formatDate(keptUntil, reading)} at most: throw it away`;

function lotRemark(
  lot: LotOnShelf,
  item: Item,
  {
    nextLotId,
    today,
    reading,
  }: { readonly nextLotId: string | null; readonly today: CalendarDate; readonly reading: Reading },
): string {
  if (lot.setAside !== null) return `set aside: ${lot.setAside.reason}`;
  if (lot.readyFrom > today) return `ready from ${formatDate(lot.readyFrom, reading)}`;
  const remarks = [
    lot.id === nextLotId ? 'next to take' : '',
    isKeptTooLong(lot, today)
      ? keptTooLong(item, lot, reading)
      : lot.bestQualityUntil < today
        ? 'past best quality'
        : '',
    lot.origin === 'received' ? 'process unknown' : '',
  ];
  return remarks.filter((remark) => remark !== '').join(', ');
}

function remarkOf(event: JarEvent, reading: Reading): string {
  if (event.kind === 'finished') return openedWords(event.reason, reading);
  return event.move === null ? reasonInWords(event.reason) : moveWords(event).trim();
}

export const presentHistory = (
  item: Item,
  events: readonly JarEvent[],
  reading: Reading,
): readonly HistoryLine[] =>
  events.map((event) => ({
    seq: event.seq,
    on: formatDate(event.occurredOn, reading),
    what: event.kind === 'reversed' ? 'undone' : event.kind,
    units:
      event.units === 0
        ? ''
        : `${event.units > 0 ? '+' : '−'}${figureOf(item, Math.abs(event.units), reading)}`,
    lot: event.batchCode,
    who: event.takenBy ?? '',
    remark: [remarkOf(event, reading), event.isReversed ? 'undone later' : '']
      .filter((remark) => remark !== '')
      .join(', '),
  }));
