import { describe, expect, test } from 'vitest';
import { addDays, asDate } from '../../shared/week.ts';
import { defaultNoticeSettings, type Notice } from '../../src/notices/notice.ts';
import type { NoticeBatch, NoticeCanner } from '../../src/notices/notice-picture.ts';
import { noticesFor } from '../../src/notices/notices-for.ts';
import { asOf, peaches, quietPantry } from './pantry.ts';

// What keeps a load from the canner or a jar from the table: whole notices, and the days around which they change.

const told = (facts: Parameters<typeof quietPantry>[0]): readonly Notice[] =>
  noticesFor(quietPantry(facts), defaultNoticeSettings);
const day = (more: number) => addDays(asOf, more);
const batch = (facts: Partial<NoticeBatch> = {}): NoticeBatch => ({
  batchKey: 'hominy-2026-W48',
  name: 'Hominy',
  isBegun: true,
  state: 'on its way',
  plannedOn: day(2),
  loadOn: day(2),
  fillFrom: null,
  fillUntil: null,
  days: [],
  ...facts,
});
const at = (more: number, time = '09:00') => `${day(more)}T${time}` as NonNullable<NoticeBatch['fillFrom']>;
const soak = (facts: Partial<NoticeBatch['days'][number]> = {}): NoticeBatch['days'][number] => ({
  position: 1,
  what: 'Soak the corn',
  on: day(-1),
  state: 'missed',
  waits: true,
  ...facts,
});
const ofBatch = (kind: Notice['kind'], facts: Partial<NoticeBatch>) =>
  told({ batches: [batch(facts)] }).filter((notice) => notice.kind === kind);

describe('a load that is held back', () => {
  const held = (facts: Partial<NoticeBatch>) => ofBatch('load held back', facts);

  test('was not begun in time: says what was to be done when, and what it cannot be', () => {
    expect(held({ state: 'not begun in time', days: [soak()] })).toEqual([
      {
        kind: 'load held back',
        subject: 'batch:hominy-2026-W48',
        reason:
          'Hominy should have been started on Nov 24, 2026, and nothing is written down, so it can’t be canned on Nov 27, 2026. If you did start it in time, write down when.',
        dueOn: day(2),
      },
    ]);
    expect(
      held({ state: 'not begun in time', plannedOn: null, days: [soak({ state: 'done' })] })[0]?.reason,
    ).toContain(
      'should have been started by now, and nothing is written down, so it can’t be canned on its day.',
    );
  });

  test('is on another day: says the nearest, and the last where there is one; without a day nothing', () => {
    expect(held({ state: 'moved', loadOn: day(3) })[0]?.reason).toBe(
      'Hominy: going by what is written down, it can’t be canned on Nov 27, 2026. The nearest day is Nov 28, 2026.',
    );
    expect(held({ state: 'moved', loadOn: day(3), fillUntil: at(5) })[0]?.reason).toMatch(
      /The nearest day is Nov 28, 2026, the last Nov 30, 2026\.$/,
    );
    expect(held({ state: 'moved', loadOn: null })).toEqual([]);
  });

  test('waited too long: is not canned, and says which wait', () => {
    expect(held({ state: 'spoilt', days: [soak()] })[0]?.reason).toBe(
      'Hominy: “Soak the corn” was to be done on Nov 24, 2026 and is not written down. If it was done in time, write down when; otherwise don’t can this batch, throw it away.',
    );
    expect(held({ state: 'spoilt', days: [] })[0]?.reason).toContain(
      'a wait was longer than its source allows. If it was done in time',
    );
  });

  test.each(['one go', 'to begin', 'on its way'] as const)('%s: is not', (state) => {
    expect(held({ state })).toEqual([]);
  });
});

