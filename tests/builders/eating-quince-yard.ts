import { copyFile } from 'node:fs/promises';
import { type Database, openDatabase } from '../../server/database/database.ts';
import type { ItemId } from '../../shared/ids.ts';
import { curedPickles, greenBeans, oats, plumJam, quinceYard } from './quince-yard.ts';

// Quince Yard as a household that was drawn by chance: what it eats of its four things, in a file of its own.

export const itemsEaten: readonly ItemId[] = [plumJam, greenBeans, curedPickles, oats];

/** Copies a file in which nothing was said yet, and says how many units of each of `itemsEaten` are eaten a week. */
export async function eatingQuinceYard(
  empty: string,
  file: string,
  perWeek: readonly number[],
): Promise<Database> {
  await copyFile(empty, file);
  const db = await openDatabase(file);
  const own = { household_id: quinceYard };
  await db.insertInto('kitchen_time').values(own).execute();
  await db
    .insertInto('shop_pack')
    .values({ ...own, item_id: oats, id: 'two-pounds', units: 2, price_cents: 349 })
    .execute();
  await db
    .insertInto('declared_use')
    .values(
      itemsEaten.map((item_id, place) => ({
        ...own,
        item_id,
        amount: perWeek[place] ?? 0,
        since_on: '2026-08-10',
        per: 'week' as const,
        counted_in: 'units' as const,
        recorded_at: 0,
      })),
    )
    .execute();
  return db;
}
