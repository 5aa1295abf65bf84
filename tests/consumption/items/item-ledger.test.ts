import { describe, expect, test } from 'vitest';
import { asDate } from '../../../shared/week.ts';
import { daysOfRecording, itemLedger, type LedgerAsked } from '../../../src/consumption/items/item-ledger.ts';
import type { HouseholdFacts } from '../../../src/household/facts.ts';
import type { Item } from '../../../src/household/item.ts';
import type { JarEvent } from '../../../src/household/ledger.ts';
import { eatenBeforeReason, pastUseReason } from '../../../src/household/paper-record.ts';
import { event } from './ledger-event.ts';

// What the book says about the eating of one item: salsa in pints, of a household in Denver, looked at on March 20.

const asOf = asDate('2026-03-20');
const salsa = { id: 'salsa', usualJar: 'pint/regular' } as Item;

interface Known {
  readonly household?: { readonly timeZone: string; readonly recordedSince: string | null };
  readonly counts?: readonly object[];
  readonly lots?: readonly object[];
}
const count = (on: string, countedUnits: number) => ({ itemId: 'salsa', countedOn: on, countedUnits });
const ledger = (
  events: readonly JarEvent[],
  { household = { timeZone: 'America/Denver', recordedSince: null }, counts = [], lots = [] }: Known = {},
) => {
  const { timeZone, recordedSince: saidSince } = household;
  return itemLedger({ item: salsa, events, counts, lots, timeZone, saidSince, asOf } as LedgerAsked);
};

test('an empty book knows nothing', () => {
  expect(ledger([])).toEqual({
    from: null,
    recordedSince: null,
    onPaper: [],
    unrecorded: [],
    takings: [],
    countings: [],
    movements: [],
    checked: { tapped: 0, takenUnsaid: 0 },
  });
});

describe('what was put up and eaten as it was written down', () => {
  const events = [
    event('put up', 10, '2026-03-01'),
    event('taken', -1, '2026-03-05'),
    event('taken', -2, '2026-03-10'),
    event('discarded', -1, '2026-03-11'),
  ];

  test('is known from the day it came', () => {
    expect(ledger(events)).toEqual({
      from: '2026-03-01',
      recordedSince: '2026-03-01',
      onPaper: [],
      unrecorded: [],
      takings: [
        { on: '2026-03-05', units: 1 },
        { on: '2026-03-10', units: 2 },
      ],
      countings: [],
      movements: [
        { on: '2026-03-01', units: 10 },
        { on: '2026-03-05', units: -1 },
        { on: '2026-03-10', units: -2 },
        { on: '2026-03-11', units: -1 },
      ],
      checked: { tapped: 0, takenUnsaid: 0 },
    });
  });

  test('is counted in the item’s usual jar', () => {
    const quarts = events.map((one) => ({ ...one, jarKind: 'quart/regular' }) as JarEvent);

    expect(ledger(quarts).takings.map(({ units }) => units)).toEqual([2, 4]);
    expect(ledger(quarts).movements.map(({ units }) => units)).toEqual([20, -2, -4, -2]);
  });

  test('leaves takings that are no use of the table out of what trains the forecast', () => {
    const gift = event('taken', -3, '2026-03-12', { trainsUse: false });

    expect(ledger([...events, gift]).takings).toHaveLength(2);
    expect(ledger([...events, gift]).movements.at(-1)).toEqual({ on: '2026-03-12', units: -3 });
  });

  test('comes onto the shelf on the day it is ready', () => {
    const lots = [{ id: 'lot', readyFrom: '2026-03-04' }];

    expect(ledger(events, { lots }).movements.map(({ on }) => on)).toEqual([
      '2026-03-04',
      '2026-03-05',
      '2026-03-10',
      '2026-03-11',
    ]);
    expect(ledger(events, { lots: [{ id: 'lot', readyFrom: '2026-02-04' }] }).movements[0]?.on).toBe(
      '2026-03-01',
    );
    expect(ledger(events, { lots: [{ id: 'other', readyFrom: '2026-03-04' }] }).movements[0]?.on).toBe(
      '2026-03-01',
    );
  });

  test('begins when the household says so, with what was not recorded before left out', () => {
    const household = { timeZone: 'America/Denver', recordedSince: '2026-03-06' };

    expect(ledger(events, { household })).toMatchObject({
      from: '2026-03-06',
      recordedSince: '2026-03-06',
      unrecorded: [],
    });
  });
});

