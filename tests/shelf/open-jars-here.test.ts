import { describe, expect, test } from 'vitest';
import { asDate } from '../../shared/week.ts';
import type { Item } from '../../src/household/item.ts';
import type { JarEvent } from '../../src/household/ledger.ts';
import { keepColdDaysOf } from '../../src/shelf/keep-cold.ts';
import { openJarsHere } from '../../src/shelf/open-jars-here.ts';

// Which jars stand open in the refrigerator, by what a household wrote down: salsa that keeps ten days open, pickles of which nobody
// wrote down how long, looked at on March 20.

const asOf = asDate('2026-03-20');
const salsa = { id: 'salsa', keepColdDays: 10 } as Item;
const pickles = { id: 'pickles', keepColdDays: null } as Item;
const event = (kind: JarEvent['kind'], occurredOn: string, over: object = {}): JarEvent =>
  ({
    itemId: 'salsa',
    itemName: 'Salsa',
    lotId: 'salsa-25',
    batchCode: '250901-A',
    jarKind: 'pint/regular',
    kind,
    units: -1,
    reason: null,
    occurredOn,
    isReversed: false,
    ...over,
  }) as unknown as JarEvent;
const openOf = (...events: readonly JarEvent[]) => openJarsHere([salsa, pickles], events, asOf);

test('how long an opened jar keeps is what was written down, else three days and said to be unknown', () => {
  expect(keepColdDaysOf({ keepColdDays: 10 })).toEqual({ days: 10, isKnown: true });
  expect(keepColdDaysOf({ keepColdDays: 0 })).toEqual({ days: 0, isKnown: true });
  expect(keepColdDaysOf({ keepColdDays: null })).toEqual({ days: 3, isKnown: false });
});

describe('a jar that was taken', () => {
  test('stands open from that day on, until so many days after', () => {
    expect(openOf(event('taken', '2026-03-12', { units: -2 }))).toEqual([
      {
        itemId: 'salsa',
        itemName: 'Salsa',
        lotId: 'salsa-25',
        batchCode: '250901-A',
        jarKind: 'pint/regular',
        jars: 2,
        openedOn: '2026-03-12',
        eatBy: '2026-03-22',
        isPast: false,
        limitIsKnown: true,
      },
    ]);
  });

  test('is past once its days are over', () => {
    const [open] = openOf(event('taken', '2026-03-09'));

    expect(open).toMatchObject({ eatBy: '2026-03-19', isPast: true });
  });

  test('of what nobody wrote a limit of is counted on for three days', () => {
    expect(openOf(event('taken', '2026-03-19', { itemId: 'pickles', itemName: 'Pickles' }))).toMatchObject([
      { itemId: 'pickles', eatBy: '2026-03-22', limitIsKnown: false },
    ]);
  });

  test('stands open no more when it is finished, by the day it was opened', () => {
    const taken = event('taken', '2026-03-12');

    expect(openOf(taken, event('finished', '2026-03-15', { units: 0, reason: '2026-03-12' }))).toEqual([]);
    expect(openOf(taken, event('finished', '2026-03-15', { units: 0, reason: '2026-03-11' }))).toHaveLength(
      1,
    );
    expect(openOf(taken, event('finished', '2026-03-15', { units: 0, reason: 'all gone' }))).toHaveLength(1);
    expect(openOf(taken, event('finished', '2026-03-15', { units: 0 }))).toHaveLength(1);
    expect(openOf(taken, event('given away', '2026-03-15', { reason: '2026-03-12' }))).toHaveLength(1);
  });

  test('and put back stands open no more', () => {
    expect(openOf(event('taken', '2026-03-12', { isReversed: true }))).toEqual([]);
  });
});

test('what came, was given away or stands in no jar is not open', () => {
  expect(openOf(event('put up', '2026-03-12', { units: 8 }), event('given away', '2026-03-12'))).toEqual([]);
  expect(openOf(event('taken', '2026-03-12', { jarKind: null }))).toEqual([]);
  expect(openOf(event('taken', '2026-03-12', { itemId: 'of-nobody' }))).toEqual([]);
});

test('of several the one that must be eaten first comes first, whatever its food and batch', () => {
  const opened = openOf(
    event('taken', '2026-03-15'),
    event('taken', '2026-03-12', { lotId: 'salsa-24', batchCode: '240901-A' }),
    event('taken', '2026-03-20', { itemId: 'pickles', lotId: 'p' }),
    event('taken', '2026-03-17', { itemId: 'pickles', lotId: 'p' }),
  );

  expect(opened.map(({ batchCode, eatBy }) => `${eatBy} ${batchCode}`)).toEqual([
    '2026-03-20 250901-A',
    '2026-03-22 240901-A',
    '2026-03-23 250901-A',
    '2026-03-25 250901-A',
  ]);
});
