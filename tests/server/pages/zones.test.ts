import { expect, test } from 'vitest';
import { lookInEveryZone } from '../../bench/zones-protocol.ts';

// The small form of `npm run bench:zones`: both ends of the map, the clock a year ahead and back.
test('every page answers where the day is another, while the clock goes back and forth', async () => {
  const report = await lookInEveryZone(2, 3);

  expect(report.looks).toBeGreaterThan(100);
  expect(report.statuses[200]).toBeGreaterThan(50);
  expect(report.broken).toEqual([]);
  expect(report.changedOfOthers).toEqual([]);
});
