import { expect, test } from 'vitest';
import { sendSpoiltFiles } from '../../bench/files-protocol.ts';

// The short form of `npm run bench:files`, which sends 5,000.
test('sixty files gone wrong or lying break nothing, change nothing when refused, and give no time of another food', async () => {
  const report = await sendSpoiltFiles({ files: 60, seed: 1 });

  expect(report.broken).toEqual([]);
  expect(report.changed).toEqual([]);
  expect(report.wronglyTaken).toEqual([]);
  expect(report.wrongTimes).toEqual([]);
  expect(report.timesShown).toBeGreaterThan(100);
  expect(report.timesRefused).toBeGreaterThan(10);
  expect(report.statuses[422]).toBeGreaterThan(20);
  expect(report.households + report.lists + report.liars).toBe(60);
});
