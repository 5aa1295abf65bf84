import type { HouseholdId } from '../../shared/ids.ts';
import { found, type Outcome } from '../../shared/problems.ts';
import type { Database, Writing } from '../database/database.ts';
import { freshId } from './fresh-id.ts';
import { once } from './once.ts';
import { refuse } from './record.ts';

export interface NewHousehold {
  readonly name: string;
  readonly people: number;
  readonly timeZone: string;
  readonly units: 'us' | 'metric';
  readonly weekStartsOn: 'monday' | 'sunday';
  /** How dates and times are written; `en-US` when nothing was said. */
  readonly locale?: string;
  readonly region: string | null;
}

/** How many households one file may hold; a family needs one, and the invented one to look around in. */
export const mostHouseholds = 12;

/**
 * Begins a household of its own in this file. The same key makes it once: sent again it answers with the household the
 * first sending made, so that a form pressed twice leaves one.
 */
export const createHousehold = (
  db: Database,
  { key, at }: { readonly key: string; readonly at: number },
  household: NewHousehold,
): Promise<Outcome<{ readonly householdId: HouseholdId }>> =>
  db.transaction().execute(async (trx) => {
    const made = await madeUnder(trx, key);
    const taken = await trx.selectFrom('household').select('id').execute();
    if (made === null && taken.length >= mostHouseholds)
      return refuse(
        'too-many-households',
        'name',
        `Expected at most ${mostHouseholds} households in one file; there are ${taken.length}. Use one of them, or start the program with another file.`,
      );
    const id =
      made ??
      (freshId(
        household.name,
        taken.map((row) => row.id),
      ) as HouseholdId);
    if (made === null) await insert(trx, id, household, at);
    const { outcome } = await once(
      trx,
      { householdId: id, key, at },
      { verb: 'create household', request: household },
      async () => found({ householdId: id }),
    );
    return outcome;
  });

/** The household that a form of this key set up already; null where it is sent for the first time. */
export async function madeUnder(trx: Database | Writing, key: string): Promise<HouseholdId | null> {
  const row = await trx
    .selectFrom('idempotency')
    .select('household_id')
    .where('key', '=', key)
    .executeTakeFirst();
  return row === undefined ? null : (row.household_id as HouseholdId);
}

const insert = (trx: Writing, id: HouseholdId, household: NewHousehold, at: number) =>
  trx
    .insertInto('household')
    .values({
      id,
      name: household.name,
      people: household.people,
      time_zone: household.timeZone,
      units: household.units,
      week_starts_on: household.weekStartsOn,
      ...(household.locale === undefined ? {} : { locale: household.locale }),
      region: household.region,
      created_at: at,
    })
    .execute();
