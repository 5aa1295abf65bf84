import type { FastifyRequest } from 'fastify';
import type { HouseholdId, ItemId } from '../../shared/ids.ts';
import { whileTheSame } from '../../shared/remembering.ts';
import type { Item } from '../../src/household/item.ts';
import type { JarEvent } from '../../src/household/ledger.ts';
import type { ItemOnShelf, LotOnShelf } from '../../src/household/lot.ts';
import type { OpenJarsHere } from '../../src/shelf/open-jars-here.ts';
import type { Database } from '../database/database.ts';
import { itemsOnShelf } from '../queries/household/items.ts';
import { ledgerOf } from '../queries/shelf/ledger.ts';
import { openJarsIn } from '../queries/shelf/open-jars.ts';
import { isAheadOf, lotsOf, onShelf } from '../queries/shelf/shelf.ts';
import { oncePerPicture } from './year-of-request.ts';

/** All that is written down of a household's jars, whatever day it says. */
interface Book {
  readonly items: readonly Item[];
  /** Empty ones too. */
  readonly lots: readonly LotOnShelf[];
  /** In the order they were recorded. */
  readonly events: readonly JarEvent[];
}

/** The facts go up to today: where nothing is written down of a later day, they are the book. */
const bookByPicture = oncePerPicture<Book>(async ({ loaded: { facts }, asOf }, { server: { db } }) =>
  (await isAheadOf(db, facts.household.id, asOf)) ? wholeBook(db, facts.household.id) : facts,
);

const wholeBook = async (db: Database, householdId: HouseholdId): Promise<Book> => {
  const [items, lots, events] = await Promise.all([
    itemsOnShelf(db, householdId),
    lotsOf(db, householdId, { empty: true }),
    ledgerOf(db, householdId),
  ]);
  return { items, lots, events };
};

/** The book of the household that asks; a fault in the picture of its year must not take what stands on its shelf along. */
export async function bookOfRequest(request: FastifyRequest): Promise<Book> {
  try {
    return await bookByPicture(request);
  } catch (error) {
    request.log.error({ err: error }, 'the book was read without the picture of the year');
    return wholeBook(request.server.db, request.household.id);
  }
}

/** Lots with something left of them, first-expired first. */
export const lotsOfRequest = async (request: FastifyRequest): Promise<readonly LotOnShelf[]> =>
  lotsLeft({ lots: (await bookOfRequest(request)).lots });

/** Every item kept, and those being eaten down, with lots first-expired first. */
export async function shelfOfRequest(request: FastifyRequest): Promise<readonly ItemOnShelf[]> {
  const { items, lots } = await bookOfRequest(request);
  return shelfOf({ items, lots });
}

const lotsLeft = whileTheSame('lots', ({ lots }: Pick<Book, 'lots'>) =>
  lots.filter(({ unitsLeft }) => unitsLeft > 0),
);
const shelfOf = whileTheSame('lots', ({ items, lots }: Pick<Book, 'items' | 'lots'>) => onShelf(items, lots));

/** What was written down of an item, in that order. */
export const historyOf = async (request: FastifyRequest, item: ItemId): Promise<readonly JarEvent[]> =>
  (await bookOfRequest(request)).events.filter(({ itemId }) => itemId === item);

const openJarsByPicture = oncePerPicture(async ({ asOf }, request) => {
  const { items, events } = await bookOfRequest(request);
  return openJarsIn(items, events, asOf);
});

/** Jars that stand open in the refrigerator today, the soonest limit first; of one item, or of all. */
export async function openJarsOfRequest(
  request: FastifyRequest,
  item?: ItemId,
): Promise<readonly OpenJarsHere[]> {
  const all = await openJarsByPicture(request);
  return item === undefined ? all : all.filter(({ itemId }) => itemId === item);
}
