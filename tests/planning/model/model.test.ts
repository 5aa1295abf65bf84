import { describe, expect, it } from 'vitest';
import { createModelWriter, objectiveOf, violations } from '../../../src/planning/model/model.ts';

const { NEGATIVE_INFINITY, POSITIVE_INFINITY } = Number;

describe('a model as it is written', () => {
  it('has columns with their bounds, any amount and not whole unless said', () => {
    const writer = createModelWriter();
    expect(writer.column('jars', { lower: 2 })).toBe(0);
    expect(writer.column('batches', { lower: 0, upper: 3, integer: true })).toBe(1);
    expect(writer.finish().model).toEqual({
      columns: [
        { name: 'jars', lower: 2, upper: POSITIVE_INFINITY, integer: false, cost: 0 },
        { name: 'batches', lower: 0, upper: 3, integer: true, cost: 0 },
      ],
      rows: [],
      constant: 0,
    });
  });

  it('has rows in which a column stands once, with the sum of what it counts for, or not at all', () => {
    const writer = createModelWriter();
    const [jars, batches, none] = ['jars', 'batches', 'none'].map((name) =>
      writer.column(name, { lower: 0 }),
    );
    if (jars === undefined || batches === undefined || none === undefined)
      throw new Error('expected columns');
    writer.row(
      'balance',
      1,
      [
        [jars, 2],
        [none, 0],
        [batches, 1],
        [jars, 3],
        [batches, -1],
      ],
      4,
    );
    expect(writer.finish().model.rows).toEqual([
      { name: 'balance', lower: 1, upper: 4, entries: [[jars, 5]] },
    ]);
  });

  it('leaves out a row of nothing that holds, and will not write one that cannot', () => {
    const writer = createModelWriter();
    const jars = writer.column('jars', { lower: 0 });
    writer.row('nothing', NEGATIVE_INFINITY, [], 0);
    writer.row('nearly', 1e-9, [[jars, 0]], -1e-9);
    expect(writer.finish().model.rows).toEqual([]);
    expect(() => writer.row('too little', 0.1, [[jars, 0]], POSITIVE_INFINITY)).toThrow(
      'row too little: expected an entry, found none and bounds 0.1..Infinity',
    );
    expect(() => writer.row('too much', NEGATIVE_INFINITY, [], -0.1)).toThrow('row too much');
  });

  it('prices a column under several terms, and adds what is always paid', () => {
    const writer = createModelWriter();
    const jars = writer.column('jars', { lower: 0 });
    const lids = writer.column('lids', { lower: 0 });
    writer.price('glass', jars, 30);
    writer.price('glass', lids, 4);
    writer.price('keeping', jars, 2);
    writer.price('nothing', lids, 0);
    writer.constant('keeping', 7);
    writer.constant('keeping', 1);
    writer.constant('rent', 5);
    const { model, terms } = writer.finish();
    expect(model.columns.map(({ cost }) => cost)).toEqual([32, 4]);
    expect(model.constant).toBe(13);
    expect(terms).toEqual({
      glass: {
        constant: 0,
        entries: [
          [jars, 30],
          [lids, 4],
        ],
      },
      keeping: { constant: 8, entries: [[jars, 2]] },
      rent: { constant: 5, entries: [] },
    });
    expect(objectiveOf(model, [10, 1])).toBe(337);
    expect(() => objectiveOf(model, [10])).toThrow('expected an entry at 1, found 1');
  });

  it('prices no column that is not there', () => {
    expect(() => createModelWriter().price('glass', 3, 1)).toThrow('price glass: no column 3');
  });
});

describe('values that are tried', () => {
  const broken = (values: readonly number[]) => {
    const writer = createModelWriter();
    const jars = writer.column('jars', { lower: 1, upper: 10 });
    const batches = writer.column('batches', { lower: 0, upper: 5, integer: true });
    writer.row(
      'enough',
      4,
      [
        [jars, 1],
        [batches, 2],
      ],
      POSITIVE_INFINITY,
    );
    writer.row(
      'room',
      NEGATIVE_INFINITY,
      [
        [jars, 1],
        [batches, -1],
      ],
      8,
    );
    writer.row(
      'much',
      1000,
      [
        [jars, 500],
        [batches, 500],
      ],
      5000,
    );
    return violations(writer.finish().model, values);
  };

  it('break nothing where they keep bounds, rows and whole numbers', () => {
    expect(broken([4, 1])).toEqual([]);
    expect(broken([1, 2])).toEqual([]);
    expect(broken([10, 2 - 1e-9])).toEqual(['much']);
    expect(broken([1, 5])).toEqual([]);
  });

  it('break what they fall short of or go beyond', () => {
    expect(broken([0.5, 2])).toEqual(['jars']);
    expect(broken([11, 3])).toEqual(['jars', 'much']);
    expect(broken([1, 1])).toEqual(['enough']);
    expect(broken([9, 0])).toEqual(['room']);
    expect(broken([2, 1.5])).toEqual(['batches']);
    expect(broken([2, 1.001])).toEqual(['batches']);
    expect(broken([1.5, 6])).toEqual(['batches']);
  });
});

describe('rounding noise', () => {
  const between = (lower: number, upper: number) => {
    const writer = createModelWriter();
    writer.row('row', lower, [[writer.column('any', { lower: NEGATIVE_INFINITY }), 1]], upper);
    return writer.finish().model;
  };
  const bounded = (lower: number, upper: number) => {
    const writer = createModelWriter();
    writer.column('column', { lower, upper });
    return writer.finish().model;
  };

  it('breaks nothing up to a millionth, of small bounds and of nought', () => {
    expect(violations(between(0.5, 0.5), [0.5 - 9e-7])).toEqual([]);
    expect(violations(between(0.5, 0.5), [0.5 + 9e-7])).toEqual([]);
    expect(violations(between(0.5, 0.5), [0.5 - 1.1e-6])).toEqual(['row']);
    expect(violations(between(0.5, 0.5), [0.5 + 1.1e-6])).toEqual(['row']);
    expect(violations(bounded(0, 0), [9e-7])).toEqual([]);
    expect(violations(bounded(0, 0), [-1.1e-6])).toEqual(['column']);
  });

  it('breaks nothing up to a millionth of large bounds', () => {
    expect(violations(between(1000, 1000), [1000 - 9e-4])).toEqual([]);
    expect(violations(between(1000, 1000), [1000 + 9e-4])).toEqual([]);
    expect(violations(between(-1000, -1000), [-1000 - 9e-4])).toEqual([]);
    expect(violations(between(-1000, -1000), [-1000 + 9e-4])).toEqual([]);
    expect(violations(between(1000, 1000), [1000 - 1.1e-3])).toEqual(['row']);
    expect(violations(bounded(1000, 1000), [1000 + 1.1e-3])).toEqual(['column']);
  });

  it('breaks nothing by as much as is allowed', () => {
    expect(violations(between(1, 1), [0.9], 0.25)).toEqual([]);
    expect(violations(between(1, 1), [1.25], 0.25)).toEqual([]);
    expect(violations(between(1, 1), [0.75], 0.25)).toEqual([]);
    expect(violations(between(1, 1), [0.7], 0.25)).toEqual(['row']);
  });
});
