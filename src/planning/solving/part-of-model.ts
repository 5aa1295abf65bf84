import { entry } from '../lookup.ts';
import { type Entry, type Model, objectiveOf } from '../model/model.ts';
import type { ColumnBoundsByIndex } from './held-batches.ts';

/** A model with all but some columns held at given values: the rows those columns stand in, and nothing else. */
export interface PartOfModel {
  readonly model: Model;
  /** Column of the whole model by column of the part. */
  readonly columns: readonly number[];
}

/** Rows a column stands in, by column: made once, since a model is taken apart many times. */
export function rowsByColumn({ columns, rows }: Model): readonly (readonly number[])[] {
  const found: number[][] = columns.map(() => []);
  rows.forEach(({ entries }, row) => {
    for (const [column] of entries) entry(found, column, 'columns').push(row);
  });
  return found;
}

/**
 * The part of a model that some open columns decide while the others stay at `values`. Its optimum is the whole model's
 * with those others fixed, and its objective is the whole model's, cents. A row that `values` break by rounding noise is
 * widened to what they give, so that the part always has an answer.
 */
export function partOfModel(
  model: Model,
  values: ArrayLike<number>,
  open: readonly number[],
  rowsOf: readonly (readonly number[])[],
): PartOfModel {
  const { columns, rows } = model;
  const place = new Map(open.map((column, at) => [column, at]));
  const touched = [...new Set(open.flatMap((column) => entry(rowsOf, column, 'rowsOf')))].sort(
    (one, other) => one - other,
  );
  const openCost = open.reduce(
    (sum, column) => sum + entry(columns, column, 'columns').cost * entry(values, column, 'values'),
    0,
  );
  return {
    columns: open,
    model: {
      constant: objectiveOf(model, values) - openCost,
      columns: open.map((column) => entry(columns, column, 'columns')),
      rows: touched.map((at) => {
        const row = entry(rows, at, 'rows');
        const entries: Entry[] = [];
        let given = 0;
        let held = 0;
        for (const [column, coefficient] of row.entries) {
          const at = place.get(column);
          const amount = coefficient * entry(values, column, 'values');
          given += amount;
          if (at === undefined) held += amount;
          else entries.push([at, coefficient]);
        }
        const lower = Math.min(row.lower, given) - held;
        const upper = Math.max(row.upper, given) - held;
        return { name: row.name, lower, upper, entries };
      }),
    },
  };
}

/** Bounds of the whole model's columns as the part's. */
export function boundsOfPart(bounds: ColumnBoundsByIndex, { columns }: PartOfModel): ColumnBoundsByIndex {
  return new Map(
    columns.flatMap((column, at) => {
      const own = bounds.get(column);
      return own === undefined ? [] : [[at, own] as const];
    }),
  );
}

/** Values of the whole model with those of a part put in. */
export function withPart(
  values: Float64Array,
  { columns }: PartOfModel,
  found: ArrayLike<number>,
): Float64Array {
  const merged = Float64Array.from(values);
  columns.forEach((column, at) => {
    merged[column] = entry(found, at, 'found');
  });
  return merged;
}
