import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addDays, asDate, type CalendarDate, dateInZone, daysBetween } from '../../shared/week.ts';
import { defaultNoticeSettings } from '../../src/notices/notice.ts';
import { type NoticeBefore, noticeChanges } from '../../src/notices/notice-changes.ts';
import type { NoticeLot } from '../../src/notices/notice-picture.ts';
import { noticesFor } from '../../src/notices/notices-for.ts';
import { asOf, jars, peaches, quietPantry } from './pantry.ts';

const leadDays = defaultNoticeSettings.leadDays['best by near'] ?? 0;
const bestBy = (lots: readonly NoticeLot[], on: CalendarDate = asOf) =>
  noticesFor(quietPantry({ lots, asOf: on }), defaultNoticeSettings).filter(
    (notice) => notice.kind === 'best by near',
  );

describe('a lot that nears its date', () => {
  test('is told from six weeks before, with the pace that finishes it in time', () => {
    const lot = peaches();

    expect(bestBy([lot], addDays(lot.bestQualityUntil, -43))).toEqual([]);
    expect(bestBy([lot], addDays(lot.bestQualityUntil, -42))).toEqual([
      {
        kind: 'best by near',
        subject: 'lot:peaches-25-12',
        reason:
          'Eat soon: 3 jars of Peach halves put up on Dec 12, 2025. Best until Dec 12, 2026. Eat one every 2 weeks to finish them by then.',
        dueOn: '2026-12-12',
      },
    ]);
  });

  test.each([
    [9, -42, 'Eat 2 jars a week to finish'],
    [6, -42, 'Eat one a week to finish'],
    [2, -42, 'Eat one every 3 weeks to finish'],
    [4, -3, 'Eat 4 jars within the week to finish'],
    [1, 0, 'Eat 1 jar within the week to finish'],
  ])('%d jars, %d days to the date: %s', (left, days, words) => {
    const lot = peaches({ left });

    expect(bestBy([lot], addDays(lot.bestQualityUntil, days))[0]?.reason).toContain(words);
  });

  test('stays the first to eat after its date, without a word about safety', () => {
    const lot = peaches({ place: 'cellar bay' });

    expect(bestBy([lot], addDays(lot.bestQualityUntil, 40))[0]?.reason).toBe(
      'Eat soon: 3 jars of Peach halves put up on Dec 12, 2025 (cellar bay). Best until Dec 12, 2026. Flavor and color fade after that, so eat them first.',
    );
  });

  test('set aside is not to be eaten: no word of eating it soon, but a notice to settle it', () => {
    const lot = peaches({ setAside: { reason: 'gauge read 3 psi high', on: asDate('2026-11-20') } });

    const notices = noticesFor(quietPantry({ lots: [lot] }), defaultNoticeSettings);

    expect(notices.map((notice) => notice.kind)).toEqual(['set aside']);
    expect(notices[0]?.reason).toBe(
      'Do not eat: 3 jars of Peach halves put up on Dec 12, 2025 and set aside on Nov 20, 2026 (gauge read 3 psi high). Release or discard them.',
    );
  });
});

interface LedgerEvent {
  readonly lot: number;
  readonly kind: 'put up' | 'taken' | 'given away' | 'discarded';
  readonly jars: number;
  readonly day: number;
}

// Days around both clock changes and the year's end in zones that shift in spring, in autumn, and not at all.
const anchors = [
  '2026-03-08',
  '2026-03-29',
  '2026-10-25',
  '2026-11-01',
  '2026-12-31',
  '2027-01-03',
  '2028-02-29',
];
const zones = ['America/New_York', 'Europe/Berlin', 'Australia/Sydney', 'America/Phoenix', 'UTC'];
const anyDay = fc.oneof(
  fc
    .record({ anchor: fc.constantFrom(...anchors), shift: fc.integer({ min: -4, max: 4 }) })
    .map(({ anchor, shift }) => addDays(asDate(anchor), shift)),
  fc.integer({ min: 0, max: 1500 }).map((days) => addDays(asDate('2025-06-01'), days)),
);
const anyLedger = fc.array(
  fc.record<LedgerEvent>({
    lot: fc.nat(5),
    kind: fc.constantFrom('put up', 'put up', 'taken', 'given away', 'discarded'),
    jars: fc.integer({ min: 1, max: 6 }),
    day: fc.nat(900),
  }),
  { maxLength: 40 },
);

/** Lots as the ledger's sum gives them on a day; a lot is born with its first "put up". */
function lotsOn(ledger: readonly LedgerEvent[], day: CalendarDate): NoticeLot[] {
  const start = asDate('2025-06-01');
  const until = ledger
    .filter((event) => addDays(start, event.day) <= day)
    .sort((one, other) => one.day - other.day);
  const lots = new Map<number, NoticeLot>();
  for (const event of until) {
    const lot = lots.get(event.lot);
    if (event.kind === 'put up') {
      lots.set(
        event.lot,
        lot === undefined
          ? peaches({ lotId: `lot-${event.lot}`, madeOn: addDays(start, event.day), left: event.jars })
          : { ...lot, left: lot.left + event.jars },
      );
    } else if (lot !== undefined) {
      lots.set(event.lot, { ...lot, left: Math.max(0, lot.left - event.jars) });
    }
  }
  return [...lots.values()];
}

