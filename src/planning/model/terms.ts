import { entry } from '../lookup.ts';
import type { Entry } from './model.ts';
import type { MaybeColumn } from './variables.ts';

/** Columns by what they stand for and by week. */
type ColumnTable = readonly (readonly MaybeColumn[])[];

/** Columns in a row, each counting for so much; nothing of what the model has no column for. */
export const terms = (columns: readonly MaybeColumn[], amount: number): Entry[] =>
  columns.flatMap((column): Entry[] => (column === null ? [] : [[column, amount]]));

/** The column of a week; null where the model has none, and for weeks outside the year. */
export const columnIn = (table: ColumnTable, at: number, week: number): MaybeColumn =>
  entry(table, at, 'table')[week] ?? null;

/** That column in a row, counting for so much. */
export const termIn = (table: ColumnTable, at: number, week: number, amount: number): Entry[] =>
  terms([columnIn(table, at, week)], amount);
