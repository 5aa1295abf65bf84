import { createHash } from 'node:crypto';
import { z } from 'zod';
import { counted } from '../../shared/counting.ts';
import { found, type Outcome, type Problem, refused } from '../../shared/problems.ts';
import { type CarriedRow, type CarriedTable, inWords } from '../columns/carried-table.ts';
import type { Cell } from '../columns/column-kinds.ts';
import { type CarriedName, carried, carriedTables, numbered } from '../columns/household-columns.ts';
import { householdRow } from '../columns/kitchen.ts';
import { problem } from '../records/record.ts';
import { outlineOf } from './json-outline.ts';

export const formatName = 'shelfward household';
export const formatVersion = 1;

export const largestFileInBytes = 8 * 1_048_576;
/** More than a file of that size needs when a household was saved into it. */
const mostRows = 150_000;
const mostMembers = 900_000;
/** The file, its tables, a table, a row. */
const deepest = 4;
/** Problems that are looked for before the rest is left to the next try. */
const mostProblems = 200;

/** Rows of one table with the same columns, row after row. */
export interface ReadRows {
  readonly table: CarriedName;
  readonly columns: readonly string[];
  readonly cells: readonly Cell[];
}

/** A household file all of whose rows fit. */
export interface ReadHousehold {
  /** Stands for the whole text. */
  readonly digest: string;
  readonly household: CarriedRow;
  readonly rows: readonly ReadRows[];
  readonly rowCount: number;
}

const shape = z.object({
  format: z.literal(formatName),
  version: z.literal(formatVersion),
  household: z.record(z.string(), z.unknown()),
  tables: z.record(z.string(), z.array(z.unknown())),
});

const aboutFile = (code: string, message: string): Outcome<never> => refused(problem(code, 'file', message));

/**
 * Reads a saved household row by row, each value as the form that fills it would. Either everything fits, or the answer is
 * a list of what does not, with where it stands; the first `mostProblems` of them.
 */
export function readHousehold(bytes: Uint8Array): Outcome<ReadHousehold> {
  if (bytes.length > largestFileInBytes)
    return aboutFile(
      'file-too-large',
      'A saved household has at most 8 MB; this file is larger. Choose another file.',
    );
  const outline = outlineOf(bytes);
  if (outline.depth > deepest)
    return aboutFile(
      'file-other',
      `This is no household saved by this program: it has lists within lists, ${outline.depth.toLocaleString('en-US')} deep. Choose another file.`,
    );
  if (
    outline.groups > mostRows ||
    outline.members > mostMembers ||
    outline.separators > mostMembers + mostRows
  )
    return aboutFile(
      'file-too-long',
      `A saved household has at most ${counted(mostRows.toLocaleString('en-US'), 'row')}; this file has ${outline.groups.toLocaleString('en-US')} with ${counted(outline.members.toLocaleString('en-US'), 'value')}. Choose another file.`,
    );
  let raw: unknown;
  try {
    raw = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return aboutFile(
      'file-unreadable',
      'This is no household saved by this program: the text is not JSON. Choose the file as it was saved.',
    );
  }
  const read = shape.safeParse(raw);
  if (!read.success)
    return aboutFile(
      'file-other',
      `This is no household saved by this program: at “${(read.error.issues[0]?.path ?? []).join('.').slice(0, 80)}” it is something else. Choose another file.`,
    );
  if (membersOf(raw) !== outline.members)
    return aboutFile(
      'file-twice',
      'A name is there twice in one row, and nobody can know which value is meant. Choose the file as it was saved.',
    );
  // As it was read: the copy of the schema lacks names that every object has.
  return checkRows(raw as z.output<typeof shape>, createHash('sha256').update(bytes).digest('hex'));
}

/** Named values of all rows, as JSON was read: of a name that stood twice only one is left. */
function membersOf(raw: unknown): number {
  if (typeof raw !== 'object' || raw === null) return 0;
  let members = 0;
  const open: object[] = [raw];
  for (let group = open.pop(); group !== undefined; group = open.pop()) {
    if (!Array.isArray(group)) members += Object.keys(group).length;
    for (const value of Object.values(group))
      if (typeof value === 'object' && value !== null) open.push(value);
  }
  return members;
}

