import type { Model } from '../../src/planning/model/model.ts';

/** A model as the arrays the solver takes: rows compressed (CSR), names left behind. */
export interface PackedModel {
  readonly columnCost: Float64Array;
  readonly columnLower: Float64Array;
  readonly columnUpper: Float64Array;
  readonly columnInteger: Int32Array;
  readonly rowLower: Float64Array;
  readonly rowUpper: Float64Array;
  readonly starts: Int32Array;
  readonly indices: Int32Array;
  readonly values: Float64Array;
  readonly constant: number;
}

export function packModel(model: Model): PackedModel {
  const entryCount = model.rows.reduce((sum, row) => sum + row.entries.length, 0);
  const starts = new Int32Array(model.rows.length + 1);
  const indices = new Int32Array(entryCount);
  const values = new Float64Array(entryCount);
  let at = 0;
  model.rows.forEach((row, index) => {
    starts[index] = at;
    for (const [column, coefficient] of row.entries) {
      indices[at] = column;
      values[at] = coefficient;
      at += 1;
    }
  });
  starts[model.rows.length] = at;
  return {
    columnCost: Float64Array.from(model.columns, ({ cost }) => cost),
    columnLower: Float64Array.from(model.columns, ({ lower }) => lower),
    columnUpper: Float64Array.from(model.columns, ({ upper }) => upper),
    columnInteger: Int32Array.from(model.columns, ({ integer }) => (integer ? 1 : 0)),
    rowLower: Float64Array.from(model.rows, ({ lower }) => lower),
    rowUpper: Float64Array.from(model.rows, ({ upper }) => upper),
    starts,
    indices,
    values,
    constant: model.constant,
  };
}
