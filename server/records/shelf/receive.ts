import { found, type Outcome } from '../../../shared/problems.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { Purchase } from '../../../shared/schemas/shelf/purchase.ts';
import { receivedCounts } from '../../../src/preserving/afterwards/process-evidence.ts';
import { acidityOf } from '../../../src/preserving/recipes/item-acidity.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { knownItem } from '../canning/checks.ts';
import { type Recording, record } from '../record.ts';
import { type BuyAnswer, buyWithin } from './buy.ts';
import { setAsideWithin } from './set-aside.ts';

const processUnknown = 'received from others, process unknown, and not surely acid: not counted as food';

export interface ReceiveAnswer extends BuyAnswer {
  readonly countsAsFood: boolean;
}

/**
 * Food from others comes onto the shelf. Nobody here knows how it was processed: low-acid food, and food whose acidity is
 * not known, is set aside at once and never counted.
 */
export const receive = (
  recording: Recording,
  reference: ReferenceTables,
  request: Purchase,
): Promise<Outcome<ReceiveAnswer>> =>
  record(recording, 'receive', request, async (recorder) => {
    const item = await knownItem(recorder, request.itemId);
    if (!item.ok) return item;
    const bought = await buyWithin(recorder, { ...request, origin: 'received' });
    if (!bought.ok) return bought;
    const acidity = acidityOf(item.value, await recipesOf(recorder.trx, recorder.householdId), reference);
    const countsAsFood = acidity === null || receivedCounts(acidity);
    if (!countsAsFood) await setAsideWithin(recorder, [bought.value.lotId], processUnknown);
    return found({ ...bought.value, countsAsFood });
  });