test.each(['put up', 'bought', 'received', 'given away', 'discarded', 'seal failed'] as const)(
  'something %s and written down shows that recording has begun',
  (kind) => {
    expect(ledger([event(kind, kind.length, '2026-03-08')]).recordedSince).toBe('2026-03-08');
  },
);

test.each(['moved', 'finished', 'counted'] as const)('something %s does not', (kind) => {
  expect(ledger([event(kind, 0, '2026-03-08')]).recordedSince).toBeNull();
});

describe('what is written down late is taking stock', () => {
  const old = event('put up', 12, '2025-08-20', { writtenOn: '2026-02-10' });

  test('of which nothing is known until something is taken', () => {
    expect(ledger([old])).toMatchObject({ from: null, recordedSince: null, unrecorded: [] });
    expect(ledger([old, event('taken', -1, '2026-02-20')])).toMatchObject({
      from: '2026-02-21',
      recordedSince: '2026-02-21',
    });
  });

  test('stands from the day it was written down, or from the first that something was gone', () => {
    expect(ledger([old]).movements).toEqual([{ on: '2026-02-10', units: 12 }]);
    expect(ledger([old, event('taken', -1, '2025-12-24', { writtenOn: '2026-02-10' })]).movements[0]).toEqual(
      {
        on: '2025-12-24',
        units: 12,
      },
    );
    expect(ledger([old], { lots: [{ id: 'lot', readyFrom: '2026-02-15' }] }).movements[0]?.on).toBe(
      '2026-02-15',
    );
  });

  test('and is known from then once the shelf was counted', () => {
    expect(ledger([old], { counts: [count('2026-03-10', 11)] })).toMatchObject({
      from: '2026-02-10',
      recordedSince: '2026-02-10',
    });
  });

  test('by the household’s own day: written late in the evening of the seventh day it is still as it came', () => {
    const evening = (hour: string) => ({
      ...event('put up', 5, '2026-03-01'),
      recordedAt: Date.parse(`2026-03-09T${hour}:00:00Z`),
    });

    // Denver is seven hours behind until the clocks change, six after.
    expect(ledger([evening('05')]).recordedSince).toBe('2026-03-01');
    expect(ledger([evening('07')]).recordedSince).toBeNull();
  });
});

describe('a count', () => {
  const events = [
    event('put up', 10, '2026-03-01'),
    event('taken', -1, '2026-03-05'),
    event('taken', -2, '2026-03-15'),
    event('counted', -3, '2026-03-10', { trainsUse: true }),
    event('counted', -1, '2026-03-10', { trainsUse: false }),
    event('counted', -4, '2026-03-12', { trainsUse: true }),
  ];
  const told = ledger(events, { counts: [count('2026-03-10', 6)] });

  test('says what was taken without a word', () => {
    expect(told.countings).toEqual([{ on: '2026-03-10', counted: 6, takenUnsaid: 3 }]);
  });

  test('checks the takings up to it, and no later one', () => {
    expect(told.checked).toEqual({ tapped: 1, takenUnsaid: 3 });
    expect(ledger(events, { counts: [count('2026-03-05', 9)] }).checked).toEqual({
      tapped: 1,
      takenUnsaid: 0,
    });
    expect(ledger(events, { counts: [count('2026-03-05', 9), count('2026-03-15', 4)] }).checked.tapped).toBe(
      3,
    );
    expect(ledger(events).checked).toEqual({ tapped: 0, takenUnsaid: 0 });
  });
});

