import { randomUUID } from 'node:crypto';
import { isOrAre } from '../../../shared/counting.ts';
import { dateWords } from '../../../shared/date-words.ts';
import type { LotId } from '../../../shared/ids.ts';
import type { JarKind } from '../../../shared/jar.ts';
import { found, type Outcome, type Problem, refused } from '../../../shared/problems.ts';
import {
  discardReasons,
  jarComesBack,
  type Take,
  type TakeKind,
} from '../../../shared/schemas/shelf/take.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import { type LotOnShelf, unitsStanding, usualUnits } from '../../../src/household/lot.ts';
import { isKeptTooLong } from '../../../src/shelf/best-quality.ts';
import { type Issue, issueFirstExpired, type ShelfLot } from '../../../src/shelf/first-expired.ts';
import { itemPromised } from '../../queries/household/items.ts';
import { lotsOf } from '../../queries/shelf/shelf.ts';
import { promisedByItem, promiseReason, unpromisedUnits } from '../../queries/year/promises.ts';
import { noItem, pastDay, unitsOf, wholeUnits } from '../canning/checks.ts';
import {
  problemsIn,
  type Reader,
  type Recorder,
  type Recording,
  type Rules,
  record,
  refuse,
} from '../record.ts';
import { addEmptyJarEvents, addJarEvents, newEntryId } from './jar-events.ts';

export interface TakeAnswer {
  /** Undo names this; empty when every unit became a conflict. */
  readonly entryId: string | null;
  readonly itemId: Item['id'];
  readonly kind: TakeKind;
  readonly from: readonly {
    readonly lotId: LotId;
    readonly batchCode: string;
    readonly jarKind: JarKind | null;
    readonly bestQualityUntil: CalendarDate;
    readonly units: number;
  }[];
  /** Units the book does not have; kept as a conflict until somebody settles it. */
  readonly conflictUnits: number;
  /** Units that were kept back for a promise and were taken all the same, before anybody could ask. */
  readonly promisedUnits: number;
}

/** Told what is left of an item that something was taken of, where all of it was looked at; not of a take that was sent again. */
export type OnLeft = (item: Item, units: number) => void;

/** Units leave the shelf: eaten, given away, thrown away or found unsealed. */
export const take = (recording: Recording, request: Take, onLeft?: OnLeft): Promise<Outcome<TakeAnswer>> =>
  record(recording, 'take', request, (recorder) => takeWithin(recorder, request, onLeft));

/** Whole jars, on a day that has come, and thrown away for a reason. */
export const takeRules: Rules<Take> = async (reader, asked) => {
  const { itemId = null, lotId = null } = asked;
  const shelf = itemId === null && lotId === null ? null : await whatStands(reader, { itemId, lotId });
  return rulesOver(shelf, reader, asked);
};

function rulesOver(
  shelf: Outcome<Standing> | null,
  reader: Reader,
  { units, kind, reason, occurredOn, late = false }: Readonly<Partial<Take>>,
): readonly Problem[] {
  return problemsIn(
    occurredOn === undefined ? found(null) : dayOfTake(reader, { occurredOn, late }),
    shelf?.ok && units !== undefined ? wholeUnits(shelf.value.item, units) : found(null),
    kind === undefined || reason === undefined ? found(null) : reasonSaid({ kind, reason }),
  );
}

export async function takeWithin(
  recorder: Recorder,
  request: Take,
  onLeft?: OnLeft,
): Promise<Outcome<TakeAnswer>> {
  const shelf = await whatStands(recorder, request);
  const day = dayOfTake(recorder, request);
  const wrong = rulesOver(shelf, recorder, request);
  if (!shelf.ok || !day.ok || wrong.length > 0) return refused(...problemsIn(shelf), ...wrong);
  const { item, isPromised, standing } = shelf.value;

  const offered = standing.filter((lot) => mayGive(lot, request, day.value));
  const issue = issueOf(offered, request, day.value);
  // The last of a bin is less than a whole one: who takes it takes what is left.
  const unmet = item.unit === 'bin' && issue.taken.length > 0 && issue.unmet < 1 ? 0 : issue.unmet;
  if (unmet > 0) {
    const short = shortfall(item, request, standing, offered, day.value);
    if (!short.ok) return short;
  }

  const promise = await heldForPromise(recorder, { item, isPromised }, request, day.value, issue.taken);
  if (!promise.ok) return promise;
  const { reason, promisedUnits } = promise.value;

  const entryId = issue.taken.length > 0 ? newEntryId() : null;
  const from = issue.taken.flatMap(({ lotId, units }) => {
    const lot = offered.find((candidate) => candidate.id === lotId);
    return lot ? [{ lot, units }] : [];
  });
  if (entryId !== null) await writeTake(recorder, entryId, { ...request, reason }, day.value, from);
  if (unmet > 0) await writeConflict(recorder, item, request, day.value, unmet);
  if (request.lotId === null) onLeft?.(item, unitsStanding(item, lessTaken(standing, issue.taken)));
  return found({
    entryId,
    itemId: item.id,
    kind: request.kind,
    from: from.map(({ lot, units }) => ({
      lotId: lot.id,
      batchCode: lot.batchCode,
      jarKind: lot.jarKind,
      bestQualityUntil: lot.bestQualityUntil,
      units,
    })),
    conflictUnits: unmet,
    promisedUnits,
  });
}

