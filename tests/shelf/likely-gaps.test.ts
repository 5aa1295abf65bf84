import { describe, expect, it } from 'vitest';
import { addWeeks, asWeek } from '../../shared/week.ts';
import { gapsAt, goneBy, runOutOf } from '../../src/shelf/likely-gaps.ts';

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

  it('is a gap in the last week looked at, for nothing is known of the next', () => {
    expect(gapsAt(weeks([2, 1, 0]), 'p50')).toEqual([{ from: 2, until: 3 }]);
    expect(gapsAt(weeks([0]), 'p50')).toEqual([{ from: 0, until: 1 }]);
  });

  it('is every stretch of the year, the first at once where nothing stands', () => {
    expect(gapsAt(weeks([0, 0, 3, 0, 0], [0, 0, 4, 0, 0]), 'p50')).toEqual([
      { from: 0, until: 2 },
      { from: 3, until: 5 },
    ]);
    expect(gapsAt([], 'p50')).toEqual([]);
  });

  it('is none while nobody wants any, nor of a crumb', () => {
    const unwanted = weeks([2, 0, 0, 0]).map((week) => ({ ...week, unmet: 0 }));
    expect(gapsAt(unwanted, 'p50')).toEqual([]);
    const hardly = unwanted.map((week) => ({ ...week, unmet: 1e-7 }));
    expect(gapsAt(hardly, 'p50')).toEqual([]);
    expect(gapsAt(weeks([2, 1e-10, 0]), 'p50')).toEqual([{ from: 1, until: 3 }]);
    // What comes and is eaten in its week leaves nothing at its end, and ends the gap all the same.
    expect(gapsAt(weeks([2, 0, 0, 0, 0, 0], [0, 0, 0, 1, 0, 0]), 'p50')).toEqual([
      { from: 1, until: 3 },
      { from: 4, until: 6 },
    ]);
  });

  it('is by how sure: one year in ten earlier, nine in ten later', () => {
    const spread = [3, 2, 1, 0].map((units, at) => ({
      week: addWeeks(asWeek('2027-W01'), at),
      in: 0,
      unmet: units === 0 ? 1 : 0.5,
      closing: { p10: Math.max(0, units - 2), p50: Math.max(0, units - 1), p90: units },
    }));
    expect(runOutOf(spread as never)).toEqual({ p10: '2027-W02', p50: '2027-W03', p90: '2027-W04' });
    expect(runOutOf(weeks([3, 2, 1]) as never)).toEqual({ p10: null, p50: null, p90: null });
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
