import { CompiledQuery, sql } from 'kysely';
import type { HouseholdId } from '../../shared/ids.ts';
import { found, type Outcome } from '../../shared/problems.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { Cell } from '../columns/column-kinds.ts';
import { carried, carriedTables } from '../columns/household-columns.ts';
import { householdRow } from '../columns/kitchen.ts';
import type { Database, Writing } from '../database/database.ts';
import { engineOf } from '../database/engine-of.ts';
import { insertStatement, rowsOfStatement } from '../database/insert-statement.ts';
import { ruleFault } from '../faults.ts';
import { versionsOfABook } from '../queries/shelf/ledger.ts';
import { type Recording, record, refuse } from '../records/record.ts';
import { formatName, formatVersion, largestFileInBytes, type ReadRows } from './household-reading.ts';
import { type ReadingProcess, readingProcess } from './reading-process.ts';
import { holdRecipesAtTheGate, type ProcessNotBelieved, shippedTables } from './recipes-at-the-gate.ts';

/**
 * Left behind: plans are made anew from the facts, and with them how one was changed for a glut; keys of writes, lists half read and letters belong to this machine; the
 * calendar's secret address, where letters go, who may come in and what happened to accounts are of this place.
 */
export const leftTables: readonly string[] = [
  'household',
  'plan',
  'glut_use',
  'idempotency',
  'calendar_feed',
  'calendar_entry',
  'import_draft',
  'mail_wish',
  'mail_confirmation',
  'factor_requirement',
  'letter',
  'membership',
  'household_setup',
  'household_deletion',
  'invitation',
  'connected_thing',
  'household_token',
  'security_event',
  'job',
];

type CarriedRow = Record<string, Cell>;

/** Of the household's own row: what says which file it lives in. */
const notCarried = new Set(['id', 'facts_version', 'is_demo', 'is_open', 'noted_night']);

/** A whole household as one text; the same household gives the same text, wherever it lives. */
export async function householdText(db: Database, householdId: HouseholdId): Promise<string> {
  return engineOf(db).snapshot(db, async (trx) => {
    const household = await trx
      .selectFrom('household')
      .selectAll()
      .where('id', '=', householdId)
      .executeTakeFirstOrThrow();
    const tables: Record<string, CarriedRow[]> = {};
    for (const table of carriedTables) tables[table] = await rowsOf(trx, householdId, table);
    const own = Object.fromEntries(Object.entries(household).filter(([name]) => !notCarried.has(name)));
    return asText(own, tables);
  });
}

/** JSON with a row on each line: short, and still to be read and compared. */
function asText(
  household: Readonly<CarriedRow>,
  tables: Readonly<Record<string, readonly CarriedRow[]>>,
): string {
  const lists = Object.entries(tables).map(([table, rows]) => {
    const lines = rows.map((row) => `\n  ${JSON.stringify(row)}`).join(',');
    return ` ${JSON.stringify(table)}: [${lines}${rows.length === 0 ? '' : '\n '}]`;
  });
  return [
    '{',
    ` "format": ${JSON.stringify(formatName)},`,
    ` "version": ${formatVersion},`,
    ` "household": ${JSON.stringify(household)},`,
    ` "tables": {`,
    lists.join(',\n'),
    ' }',
    '}\n',
  ].join('\n');
}

async function rowsOf(trx: Writing, householdId: HouseholdId, table: string): Promise<CarriedRow[]> {
  const columns = await engineOf(trx).columns(trx, table);
  const keys = columns.filter(({ key }) => key > 0).sort((one, other) => one.key - other.key);
  const order = sql.join(keys.map(({ name }) => sql.ref(name)));
  const { rows } = await sql<CarriedRow>`
    SELECT * FROM ${sql.table(table)} WHERE household_id = ${householdId} ORDER BY ${order}`.execute(trx);
  return rows.map(({ household_id: _, ...row }) => row);
}

export interface Restored {
  readonly rows: number;
  /** Recipes whose process was not believed: they came in as not canned. */
  readonly notCanned: readonly ProcessNotBelieved[];
}

/**
 * Puts a saved household in the place of this one: everything it had is replaced, or nothing when a row does not fit. Plans,
 * the calendar's address and where letters go stay as they are here. The file is read in a process of its own.
 */
