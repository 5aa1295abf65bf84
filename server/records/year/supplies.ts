import { found, type Outcome } from '../../../shared/problems.ts';
import type { SupplyRequest } from '../../../shared/schemas/item.ts';
import { suppliesOf } from '../../queries/household/recipes.ts';
import { type Recording, record, refuse } from '../record.ts';
import { newEntryId } from '../shelf/jar-events.ts';
import { settleGuess } from './guesses.ts';
import { settleListed } from './settle-listed.ts';
import { addStoreEvent } from './stores.ts';

/** What a pack of a supply holds and costs, and how much of it is there now. */
export const setSupply = (
  recording: Recording,
  request: SupplyRequest,
): Promise<Outcome<{ readonly supplyId: string }>> =>
  record(recording, 'set supply', request, async (recorder) => {
    const { trx, householdId } = recorder;
    const before = (await suppliesOf(trx, householdId)).find(({ id }) => id === request.supplyId);
    if (before === undefined)
      return refuse(
        'supply-unknown',
        'supplyId',
        'Choose a supply from the list; a new one comes with the recipe that needs it.',
      );
    await trx
      .updateTable('supply')
      .set({
        pack_quantity: request.packQuantity,
        pack_price_cents: request.packPrice,
        on_hand: request.onHand,
      })
      .where('household_id', '=', householdId)
      .where('id', '=', request.supplyId)
      .execute();
    const more = request.onHand - before.onHand;
    if (more !== 0)
      await addStoreEvent(recorder, {
        entryId: newEntryId(),
        store: 'supply',
        subject: request.supplyId,
        kind: 'counted',
        quantity: more,
        occurredOn: recorder.today,
      });
    if (more > 0)
      await settleListed(recorder, {
        kind: 'supply',
        what: request.supplyId,
        quantity: more,
        entryId: null,
      });
    await settleGuess(recorder, 'supply', request.supplyId);
    return found({ supplyId: request.supplyId });
  });
