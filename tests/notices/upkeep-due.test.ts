import { expect, test } from 'vitest';
import { asDate } from '../../shared/week.ts';
import { plainReader, readOut } from '../../src/notices/marks.ts';
import { upkeepDue } from '../../src/notices/rules/upkeep-due.ts';
import type { UpkeepLine } from '../../src/preserving/upkeep.ts';
import { asOf, quietPantry } from './pantry.ts';

// Upkeep on a day in November (2026-11-25): what was done before and is due again, in the words of what it is.

const looked: UpkeepLine = {
  key: 'look-over.big',
  kind: 'look-over',
  cannerId: null,
  taskId: null,
  device: 'Big canner',
  name: null,
  everyMonths: 12,
  last: asDate('2025-12-20'),
  dueOn: asDate('2026-12-20'),
  history: [],
};
const due = (over: Partial<UpkeepLine>, leadDays = 30) =>
  upkeepDue(quietPantry({ upkeep: [{ ...looked, ...over }] }), leadDays).map((notice) => ({
    ...notice,
    reason: readOut(notice.reason, plainReader),
  }));

test('a canner is looked over a year after the last time', () => {
  expect(due({})).toEqual([
    {
      kind: 'upkeep due',
      subject: 'upkeep:look-over.big',
      reason:
        'Big canner was last looked over on Dec 20, 2025; once a year, before the season, is what a guide asks for.',
      dueOn: '2026-12-20',
    },
  ]);
});

test('is told from the lead days on, and as long as it is not done', () => {
  expect(due({}, 24)).toEqual([]);
  expect(due({}, 25)).toHaveLength(1);
  expect(due({ dueOn: asOf }, 0)).toHaveLength(1);
  expect(due({ dueOn: asDate('2026-03-01') }, 0)).toHaveLength(1);
});

test('a task of the household’s own is told in its words', () => {
  expect(due({ name: 'sharpen the knives', device: 'Kitchen', everyMonths: 6 })[0]?.reason).toBe(
    'Kitchen: sharpen the knives. You last did it on Dec 20, 2025, and do it every 6 months.',
  );
});

test('the water kept for an emergency is told as water', () => {
  expect(due({ kind: 'water', everyMonths: 6 })[0]?.reason).toBe(
    'You filled the water you keep for an emergency on Dec 20, 2025; a public guide replaces it every 6 months.',
  );
});

test('a gauge has its own notice; what was never done, or is done as needed, has none', () => {
  expect(due({ kind: 'gauge' })).toEqual([]);
  expect(due({ last: null })).toEqual([]);
  expect(due({ dueOn: null })).toEqual([]);
  expect(upkeepDue(quietPantry(), 30)).toEqual([]);
});
