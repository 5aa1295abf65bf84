import { found, type Outcome } from '../../shared/problems.ts';
import { lots } from '../queries/shelf.ts';
import { type Recording, record, refuse } from './record.ts';

/** Sets a lot aside, so that nobody eats from it until it is decided about; an empty reason releases it again. */
export const setAside = (
  recording: Recording,
  lotId: string,
  reason: string,
): Promise<Outcome<{ readonly lotId: string; readonly setAside: boolean }>> =>
  record(recording, 'set aside', { lotId, reason }, async ({ trx, householdId, at }) => {
    const [lot] = await lots(trx, householdId, { lotId, empty: true });
    if (!lot)
      return refuse(
        'lot-unknown',
        'lotId',
        `Expected a batch of this household; found “${lotId.slice(0, 64)}”. Choose one from the shelf.`,
      );
    const said = reason.trim().slice(0, 200);
    await trx
      .updateTable('lot')
      .set({ set_aside_at: said === '' ? null : at, set_aside_reason: said === '' ? null : said })
      .where('household_id', '=', householdId)
      .where('id', '=', lotId)
      .execute();
    return found({ lotId, setAside: said !== '' });
  });
