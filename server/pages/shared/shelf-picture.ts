import type { FastifyRequest } from 'fastify';
import type { ItemId } from '../../../shared/ids.ts';
import { ShelfwardError } from '../../../shared/problems.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Entry } from '../../../src/household/ledger.ts';
import type { ItemOnShelf } from '../../../src/household/lot.ts';
import type { SuspectJar } from '../../../src/preserving/afterwards/found-unsealed.ts';
import { acidityOf } from '../../../src/preserving/recipes/item-acidity.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { membersOf } from '../../access/members.ts';
import type { OpenConflict } from '../../queries/shelf/conflicts.ts';
import { openConflicts } from '../../queries/shelf/conflicts.ts';
import { recentEntries } from '../../queries/shelf/ledger.ts';
import { shelfByItem } from '../../queries/shelf/shelf.ts';
import type { PromisedUnits } from '../../queries/year/promises.ts';
import { promisedByItem } from '../../queries/year/promises.ts';
import { factsOfRequest } from '../../year/year-of-request.ts';
import type { ItemOutlook } from './present-stock.ts';
import type { TakenBy } from './present-take.ts';
import { shelfOutlook } from './shelf-outlook.ts';

/** The shelf as it stands, and how long each item of it lasts. */
export interface ShelfPicture {
  readonly shelf: readonly ItemOnShelf[];
  readonly outlookByItem: ReadonlyMap<ItemId, ItemOutlook>;
  /** `With this plan, 7 of your 23 preserves will probably run out before you can make more.` */
  readonly runOutSummary: string;
  readonly promisedByItem: ReadonlyMap<ItemId, PromisedUnits>;
  /** How acid each item is; null for what is not kept in sealed jars. */
  readonly acidityByItem: ReadonlyMap<ItemId, SuspectJar['acidity'] | null>;
  readonly entries: readonly Entry[];
  readonly conflicts: readonly OpenConflict[];
  readonly takenBy: TakenBy;
  readonly now: number;
  readonly today: CalendarDate;
  readonly reading: Reading;
}

/** Entries looked through for what can still be undone. */
const entriesLookedAt = 12;

/** The shelf of the household that asks, with what is promised and how long each item lasts. */
export async function shelfPicture(request: FastifyRequest): Promise<ShelfPicture> {
  const { db, now, reference } = request.server;
  const { id } = request.household;
  const [{ recipes }, shelf, entries, promised, outlook, conflicts] = await Promise.all([
    factsOfRequest(request),
    shelfByItem(db, id),
    recentEntries(db, id, entriesLookedAt),
    promisedByItem(db, id, request.today),
    shelfOutlook(request),
    openConflicts(db, id),
  ]);
  return {
    shelf,
    entries,
    conflicts,
    promisedByItem: promised,
    outlookByItem: outlook.byItem,
    runOutSummary: outlook.summary,
    acidityByItem: new Map(shelf.map(({ item }) => [item.id, acidityOf(item, recipes, reference)])),
    takenBy: {
      household: id,
      person: request.person?.id ?? '',
      others: await othersWhoTake(request),
      words: [request.household.name, request.person?.name].filter((name) => name !== undefined).join(', '),
    },
    now: now(),
    today: request.today,
    reading: request.reading,
  };
}

/** Members besides the one who looks, where the household says who took a jar. */
async function othersWhoTake({ server, household, person }: FastifyRequest): Promise<readonly string[]> {
  if (!household.saysWhoTook) return [];
  const members = await membersOf(server.db, household.id);
  return members.filter(({ personId }) => personId !== person?.id).map(({ name }) => name);
}

/** The item a path names; an unknown one is a page that does not exist. */
export function itemOn(shelf: readonly ItemOnShelf[], itemId: string): ItemOnShelf {
  const found = shelf.find(({ item }) => item.id === itemId);
  if (!found) throw new ShelfwardError('not-found', `itemOn: no item ${itemId}`);
  return found;
}
