import { describe, expect, test } from 'vitest';
import { addDays, addWeeks, asDate, mondayOf, weekOf } from '../../shared/week.ts';
import { defaultNoticeSettings, type Notice } from '../../src/notices/notice.ts';
import type { NoticeItem, NoticeLot } from '../../src/notices/notice-picture.ts';
import { noticesFor } from '../../src/notices/notices-for.ts';
import { asOf, jars, peaches, plumJam, quietPantry } from './pantry.ts';

// What is said of one food, and of three or more together: whole notices, and the last day and jar before they change.

const told = (facts: Parameters<typeof quietPantry>[0]): readonly Notice[] =>
  noticesFor(quietPantry(facts), defaultNoticeSettings);
const thisWeek = weekOf(asOf);
const food = (itemName: string, facts: Partial<NoticeItem> = {}): NoticeItem =>
  plumJam({ itemId: itemName.toLowerCase(), itemName, ...facts });
const gone = (itemName: string, facts: Partial<NoticeItem> = {}) =>
  food(itemName, { onShelf: 0, runsOutIn: thisWeek, ...facts });
const lot = (lotId: string, itemName: string, until: string, facts: Partial<NoticeLot> = {}): NoticeLot =>
  peaches({ lotId, itemName, left: 2, bestQualityUntil: asDate(until), ...facts });

describe('of what nothing is left', () => {
  const salsa = gone('Salsa', { nextSupplyWeek: addWeeks(thisWeek, 30) });
  const corn = gone('Corn');
  const beets = gone('Beets', { nextSupplyWeek: addWeeks(thisWeek, 20), nextSupplyBy: 'bought' });

  test('three are one notice, by name, each with when it comes again', () => {
    expect(told({ items: [salsa, corn, beets] })).toEqual([
      {
        kind: 'runs out',
        subject: 'items:none-left',
        reason:
          'None left of 3: Beets (bought again in the week of Apr 12, 2027), Corn (nothing planned within the year) and Salsa (made again in the week of Jun 21, 2027).',
        dueOn: null,
        about: ['beets', 'corn', 'salsa'],
      },
    ]);
  });

  test('two are each their own, with the use that is missed and the way out', () => {
    expect(
      told({ items: [salsa, corn] }).map(({ subject, reason, dueOn }) => [subject, reason, dueOn]),
    ).toEqual([
      [
        'item:corn',
        'Corn: none left, and you would eat about 1 jar a week. Nothing in the plan brings more within the year.',
        null,
      ],
      [
        'item:salsa',
        'Salsa: none left, and you would eat about 1 jar a week. You can make more in the week of Jun 21, 2027: fill the gap with something else.',
        null,
      ],
    ]);
  });

  test('one that nothing can bring again is never among others, and says what is missing', () => {
    const none = gone('Okra', { missing: 'no source of okra' });
    const notices = told({ items: [salsa, corn, none] });

    expect(notices.map(({ subject }) => subject)).not.toContain('items:none-left');
    expect(notices.find(({ subject }) => subject === 'item:okra')?.reason).toBe(
      'Okra: none left, and you would eat about 1 jar a week. You can’t get more yet: no source of okra.',
    );
  });

  test('nothing is said of what nobody eats, of what comes as soon, nor of what was never written down', () => {
    for (const quiet of [
      gone('Kraut', { usePerWeek: 0 }),
      gone('Kraut', { nextSupplyWeek: thisWeek }),
      gone('Kraut', { runsOutIn: null }),
    ])
      expect(told({ items: [quiet] })).toEqual([]);
    expect(told({ items: [gone('Kraut', { isOnRecord: false })] }).map(({ kind }) => kind)).not.toContain(
      'runs out',
    );
  });
});

