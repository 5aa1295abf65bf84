import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addDays, asDate } from '../../shared/week.ts';
import { type AccountEvent, accountOf, type ItemAccount } from '../../src/shelf/account.ts';

const period = { from: asDate('2026-01-01'), until: asDate('2027-01-01') };
const day = (days: number) => addDays(period.from, days);

let seq = 0;
const event = (
  kind: AccountEvent['kind'],
  units: number,
  days: number,
  facts: Partial<AccountEvent> = {},
): AccountEvent => ({
  seq: ++seq,
  itemId: 'plum-jam',
  kind,
  units,
  trainsUse: kind === 'taken',
  reason: null,
  occurredOn: day(days),
  reversesSeq: null,
  ...facts,
});
const plumJam = (events: readonly AccountEvent[]): ItemAccount => {
  const [account] = accountOf(events, period);
  if (!account) throw new Error('no account of plum jam');
  return account;
};

describe('a year of plum jam', () => {
  const wrong = event('taken', -5, 40);
  const year = [
    event('put up', 9, -100),
    event('taken', -2, -20),
    event('taken', -6, 30),
    wrong,
    event('reversed', 5, 41, { reversesSeq: wrong.seq }),
    event('counted', -1, 60, { trainsUse: true, reason: 'taken-unrecorded' }),
    event('put up', 20, 220),
    event('seal failed', -1, 221),
    event('given away', -3, 340),
    event('discarded', -2, 300, { reason: 'past-best' }),
    event('counted', 1, 350, { reason: 'miscount' }),
    event('taken', -4, 400),
  ];

  test('what was there and what came is what was eaten, given, thrown away and is left', () => {
    expect(plumJam(year)).toEqual({
      itemId: 'plum-jam',
      opening: 7,
      putUp: 20,
      bought: 0,
      received: 0,
      eaten: 7,
      given: 3,
      thrownAway: [
        { reason: 'past-best', units: 2 },
        { reason: 'seal failed', units: 1 },
      ],
      corrected: 1,
      closing: 15,
      withoutAny: [{ from: day(61), until: day(220) }],
      daysWithout: 159,
      days: 365,
    });
  });

  test('the order of the events changes nothing', () => {
    expect(accountOf([...year].reverse(), period)).toEqual(accountOf(year, period));
  });
});

test('over random years the account closes and the days without lie in the period', () => {
  const kinds = [
    'put up',
    'bought',
    'received',
    'taken',
    'given away',
    'discarded',
    'seal failed',
    'counted',
  ] as const;
  const ledger = fc.array(
    fc.record({
      kind: fc.constantFrom(...kinds),
      halves: fc.integer({ min: 1, max: 12 }),
      days: fc.integer({ min: -200, max: 364 }),
      eaten: fc.boolean(),
      item: fc.constantFrom('plum-jam', 'peaches'),
      undone: fc.boolean(),
    }),
    { maxLength: 40 },
  );
  fc.assert(
    fc.property(ledger, (lines) => {
      const events = lines.flatMap((line) => {
        const leaves = !['put up', 'bought', 'received'].includes(line.kind);
        const made = event(line.kind, ((leaves ? -1 : 1) * line.halves) / 2, line.days, {
          trainsUse: line.eaten,
          itemId: line.item,
        });
        const undo = event('reversed', -made.units, line.days + 1, {
          itemId: line.item,
          reversesSeq: made.seq,
        });
        return line.undone ? [made, undo] : [made];
      });

      for (const account of accountOf(events, period)) {
        const thrown = account.thrownAway.reduce((sum, each) => sum + each.units, 0);
        const came = account.putUp + account.bought + account.received + account.corrected;
        const kept = events.filter(
          (each) =>
            each.itemId === account.itemId &&
            each.kind !== 'reversed' &&
            !events.some((other) => other.reversesSeq === each.seq),
        );
        expect(account.opening + came - account.eaten - account.given - thrown).toBeCloseTo(
          account.closing,
          9,
        );
        expect(account.closing).toBeCloseTo(
          kept.reduce((sum, each) => sum + each.units, 0),
          9,
        );
        for (const span of account.withoutAny) {
          expect(span.from >= period.from && span.from < span.until && span.until <= period.until).toBe(true);
        }
        expect(account.daysWithout).toBeLessThanOrEqual(account.days);
      }
    }),
  );
});

test('items stand by the alphabet, whatever moved first', () => {
  const moved = ['plums', 'apples', 'corn'].map((itemId, at) => event('put up', 1, at, { itemId }));

  expect(accountOf(moved, period).map(({ itemId }) => itemId)).toEqual(['apples', 'corn', 'plums']);
});

test('what was thrown away stands by how much it was, then by its reason', () => {
  const thrown = (reason: string | null, units: number) => event('discarded', -units, 10, { reason });
  const account = plumJam([
    event('put up', 30, 0),
    thrown('spoilt', 2),
    thrown('cloudy', 2),
    thrown('past-best', 3),
    thrown(null, 1),
    event('seal failed', -4, 11, { reason: 'whatever was written' }),
    thrown('cloudy', 1),
  ]);

  expect(account.thrownAway).toEqual([
    { reason: 'seal failed', units: 4 },
    { reason: 'cloudy', units: 3 },
    { reason: 'past-best', units: 3 },
    { reason: 'spoilt', units: 2 },
    { reason: 'other', units: 1 },
  ]);
});

test('days without a jar are counted day by day, in whatever order they were written down', () => {
  const year = [
    event('put up', 2, 5),
    event('taken', -2, 10),
    event('put up', 1, 20),
    event('taken', -1, 20),
    event('put up', 3, 30),
  ];
  const spans = [
    { from: day(0), until: day(5) },
    { from: day(11), until: day(30) },
  ];

  expect(plumJam(year).withoutAny).toEqual(spans);
  const [a, b, c, d, e] = year as [AccountEvent, AccountEvent, AccountEvent, AccountEvent, AccountEvent];
  expect(plumJam([e, c, a, d, b]).withoutAny).toEqual(spans);
  expect(plumJam(year).daysWithout).toBe(24);
});

test('a period that ends before it begins is an error', () => {
  expect(() => accountOf([], { from: period.until, until: period.from })).toThrow(
    'accountOf: expected an end after 2027-01-01, got 2026-01-01',
  );
});

describe('of what was eaten before the book knew of it', () => {
  const events = [event('put up', 7, 200), event('taken', -7, 230)];

  test('no day counts, with or without any on the shelf', () => {
    const [account] = accountOf(events, period, () => day(200));

    expect(account?.days).toBe(365 - 200);
    expect(account?.withoutAny).toEqual([{ from: day(231), until: period.until }]);
  });

  test('nothing is said while the book knows nothing', () => {
    const [account] = accountOf(events, period, () => null);

    expect(account).toMatchObject({ days: 0, daysWithout: 0, withoutAny: [], closing: 0 });
  });

  test('days without are those of a book that knows all, from the day it does', () => {
    fc.assert(
      fc.property(fc.integer({ min: -30, max: 400 }), (known) => {
        const [all] = accountOf(events, period);
        const [some] = accountOf(events, period, () => day(known));
        const daysOf = (account: ItemAccount | undefined) =>
          (account?.withoutAny ?? []).flatMap(({ from, until }) => {
            const days: string[] = [];
            for (let on = from; on < until; on = addDays(on, 1)) days.push(on);
            return days;
          });
        expect(daysOf(some)).toEqual(daysOf(all).filter((on) => on >= day(known)));
      }),
    );
  });
});
