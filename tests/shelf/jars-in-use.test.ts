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
