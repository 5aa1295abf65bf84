import type { CannerId, ItemId, LotId, PlaceId, RecipeId } from '../../shared/ids.ts';
import type { JarKind } from '../../shared/jar.ts';
import type { Cents } from '../../shared/money.ts';
import { addDays, type CalendarDate } from '../../shared/week.ts';

// The vocabulary of the demo's story: put up, buy, take, give away, find a failed seal, discard, count. Two truths are
// kept side by side: what is on the shelf, and what the book says stands there (jars taken without a word are in the
// book until somebody counts).

export interface Evidence {
  readonly cannerId: CannerId;
  readonly method: string;
  readonly gauge: string | null;
  readonly scheduleRow: string;
  readonly psi: number | null;
  readonly minutesRun: number;
  readonly acidTicked: boolean | null;
}

export interface BookLot {
  readonly id: LotId;
  readonly itemId: ItemId;
  readonly recipeId: RecipeId | null;
  readonly batchCode: string;
  readonly jarKind: JarKind | null;
  readonly origin: 'put-up' | 'bought';
  readonly madeOn: CalendarDate;
  readonly readyFrom: CalendarDate;
  readonly bestQualityUntil: CalendarDate;
  readonly placeId: PlaceId;
  readonly cost: Cents | null;
  readonly evidence: Evidence | null;
  /** Jars that stand where nobody looks and are never taken in the story. */
  readonly outOfSight: number;
}

export interface BookEvent {
  readonly entry: number;
  readonly lotId: LotId;
  readonly kind: 'put up' | 'bought' | 'taken' | 'given away' | 'seal failed' | 'discarded' | 'counted';
  readonly units: number;
  readonly trainsUse: boolean;
  readonly reason: string | null;
  readonly on: CalendarDate;
}

export interface BookCount {
  readonly itemId: ItemId;
  readonly on: CalendarDate;
  readonly bookUnits: number;
  readonly countedUnits: number;
}

export interface JarMove {
  readonly entry: number;
  readonly jarKind: JarKind;
  readonly kind: 'filled' | 'emptied';
  readonly jars: number;
  readonly on: CalendarDate;
}

/** The written book from its first day on. */
export interface PantryBook {
  readonly lots: readonly BookLot[];
  readonly events: readonly BookEvent[];
  readonly counts: readonly BookCount[];
  readonly jarMoves: readonly JarMove[];
}

interface ShelvedLot extends BookLot {
  onShelf: number;
  inBook: number;
}

export type NewLot = Omit<BookLot, 'id' | 'batchCode'> & { readonly units: number };

/** Batches of one item and day, in the batch code: 260812-A, then 260812-B. */
const batchLetters = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];

