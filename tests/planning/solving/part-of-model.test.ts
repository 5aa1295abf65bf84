import { describe, expect, test } from 'vitest';
import type { Model } from '../../../src/planning/model/model.ts';
import {
  boundsOfPart,
  partOfModel,
  rowsByColumn,
  withPart,
} from '../../../src/planning/solving/part-of-model.ts';

const column = (name: string, cost: number, integer = false) => ({ name, lower: 0, upper: 9, integer, cost });
const row = (name: string, lower: number, upper: number, ...entries: (readonly [number, number])[]) => ({
  name,
  lower,
  upper,
  entries,
});
// Bread, butter and jam; a breakfast takes bread and jam, a budget all three, a larder butter alone.
const model: Model = {
  constant: 5,
  columns: [column('bread', 2, true), column('butter', 3), column('jam', 7)],
  rows: [
    row('larder', 0, 4, [1, 1]),
    row('breakfast', 3, Number.POSITIVE_INFINITY, [0, 1], [2, 2]),
    row('budget', Number.NEGATIVE_INFINITY, 50, [0, 2], [1, 3], [2, 7]),
  ],
};
const rowsOf = rowsByColumn(model);

describe('rows by column', () => {
  test('are those a column stands in', () => {
    expect(rowsOf).toEqual([
      [1, 2],
      [0, 2],
      [1, 2],
    ]);
  });
});

describe('a part of a model', () => {
  test('has its open columns in the order they are asked for, their rows in the model’s, less what is held', () => {
    const part = partOfModel(model, [1, 2, 3], [2, 0], rowsOf);

    expect(part.columns).toEqual([2, 0]);
    expect(part.model.columns).toEqual([column('jam', 7), column('bread', 2, true)]);
    expect(part.model.rows).toEqual([
      row('breakfast', 3, Number.POSITIVE_INFINITY, [1, 1], [0, 2]),
      row('budget', Number.NEGATIVE_INFINITY, 44, [1, 2], [0, 7]),
    ]);
    // The constant, and two of butter.
    expect(part.model.constant).toBe(5 + 6);
  });

  test('has rows of its own columns alone', () => {
    expect(partOfModel(model, [1, 2, 3], [1], rowsOf).model).toEqual({
      constant: 5 + 2 + 21,
      columns: [column('butter', 3)],
      rows: [row('larder', 0, 4, [0, 1]), row('budget', Number.NEGATIVE_INFINITY, 50 - 23, [0, 3])],
    });
  });

  test('has always an answer: a row that the values break is as wide as they need', () => {
    // Two of breakfast where three are wanted; five of butter where four fit.
    expect(partOfModel(model, [0, 5, 1], [0], rowsOf).model.rows[0]).toEqual(
      row('breakfast', 0, Number.POSITIVE_INFINITY, [0, 1]),
    );
    expect(partOfModel(model, [0, 5, 1], [1], rowsOf).model.rows[0]).toEqual(row('larder', 0, 5, [0, 1]));
  });

  test('is the whole model where all is open, and only its cost where nothing is', () => {
    expect(partOfModel(model, [1, 2, 3], [0, 1, 2], rowsOf).model).toEqual(model);
    expect(partOfModel(model, [1, 2, 3], [], rowsOf).model).toEqual({ constant: 34, columns: [], rows: [] });
  });
});

describe('bounds and values of a part', () => {
  const part = () => partOfModel(model, [1, 2, 3], [2, 0], rowsOf);

  test('are those of its own columns, by its own places', () => {
    expect([
      ...boundsOfPart(
        new Map([
          [0, [1, 2]],
          [1, [3, 4]],
        ]),
        part(),
      ),
    ]).toEqual([[1, [1, 2]]]);
  });

  test('are put back into the whole without changing what was there', () => {
    const values = Float64Array.from([1, 2, 3]);

    expect([...withPart(values, part(), [8, 9])]).toEqual([9, 2, 8]);
    expect([...values]).toEqual([1, 2, 3]);
  });
});
