import { found, type Outcome } from '../../../shared/problems.ts';
import type { JarWishRequest } from '../../../shared/schemas/jar-wish.ts';
import { knownItem } from '../canning/checks.ts';
import { type Recording, record, refuse } from '../record.ts';

/** Says what one jar of an item is to be. */
export const wishForJars = (
  recording: Recording,
  request: JarWishRequest,
): Promise<Outcome<JarWishRequest>> =>
  record(recording, 'wish for jars', request, async ({ trx, householdId, ...rest }) => {
    const item = await knownItem({ trx, householdId, ...rest }, request.itemId);
    if (!item.ok) return item;
    if (item.value.usualJar === null)
      return refuse(
        'not-in-jars',
        'itemId',
        `${item.value.name} is counted by the ${item.value.unit}, not kept in jars, so there is no jar to choose for it.`,
      );
    await trx
      .updateTable('item')
      .set({ servings_per_unit: request.servingsPerUnit })
      .where('household_id', '=', householdId)
      .where('id', '=', item.value.id)
      .execute();
    const said = {
      meal_servings: request.mealServings,
      gift_size: request.giftSize,
      gift_jars: request.giftJars,
      lunch_size: request.lunchSize,
      lunch_jars: request.lunchJars,
    };
    await trx
      .insertInto('jar_wish')
      .values({ household_id: householdId, item_id: item.value.id, ...said })
      .onConflict((same) => same.columns(['household_id', 'item_id']).doUpdateSet(said))
      .execute();
    return found(request);
  });