/** Opens a pantry whose book begins on `opensOn`; what happens before stands on the shelf but is not written. */
export const openPantry = (opensOn: CalendarDate) => {
  let shelf: ShelvedLot[] = [];
  const events: BookEvent[] = [];
  const counts: BookCount[] = [];
  const jarMoves: JarMove[] = [];
  let entry = 0;
  let opened = false;

  const lotsByItem = new Map<ItemId, ShelvedLot[]>();

  /** First-expired first. */
  const lotsOf = (itemId: ItemId): readonly ShelvedLot[] => lotsByItem.get(itemId) ?? [];

  const write = (lot: ShelvedLot, event: Omit<BookEvent, 'entry' | 'lotId'>): void => {
    if (!opened) return;
    events.push({ entry, lotId: lot.id, ...event });
    lot.inBook += event.units;
  };

  const moveJars = (lot: ShelvedLot, kind: JarMove['kind'], jars: number, on: CalendarDate): void => {
    if (!opened || lot.jarKind === null || jars === 0) return;
    jarMoves.push({ entry, jarKind: lot.jarKind, kind, jars, on });
  };

  const shelve = ({ units, ...made }: NewLot): void => {
    const day = made.madeOn.slice(2).replaceAll('-', '');
    const earlier = lotsOf(made.itemId).filter((lot) => lot.madeOn === made.madeOn).length;
    const batchCode = `${day}-${batchLetters[earlier] ?? earlier}`;
    const lot: ShelvedLot = {
      ...made,
      id: `${made.itemId}-${batchCode.toLowerCase()}` as LotId,
      batchCode,
      onShelf: units,
      inBook: 0,
    };
    shelf.push(lot);
    lotsByItem.set(lot.itemId, [...lotsOf(lot.itemId), lot].sort(byBestQuality));
    entry += 1;
    const kind = made.origin === 'put-up' ? 'put up' : 'bought';
    write(lot, { kind, units, trainsUse: false, reason: null, on: made.madeOn });
    if (made.origin === 'put-up') moveJars(lot, 'filled', -units, made.madeOn);
  };

  /** Takes the unit a person would take: the oldest that is ready, or the newest when `fromFront`. */
  const reach = (itemId: ItemId, on: CalendarDate, fromFront: boolean): ShelvedLot | undefined => {
    const ready = lotsOf(itemId).filter((lot) => lot.readyFrom <= on && lot.onShelf - lot.outOfSight >= 1);
    return fromFront ? ready.at(-1) : ready[0];
  };

  return {
    putUp: shelve,
    buy: shelve,

    /** One unit leaves to be eaten; `said` is whether somebody recorded it. False when there was none to take. */
    take: (itemId: ItemId, on: CalendarDate, how: { fromFront: boolean; said: boolean }): boolean => {
      const lot = reach(itemId, on, how.fromFront);
      if (!lot) return false;
      lot.onShelf -= 1;
      entry += 1;
      if (how.said) write(lot, { kind: 'taken', units: -1, trainsUse: true, reason: null, on });
      moveJars(lot, 'emptied', 1, on);
      return true;
    },

    giveAway: (itemId: ItemId, units: number, on: CalendarDate, reason: string): void => {
      entry += 1;
      for (let owing = units; owing > 0; ) {
        const lot = reach(itemId, on, true);
        if (!lot) return;
        const given = Math.min(owing, lot.onShelf - lot.outOfSight);
        lot.onShelf -= given;
        owing -= given;
        write(lot, { kind: 'given away', units: -given, trainsUse: false, reason, on });
      }
    },

    /** The day after a batch one of its jars has not sealed; it goes to the refrigerator and is eaten. */
    findFailedSeal: (madeOn: CalendarDate, itemId: ItemId): void => {
      const lot = lotsOf(itemId).find((candidate) => candidate.madeOn === madeOn && candidate.onShelf >= 1);
      if (!lot) return;
      lot.onShelf -= 1;
      entry += 1;
      const on = addDays(madeOn, 1);
      write(lot, { kind: 'seal failed', units: -1, trainsUse: false, reason: 'refrigerated and eaten', on });
      moveJars(lot, 'emptied', 1, on);
    },

    discard: (itemId: ItemId, on: CalendarDate, reason: string): void => {
      const lot = reach(itemId, on, false);
      if (!lot) return;
      lot.onShelf -= 1;
      entry += 1;
      write(lot, { kind: 'discarded', units: -1, trainsUse: false, reason, on });
    },

    /** Somebody counts the item: what the book has too many was taken without a word. */
    count: (itemId: ItemId, on: CalendarDate): void => {
      const lots = lotsOf(itemId);
      const bookUnits = total(lots.map((lot) => lot.inBook));
      const countedUnits = total(lots.map((lot) => lot.onShelf));
      entry += 1;
      for (const lot of lots) {
        const missing = lot.inBook - lot.onShelf;
        if (missing > 0)
          write(lot, {
            kind: 'counted',
            units: -missing,
            trainsUse: true,
            reason: 'taken-unrecorded',
            on,
          });
      }
      if (opened) counts.push({ itemId, on, bookUnits, countedUnits });
    },

    unitsOnShelf: (itemId: ItemId): number => total(lotsOf(itemId).map((lot) => lot.onShelf)),

    /** The book's first day: everything that stands is written down, each lot with the day it was made. */
    openBook: (): void => {
      shelf = shelf.filter((lot) => lot.onShelf > 0);
      opened = true;
      for (const lot of shelf) {
        entry += 1;
        write(lot, {
          kind: lot.origin === 'put-up' ? 'put up' : 'bought',
          units: lot.onShelf,
          trainsUse: false,
          reason: 'on the shelf when the records began',
          on: opensOn,
        });
      }
    },

    book: (): PantryBook => ({
      lots: shelf.map(({ onShelf: _onShelf, inBook: _inBook, ...lot }) => lot),
      events,
      counts,
      jarMoves,
    }),
  };
};
export type Pantry = ReturnType<typeof openPantry>;

const byBestQuality = (one: BookLot, other: BookLot): number => {
  if (one.bestQualityUntil !== other.bestQualityUntil)
    return one.bestQualityUntil < other.bestQualityUntil ? -1 : 1;
  return one.id < other.id ? -1 : 1;
};

const total = (units: readonly number[]): number => units.reduce((sum, next) => sum + next, 0);
