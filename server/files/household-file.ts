import { sql } from 'kysely';
import { z } from 'zod';
import type { HouseholdId } from '../../shared/ids.ts';
import { found, type Outcome, refused } from '../../shared/problems.ts';
import type { Database, Writing } from '../database/database.ts';
import type { Tables } from '../database/tables.ts';
import { problem, type Recording, record } from '../records/record.ts';
import { columnsOf } from './household-tables.ts';

/** Tables a household takes along, each after those it points to. */
export const carriedTables = [
  'place',
  'canner',
  'kitchen_time',
  'week_time',
  'away',
  'school_holiday',
  'season_fund',
  'jar_holding',
  'lid_price',
  'lid_box',
  'item',
  'item_group',
  'item_group_member',
  'declared_use',
  'season_multiplier',
  'occasion',
  'hand_target',
  'jar_wish',
  'shop_pack',
  'recipe',
  'recipe_produce',
  'supply',
  'recipe_supply',
  'recipe_stage',
  'material',
  'recipe_material',
  'source',
  'harvest_window',
  'lot',
  'processing_evidence',
  'jar_event',
  'lot_move',
  'jar_conflict',
  'shelf_count',
  'empty_jar_event',
  'material_event',
  'kept',
  'notice',
  'canning_session',
  'session_tick',
  'load_clock_event',
  'printed_sheet',
  'batch_result',
  'batch_result_lot',
  'seal_check',
  'lot_standing_event',
  'label_grid',
  'notice_lead',
  'guess',
] as const satisfies readonly (keyof Tables)[];

/**
 * Left behind: plans are made anew from the facts; keys of writes, lists half read and letters belong to this machine; the
 * calendar's secret address, where letters go, who may come in and what happened to accounts are of this place.
 */
export const leftTables: readonly string[] = [
  'household',
  'plan',
  'idempotency',
  'calendar_feed',
  'calendar_entry',
  'import_draft',
  'mail_wish',
  'letter',
  'membership',
  'household_setup',
  'invitation',
  'security_event',
];

const formatName = 'shelfward household';
const formatVersion = 1;

type Cell = string | number | null;
type CarriedRow = Record<string, Cell>;

/** Numbered by the whole file, not by the household: written as 1, 2, 3 and given new numbers on arrival. */
const numbered = new Set<string>([
  'jar_event',
  'empty_jar_event',
  'material_event',
  'load_clock_event',
  'lot_standing_event',
]);
/** Of the household's own row: what says which file it lives in. */
const notCarried = new Set(['id', 'facts_version', 'is_demo']);

const householdFile = z.object({
  format: z.literal(formatName),
  version: z.literal(formatVersion),
  household: z.record(z.string(), z.union([z.string(), z.number(), z.null()])),
  tables: z.record(z.string(), z.array(z.record(z.string(), z.union([z.string(), z.number(), z.null()])))),
});

/** A whole household as one text; the same household gives the same text, wherever it lives. */
export async function householdText(db: Database, householdId: HouseholdId): Promise<string> {
  return db.transaction().execute(async (trx) => {
    const household = await trx
      .selectFrom('household')
      .selectAll()
      .where('id', '=', householdId)
      .executeTakeFirstOrThrow();
    const tables: Record<string, CarriedRow[]> = {};
    for (const table of carriedTables) tables[table] = await rowsOf(trx, householdId, table);
    const own = Object.fromEntries(Object.entries(household).filter(([name]) => !notCarried.has(name)));
    return `${JSON.stringify({ format: formatName, version: formatVersion, household: own, tables }, null, 1)}\n`;
  });
}

async function rowsOf(trx: Writing, householdId: HouseholdId, table: string): Promise<CarriedRow[]> {
  const columns = await columnsOf(trx, table);
  const keys = columns.filter(({ key }) => key > 0).sort((one, other) => one.key - other.key);
  const order = sql.join(keys.map(({ name }) => sql.ref(name)));
  const { rows } = await sql<CarriedRow>`
    SELECT * FROM ${sql.table(table)} WHERE household_id = ${householdId} ORDER BY ${order}`.execute(trx);
  const places = new Map(rows.map((row, place) => [row.seq, place + 1]));
  return rows.map(({ household_id: _, ...row }) =>
    numbered.has(table)
      ? {
          ...row,
          seq: places.get(row.seq) ?? null,
          ...('reverses_seq' in row ? { reverses_seq: places.get(row.reverses_seq ?? null) ?? null } : {}),
        }
      : row,
  );
}

export interface Restored {
  readonly rows: number;
}

/** Reads a household's file; says what is wrong with one that is none. */
export function readHouseholdText(text: string): Outcome<z.output<typeof householdFile>> {
  let raw: unknown;
  try {
    raw = JSON.parse(text);
  } catch (cause) {
    return refused(
      problem(
        'file-unreadable',
        'file',
        `Expected a household saved by this program as JSON; the text is not JSON (${cause instanceof Error ? cause.message.slice(0, 120) : 'unreadable'}). Choose the file as it was saved.`,
      ),
    );
  }
  const read = householdFile.safeParse(raw);
  if (read.success) return found(read.data);
  const [issue] = read.error.issues;
  return refused(
    problem(
      'file-other',
      'file',
      `Expected a household saved by this program; at “${issue?.path.join('.') ?? ''}” it is something else. Choose another file.`,
    ),
  );
}