function checkRows({ household, tables }: z.output<typeof shape>, digest: string): Outcome<ReadHousehold> {
  const problems: Problem[] = [];
  const say: Say = (message) => {
    if (problems.length < mostProblems) problems.push(problem('row-unfit', 'file', message));
  };
  for (const name of Object.keys(tables))
    if (!carriedTables.some((known) => known === name))
      say(
        `This version does not know “${shortened(name)}”, which the file has. Save the household with this version and try again.`,
      );

  const own = rowOf(household, householdRow, 'The household', say);
  const kept = new Map<CarriedName, readonly CarriedRow[]>();
  for (const name of carriedTables) {
    const table: CarriedTable = carried[name];
    const given = Object.hasOwn(tables, name) ? (tables[name] ?? []) : [];
    kept.set(name, inOrder(name, rowsOfTable(given, table, tables, say)));
    if (problems.length >= mostProblems) break;
  }
  if (problems.length === 0) checkLedger(kept.get('jar_event') ?? [], say);
  if (problems.length > 0 || own === null) return refused(...problems);
  return found({
    digest,
    household: own,
    rows: carriedTables.flatMap((name) => runsOf(name, kept.get(name) ?? [])),
    rowCount: [...kept.values()].reduce((sum, rows) => sum + rows.length, 0),
  });
}

type Say = (message: string) => void;

/** What is numbered in the order of writing stands in that order, however the file has it. */
const inOrder = (name: CarriedName, rows: readonly CarriedRow[]): readonly CarriedRow[] =>
  numbered.has(name) ? rows.toSorted((one, other) => Number(one.seq) - Number(other.seq)) : rows;

function rowsOfTable(
  given: readonly unknown[],
  table: CarriedTable,
  tables: Readonly<Record<string, readonly unknown[]>>,
  say: Say,
): readonly CarriedRow[] {
  if (given.length > table.mostRows) {
    say(
      `${table.title}: ${counted(given.length.toLocaleString('en-US'), 'row')} are more than ${table.mostRows.toLocaleString('en-US')}.`,
    );
    return [];
  }
  // A row that is there and does not fit is told once, not again by every row that points to it.
  const parents = Object.entries(table.pointsTo).map(([column, parent]) => {
    const { key, title } = carried[parent as CarriedName] as CarriedTable;
    const rows = Object.hasOwn(tables, parent) ? (tables[parent] ?? []) : [];
    return { column, title, known: new Set(rows.map((row) => ownValue(row, key.at(-1) ?? 'id'))) };
  });
  const keys = new Set<string>();
  return given.flatMap((raw, at) => {
    const where = `${table.title}, row ${at + 1}${nameOf(raw)}`;
    const row = rowOf(raw, table, where, say);
    if (row === null) return [];
    const key = JSON.stringify(table.key.map((column) => row[column]));
    if (keys.has(key))
      say(
        table.key.length === 0
          ? `${where}: there may be one row only.`
          : `${where}: ${table.key.map((column) => `“${inWords(column)}”`).join(' and ')} ${table.key.map((column) => shown(row[column])).join(' and ')} is there a second time.`,
      );
    keys.add(key);
    for (const { column, title, known } of parents) {
      const value = row[column];
      if (value !== null && value !== undefined && !known.has(value))
        say(`${where}: “${inWords(column)}” is ${shown(value)}, which is not among ${title}.`);
    }
    return [row];
  });
}

