import { describe, expect, it } from 'vitest';
import {
  aboveEmergency,
  afterFilling,
  heldWithinYear,
  setAsideLongest,
} from '../../../src/planning/model/emergency-shelf.ts';
import { lot, used, week } from './hand-made-year.ts';

const until = (lotId: string, units: number, at: number, jars = units) =>
  lot(lotId, units, { jars, bestQualityUntil: week(at) });

describe('an item of which some is kept for an emergency', () => {
  const shelf = used('beans', [1], {
    openingLots: [until('spring', 4, 8), until('summer', 6, 20, 3)],
    yearEndUnits: 2,
    reserveUnits: 1,
  });

  it('is planned without the lots that keep longest', () => {
    const above = aboveEmergency({ ...shelf, emergencyUnits: 5 });
    expect(above.openingLots.map(({ lotId, units, jars }) => [lotId, units, jars])).toEqual([
      ['spring', 4, 4],
      ['summer', 1, 0.5],
    ]);
    expect(above.emergency).toEqual({ standing: 5, missing: 0 });
    expect(above.yearEndUnits).toBe(2);
    expect(heldWithinYear(above)).toBe(1);
    expect(above).not.toHaveProperty('emergencyUnits');
  });

  it('is handed over by the year’s end as far as it is missing, and wanted until then', () => {
    const above = aboveEmergency({ ...shelf, emergencyUnits: 13 });
    expect(above.openingLots).toEqual([]);
    expect(above.emergency).toEqual({ standing: 10, missing: 3 });
    expect(above.yearEndUnits).toBe(5);
    expect(heldWithinYear({ ...above, reserveForAim: 2 })).toBe(6);
  });

  it('is all of it where none is kept', () => {
    expect(aboveEmergency({ ...shelf, emergencyUnits: 0 })).toEqual(shelf);
    expect(aboveEmergency(shelf)).toEqual(shelf);
    expect(heldWithinYear(aboveEmergency(shelf))).toBe(1);
  });
});

describe('setting aside what keeps longest', () => {
  const lots = [until('a', 2, 5), until('c', 3, 9), until('b', 4, 9), until('d', 1, 2)];
  const above = (units: number) => setAsideLongest(lots, units);

  it('takes the last date first, of equal dates the last named', () => {
    expect(above(3).above.map(({ lotId, units }) => `${lotId} ${units}`)).toEqual(['a 2', 'b 4', 'd 1']);
    expect(above(1).above.map(({ lotId, units }) => `${lotId} ${units}`)).toEqual([
      'a 2',
      'c 2',
      'b 4',
      'd 1',
    ]);
    expect(above(8).above.map(({ lotId, units }) => `${lotId} ${units}`)).toEqual(['a 1', 'd 1']);
    const other = setAsideLongest([until('b', 4, 9), until('c', 3, 9)], 3);
    expect(other.above.map(({ lotId }) => lotId)).toEqual(['b']);
  });

  it('misses what there is too little of', () => {
    expect(above(10)).toEqual({ above: [], missing: 0 });
    expect(above(12).missing).toBe(2);
    expect(setAsideLongest([], 3)).toEqual({ above: [], missing: 3 });
  });

  it('sets aside nothing of nothing wanted', () => {
    expect(above(0)).toEqual({ above: lots, missing: 0 });
  });

  it('takes dust of rounding for nothing', () => {
    expect(setAsideLongest([until('a', 0.3, 5)], 0.1 + 0.2)).toEqual({ above: [], missing: 0 });
    expect(setAsideLongest([until('a', 0.1 + 0.2, 5)], 0.3)).toEqual({ above: [], missing: 0 });
  });
});

describe('what comes once some is missing', () => {
  it('fills that first, in its order', () => {
    const coming = [{ units: 2 }, { units: 3 }, { units: 4 }];
    expect(afterFilling(coming, 3)).toEqual([{ units: 2 }, { units: 4 }]);
    expect(afterFilling(coming, 2)).toEqual([{ units: 3 }, { units: 4 }]);
    expect(afterFilling(coming, 0)).toEqual(coming);
    expect(afterFilling(coming, 20)).toEqual([]);
  });
});
