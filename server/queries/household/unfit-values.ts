import { createHash } from 'node:crypto';
import { sql } from 'kysely';
import { LRUCache } from 'lru-cache';
import type { HouseholdId } from '../../../shared/ids.ts';
import type { StoredHousehold } from '../../../src/household/household.ts';
import { type CarriedRow, inWords } from '../../columns/carried-table.ts';
import type { Cell } from '../../columns/column-kinds.ts';
import { carriedTables } from '../../columns/household-columns.ts';
import type { Database } from '../../database/database.ts';
import { engineOf } from '../../database/engine-of.ts';
import { type FittedName, fits, tableOf } from './fitting.ts';

/** A stored value that no form takes. */
export interface UnfitValue {
  readonly table: FittedName;
  /** Which row it is (`rowMark`). */
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

/** The columns by which a row is told from the others of its table. */
export const keyOf = async (db: Database, name: FittedName) =>
  (await engineOf(db).columns(db, name)).filter(({ key }) => key > 0);

/** A number that stands for a row by its key, 48 bits of it. */
export const rowMark = (key: readonly Cell[]): number =>
  createHash('sha256').update(JSON.stringify(key)).digest().readUIntBE(0, 6);

const mostShown = 50;

interface LookedThrough {
  readonly version: number;
  readonly found: readonly UnfitValue[];
}
const lastLook = new WeakMap<Database, LRUCache<HouseholdId, LookedThrough>>();
const mostRemembered = 200;

/** `unfitValues` as of the household's facts now: its sixty tables are looked through once until one of them changes. */
export async function unfitValuesNow(
  db: Database,
  { id, factsVersion: version }: Pick<StoredHousehold, 'id' | 'factsVersion'>,
): Promise<readonly UnfitValue[]> {
  const looked = lastLook.get(db) ?? new LRUCache<HouseholdId, LookedThrough>({ max: mostRemembered });
  lastLook.set(db, looked);
  const last = looked.get(id);
  if (last?.version === version) return last.found;
  const found = await unfitValues(db, id);
  looked.set(id, { version, found });
  return found;
}

/** Everything stored that no form takes, at most `mostShown` values: the household first. */
export async function unfitValues(db: Database, householdId: HouseholdId): Promise<readonly UnfitValue[]> {
  const unfit: UnfitValue[] = [];
  // Notices are made anew from the rest at every look.
  const names: readonly FittedName[] = ['household', ...carriedTables.filter((name) => name !== 'notice')];
  for (const name of names) {
    const { title, columns } = tableOf(name);
    const own = name === 'household' ? 'id' : 'household_id';
    const { rows } = await sql<CarriedRow>`
      SELECT * FROM ${sql.table(name)} WHERE ${sql.ref(own)} = ${householdId}`.execute(db);
    // Asked for where it is needed alone: most households hold nothing unfit.
    let keys: readonly string[] | null = null;
    for (const row of rows)
      for (const [column, { expected }] of Object.entries(columns)) {
        const value = row[column];
        if (fits(name, column, value)) continue;
        keys ??= (await keyOf(db, name)).map(({ name: part }) => part);
        unfit.push({
          table: name,
          rowId: rowMark(keys.map((key) => row[key] ?? null)),
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
