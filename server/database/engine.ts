import type { SelectQueryBuilder } from 'kysely';
import type { Database, Writing } from './handle.ts';
import type { Tables } from './tables.ts';

// What differs between a file of SQLite and a database of PostgreSQL stands in one small file each. Everything else is written
// in the words that both take.

/** A column as the schema has it. */
export interface SchemaColumn {
  readonly name: string;
  /** Its place in the table's key, from 1; 0 outside it. */
  readonly key: number;
  /** What stands in it when nothing is said, in the schema's own words: `0` or `'usual'`. */
  readonly usual: string | null;
}

/** A table of the schema. */
export interface SchemaTable {
  readonly name: string;
  /** In their order. */
  readonly columns: readonly string[];
  /** Those by which a row is found, in their order. */
  readonly key: readonly string[];
  /** Other tables that its rows point to. */
  readonly pointsTo: readonly string[];
}

export interface Engine {
  readonly name: 'SQLite' | 'PostgreSQL';
  /** How a statement that is written out names the value of that number, from 1. */
  mark(number: number): string;
  /** The columns of a table, in their order. */
  columns(db: Database, table: string): Promise<readonly SchemaColumn[]>;
  /** Every table of the program, each after those it points to. */
  tables(db: Database): Promise<readonly SchemaTable[]>;
  /** Of each table whose rows are numbered as they come, the last number that was given; 0 before the first. */
  lastNumbers(db: Database): Promise<ReadonlyMap<string, number>>;
  /** The next row of such a table is numbered after this one. */
  numberAfter(trx: Writing, table: string, last: number): Promise<void>;
  /** Reads everything as it stood at one moment, and writes nothing. */
  snapshot<T>(db: Database, read: (trx: Writing) => Promise<T>): Promise<T>;
  /**
   * Writes what stands on a count of rows that others add to, as if nobody else were there meanwhile. The work may be done more
   * than once, and only the last time counts.
   */
  alone<T>(db: Database, work: (trx: Writing) => Promise<T>): Promise<T>;
  /**
   * The job that is chosen to be taken, in the statement that takes it: none that somebody else is taking in this moment. Of two
   * who take at once neither has the other's.
   */
  claim<Row>(choice: SelectQueryBuilder<Tables, 'job', Row>): SelectQueryBuilder<Tables, 'job', Row>;
  /**
   * Lets a household give up rows that are only ever added, until the transaction ends; answers the id that the household's own
   * row has meanwhile. It has its old one again before the transaction ends.
   */
  giveUpRows(trx: Writing, householdId: string): Promise<string>;
  /** A household goes with every row it has; `tables` are its own, each after those it points to. */
  forgetHousehold(trx: Writing, householdId: string, tables: readonly string[]): Promise<void>;
  /** Writes a ledger whose sums were looked at before, without the schema's own sum over a batch for each entry. */
  withoutSumming(trx: Writing, write: () => Promise<void>): Promise<void>;
  /** What is overwritten or deleted from now on by this connection is to leave nothing behind. */
  secureDeletes(db: Database): Promise<void>;
  /** Nothing of what was overwritten or deleted stays behind. */
  leaveNoTrace(db: Database): Promise<void>;
}
