import { engineOf } from './engine-of.ts';
import type { Database } from './handle.ts';

/** Values of one statement, with room to spare: SQLite takes 32,766, PostgreSQL twice as many. */
const mostValues = 30_000;

/** How many rows of so many columns one statement writes. */
export const rowsOfStatement = (columns: number): number =>
  Math.max(1, Math.min(250, Math.floor(mostValues / columns)));

/** The statement that writes so many rows, whose values are given one after the other. */
export function insertStatement(
  db: Database,
  table: string,
  columns: readonly string[],
  rows: number,
): string {
  const { mark } = engineOf(db);
  const width = columns.length;
  const lines = Array.from(
    { length: rows },
    (_, row) => `(${columns.map((_column, at) => mark(row * width + at + 1)).join(', ')})`,
  );
  const names = columns.map((name) => `"${name}"`).join(', ');
  return `INSERT INTO "${table}" (${names}) VALUES ${lines.join(', ')}`;
}
