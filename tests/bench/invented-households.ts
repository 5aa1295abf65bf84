import { type Database, openDatabase } from '../../server/database/database.ts';
import { makeDemoHousehold } from '../../server/demo/make-demo.ts';
import { householdText, restoreHousehold } from '../../server/files/household-file.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import type { CalendarDate } from '../../shared/week.ts';
import { worked } from '../builders/outcomes.ts';

/** Brings in so many invented households, each with a year of its own by its seed (1, 2, …), as of a day. */
export async function inventedHouseholds(db: Database, howMany: number, asOf: CalendarDate): Promise<void> {
  for (let seed = 1; seed <= howMany; seed += 1) {
    const one = await openDatabase(':memory:');
    const saved = await householdText(one, await makeDemoHousehold(one, asOf, { seed }));
    await one.destroy();
    const householdId = `invented-${seed}` as HouseholdId;
    await db
      .insertInto('household')
      .values({ id: householdId, name: 'Invented', time_zone: 'UTC', region: 'PA', created_at: 0 })
      .execute();
    worked(await restoreHousehold({ db, householdId, key: `brought ${seed}`, at: seed, today: asOf }, saved));
  }
}
