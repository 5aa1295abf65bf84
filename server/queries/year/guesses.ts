import type { HouseholdId } from '../../../shared/ids.ts';
import type { Database } from '../../database/database.ts';
import type { GuessTable } from '../../database/tables.ts';
import { fittingRows } from '../household/fitting.ts';

/** A figure the program guessed and the household has not made its own yet. */
export interface Guess {
  readonly kind: GuessTable['kind'];
  /** Id of the source, supply or recipe. */
  readonly subject: string;
}

export async function guessesOf(db: Database, householdId: HouseholdId): Promise<readonly Guess[]> {
  const rows = await db
    .selectFrom('guess')
    .select(['kind', 'subject'])
    .where('household_id', '=', householdId)
    .orderBy('kind')
    .orderBy('subject')
    .execute();
  return fittingRows('guess', rows);
}
