import type { GuessTable } from '../../database/tables.ts';
import type { Recorder } from '../record.ts';

export type GuessKind = GuessTable['kind'];

/** Writes down that a figure was guessed for the household. */
export async function noteGuess(recorder: Recorder, kind: GuessKind, subject: string): Promise<void> {
  await recorder.trx
    .insertInto('guess')
    .values({ household_id: recorder.householdId, kind, subject, guessed_at: recorder.at })
    .onConflict((same) => same.columns(['household_id', 'kind', 'subject']).doNothing())
    .execute();
}

/** The household has said the figure itself. */
export async function settleGuess(recorder: Recorder, kind: GuessKind, subject: string): Promise<void> {
  await recorder.trx
    .deleteFrom('guess')
    .where('household_id', '=', recorder.householdId)
    .where('kind', '=', kind)
    .where('subject', '=', subject)
    .execute();
}