export async function restoreHousehold(
  recording: Recording,
  content: string | Uint8Array,
  {
    reference = shippedTables(),
    reader = readingProcess(),
  }: {
    /** Tables that are in memory already; without them they are read, which keeps everybody waiting. */
    readonly reference?: ReferenceTables;
    readonly reader?: ReadingProcess;
  } = {},
): Promise<Outcome<Restored>> {
  const bytes = typeof content === 'string' ? Buffer.from(content) : content;
  if (bytes.length > largestFileInBytes)
    return refuse(
      'file-too-large',
      'file',
      'A saved household has at most 8 MB; this file is larger. Choose another file.',
    );
  const read = await reader.read('household', { bytes });
  if (!read.ok) return read;
  const { digest, household, rows, rowCount } = read.value;
  try {
    return await record(recording, 'restore household', { digest }, async ({ trx, householdId }) => {
      await clear(trx, householdId, household);
      // The reading has held the whole ledger against the rule (`checkLedger`); of one batch with tens of thousands of entries the
      // sums before each alone would take a minute.
      await engineOf(trx).withoutSumming(trx, async () => {
        for (const run of rows) await fill(trx, householdId, run);
      });
      const notCanned = await holdRecipesAtTheGate(trx, householdId, reference);
      return found({ rows: rowCount, notCanned });
    });
  } catch (cause) {
    const where = misfit(cause);
    if (where === null) throw cause;
    return refuse(
      'row-refused',
      'file',
      `The rows of this file do not fit together: ${where} one does not fit the others. Nothing was changed. Save the household again and send that file.`,
    );
  }
}

/** A row that was read and still does not fit: what the database knows and the reading does not. */
class DoesNotFit extends Error {
  readonly table: string;
  constructor(table: string, cause?: unknown) {
    super(`household file: a row of ${table} does not fit`, { cause });
    this.table = table;
  }
}

/** Where a row does not fit; null for what is no fault of the rows. Loose ends are told when the transaction ends. */
const misfit = (cause: unknown): string | null => {
  if (cause instanceof DoesNotFit) return `under “${cause.table}”`;
  return ruleFault(cause) === 'foreign key' ? 'somewhere' : null;
};

/** A fault of the row; what the disk or the file cannot do is none and goes on as it is. */
const asDoesNotFit =
  (table: string) =>
  (cause: unknown): never => {
    throw ruleFault(cause) === null ? cause : new DoesNotFit(table, cause);
  };

/** Everything that is carried goes, and the household's own row is as the file says. */
async function clear(trx: Writing, householdId: HouseholdId, household: Readonly<CarriedRow>): Promise<void> {
  const meanwhile = await engineOf(trx).giveUpRows(trx, householdId);
  for (const table of [...carriedTables].reverse())
    await sql`DELETE FROM ${sql.table(table)} WHERE household_id = ${householdId}`.execute(trx);
  const set: Record<string, Cell> = { id: householdId, ...household };
  const changes = sql.join(Object.entries(set).map(([name, value]) => sql`${sql.ref(name)} = ${value}`));
  // Whoever remembers the book that was here does not read on in this one.
  const nextBook = sql`facts_version = (facts_version / ${sql.lit(versionsOfABook)} + 1) * ${sql.lit(versionsOfABook)}`;
  await sql`UPDATE household SET ${changes}, ${nextBook} WHERE id = ${meanwhile}`
    .execute(trx)
    .catch(asDoesNotFit(householdRow.title));
}

async function fill(
  trx: Writing,
  householdId: HouseholdId,
  { table, columns, cells }: ReadRows,
): Promise<void> {
  const width = columns.length;
  const rowsAtOnce = rowsOfStatement(width + 1);
  const rowCount = cells.length / width;
  for (let from = 0; from < rowCount; from += rowsAtOnce) {
    const until = Math.min(rowCount, from + rowsAtOnce);
    const values: Cell[] = [];
    for (let row = from; row < until; row += 1) {
      values.push(householdId);
      for (let column = 0; column < width; column += 1) values.push(cells[row * width + column] ?? null);
    }
    const statement = insertStatement(trx, table, ['household_id', ...columns], until - from);
    await trx.executeQuery(CompiledQuery.raw(statement, values)).catch(asDoesNotFit(carried[table].title));
  }
}