describe('what was kept on paper', () => {
  const list = [
    event('put up', 30, '2025-09-01', { reason: pastUseReason, writtenOn: '2026-03-01' }),
    event('taken', -2, '2025-10-03', { reason: pastUseReason, writtenOn: '2026-03-01' }),
    event('taken', -1, '2025-11-20', { reason: pastUseReason, writtenOn: '2026-03-01' }),
  ];

  test('counts for its days, from the first to the last, and is not recorded as it happened', () => {
    expect(ledger(list)).toMatchObject({
      from: '2025-09-01',
      recordedSince: null,
      onPaper: [{ from: '2025-09-01', until: '2025-11-21' }],
      unrecorded: [{ from: '2025-11-21', until: '2026-03-21' }],
      takings: [
        { on: '2025-10-03', units: 2 },
        { on: '2025-11-20', units: 1 },
      ],
    });
    expect(ledger(list).movements[0]).toEqual({ on: '2025-09-01', units: 30 });
  });

  test('of two lists has two spans, and takings of neither are checked by a count', () => {
    const other = list.map((one) => ({
      ...one,
      lotId: 'other',
      occurredOn: one.occurredOn.replace('2025', '2024'),
    }));
    const both = ledger([...list, ...(other as unknown as JarEvent[])], { counts: [count('2026-03-10', 5)] });

    expect(both.onPaper).toEqual([
      { from: '2025-09-01', until: '2025-11-21' },
      { from: '2024-09-01', until: '2024-11-21' },
    ]);
    expect(both.checked.tapped).toBe(0);
  });

  test('and written down the same week is no recording either', () => {
    const fresh = [event('taken', -1, '2026-03-02', { reason: pastUseReason })];

    expect(ledger(fresh).recordedSince).toBeNull();
  });
});

describe('“put up 30 in August, 8 left”', () => {
  const lots = [
    { id: 'lot', readyFrom: '2025-08-22' },
    { id: 'second', readyFrom: '2025-09-02' },
  ];
  const put = (lotId: string, units: number, on: string) =>
    event('put up', units, on, { lotId, writtenOn: '2026-03-01' });
  const gone = (lotId: string, units: number) =>
    event('counted', -units, '2026-03-01', { lotId, reason: eatenBeforeReason, trainsUse: true });
  const events = [
    put('lot', 30, '2025-08-20'),
    gone('lot', 22),
    put('second', 6, '2025-09-01'),
    gone('second', 1),
  ];

  test('is one count of all lots said so on one day, since the first of them was ready', () => {
    expect(ledger(events, { lots }).countings).toEqual([
      { on: '2026-03-01', since: '2025-08-22', takenUnsaid: 23, counted: 13 },
    ]);
  });

  test('counts for the days since, and is not what was found at a count', () => {
    const told = ledger(events, { lots, counts: [count('2026-03-01', 13)] });

    expect(told.onPaper).toEqual([
      { from: '2025-08-22', until: '2026-03-02' },
      { from: '2025-09-02', until: '2026-03-02' },
    ]);
    expect(told.checked.takenUnsaid).toBe(0);
    expect(told.movements[0]).toEqual({ on: '2025-08-22', units: 30 });
  });

  test('of other lots and later days counts nothing', () => {
    const apart = [...events, put('third', 5, '2025-09-03'), event('taken', -2, '2026-03-04')];

    expect(ledger(apart, { lots }).countings[0]).toMatchObject({ counted: 13 });
  });

  test('said on the day it was made begins on that day', () => {
    const sameDay = [
      event('put up', 3, '2026-03-01', { lotId: 'third' }),
      event('counted', -1, '2026-03-01', { lotId: 'third', reason: eatenBeforeReason }),
    ];

    expect(ledger(sameDay).onPaper).toEqual([{ from: '2026-03-01', until: '2026-03-02' }]);
    expect(ledger(sameDay, { lots: [{ id: 'third', readyFrom: '2026-03-06' }] }).onPaper).toEqual([
      { from: '2026-03-01', until: '2026-03-02' },
    ]);
  });
});

test('days of recording are those on which something was written down as it happened, or counted', () => {
  const events = [
    event('put up', 10, '2026-03-01'),
    event('put up', 10, '2025-03-01', { writtenOn: '2026-03-02' }),
    event('bought', 1, '2025-03-03', { writtenOn: '2026-03-02' }),
    event('taken', -1, '2025-12-01', { writtenOn: '2026-03-02' }),
    event('counted', -1, '2026-03-04', { reason: eatenBeforeReason }),
    event('moved', 0, '2026-03-05'),
  ];

  expect(
    daysOfRecording(
      {
        household: { timeZone: 'America/Denver' },
        counts: [count('2026-03-09', 4)],
      } as unknown as HouseholdFacts,
      events,
    ),
  ).toEqual(['2026-03-01', '2025-12-01', '2026-03-05', '2026-03-09']);
});
