import type { Cell, ColumnKind } from './column-kinds.ts';

// What a household file may hold of one table: its columns, what they point to, and what must be true of a row.

export type CarriedRow = Readonly<Record<string, Cell>>;

/** What must be true of a row as a whole; answers what was expected when it is not. */
export type RowRule = (row: CarriedRow) => string | null;

export interface CarriedTable {
  /** As the person knows it. */
  readonly title: string;
  readonly mostRows: number;
  /** Columns that together stand once in the file. */
  readonly key: readonly string[];
  readonly columns: Readonly<Record<string, ColumnKind>>;
  /** The table of the file a column points to, by its last key column. */
  readonly pointsTo: Readonly<Record<string, string>>;
  readonly rules: readonly RowRule[];
}

export const table = (
  title: string,
  mostRows: number,
  key: readonly string[],
  columns: Readonly<Record<string, ColumnKind>>,
  more: { readonly pointsTo?: Readonly<Record<string, string>>; readonly rules?: readonly RowRule[] } = {},
): CarriedTable => ({
  title,
  mostRows,
  key,
  columns,
  pointsTo: more.pointsTo ?? {},
  rules: more.rules ?? [],
});

export const expectThat =
  (holds: (row: CarriedRow) => boolean, expected: string): RowRule =>
  (row) =>
    holds(row) ? null : expected;

export const isSaid = (cell: Cell | undefined): boolean => cell !== null && cell !== undefined;
export const before = (one: Cell | undefined, other: Cell | undefined): boolean =>
  String(one) < String(other);
export const together = (one: string, other: string): RowRule =>
  expectThat(
    (row) => isSaid(row[one]) === isSaid(row[other]),
    `“${inWords(one)}” and “${inWords(other)}” both or neither`,
  );
export const firstDayBefore = (from: string, until: string): RowRule =>
  expectThat((row) => before(row[from], row[until]), `a first day before the last`);

/** A column's name as it is shown. */
export const inWords = (column: string): string => column.replaceAll('_', ' ');
