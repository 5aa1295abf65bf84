import type { FastifyRequest } from 'fastify';
import type { ItemId } from '../../../shared/ids.ts';
import { ShelfwardError } from '../../../shared/problems.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import { lastEntries } from '../../../src/household/last-entries.ts';
import type { Entry } from '../../../src/household/ledger.ts';
import type { ItemOnShelf } from '../../../src/household/lot.ts';
import type { SuspectJar } from '../../../src/preserving/afterwards/found-unsealed.ts';
import { acidityOf } from '../../../src/preserving/recipes/item-acidity.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { membersOf } from '../../access/members.ts';
import type { OpenConflict } from '../../queries/shelf/conflicts.ts';
import { openConflicts } from '../../queries/shelf/conflicts.ts';
import type { PromisedUnits } from '../../queries/year/promises.ts';
import { promisedIn } from '../../queries/year/promises.ts';
import { bookOfRequest, shelfOfRequest } from '../../year/book-of-year.ts';
import { oncePerPicture } from '../../year/year-of-request.ts';
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
  const { household, person, today, reading } = request;
  return {
    ...(await standingOf(request)),
    takenBy: {
      household: household.id,
      person: person?.id ?? '',
      others: await othersWhoTake(request),
      words: [household.name, person?.name].filter((name) => name !== undefined).join(', '),
    },
    now: request.server.now(),
    today,
    reading,
  };
}

/** What of it is the same whoever looks. */
const standingOf = oncePerPicture<Omit<ShelfPicture, 'takenBy' | 'now' | 'today' | 'reading'>>(
  async ({ loaded: { facts }, asOf }, request) => {
    const { db, reference } = request.server;
    const [book, shelf, outlook, conflicts] = await Promise.all([
      bookOfRequest(request),
      shelfOfRequest(request),
      shelfOutlook(request),
      openConflicts(db, facts.household.id),
    ]);
    return {
      shelf,
      entries: lastEntries(book.events, entriesLookedAt),
      conflicts,
      promisedByItem: promisedIn({ ...book, occasions: facts.occasions }, asOf),
      outlookByItem: outlook.byItem,
      runOutSummary: outlook.summary,
      acidityByItem: new Map(shelf.map(({ item }) => [item.id, acidityOf(item, facts.recipes, reference)])),
    };
  },
);

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
