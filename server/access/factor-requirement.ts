import type { HouseholdId } from '../../shared/ids.ts';
import { found, type Outcome, type Problem, refused } from '../../shared/problems.ts';
import type { Database } from '../database/database.ts';
import { hasSecondFactor } from './second-factor.ts';
import type { Person } from './sign-ins.ts';

/**
 * Of whom a second factor is asked beside the members of households that ask for it: of nobody, of everybody at once, or of
 * everybody within two weeks of the first page, which is the rule where others reach the program and nobody says otherwise.
 */
export type FactorRule = 'by-household' | 'everyone' | 'two-weeks';

export const factorWithinMs = 14 * 24 * 60 * 60_000;

export interface FactorRequirement {
  readonly requiredAt: number;
  readonly byName: string;
}

/** Since when a household asks a second factor of its members, and who said so; null while it does not. */
export async function factorRequirement(
  db: Database,
  householdId: HouseholdId,
): Promise<FactorRequirement | null> {
  const row = await db
    .selectFrom('factor_requirement')
    .select(['required_at', 'by_name'])
    .where('household_id', '=', householdId)
    .executeTakeFirst();
  return row ? { requiredAt: row.required_at, byName: row.by_name } : null;
}

const ownFirst: Problem = {
  code: 'factor-own-first',
  path: [''],
  message: 'Set up your own second factor first, under How you sign in: otherwise nobody could come in.',
};

/** An owner asks a second factor of every member from now on, or no longer. Whoever asks for it has one. */
export async function askFactor(
  db: Database,
  householdId: HouseholdId,
  { id, name }: Pick<Person, 'id' | 'name'>,
  { wanted, now }: { readonly wanted: boolean; readonly now: number },
): Promise<Outcome<true>> {
  return db.transaction().execute(async (trx) => {
    if (wanted && !(await hasSecondFactor(trx, id))) return refused(ownFirst);
    if (!wanted) await trx.deleteFrom('factor_requirement').where('household_id', '=', householdId).execute();
    else
      await trx
        .insertInto('factor_requirement')
        .values({ household_id: householdId, required_at: now, by_name: name })
        .onConflict((same) => same.column('household_id').doNothing())
        .execute();
    return found(true);
  });
}

/** Whether somebody has to set a second factor up before anything else, and until when it may wait; null: nothing is asked. */
export type FactorStanding = null | 'now' | { readonly until: number };

export async function factorStanding(
  db: Database,
  person: Person,
  { rule, now }: { readonly rule: FactorRule; readonly now: number },
): Promise<FactorStanding> {
  if (await hasSecondFactor(db, person.id)) return null;
  const households = [...person.roleIn.keys()];
  const asking =
    households.length === 0
      ? undefined
      : await db
          .selectFrom('factor_requirement')
          .select('household_id')
          .where('household_id', 'in', households)
          .executeTakeFirst();
  if (asking !== undefined || rule === 'everyone') return 'now';
  if (rule === 'by-household') return null;
  const until = await dueOf(db, person.id, now);
  return until <= now ? 'now' : { until };
}

/** The end of the two weeks, which begin with the first page that asks. */
async function dueOf(db: Database, personId: string, now: number): Promise<number> {
  const { factor_due_at: kept } = await db
    .selectFrom('person')
    .select('factor_due_at')
    .where('id', '=', personId)
    .executeTakeFirstOrThrow();
  // One dated further ahead was written while the clock was wrong.
  if (kept !== null && kept <= now + factorWithinMs) return kept;
  const due = now + factorWithinMs;
  await db.updateTable('person').set({ factor_due_at: due }).where('id', '=', personId).execute();
  return due;
}
