import type { HouseholdId, ItemId } from '../../../shared/ids.ts';
import type { JarSize } from '../../../shared/jar.ts';
import type { JarWish } from '../../../src/household/appetite.ts';
import type { Database } from '../../database/database.ts';
import { fittingRows } from '../household/fitting.ts';

/** By item; an item the household was not asked about has none. */
export async function jarWishesOf(
  db: Database,
  householdId: HouseholdId,
): Promise<ReadonlyMap<ItemId, JarWish>> {
  const rows = await db.selectFrom('jar_wish').selectAll().where('household_id', '=', householdId).execute();
  return new Map(
    fittingRows('jar_wish', rows).map((row) => [
      row.item_id as ItemId,
      {
        itemId: row.item_id as ItemId,
        mealServings: row.meal_servings,
        gifts: ownSize(row.gift_size, row.gift_jars),
        lunches: ownSize(row.lunch_size, row.lunch_jars),
      },
    ]),
  );
}

const ownSize = (size: string | null, jars: number | null): JarWish['gifts'] =>
  size === null || jars === null ? null : { size: size as JarSize, jars };
