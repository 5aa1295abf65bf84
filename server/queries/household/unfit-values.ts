import { sql } from 'kysely';
import type { HouseholdId } from '../../../shared/ids.ts';
import { type CarriedRow, inWords } from '../../columns/carried-table.ts';
import { carriedTables } from '../../columns/household-columns.ts';
import type { Database } from '../../database/database.ts';
import { type FittedName, fits, tableOf } from './fitting.ts';

/** A stored value that no form takes. */
export interface UnfitValue {
  readonly table: FittedName;
  /** As the file numbers it. */
  readonly rowId: number;
  /** As the person knows the table. */
  readonly title: string;
  /** What the row is called. */
  readonly row: string;
  readonly columnName: string;
  readonly column: string;
  readonly expected: string;
  readonly found: string;
  readonly values: CarriedRow;
}

const mostShown = 50;

/** Everything stored that no form takes, at most `mostShown` values: the household first. */
export async function unfitValues(db: Database, householdId: HouseholdId): Promise<readonly UnfitValue[]> {
  const unfit: UnfitValue[] = [];
  // Notices are made anew from the rest at every look.
  const names: readonly FittedName[] = ['household', ...carriedTables.filter((name) => name !== 'notice')];
  for (const name of names) {
    const { title, columns } = tableOf(name);
    const own = name === 'household' ? 'id' : 'household_id';
    const { rows } = await sql<CarriedRow>`
      SELECT rowid AS "row of the file", * FROM ${sql.table(name)} WHERE ${sql.ref(own)} = ${householdId}`.execute(
      db,
    );
    for (const row of rows)
      for (const [column, { expected }] of Object.entries(columns)) {
        const value = row[column];
        if (fits(name, column, value)) continue;
        unfit.push({
          table: name,
          rowId: Number(row['row of the file']),
          columnName: column,
          values: row,
          title,
          row: String(row.name ?? row.item_id ?? row.recipe_id ?? row.id ?? '').slice(0, 60),
          column: inWords(column),
          expected,
          found: String(value).slice(0, 40),
        });
        if (unfit.length >= mostShown) return unfit;
      }
  }
  return unfit;
}