describe('of what soon runs out', () => {
  const soon = (itemName: string, weeks: number, facts: Partial<NoticeItem> = {}) =>
    food(itemName, {
      onShelf: 2,
      runsOutIn: addWeeks(thisWeek, weeks),
      nextSupplyWeek: addWeeks(thisWeek, 30),
      ...facts,
    });

  test('three are one notice, the first to go first, due when that one goes', () => {
    const [notice, ...others] = told({
      items: [soon('Salsa', 5), soon('Corn', 2, { nextSupplyWeek: null }), soon('Beets', 2)],
    });

    expect(others).toEqual([]);
    expect(notice).toEqual({
      kind: 'runs out',
      subject: 'items:soon-gone',
      reason:
        'Likely to run out before more comes: Beets in the week of Dec 7, 2026, 2 jars left (made again in the week of Jun 21, 2027); Corn in the week of Dec 7, 2026, 2 jars left (nothing planned within the year); Salsa in the week of Dec 28, 2026, 2 jars left (made again in the week of Jun 21, 2027).',
      dueOn: mondayOf(addWeeks(thisWeek, 2)),
      about: ['beets', 'corn', 'salsa'],
    });
  });

  test('a food is told from the first day on which its week lies within the days of the notice', () => {
    const week = addWeeks(thisWeek, 20);
    const lead = defaultNoticeSettings.leadDays['runs out'] ?? 0;
    const on = (daysBefore: number) =>
      told({
        asOf: addDays(mondayOf(week), -daysBefore),
        items: [food('Salsa', { onShelf: 40, runsOutIn: week, nextSupplyWeek: addWeeks(week, 4) })],
      }).map(({ subject }) => subject);

    expect(on(lead)).toEqual(['item:salsa']);
    expect(on(lead + 1)).toEqual([]);
  });

  // Three weeks to go, the last one whole: 2 · 3 · 1 + 1 = 7 jars are eaten at the usual pace; an eighth would be left.
  test.each([
    [7, 'and you eat about 1 jar a week'],
    [8, 'some promised, wanted for a day, or too old by then'],
  ])('%i jars that are gone in two weeks: %s', (onShelf, why) => {
    const [notice] = told({ asOf: mondayOf(thisWeek), items: [soon('Salsa', 2, { onShelf })] });

    expect(notice?.reason).toBe(
      `Salsa will likely run out in the week of Dec 7, 2026: ${onShelf} jars left, ${why}. You can make more in the week of Jun 21, 2027: eat it more slowly, or fill the gap with something else.`,
    );
    expect(notice).toMatchObject({
      dueOn: mondayOf(addWeeks(thisWeek, 2)),
    });
  });

  test('what is bought is bought again, and another food’s date does not hurry it', () => {
    const [notice] = told({
      items: [soon('Salsa', 2, { nextSupplyBy: 'bought' })],
      lots: [lot('a', 'Corn', '2026-12-20')],
    }).filter(({ kind }) => kind === 'runs out');

    expect(notice?.reason).toContain('You can buy more in the week of Jun 21, 2027: eat it more slowly');
  });
});

describe('of foods and their dates', () => {
  const together = [
    lot('a', 'Corn', '2026-12-17'),
    lot('b', 'Beets', '2026-12-20'),
    lot('c', 'Salsa', '2026-12-30', { readyFrom: addDays(asOf, 1) }),
  ];

  test('three near theirs are one notice, due with the first; what is not ready yet has no pace', () => {
    expect(told({ lots: together })).toEqual([
      {
        kind: 'best by near',
        subject: 'lots:near-best',
        reason:
          'Eat soon: 2 jars of Corn by Dec 17, 2026 (one a week); 2 jars of Beets by Dec 20, 2026 (one a week); 2 jars of Salsa by Dec 30, 2026.',
        dueOn: '2026-12-17',
        about: ['Corn', 'Beets', 'Salsa'],
      },
    ]);
  });

  test('three past theirs are one notice without a day; the date itself is not past', () => {
    const past = ['Corn', 'Beets', 'Salsa'].map((name, at) => lot(`p${at}`, name, '2026-11-24'));
    expect(told({ lots: past })).toEqual([
      {
        kind: 'best by near',
        subject: 'lots:past-best',
        reason:
          'Eat soon: 2 jars of Corn, 2 jars of Beets and 2 jars of Salsa. They are past their best, and their flavor and color are fading: eat these first.',
        dueOn: null,
        about: ['Corn', 'Beets', 'Salsa'],
      },
    ]);
    const today = ['Corn', 'Beets', 'Salsa'].map((name, at) => lot(`t${at}`, name, asOf));
    expect(told({ lots: today }).map(({ subject }) => subject)).toEqual(['lots:near-best']);
  });

  test.each([
    ['1 jar', { left: 1 }, 'so eat it first'],
    ['2 jars', { left: 2 }, 'so eat them first'],
    ['4 lb', { left: 4, unit: { one: 'lb', many: 'lb' } }, 'so eat it first'],
  ] as const)('%s past the date: %s', (_, facts, words) => {
    const [notice] = told({ lots: [lot('a', 'Corn', '2026-11-20', { unit: jars, ...facts })] });

    expect(notice?.reason).toContain(words);
  });

  test('what is not ready yet says from when it is, on the very day it has a pace', () => {
    const from = (days: number) =>
      told({ lots: [lot('a', 'Kraut', '2026-12-17', { readyFrom: addDays(asOf, days) })] })[0]?.reason;

    expect(from(1)).toMatch(/Ready from Nov 26, 2026, best until Dec 17, 2026\.$/);
    expect(from(0)).toMatch(/Best until Dec 17, 2026\. Eat one a week to finish them by then\.$/);
  });

  test('two lots of a food say the oldest first when one is past, and no pace while one is not ready', () => {
    const two = (until: string, facts: Partial<NoticeLot> = {}) =>
      told({ lots: [lot('a', 'Kraut', until), lot('b', 'Kraut', '2026-12-20', facts)] })[0]?.reason;

    expect(two('2026-11-24')).toBe(
      'Eat soon: 4 jars of Kraut, at their best until Nov 24, 2026 (2 jars) and Dec 20, 2026 (2 jars). Flavor and color fade after that, so eat the oldest first.',
    );
    expect(two('2026-11-25')).not.toContain('oldest');
    expect(two('2026-12-17', { readyFrom: addDays(asOf, 3) })).toBe(
      'Eat soon: 4 jars of Kraut, at their best until Dec 17, 2026 (2 jars) and Dec 20, 2026 (2 jars).',
    );
    expect(two('2026-12-17', { readyFrom: asOf })).toMatch(/Eat .* to finish them by then\.$/);
  });
});
