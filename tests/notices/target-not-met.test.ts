import { describe, expect, test } from 'vitest';
import type { NoticeGaveWay } from '../../src/notices/notice-picture.ts';
import { targetNotMet } from '../../src/notices/rules/target-not-met.ts';
import { quietPantry } from './pantry.ts';

// A plan that is short is one notice: what will be short, of what only the reserve is, where money and hours do not reach, and what
// is left of the garden.

const wish = (
  rung: NoticeGaveWay['rung'],
  name: string,
  over: Partial<NoticeGaveWay> = {},
): NoticeGaveWay => ({
  rung,
  key: name.toLowerCase(),
  name,
  isPreserve: true,
  amount: 4,
  words: '4 jars',
  ...over,
});
const noticesOf = (...gaveWay: readonly NoticeGaveWay[]) => targetNotMet(quietPantry({ gaveWay }));
const reasonOf = (...gaveWay: readonly NoticeGaveWay[]) => noticesOf(...gaveWay)[0]?.reason;

test('a plan that serves every wish says nothing', () => {
  expect(noticesOf()).toEqual([]);
});

test('is one notice of the plan, about every food that is short or has a smaller reserve', () => {
  expect(noticesOf(wish('reserve', 'Jam'), wish('use', 'Salsa'), wish('freshness', 'Corn'))).toEqual([
    {
      kind: 'target not met',
      subject: 'plan',
      reason: 'Salsa will be short; 1 more will have a smaller reserve.',
      dueOn: null,
      about: ['salsa', 'jam'],
    },
  ]);
});

describe('what will be short', () => {
  test.each(['family minimum', 'group', 'use'] as const)('on the rung %s is named', (rung) => {
    expect(reasonOf(wish(rung, 'Salsa'))).toBe('Salsa will be short.');
  });

  test('is counted from the first whole unit on', () => {
    expect(reasonOf(wish('use', 'Salsa', { amount: 0.99 }))).toBeUndefined();
    expect(reasonOf(wish('use', 'Salsa', { amount: 1 }))).toBe('Salsa will be short.');
  });

  test('and has weeks without any is named, though the year’s sum suffices', () => {
    expect(reasonOf(wish('use', 'Rice', { amount: 0, isBare: true }))).toBe('Rice will be short.');
    expect(reasonOf(wish('use', 'Rice', { amount: 0 }))).toBeUndefined();
  });

  test('are preserves where each is one, else things that are kept', () => {
    expect(reasonOf(wish('use', 'Salsa'), wish('use', 'Corn'))).toBe(
      '2 preserves will be short: Corn and Salsa.',
    );
    expect(reasonOf(wish('use', 'Salsa'), wish('use', 'Oats', { isPreserve: false }))).toBe(
      '2 things you keep will be short: Oats and Salsa.',
    );
    const { isPreserve: _, ...sauces } = wish('group', 'Sauces');
    expect(reasonOf(wish('use', 'Salsa'), sauces)).toBe('2 things you keep will be short: Salsa and Sauces.');
  });

  test('of several rungs is named once, by the alphabet', () => {
    expect(reasonOf(wish('use', 'Salsa'), wish('family minimum', 'Salsa'), wish('group', 'Corn'))).toBe(
      '2 preserves will be short: Corn and Salsa.',
    );
  });

  test('is named up to four, and from five on three with the rest counted', () => {
    const [a, b, c, d, e, f] = ['A', 'B', 'C', 'D', 'E', 'F'].map((name) => wish('use', name));

    expect(reasonOf(...([d, c, b, a] as NoticeGaveWay[]))).toBe('4 preserves will be short: A, B, C and D.');
    expect(reasonOf(...([a, b, c, d, e] as NoticeGaveWay[]))).toBe(
      '5 preserves will be short: A, B, C and 2 more.',
    );
    expect(reasonOf(...([a, b, c, d, e, f] as NoticeGaveWay[]))).toBe(
      '6 preserves will be short: A, B, C and 3 more.',
    );
  });
});

describe('a smaller reserve', () => {
  test.each(['reserve', 'variety'] as const)('alone, on the rung %s, leaves enough to eat', (rung) => {
    expect(reasonOf(wish(rung, 'Salsa'), wish(rung, 'Corn'))).toBe(
      'You can eat everything as planned; only the reserve of Corn and Salsa is short.',
    );
  });

  test('of what is short as well is not said twice', () => {
    const [notice] = noticesOf(wish('use', 'Salsa'), wish('reserve', 'Salsa'));

    expect(notice).toMatchObject({ reason: 'Salsa will be short.', about: ['salsa'] });
  });
});

describe('money and hours', () => {
  const week = (name: string, cents: number) =>
    wish('cash and hours', name, { amount: cents, isMoney: true, words: `$${cents / 100}` });

  test('any money too much is told, its worst week by name', () => {
    expect(reasonOf(week('the week of Sep 7', 1))).toBe(
      'The plan needs $0.01 more in the week of Sep 7 than you have set aside by then.',
    );
    expect(reasonOf(week('the week of Sep 7', 0))).toBeUndefined();
    expect(reasonOf(week('week A', 100), week('week B', 300))).toBe(
      'The plan needs $3 more in week B than you have set aside by then, and less in 1 other week.',
    );
    expect(reasonOf(week('week B', 300), week('week A', 100), week('week C', 200))).toBe(
      'The plan needs $3 more in week B than you have set aside by then, and less in 2 other weeks.',
    );
  });

  test('batches without room are told apart from money, the first three by name', () => {
    const batch = (name: string) => wish('cash and hours', name, { amount: 1, words: '1 batch' });

    expect(reasonOf(batch('Peach jam'))).toBe(
      'There is no room in your hours and money for 1 batch of Peach jam.',
    );
    expect(reasonOf(batch('A'), batch('B'), batch('C'))).toBe(
      'There is no room in your hours and money for 1 batch of A, 1 batch of B and 1 batch of C.',
    );
    expect(reasonOf(batch('A'), batch('B'), batch('C'), batch('D'))).toBe(
      'There is no room in your hours and money for 1 batch of A, 1 batch of B and 1 batch of C and more.',
    );
    expect(reasonOf(week('week B', 300), batch('A'))).toBe(
      'The plan needs $3 more in week B than you have set aside by then. There is no room in your hours and money for 1 batch of A.',
    );
  });

  test('is about no food', () => {
    expect(noticesOf(week('week B', 300))[0]?.about).toEqual([]);
  });
});

test('the garden’s crop that is left over is told by its amounts, three at most', () => {
  const crop = (name: string) => wish('garden crop', name, { words: '2 lb' });

  expect(reasonOf(crop('A'))).toBe('2 lb of A from the garden is left over.');
  expect(reasonOf(crop('A'), crop('B'), crop('C'))).toBe(
    '2 lb of A, 2 lb of B and 2 lb of C from the garden are left over.',
  );
  expect(reasonOf(crop('A'), crop('B'), crop('C'), crop('D'))).toBe(
    '2 lb of A, 2 lb of B and 2 lb of C and more from the garden are left over.',
  );
  expect(reasonOf(wish('use', 'Salsa'), crop('A'))).toBe(
    'Salsa will be short. 2 lb of A from the garden is left over.',
  );
});