/**
 * First-expired-first-out; what is eaten or given away is not of what the household keeps no longer, while there is any other. A lot that
 * somebody names is taken as it stands in front of them, even before it is ready.
 */
function issueOf(
  offered: readonly LotOnShelf[],
  request: Take,
  on: CalendarDate,
): Pick<Issue, 'taken' | 'unmet'> {
  const leavesToEat = request.kind === 'taken' || request.kind === 'given away';
  const isLast = (lot: LotOnShelf) => leavesToEat && isKeptTooLong(lot, on);
  const asGiving = (lot: LotOnShelf): ShelfLot => ({
    lotId: lot.id,
    units: lot.unitsLeft,
    readyFrom: request.lotId === null ? lot.readyFrom : lot.madeOn,
    bestQualityUntil: lot.bestQualityUntil,
  });
  const kept = offered.filter((lot) => !isLast(lot)).map(asGiving);
  const first = issueFirstExpired(kept, request.units, on);
  const rest = issueFirstExpired(offered.filter(isLast).map(asGiving), first.unmet, on);
  return { taken: [...first.taken, ...rest.taken], unmet: rest.unmet };
}

const lessTaken = (
  lots: readonly LotOnShelf[],
  taken: readonly { readonly lotId: string; readonly units: number }[],
): readonly LotOnShelf[] =>
  lots.map((lot) => {
    const gone = taken.find(({ lotId }) => lotId === lot.id)?.units;
    return gone === undefined ? lot : { ...lot, unitsLeft: Math.max(0, lot.unitsLeft - gone) };
  });

/** A device whose clock runs ahead, or that lives a zone further east, has still done what it says: today at the latest. */
const dayOfTake = (
  reader: Reader,
  { occurredOn, late }: Pick<Take, 'occurredOn' | 'late'>,
): Outcome<CalendarDate> =>
  late && occurredOn !== null && occurredOn > reader.today
    ? found(reader.today)
    : pastDay(reader, 'occurredOn', occurredOn);

interface Standing {
  readonly item: Item;
  /** Something of it was promised to somebody, for whatever day. */
  readonly isPromised: boolean;
  /** Lots of the item (the named lot alone, when one was named), empty ones included. */
  readonly standing: readonly LotOnShelf[];
}

async function whatStands(
  reader: Reader,
  request: Pick<Take, 'itemId' | 'lotId'>,
): Promise<Outcome<Standing>> {
  const { trx, householdId } = reader;
  if (request.lotId === null) {
    const itemId = request.itemId ?? '';
    const own = await itemPromised(trx, householdId, itemId);
    if (own === null) return noItem(itemId);
    return found({ ...own, standing: await lotsOf(trx, householdId, { itemId: own.item.id }) });
  }
  const [lot] = await lotsOf(trx, householdId, { lotId: request.lotId, empty: true });
  if (!lot || (request.itemId !== null && request.itemId !== lot.itemId)) {
    return refuse(
      'lot-unknown',
      'lotId',
      `There is no batch “${request.lotId}” here. Choose one from the shelf.`,
    );
  }
  const own = await itemPromised(trx, householdId, lot.itemId);
  return own === null ? noItem(lot.itemId) : found({ ...own, standing: [lot] });
}

/** Set-aside lots are not eaten or given away, but may be thrown away; nothing is taken before it was made. */
const mayGive = (lot: LotOnShelf, request: Take, on: CalendarDate): boolean =>
  lot.madeOn <= on &&
  (request.jarKind === null || lot.jarKind === request.jarKind) &&
  (lot.setAside === null || request.kind === 'discarded' || request.kind === 'seal failed');

function reasonSaid(request: Pick<Take, 'kind' | 'reason'>): Outcome<true> {
  if (request.kind !== 'discarded' || discardReasons.some((known) => known === request.reason))
    return found(true);
  return refuse('reason-missing', 'reason', `Choose why it was thrown away: ${discardReasons.join(', ')}.`);
}

/**
 * More was taken than the book has. A take that was recorded elsewhere or names its jar has happened, and so has a take
 * from a shelf that the book thinks empty: the rest becomes a conflict. A number typed too high is asked about instead.
 */
