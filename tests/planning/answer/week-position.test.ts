import { expect, test } from 'vitest';
import { addWeeks, asWeek, weeksFrom } from '../../../shared/week.ts';
import { weekPosition } from '../../../src/planning/answer/week-position.ts';

test('the place of a week is its own within the year, -1 before it and the year’s length after it', () => {
  const weeks = weeksFrom(asWeek('2026-W52'), 4);

  expect([-9, -1, 0, 3, 4, 40].map((at) => weekPosition(weeks, addWeeks(asWeek('2026-W52'), at)))).toEqual([
    -1, -1, 0, 3, 4, 4,
  ]);
});
