import type { HouseholdId } from '../../shared/ids.ts';
import { addMonths, type CalendarDate } from '../../shared/week.ts';
import { ofHousehold } from '../database/apart/whose-rows.ts';
import type { Database } from '../database/database.ts';
import { loadReferenceTables } from '../reference/load-reference.ts';
import { loadDemoData } from './demo-data.ts';
import { liveHouseholdYear } from './household-story.ts';
import type { Scene } from './scene.ts';
import { writeBook } from './write-book.ts';
import { writeItems } from './write-items.ts';
import { writeJarsAndLids } from './write-jars.ts';
import { writeHousehold, writeTime, writeUpkeep } from './write-kitchen.ts';
import { writeRecipes, writeSources } from './write-recipes.ts';

const ordinarySeed = 5;

interface DemoOptions {
  readonly seed?: number;
}

/**
 * Writes the invented household of seed-data/demo as it stands on `asOf`: its kitchen, items, recipes and sources, and a
 * year of its ledger that ends the day before. All or nothing; the same date and seed give the same rows.
 */
export async function makeDemoHousehold(
  database: Database,
  asOf: CalendarDate,
  { seed = ordinarySeed }: DemoOptions = {},
): Promise<HouseholdId> {
  const data = loadDemoData();
  const tables = loadReferenceTables();
  const { id } = data.household;
  const book = liveHouseholdYear(data, tables, asOf, seed);
  await ofHousehold(database, id, () =>
    database.transaction().execute(async (db) => {
      const scene: Scene = {
        db,
        data,
        tables,
        asOf,
        opensOn: addMonths(asOf, -12),
        book,
        own: { household_id: id },
      };
      await writeHousehold(scene);
      await writeTime(scene);
      await writeUpkeep(scene);
      await writeJarsAndLids(scene);
      await writeItems(scene);
      await writeRecipes(scene);
      await writeSources(scene);
      await writeBook(scene);
    }),
  );
  return id;
}
