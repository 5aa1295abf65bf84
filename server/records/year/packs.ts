import { found, type Outcome } from '../../../shared/problems.ts';
import type { PackRequest } from '../../../shared/schemas/item.ts';
import { shopPacksOf } from '../../queries/year/targets.ts';
import { knownItem } from '../canning/checks.ts';
import { freshId } from '../fresh-id.ts';
import { type Recorder, type Recording, record, refuse } from '../record.ts';

/** Adds a pack as a store sells it or changes one; of what is put up here the plan buys none unless it may. */
export const savePack = (
  recording: Recording,
  request: PackRequest,
): Promise<Outcome<{ readonly packId: string }>> =>
  record(recording, 'save pack', request, async (recorder) => {
    const known = await knownItem(recorder, request.itemId);
    if (!known.ok) return known;
    const own = await packsOf(recorder, request.itemId);
    if (request.packId !== '' && !own.some(({ id }) => id === request.packId)) return packUnknown();
    const packId =
      request.packId ||
      freshId(
        'pack-1',
        own.map(({ id }) => id),
      );
    const said = {
      units: request.units,
      price_cents: request.price,
      sale_from_month: request.saleFromMonth,
      sale_until_month: request.saleUntilMonth,
      sale_price_cents: request.salePrice,
      is_planned: known.value.kind === 'staple' || request.mayBuy ? 1 : 0,
    } as const;
    await recorder.trx
      .insertInto('shop_pack')
      .values({ household_id: recorder.householdId, item_id: request.itemId, id: packId, ...said })
      .onConflict((same) => same.columns(['household_id', 'item_id', 'id']).doUpdateSet(said))
      .execute();
    return found({ packId });
  });

/** Takes a pack off the list; the last one of what is only bought stays, or it could not be had at all. */
export const removePack = (
  recording: Recording,
  request: { readonly itemId: string; readonly packId: string },
): Promise<Outcome<{ readonly packId: string }>> =>
  record(recording, 'remove pack', request, async (recorder) => {
    const own = await packsOf(recorder, request.itemId);
    if (!own.some(({ id }) => id === request.packId)) return packUnknown();
    const item = await knownItem(recorder, request.itemId);
    if (!item.ok) return item;
    if (own.length === 1 && item.value.kind === 'staple')
      return refuse(
        'last-pack',
        'packId',
        'A staple is bought by the pack, and this is its last one. Change its size or price instead.',
      );
    await recorder.trx
      .deleteFrom('shop_pack')
      .where('household_id', '=', recorder.householdId)
      .where('item_id', '=', request.itemId)
      .where('id', '=', request.packId)
      .execute();
    return found({ packId: request.packId });
  });

const packsOf = async ({ trx, householdId }: Recorder, itemId: string) =>
  [...(await shopPacksOf(trx, householdId))].find(([id]) => id === itemId)?.[1] ?? [];

const packUnknown = (): Outcome<never> =>
  refuse('pack-unknown', 'packId', 'This item has no such pack. Load the page again and choose one.');
