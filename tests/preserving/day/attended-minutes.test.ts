import { expect, test } from 'vitest';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { attendedMinutes } from '../../../src/preserving/day/attended-minutes.ts';

const { cannerFacts } = loadReferenceTables();

// Vent 10 minutes and rise to pressure 3 to 5: USDA Complete Guide to Home Canning, 2015, Guide 1, p1-20 and p1-22 (read).
// Ten minutes to lift jars in and out: common practice, no source.
test('a load keeps somebody at the stove to lift jars, and a pressure canner also to vent and to reach pressure', () => {
  expect(attendedMinutes('boiling-water', cannerFacts)).toBe(10);
  expect(attendedMinutes('pressure', cannerFacts)).toBe(10 + 10 + 5);
});
