import { describe, expect, test } from 'vitest';
import { asDate, asWeek, daysOfWeek, weekHolding } from '../../shared/week.ts';

// Sunday 28 June 2026 is the last day of week 26 in the calendar of ISO 8601, and the first of the next from Sundays.
describe('weeks that begin on Sunday', () => {
  test('count a Sunday to the days after it; weeks that begin on Monday to the days before', () => {
    const sunday = asDate('2026-06-28');

    expect(weekHolding(sunday, 'sunday')).toBe('2026-W27');
    expect(weekHolding(sunday, 'monday')).toBe('2026-W26');
    expect(weekHolding(asDate('2026-06-29'), 'sunday')).toBe('2026-W27');
    expect(weekHolding(asDate('2026-07-04'), 'sunday')).toBe('2026-W27');
  });

  test('every day of a week is held by that week, and by no other', () => {
    for (const startsOn of ['monday', 'sunday'] as const)
      for (const week of [asWeek('2026-W01'), asWeek('2026-W27'), asWeek('2026-W53')]) {
        const days = daysOfWeek(week, startsOn);

        expect(days.map((day) => weekHolding(day, startsOn))).toEqual(days.map(() => week));
      }
  });
});
