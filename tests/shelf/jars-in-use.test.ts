import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type FilledJars, jarsInUse } from '../../src/shelf/jars-in-use.ts';

const pints = (change: Partial<FilledJars> = {}): FilledJars => ({
  size: 'pint',
  units: 4,
  unitsPerJar: 1,
  filledWeek: -1,
  readyWeek: -1,
  eatenBefore: 10,
  ...change,
});

describe('jars in use', () => {
  it('a jar that is begun is in use until its last unit is gone', () => {
    const inUse = jarsInUse([{ filled: [pints()], takenByWeek: [1.5, 0.5, 2] }], 3);

    expect(inUse.get('pint')).toEqual([3, 2, 0]);
  });

  it('jars count from the week they are filled, though what is in them is ready only later', () => {
    const inUse = jarsInUse(
      [{ filled: [pints({ filledWeek: 1, readyWeek: 3 })], takenByWeek: [1, 1, 1, 1, 1] }],
      5,
    );

    expect(inUse.get('pint')).toEqual([0, 4, 4, 3, 2]);
  });

  it('what is eaten first empties first, each size for itself', () => {
    const inUse = jarsInUse(
      [
        {
          filled: [pints(), pints({ size: 'quart', units: 4, unitsPerJar: 2, eatenBefore: 5 })],
          takenByWeek: [3, 3],
        },
      ],
      2,
    );

    expect(inUse.get('quart')).toEqual([1, 0]);
    expect(inUse.get('pint')).toEqual([4, 2]);
  });

  it('jars of one size count together, of one thing and of several', () => {
    const two = [pints({ units: 2 }), pints({ units: 3, eatenBefore: 20 })];
    const inUse = jarsInUse(
      [
        { filled: two, takenByWeek: [1, 1.5] },
        { filled: [pints({ units: 1 })], takenByWeek: [] },
      ],
      2,
    );

    expect(inUse.get('pint')).toEqual([1 + 3 + 1, 3 + 1]);
  });

  it('what is not ready yet is not eaten, though more is wanted than is ready', () => {
    const inUse = jarsInUse(
      [
        {
          filled: [pints({ units: 1 }), pints({ units: 2, filledWeek: 0, readyWeek: 1, eatenBefore: 5 })],
          takenByWeek: [2, 1],
        },
      ],
      2,
    );

    expect(inUse.get('pint')).toEqual([2, 1]);
  });

  it('a rest that is only rounding leaves no jar', () => {
    const thirds = [1 / 3, 1 / 3, 1 / 3];

    expect(jarsInUse([{ filled: [pints({ units: 1 })], takenByWeek: thirds }], 3).get('pint')).toEqual([
      1, 1, 0,
    ]);
  });

  it('never counts more jars than were filled, and no size that nothing fills', () => {
    const amounts = fc.array(fc.double({ min: 0, max: 20, noNaN: true }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(amounts, amounts, (filled, takenByWeek) => {
        const jars = filled.map((units, week) =>
          pints({ units, filledWeek: week, readyWeek: week, eatenBefore: week }),
        );
        const inUse = jarsInUse([{ filled: jars, takenByWeek }], 12);
        const most = filled.reduce((sum, units) => sum + Math.ceil(units), 0);
        expect([...inUse.keys()].every((size) => size === 'pint')).toBe(true);
        for (const count of inUse.get('pint') ?? []) expect(count).toBeLessThanOrEqual(most);
      }),
    );
    expect(jarsInUse([], 3).size).toBe(0);
  });
});