/** What SQLite says of a row that does not fit, with where it stands. */
class RowRefused extends Error {
  readonly table: string;
  readonly row: number;
  constructor(table: string, row: number, cause: unknown) {
    super(cause instanceof Error ? cause.message : String(cause));
    this.table = table;
    this.row = row;
  }
}

/**
 * Puts a saved household in the place of this one: everything it had is replaced, or nothing when a row does not fit. Plans,
 * the calendar's address and where letters go stay as they are here.
 */
export async function restoreHousehold(recording: Recording, text: string): Promise<Outcome<Restored>> {
  const read = readHouseholdText(text);
  if (!read.ok) return read;
  const { household, tables } = read.value;
  try {
    return await record(recording, 'restore household', { text }, async ({ trx, householdId }) => {
      const unknown = Object.keys(tables).find((table) => !carriedTables.some((known) => known === table));
      if (unknown !== undefined)
        return refused(
          problem(
            'table-unknown',
            'file',
            `Expected tables of this program; found “${unknown.slice(0, 40)}”. Save the household with this version and try again.`,
          ),
        );
      await clear(trx, householdId, household);
      let rows = 0;
      for (const table of carriedTables) {
        const own = tables[table] ?? [];
        await fill(trx, householdId, table, own);
        rows += own.length;
      }
      const { rows: loose } = await sql<{ table: string; parent: string }>`PRAGMA foreign_key_check`.execute(
        trx,
      );
      const [first] = loose;
      if (first !== undefined)
        return refused(
          problem(
            'row-loose',
            'file',
            `Expected rows that belong together; in the table “${first.table}” a row points to a “${first.parent}” that is not there. Nothing was changed.`,
          ),
        );
      return found({ rows });
    });
  } catch (cause) {
    if (!(cause instanceof RowRefused)) throw cause;
    return refused(
      problem(
        'row-refused',
        'file',
        `Expected rows that fit together; in the table “${cause.table}”, row ${cause.row} does not: ${cause.message}. Nothing was changed.`,
      ),
    );
  }
}

/** Append-only tables give up their rows only when their household has gone; so it steps aside for a moment. */
async function clear(trx: Writing, householdId: HouseholdId, household: CarriedRow): Promise<void> {
  await sql`PRAGMA defer_foreign_keys = ON`.execute(trx);
  const aside = `${householdId}-aside`;
  await sql`UPDATE household SET id = ${aside} WHERE id = ${householdId}`.execute(trx);
  for (const table of [...carriedTables].reverse())
    await sql`DELETE FROM ${sql.table(table)} WHERE household_id = ${householdId}`.execute(trx);
  const columns = new Set((await columnsOf(trx, 'household')).map(({ name }) => name));
  const set: Record<string, Cell> = { id: householdId };
  for (const [name, value] of Object.entries(household)) {
    if (notCarried.has(name)) continue;
    if (!columns.has(name)) throw new RowRefused('household', 1, new Error(`unknown column ${name}`));
    set[name] = value;
  }
  const changes = sql.join(Object.entries(set).map(([name, value]) => sql`${sql.ref(name)} = ${value}`));
  await sql`UPDATE household SET ${changes} WHERE id = ${aside}`.execute(trx).catch((cause: unknown) => {
    throw new RowRefused('household', 1, cause);
  });
}

async function fill(
  trx: Writing,
  householdId: HouseholdId,
  table: string,
  rows: readonly CarriedRow[],
): Promise<void> {
  const columns = new Set((await columnsOf(trx, table)).map(({ name }) => name));
  const numbers = new Map<Cell, number>();
  for (const [place, given] of rows.entries()) {
    const row: CarriedRow = { ...given, household_id: householdId };
    const unknown = Object.keys(row).find((name) => !columns.has(name));
    if (unknown !== undefined) throw new RowRefused(table, place + 1, new Error(`unknown column ${unknown}`));
    if (numbered.has(table)) {
      delete row.seq;
      if (row.reverses_seq !== undefined && row.reverses_seq !== null)
        row.reverses_seq = numbers.get(row.reverses_seq) ?? -1;
    }
    const names = Object.keys(row);
    try {
      const { insertId } = await sql`
        INSERT INTO ${sql.table(table)} (${sql.join(names.map((name) => sql.ref(name)))})
        VALUES (${sql.join(names.map((name) => row[name] ?? null))})`.execute(trx);
      if (numbered.has(table)) numbers.set(given.seq ?? null, Number(insertId));
    } catch (cause) {
      throw new RowRefused(table, place + 1, cause);
    }
  }
}
