import { expect, test } from 'vitest';
import { sendSpoiltFiles } from '../../bench/files-protocol.ts';

// The short form of `npm run bench:files`, which sends 5,000.
test('sixty household files and lists gone wrong break nothing, and what is refused changes nothing', async () => {
  const report = await sendSpoiltFiles({ files: 60, seed: 1 });

  expect(report.broken).toEqual([]);
  expect(report.changed).toEqual([]);
  expect(report.wronglyTaken).toEqual([]);
  expect(report.statuses[422]).toBeGreaterThan(20);
  expect(report.households + report.lists).toBe(60);
}, 240_000);