describe('over random ledgers and days, clock changes and year ends included', () => {
  test('a food has exactly one best-by notice from the lead time of its first lot on, and none before', () => {
    fc.assert(
      fc.property(anyLedger, anyDay, fc.nat(120), (ledger, day, lead) => {
        const lots = lotsOn(ledger, day);
        const settings = { leadDays: { ...defaultNoticeSettings.leadDays, 'best by near': lead } };

        const notices = noticesFor(quietPantry({ lots, asOf: day }), settings);

        const due = lots
          .filter((lot) => lot.left > 0 && daysBetween(day, lot.bestQualityUntil) <= lead)
          .sort((one, other) =>
            `${one.bestQualityUntil} ${one.lotId}` < `${other.bestQualityUntil} ${other.lotId}` ? -1 : 1,
          );
        const [first] = due;
        expect(notices.map(({ kind, subject }) => [kind, subject])).toEqual(
          first === undefined ? [] : [['best by near', `lot:${first.lotId}`]],
        );
        for (const notice of notices) {
          expect(notice.reason).toMatch(/^Eat soon: /);
          expect(notice.reason).toContain(` ${due.reduce((sum, { left }) => sum + left, 0)} jar`);
          expect(JSON.stringify(notice)).not.toMatch(/safe|danger|harm|spoil|toxi|botul|poison/i);
        }
      }),
    );
  });

  test('the day is the household’s own: every hour of a day, its clock change included, gives the same notices', () => {
    fc.assert(
      fc.property(
        anyDay,
        fc.constantFrom(...zones),
        fc.integer({ min: 0, max: 47 }),
        (day, zone, halfHours) => {
          const instant = Date.parse(`${day}T00:00:00Z`) + halfHours * 30 * 60_000;
          const local = dateInZone(instant, zone);
          const lots = [
            peaches({ bestQualityUntil: addDays(local, leadDays) }),
            peaches({ lotId: 'not-yet', bestQualityUntil: addDays(local, leadDays + 1) }),
          ];

          expect(bestBy(lots, local).map((notice) => notice.subject)).toEqual(['lot:peaches-25-12']);
        },
      ),
    );
  });

  test('day by day, kept by kind and subject, a lot has one open notice until it is empty, and none is opened twice', () => {
    fc.assert(
      fc.property(
        anyLedger,
        anyDay,
        fc.option(fc.integer({ min: 1, max: 20 })),
        (ledger, first, snoozeDays) => {
          const kept = new Map<string, NoticeBefore>();
          for (let step = 0; step < 60; step += 1) {
            const day = addDays(first, step);
            const lots = lotsOn(ledger, day);
            const current = noticesFor(quietPantry({ lots, asOf: day }), defaultNoticeSettings);
            const changes = noticeChanges([...kept.values()], current, day);
            for (const notice of [...changes.opened, ...changes.reopened]) {
              const open = kept.get(notice.subject)?.state === 'open';
              expect(open).toBe(false);
              kept.set(notice.subject, { ...notice, state: 'open', snoozedUntil: null });
            }
            for (const notice of changes.gone)
              kept.set(notice.subject, { ...notice, state: 'gone', snoozedUntil: null });

            const open = [...kept.values()].filter((notice) => notice.state === 'open');
            const snoozed = [...kept.values()].filter((notice) => notice.state === 'snoozed');
            expect([...open, ...snoozed].map((notice) => notice.subject).sort()).toEqual(
              current.map((notice) => notice.subject).sort(),
            );
            expect(snoozed.every((notice) => (notice.snoozedUntil ?? '') > day)).toBe(true);
            const [toSnooze] = open;
            if (snoozeDays !== null && step === 10 && toSnooze) {
              kept.set(toSnooze.subject, {
                ...toSnooze,
                state: 'snoozed',
                snoozedUntil: addDays(day, snoozeDays),
              });
            }
          }
        },
      ),
      { numRuns: 40 },
    );
  });
});

test('what was bought is not said to be put up', () => {
  expect(bestBy([peaches({ came: 'bought' })])[0]?.reason).toContain('Peach halves bought on Dec 12, 2025.');
});

test('a fraction left of a bag still counts as left', () => {
  const flour = peaches({ left: 0.4, unit: { one: 'bag', many: 'bags' } });

  expect(bestBy([flour])[0]?.reason).toContain('0.4 bags');
  expect(bestBy([peaches({ left: 0, unit: jars })])).toEqual([]);
});
