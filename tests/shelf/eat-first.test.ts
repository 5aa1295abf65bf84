import { expect, test } from 'vitest';
import { addDays, asDate, type CalendarDate } from '../../shared/week.ts';
import { eatFirst } from '../../src/shelf/eat-first.ts';

const today = asDate('2026-11-27');
const lot = (
  id: string,
  bestQualityUntil: CalendarDate,
  more: { readyFrom?: CalendarDate; setAside?: object; keptUntil?: CalendarDate } = {},
) => ({
  id,
  bestQualityUntil,
  readyFrom: more.readyFrom ?? addDays(today, -100),
  setAside: more.setAside ?? null,
  keptUntil: more.keptUntil ?? null,
});
const first = (lots: Parameters<typeof eatFirst>[0], leadDays: number) =>
  eatFirst(lots, today, leadDays).map(({ id }) => id);

test('what is older than it is kept is thrown away, not eaten first; on its last day it is still eaten', () => {
  const lots = [
    lot('too old', addDays(today, -200), { keptUntil: addDays(today, -1) }),
    lot('last day', addDays(today, -180), { keptUntil: today }),
  ];

  expect(first(lots, 42)).toEqual(['last day']);
});

test('the earliest date is eaten first; what is far, not ready or set aside is left standing', () => {
  const lots = [
    lot('later', addDays(today, 30)),
    lot('past', addDays(today, -3)),
    lot('curing', addDays(today, 10), { readyFrom: addDays(today, 5) }),
    lot('aside', addDays(today, 1), { setAside: { reason: 'seal in doubt' } }),
    lot('far', addDays(today, 300)),
  ];

  expect(first(lots, 42)).toEqual(['past', 'later']);
});

test('a batch counts from the day it is ready, and of two of one date the first in name', () => {
  const until = addDays(today, 20);

  expect(first([lot('ready-today', until, { readyFrom: today }), lot('long-ready', until)], 42)).toEqual([
    'long-ready',
    'ready-today',
  ]);
});

test('how near is near is the household’s to say, to the day', () => {
  const lots = [lot('in 14 days', addDays(today, 14)), lot('in 15 days', addDays(today, 15))];

  expect(first(lots, 14)).toEqual(['in 14 days']);
  expect(first(lots, 13)).toEqual([]);
  expect(first(lots, 15)).toEqual(['in 14 days', 'in 15 days']);
});
