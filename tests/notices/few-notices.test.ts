import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addDays, addWeeks, asDate, weekOf } from '../../shared/week.ts';
import { defaultNoticeSettings } from '../../src/notices/notice.ts';
import { noticesFor } from '../../src/notices/notices-for.ts';
import { asOf, peaches, plumJam, quietPantry } from './pantry.ts';

const told = (facts: Parameters<typeof quietPantry>[0]) =>
  noticesFor(quietPantry(facts), defaultNoticeSettings);
const sauce = (lotId: string, left: number, until: string, itemName = 'Tomato sauce') =>
  peaches({ lotId, itemName, left, bestQualityUntil: asDate(until) });

describe('notices are few', () => {
  test('two lots of one food are one notice, with the pace that finishes both in time', () => {
    const notices = told({ lots: [sauce('b', 8, '2026-12-24'), sauce('a', 2, '2026-12-17')] });

    // 2 in three weeks, 10 in four: 3 a week.
    expect(notices.map(({ subject, reason }) => [subject, reason])).toEqual([
      [
        'lot:a',
        'Eat soon: 10 jars of Tomato sauce, at their best until Dec 17, 2026 (2 jars) and Dec 24, 2026 (8 jars). Eat 3 jars a week to finish them by then.',
      ],
    ]);
  });

  test('three foods past their best are one notice, with a food once however many lots it has', () => {
    const notices = told({
      lots: [
        sauce('a', 2, '2026-11-01'),
        sauce('b', 1, '2026-12-20'),
        sauce('c', 1, '2026-10-01', 'Pear halves'),
        sauce('d', 4, '2026-09-01', 'Kraut'),
        sauce('e', 5, '2026-12-20', 'Peach halves'),
      ],
    });

    expect(notices.map(({ subject }) => subject)).toEqual(['lots:past-best', 'lot:e']);
    expect(notices[0]?.reason).toBe(
      'Eat soon: 4 jars of Kraut, 1 jar of Pear halves and 3 jars of Tomato sauce. They are past their best, and their flavor and color are fading: eat these first.',
    );
  });

  test('three foods near their date are one notice, each with its date and the pace that finishes it in time', () => {
    const notices = told({
      lots: [
        sauce('a', 2, '2026-12-17'),
        sauce('b', 8, '2026-12-24'),
        sauce('c', 1, '2026-12-20', 'Pear halves'),
        sauce('d', 4, '2026-12-30', 'Kraut'),
        sauce('e', 5, '2026-11-01', 'Peach halves'),
      ],
    });

    expect(notices.map(({ subject, dueOn }) => [subject, dueOn])).toEqual([
      ['lot:e', '2026-11-01'],
      ['lots:near-best', '2026-12-17'],
    ]);
    expect(notices[1]?.reason).toBe(
      'Eat soon: 10 jars of Tomato sauce, the first by Dec 17, 2026 (3 jars a week); 1 jar of Pear halves by Dec 20, 2026 (one every 3 weeks); 4 jars of Kraut by Dec 30, 2026 (one a week).',
    );
  });

  test('three foods that soon run out are one notice, the first to go first; what nothing can bring keeps its own', () => {
    const thisWeek = weekOf(asOf);
    const item = (itemName: string, weeks: number, missing?: string) =>
      plumJam({
        itemId: itemName,
        itemName,
        onShelf: 2,
        runsOutIn: addWeeks(thisWeek, weeks),
        nextSupplyWeek: missing === undefined ? addWeeks(thisWeek, 30) : null,
        ...(missing === undefined ? {} : { missing }),
      });

    const notices = told({
      items: [
        item('Salsa', 5),
        item('Corn', 2),
        item('Beets', 3),
        item('Carrots', 1, 'no source of carrots'),
      ],
    });

    expect(notices.map(({ subject, about }) => [subject, about])).toEqual([
      ['item:Carrots', undefined],
      ['items:soon-gone', ['Corn', 'Beets', 'Salsa']],
    ]);
    expect(notices[1]?.reason).toMatch(
      /^Likely to run out before more comes: Corn in the week of Dec 7, 2026, 2 jars left/,
    );
  });

  test('nothing is told to be eaten soon and more slowly at once', () => {
    const thisWeek = weekOf(asOf);
    const item = plumJam({
      itemName: 'Tomato sauce',
      runsOutIn: addWeeks(thisWeek, 3),
      nextSupplyWeek: addWeeks(thisWeek, 30),
    });

    const notices = told({ items: [item], lots: [sauce('a', 5, '2026-12-20')] });

    expect(notices.map(({ kind }) => kind).toSorted()).toEqual(['best by near', 'runs out']);
    expect(notices.find(({ kind }) => kind === 'runs out')?.reason).not.toMatch(/more slowly/);
    expect(told({ items: [item] })[0]?.reason).toMatch(/more slowly/);
  });

  test('of one food there is at most one notice of a kind, whatever stands on the shelf', () => {
    const lot = fc.tuple(
      fc.constantFrom('Tomato sauce', 'Pear halves', 'Kraut', 'Plum jam'),
      fc.integer({ min: 1, max: 12 }),
      fc.integer({ min: -200, max: 90 }),
    );
    fc.assert(
      fc.property(fc.array(lot, { maxLength: 20 }), (all) => {
        const notices = told({
          lots: all.map(([name, left, days], at) =>
            peaches({ lotId: `lot-${at}`, itemName: name, left, bestQualityUntil: addDays(asOf, days) }),
          ),
        });

        expect(notices.length).toBeLessThanOrEqual(4);
        for (const name of ['Tomato sauce', 'Pear halves', 'Kraut', 'Plum jam'])
          expect(notices.filter(({ reason }) => reason.includes(name)).length).toBeLessThanOrEqual(1);
      }),
    );
  });
});