/** The row with the values that fit; null when one does not. */
function rowOf(raw: unknown, table: CarriedTable, where: string, say: Say): CarriedRow | null {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) {
    say(`${where}: ${shown(raw)} is no row with named values.`);
    return null;
  }
  let fits = true;
  const wrong: Say = (message) => {
    fits = false;
    say(`${where}: ${message}`);
  };
  const unknown = Object.keys(raw).find((name) => !Object.hasOwn(table.columns, name));
  if (unknown !== undefined) wrong(`“${shortened(unknown)}” is no column of this program.`);
  const row: Record<string, Cell> = {};
  for (const [name, kind] of Object.entries(table.columns)) {
    if (!Object.hasOwn(raw, name)) {
      if (kind.mayBeEmpty) row[name] = null;
      else if (!kind.mayBeMissing) wrong(`“${inWords(name)}” is missing; it is ${kind.expected}.`);
      continue;
    }
    const value: unknown = Reflect.get(raw, name);
    if (kind.schema.safeParse(value).success) row[name] = value as Cell;
    else wrong(`“${inWords(name)}” is ${kind.expected}, not ${shown(value)}.`);
  }
  if (fits)
    for (const rule of table.rules) {
      const expected = rule(row);
      if (expected !== null) wrong(`This must be so: ${expected}.`);
    }
  return fits ? row : null;
}

/** No batch may fall below nothing, and what is taken back was there before and of the same batch. */
function checkLedger(events: readonly CarriedRow[], say: Say): void {
  const left = new Map<Cell | undefined, number>();
  const earlier = new Map<Cell | undefined, CarriedRow>();
  const takenBack = new Set<Cell | undefined>();
  for (const [at, event] of events.entries()) {
    const where = `${carried.jar_event.title}, row ${at + 1} (batch ${shown(event.lot_id)})`;
    const units = Number(event.units);
    const now = (left.get(event.lot_id) ?? 0) + units;
    if (now < -1e-9) say(`${where}: ${-units} are taken where ${now - units} are left.`);
    left.set(event.lot_id, now);
    if (event.kind === 'reversed') {
      const undone = earlier.get(event.reverses_seq);
      if (
        undone === undefined ||
        undone.lot_id !== event.lot_id ||
        Number(undone.units) !== -units ||
        undone.kind === 'reversed' ||
        takenBack.has(event.reverses_seq)
      )
        say(
          `${where}: this takes back an entry of the same batch, and there is none that it takes back exactly.`,
        );
      takenBack.add(event.reverses_seq);
    }
    earlier.set(event.seq, event);
  }
}

/** Rows with the same columns one after another, so that they can be written together. */
function runsOf(name: CarriedName, rows: readonly CarriedRow[]): readonly ReadRows[] {
  const runs: { table: CarriedName; columns: string[]; cells: Cell[] }[] = [];
  for (const row of rows) {
    const columns = Object.keys(row);
    let run = runs.at(-1);
    if (
      run === undefined ||
      run.columns.length !== columns.length ||
      columns.some((one, at) => one !== run?.columns[at])
    ) {
      run = { table: name, columns, cells: [] };
      runs.push(run);
    }
    for (const column of columns) run.cells.push(row[column] ?? null);
  }
  return runs;
}

const shortened = (text: string): string =>
  (text.length > 40 ? `${text.slice(0, 40)}…` : text).replaceAll(
    /[\p{Cc}\p{Cs}\u2028\u2029\u202a-\u202e\u2066-\u2069]/gu,
    '�',
  );

function shown(value: unknown): string {
  if (typeof value === 'string') return value === '' ? 'an empty text' : `“${shortened(value)}”`;
  if (typeof value === 'number') return String(value);
  if (value === null || value === undefined) return 'nothing';
  return typeof value === 'boolean' ? String(value) : Array.isArray(value) ? 'a list' : 'a group of values';
}

const ownValue = (raw: unknown, column: string): unknown =>
  typeof raw === 'object' && raw !== null && Object.hasOwn(raw, column)
    ? Reflect.get(raw, column)
    : undefined;

/** What the row is called, where it has a name. */
function nameOf(raw: unknown): string {
  for (const column of ['name', 'item_id', 'recipe_id', 'id']) {
    const value = ownValue(raw, column);
    if (typeof value === 'string' && value !== '') return ` (${shortened(value)})`;
  }
  return '';
}
