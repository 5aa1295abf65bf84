import { describe, expect, it } from 'vitest';
import { addWeeks, asWeek } from '../../shared/week.ts';
import { gapsAt, goneBy } from '../../src/shelf/likely-gaps.ts';

/** Weeks from the first one of 2027: what is left at each one's end in half of the years, and what comes in it. */
const weeks = (left: readonly number[], comes: readonly number[] = []) =>
  left.map((units, at) => ({
    week: addWeeks(asWeek('2027-W01'), at),
    in: comes[at] ?? 0,
    unmet: units === 0 ? 1 : 0,
    closing: { p10: units, p50: units, p90: units },
  }));
const asItStands = { p10: asWeek('2027-W02'), p50: asWeek('2027-W05'), p90: asWeek('2027-W09') };

describe('when something runs out', () => {
  it('is the week by whose end nothing is left, until more comes', () => {
    expect(gapsAt(weeks([2, 1, 0, 0, 0, 3], [0, 0, 0, 0, 0, 4]), 'p50')).toEqual([{ from: 2, until: 5 }]);
  });

  it('is no gap where more comes the very next week', () => {
    expect(gapsAt(weeks([2, 0, 3], [0, 0, 4]), 'p50')).toEqual([]);
  });
});

describe('by when what stands now is gone', () => {
  it('is the gap’s week where nothing comes before it, whatever was drawn for the shelf alone', () => {
    const planned = weeks([2, 1, 0, 0, 0]);

    expect(goneBy(asItStands, planned, gapsAt(planned, 'p50'))).toEqual({
      p10: '2027-W02',
      p50: '2027-W03',
      p90: '2027-W09',
    });
  });

  it('is never later in a bad year than likely, nor earlier in a good one', () => {
    const planned = weeks([3, 2, 1, 1, 1, 1, 1, 1, 1, 0, 0]);

    expect(
      goneBy({ ...asItStands, p10: null, p90: asWeek('2027-W06') }, planned, gapsAt(planned, 'p50')),
    ).toEqual({
      p10: '2027-W10',
      p50: '2027-W10',
      p90: '2027-W10',
    });
  });

  it('stays as the shelf stands where something comes before the gap, or there is none', () => {
    const later = weeks([2, 1, 4, 0, 0], [0, 0, 4, 0, 0]);

    expect(goneBy(asItStands, later, gapsAt(later, 'p50'))).toEqual(asItStands);
    expect(goneBy(asItStands, weeks([2, 2]), [])).toEqual(asItStands);
  });
});