function shortfall(
  item: Item,
  request: Take,
  standing: readonly LotOnShelf[],
  offered: readonly LotOnShelf[],
  on: CalendarDate,
): Outcome<true> {
  if (request.late) return found(true);
  const [setAside] = standing.filter((lot) => lot.setAside !== null && !offered.includes(lot));
  if (setAside && offered.length === 0) {
    return refuse(
      'lot-set-aside',
      'lotId',
      `What is left of ${item.name} is set aside: ${setAside.setAside?.reason ?? ''}. Do not eat it; decide about it on the shelf page first.`,
    );
  }
  const ready = offered.filter((lot) => request.lotId !== null || lot.readyFrom <= on);
  const [curing] = offered.filter((lot) => !ready.includes(lot));
  if (ready.length === 0 && curing) {
    return refuse(
      'not-ready',
      'occurredOn',
      `${item.name} is ready from ${dateWords(curing.readyFrom)}, so none is taken on ${dateWords(on)}. Wait until then, or choose the batch itself if you opened it all the same.`,
    );
  }
  const there = ready.reduce((total, lot) => total + lot.unitsLeft, 0);
  if (there > 0 && request.lotId === null) {
    return refuse(
      'more-than-there-is',
      'units',
      `The book has ${unitsOf(item, there)} of ${item.name}, not ${request.units}. Take fewer, or count the shelf.`,
    );
  }
  return found(true);
}

/**
 * What is promised to somebody is not eaten or given to others: only for the promise itself, which it then frees. A take
 * that happened elsewhere is written down all the same, and says how much of the promise it took.
 */
async function heldForPromise(
  recorder: Recorder,
  { item, isPromised }: Pick<Standing, 'item' | 'isPromised'>,
  request: Take,
  on: CalendarDate,
  taken: readonly { readonly lotId: string; readonly units: number }[],
): Promise<Outcome<{ readonly reason: string | null; readonly promisedUnits: number }>> {
  const { trx, householdId } = recorder;
  const free = found({ reason: request.reason, promisedUnits: 0 });
  if (request.kind !== 'taken' && request.kind !== 'given away') return free;
  const promised = isPromised && (await promisedByItem(trx, householdId, recorder.today, item.id));
  const kept = promised === false ? undefined : promised.get(item.id);
  if (kept === undefined)
    return request.forPromise && !request.late
      ? refuse(
          'no-promise',
          'forPromise',
          `No promise of ${item.name} is still to be kept. Take it without the tick.`,
        )
      : free;
  if (request.forPromise) return found({ reason: promiseReason(kept.until), promisedUnits: 0 });
  const lots = await lotsOf(trx, householdId, { itemId: item.id });
  const spare = Math.max(0, unpromisedUnits(item, lots, kept));
  const units = taken.reduce((sum, { lotId, units: own }) => {
    const lot = lots.find(({ id }) => id === lotId);
    return sum + usualUnits(item, lot?.jarKind ?? null, own);
  }, 0);
  const promisedUnits = Math.max(0, units - spare);
  if (promisedUnits < smallestPart || request.late) return found({ reason: request.reason, promisedUnits });
  return refuse(
    'promised',
    'units',
    `${unitsOf(item, kept.units)} of ${item.name} ${isOrAre(kept.units)} promised for ${dateWords(kept.until)}, so ${unitsOf(item, spare)} can be taken on ${dateWords(on)}, not ${request.units}. Take fewer, or say that it is for the promise.`,
  );
}

const smallestPart = 1e-9;

async function writeTake(
  recorder: Recorder,
  entryId: string,
  request: Take,
  on: CalendarDate,
  from: readonly { readonly lot: LotOnShelf; readonly units: number }[],
): Promise<void> {
  const takenBy = await whoTook(recorder, request.takenBy);
  await addJarEvents(
    recorder,
    from.map(({ lot, units }) => ({
      entryId,
      lotId: lot.id,
      kind: request.kind,
      units: -units,
      trainsUse: request.kind === 'taken' && !request.forPromise,
      reason: request.reason,
      occurredOn: on,
      takenBy,
    })),
  );
  const kind = jarOf(request);
  if (kind === null) return;
  await addEmptyJarEvents(
    recorder,
    from.flatMap(({ lot, units }) =>
      lot.jarKind === null || lot.origin === 'bought'
        ? []
        : [{ entryId, jarKind: lot.jarKind, kind, jars: units, occurredOn: on }],
    ),
  );
}

/** Who took it, as was said; nobody where the household does not say. */
async function whoTook({ trx, householdId }: Recorder, said: string | null): Promise<string | null> {
  if (said === null) return null;
  const { says_who_took } = await trx
    .selectFrom('household')
    .select('says_who_took')
    .where('id', '=', householdId)
    .executeTakeFirstOrThrow();
  return says_who_took === 1 ? said : null;
}

/** What becomes of the jar: empty again, away with somebody who brings it back, or gone (given for good, broken, suspect). */
function jarOf({ kind, reason }: Take): 'emptied' | 'lent' | null {
  if (kind === 'given away') return reason === jarComesBack ? 'lent' : null;
  return reason === 'not-sealed' || reason === 'broken' ? null : 'emptied';
}

async function writeConflict(
  recorder: Recorder,
  item: Item,
  request: Take,
  on: CalendarDate,
  units: number,
): Promise<void> {
  await recorder.trx
    .insertInto('jar_conflict')
    .values({
      household_id: recorder.householdId,
      id: randomUUID(),
      item_id: item.id,
      lot_id: request.lotId,
      kind: request.kind,
      units,
      occurred_on: on,
      recorded_at: recorder.at,
      settled_at: null,
      settled_as: null,
    })
    .execute();
}
