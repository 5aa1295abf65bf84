import { sql } from 'kysely';
import { found, type Outcome } from '../../../shared/problems.ts';
import type { UnfitRequest } from '../../../shared/schemas/unfit-value.ts';
import { pageNames } from '../../../views/words/page-names.ts';
import type { CarriedRow } from '../../columns/carried-table.ts';
import type { Cell } from '../../columns/column-kinds.ts';
import { carried } from '../../columns/household-columns.ts';
import { type Mend, mendOf } from '../../columns/mends.ts';
import { engineOf } from '../../database/engine-of.ts';
import { ruleFault } from '../../faults.ts';
import { type FittedName, fits } from '../../queries/household/fitting.ts';
import { keyOf, rowMark } from '../../queries/household/unfit-values.ts';
import { type Recorder, type Recording, record, refuse } from '../record.ts';

/** Mends a stored value that no form takes; what is fit by now, or gone, stays as it is. */
export const mendUnfit = (recording: Recording, request: UnfitRequest): Promise<Outcome<UnfitRequest>> =>
  record(recording, 'mend unfit value', request, async (recorder) => {
    const name = tableNamed(request.table);
    if (name === null) return notHere();
    const own = name === 'household' ? 'id' : 'household_id';
    const { rows } = await sql<CarriedRow>`
      SELECT * FROM ${sql.table(name)} WHERE ${sql.ref(own)} = ${recorder.householdId}`.execute(recorder.trx);
    const keys = (await keyOf(recorder.trx, name)).map(({ name: column }) => column);
    const row = rows.find((one) => rowMark(keys.map((key) => one[key] ?? null)) === request.row);
    const value = row?.[request.column];
    if (row === undefined || fits(name, request.column, value)) return found(request);
    const mend = mendOf(name, request.column, row, recorder.today);
    if (mend === null) return notHere();
    try {
      await write(recorder, { name, row, keys, column: request.column }, mend);
    } catch (cause) {
      if (ruleFault(cause) === null) throw cause;
      return notHere();
    }
    return found(request);
  });

const tableNamed = (text: string): FittedName | null =>
  text === 'household' || Object.hasOwn(carried, text) ? (text as FittedName) : null;

const notHere = () =>
  refuse(
    'unfit-hangs',
    'row',
    `Other things hang on this value, so it cannot be mended by itself. Save the household under ${pageNames.files}, mend the value in the file, and restore it.`,
  );

interface Place {
  readonly name: FittedName;
  readonly row: CarriedRow;
  readonly keys: readonly string[];
  readonly column: string;
}

async function write(
  { trx, at, today }: Recorder,
  { name, row, keys, column }: Place,
  mend: Mend,
): Promise<void> {
  const table = sql.table(name);
  const isTheRow = sql.join(
    keys.map((key) => sql`${sql.ref(key)} = ${row[key] ?? null}`),
    sql` AND `,
  );
  const set = (to: Cell) =>
    sql`UPDATE ${table} SET ${sql.ref(column)} = ${to} WHERE ${isTheRow}`.execute(trx);
  switch (mend.kind) {
    case 'clear':
      await set(null);
      return;
    case 'now':
      await set(at);
      return;
    case 'take away':
      await sql`DELETE FROM ${table} WHERE ${isTheRow}`.execute(trx);
      return;
    case 'not canned':
      await sql`UPDATE ${table} SET process_food = NULL, process_style = NULL, process_pack = NULL, canner_id = NULL,
        jar_kind = ${column === 'jar_kind' ? null : sql.ref('jar_kind')} WHERE ${isTheRow}`.execute(trx);
      return;
    case 'usual': {
      // The schema's own words for the value, `0` or `'usual'`.
      const usual = (await engineOf(trx).columns(trx, name)).find((one) => one.name === column)?.usual;
      await sql`UPDATE ${table} SET ${sql.ref(column)} = ${sql.raw(usual ?? 'NULL')} WHERE ${isTheRow}`.execute(
        trx,
      );
      return;
    }
    case 'put':
      await set(mend.value);
      if (mend.retires)
        await sql`UPDATE ${table} SET retired_on = coalesce(retired_on, ${today}) WHERE ${isTheRow}`.execute(
          trx,
        );
  }
}