describe('what may be canned', () => {
  const may = (facts: Partial<NoticeBatch>) => ofBatch('may be canned', { fillFrom: at(0), ...facts });

  test('is told with its days, due on the last of them', () => {
    expect(may({ fillUntil: at(4) })).toEqual([
      {
        kind: 'may be canned',
        subject: 'batch:hominy-2026-W48',
        reason: 'Hominy may be canned now, until Nov 29, 2026. The load is planned for Nov 27, 2026.',
        dueOn: day(4),
      },
    ]);
  });

  test('without a last day it is due with the load, on one day alone it says only', () => {
    expect(may({})[0]).toMatchObject({
      reason: 'Hominy may be canned now. The load is planned for Nov 27, 2026.',
      dueOn: day(2),
    });
    expect(may({ fillFrom: at(1), fillUntil: at(1, '18:00'), plannedOn: null })[0]?.reason).toBe(
      'Hominy may be canned on Nov 26, 2026 only.',
    );
  });

  test('is told from three days before its first, and then from when', () => {
    const [notice] = may({ fillFrom: at(3) });
    expect(notice?.reason).toContain('may be canned from Nov 28, 2026.');
    expect(may({ fillFrom: at(4) })).toEqual([]);
  });

  test('a load on another day than planned names none', () => {
    expect(may({ loadOn: day(3) })[0]?.reason).toBe('Hominy may be canned now.');
  });

  test.each([
    ['not begun', { isBegun: false }],
    ['not ready', { fillFrom: null }],
    ['for no load', { loadOn: null }],
    ['with a wait before it', { days: [soak({ state: 'done' }), soak({ position: 2, state: 'due' })] }],
  ] as const)('%s: is not', (_, facts) => {
    expect(may(facts)).toEqual([]);
  });

  test('work that waits for nothing keeps it from nothing, and a wait that is done neither', () => {
    expect(
      may({ days: [soak({ state: 'done' }), soak({ position: 2, state: 'due', waits: false })] }),
    ).toHaveLength(1);
  });
});

describe('a dial gauge', () => {
  const dial = (facts: Partial<NoticeCanner> = {}): NoticeCanner => ({
    cannerId: 'pot',
    name: 'the tall pot',
    gauge: 'dial',
    gaugeCheckedOn: null,
    ...facts,
  });
  const gauge = (facts: Partial<NoticeCanner> = {}) => told({ canners: [dial(facts)] });
  /** Checked so that the check counts until so many days from today: for 365 days (USDA Complete Guide 1, p1-20; read). */
  const countsFor = (days: number) => ({ gaugeCheckedOn: day(days - 365) });

  test('that was never checked gives no pressure, and says so', () => {
    expect(gauge()).toEqual([
      {
        kind: 'gauge check',
        subject: 'canner:pot',
        reason:
          'No check of the dial gauge of the tall pot is written down. Until it has been checked, we give no pressure for it.',
        dueOn: null,
      },
    ]);
  });

  test.each([
    [31, null],
    [
      30,
      /was last checked on Dec 25, 2025\. Have it checked by Dec 25, 2026; after that, we give no pressure for it\.$/,
    ],
    [0, /Have it checked by Nov 25, 2026; after that/],
    [
      -1,
      /That counted until Nov 24, 2026\. Until a new check is written down, we give no pressure for it\.$/,
    ],
  ])('whose check counts for %i more days', (days, words) => {
    const notices = gauge(countsFor(days));

    expect(notices).toHaveLength(words === null ? 0 : 1);
    if (words !== null) {
      expect(notices[0]?.reason).toMatch(words);
      expect(notices[0]?.dueOn).toBe(day(days));
    }
  });

  test('that the plan needs checked is due the day before, with what waits for it', () => {
    const [notice] = gauge({
      ...countsFor(20),
      checkNeededFor: { on: day(10), makes: ['Green beans', 'Corn'] },
    });

    expect(notice?.dueOn).toBe(day(9));
    expect(notice?.reason).toContain(
      'The plan counts on a new check before Dec 5, 2026, for Green beans and Corn: until it is written down, that canning day shows no time.',
    );
  });

  test('weighted needs no check', () => {
    expect(gauge({ gauge: 'weighted' })).toEqual([]);
    expect(gauge({ gauge: null })).toEqual([]);
  });
});

test('an altitude nobody entered is asked for, and one at sea level is one', () => {
  expect(told({ altitudeFt: null })).toEqual([
    {
      kind: 'altitude unknown',
      subject: 'kitchen',
      reason:
        'We don’t know the altitude of your kitchen. Times and pressures depend on it, so no canning day can be planned until you enter it.',
      dueOn: null,
    },
  ]);
  expect(told({ altitudeFt: 0 })).toEqual([]);
});

test('jars set aside are settled, and those that are gone ask for nothing', () => {
  const setAside = { reason: 'lid bulged', on: asDate('2026-11-20') };

  expect(told({ lots: [peaches({ setAside })] })[0]).toMatchObject({
    subject: 'lot:peaches-25-12',
    dueOn: null,
  });
  expect(told({ lots: [peaches({ setAside, left: 0 })] })).toEqual([]);
});
