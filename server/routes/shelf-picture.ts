import type { FastifyRequest } from 'fastify';
import type { ItemId } from '../../shared/ids.ts';
import { ShelfwardError } from '../../shared/problems.ts';
import { addDays } from '../../shared/week.ts';
import type { ShelfPicture } from '../presenters/shelf.ts';
import type { KeptBack } from '../presenters/shelf-take.ts';
import { openConflicts } from '../queries/conflicts.ts';
import { recentEntries } from '../queries/ledger.ts';
import { recipes } from '../queries/recipes.ts';
import { type ItemOnShelf, shelfByItem } from '../queries/shelf.ts';
import { occasions } from '../queries/targets.ts';
import { acidityOf } from '../year/item-acidity.ts';
import { outlookByItem } from './outlook.ts';

/** Entries looked through for what can still be undone. */
const entriesLookedAt = 12;
/** A promise is kept back from this long before its day. */
const keptBackDays = 120;

/** The shelf of the household that asks, with what is promised and how long each item lasts. */
export async function shelfPicture(request: FastifyRequest): Promise<ShelfPicture> {
  const { db, now, reference } = request.server;
  const { id } = request.household;
  const [shelf, entries, promisedByItem, outlook, book, conflicts] = await Promise.all([
    shelfByItem(db, id),
    recentEntries(db, id, entriesLookedAt),
    promises(request),
    outlookByItem(request),
    recipes(db, id),
    openConflicts(db, id),
  ]);
  return {
    shelf,
    entries,
    conflicts,
    promisedByItem,
    outlookByItem: outlook,
    acidityByItem: new Map(shelf.map(({ item }) => [item.id, acidityOf(item, book, reference)])),
    now: now(),
    today: request.today,
    reading: request.reading,
  };
}

async function promises(request: FastifyRequest): Promise<ReadonlyMap<ItemId, KeptBack>> {
  const { today } = request;
  const dated = await occasions(request.server.db, request.household.id);
  const kept = new Map<ItemId, KeptBack>();
  for (const { itemId, kind, on, units } of dated) {
    if (kind !== 'promised' || on < today || on > addDays(today, keptBackDays)) continue;
    const before = kept.get(itemId);
    kept.set(itemId, { units: (before?.units ?? 0) + units, until: before?.until ?? on });
  }
  return kept;
}

/** The item a path names; an unknown one is a page that does not exist. */
export function itemOn(shelf: readonly ItemOnShelf[], itemId: string): ItemOnShelf {
  const found = shelf.find(({ item }) => item.id === itemId);
  if (!found) throw new ShelfwardError('not-found', `itemOn: no item ${itemId}`);
  return found;
}
