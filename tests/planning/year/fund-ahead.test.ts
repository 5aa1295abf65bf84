import { describe, expect, it } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { asDate, asWeek } from '../../../shared/week.ts';
import { fundAhead, fundIn, isLimited } from '../../../src/planning/year/fund-ahead.ts';

// Sunday, July 4, 2027 is the last day of week 26, or the first of week 27 where weeks start on Sunday.
const told = {
  balance: asCents(5000),
  balanceOn: asDate('2027-07-04'),
  weekly: asCents(1000),
  spentSince: asCents(300),
};
const weeks = ['2027-W27', '2027-W28', '2027-W29'].map(asWeek);

describe('the season fund', () => {
  it('is what was told and a share for each whole week since, less what was spent', () => {
    expect(fundIn(told, asWeek('2027-W26'))).toBe(4700);
    expect(fundIn(told, asWeek('2027-W28'))).toBe(6700);
    expect(fundIn(told, asWeek('2027-W28'), 'sunday')).toBe(5700);
  });

  it('gains nothing for weeks before it was told, and is never less than nothing', () => {
    expect(fundIn(told, asWeek('2027-W20'))).toBe(4700);
    expect(fundIn({ ...told, spentSince: asCents(9000) }, asWeek('2027-W26'))).toBe(0);
  });

  it('has its first week’s share in it already', () => {
    expect(fundAhead(told, weeks)).toEqual({ opening: 5700, setAsideByWeek: [0, 1000, 1000] });
    expect(fundAhead(told, weeks, 'sunday')).toEqual({ opening: 4700, setAsideByWeek: [0, 1000, 1000] });
    expect(fundAhead(told, [])).toEqual({ opening: 5000, setAsideByWeek: [] });
  });

  it('that nobody has limits nothing', () => {
    const none = fundAhead(null, weeks);
    expect(none.setAsideByWeek).toEqual([0, 0, 0]);
    expect(none.opening).toBe(10_000_000);
    expect(isLimited(none)).toBe(false);
    expect(isLimited({ ...none, opening: asCents(9_999_999) })).toBe(true);
    expect(isLimited({ ...none, opening: asCents(0) })).toBe(true);
    expect(isLimited(undefined)).toBe(false);
  });
});
