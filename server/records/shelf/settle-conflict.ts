import { found, type Outcome } from '../../../shared/problems.ts';
import { type Recording, record, refuse } from '../record.ts';

export const conflictSettlements = ['was the same jar', 'found at the count'] as const;
export type ConflictSettlement = (typeof conflictSettlements)[number];

/** Says what became of a take that the book had no jar for; the row stays. */
export const settleConflict = (
  recording: Recording,
  conflictId: string,
  settledAs: ConflictSettlement,
): Promise<Outcome<{ readonly conflictId: string }>> =>
  record(recording, 'settle conflict', { conflictId, settledAs }, async ({ trx, householdId, at }) => {
    const { numUpdatedRows } = await trx
      .updateTable('jar_conflict')
      .set({ settled_at: at, settled_as: settledAs })
      .where('household_id', '=', householdId)
      .where('id', '=', conflictId)
      .where('settled_at', 'is', null)
      .executeTakeFirstOrThrow();
    return numUpdatedRows === 1n
      ? found({ conflictId })
      : refuse(
          'conflict-unknown',
          'conflictId',
          'That take does not wait to be settled; it may be settled already. Load the page again.',
        );
  });
