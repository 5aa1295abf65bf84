import { describe, expect, test } from 'vitest';
import { nextYearAdvice } from '../../src/look-back/next-year-advice.ts';
import type { YearWalk } from '../../src/planning/year/year-walk.ts';
import type { ItemAccount } from '../../src/shelf/account.ts';

const jar = { unit: 'jar' } as const;

const account = (facts: Partial<ItemAccount> = {}): ItemAccount => ({
  itemId: 'plum-jam',
  opening: 0,
  putUp: 22,
  bought: 0,
  received: 0,
  eaten: 22,
  given: 0,
  thrownAway: [],
  corrected: 0,
  closing: 0,
  withoutAny: [],
  daysWithout: 0,
  days: 365,
  ...facts,
});

const walk = (needByUse: number, reserveByUse = 0): YearWalk => ({
  parts: [],
  need: needByUse,
  needByUse,
  reserveByUse,
  reserve: reserveByUse,
  waste: 0,
  carryOver: 0,
  standing: 0,
  otherJars: [],
  toCome: needByUse,
  planned: 0,
  letGo: 0,
  missing: needByUse,
  over: 0,
});

describe('more, less or the same', () => {
  test('holds what came against what a year uses up, and quotes what a year needs', () => {
    expect(nextYearAdvice(account({ daysWithout: 73 }), walk(32, 4), jar)).toEqual({
      advice: 'more',
      needUnits: 32,
      because:
        '22 came, 22 eaten, none on the shelf for 73 days; 0 are left. A year needs 32: 28 to use up and 4 in reserve.',
    });
  });

  test('a reserve is filled once, not every year', () => {
    expect(nextYearAdvice(account(), walk(26, 4), jar)).toMatchObject({
      advice: 'the same',
      needUnits: 26,
    });
  });

  test('a tenth more or less is the same', () => {
    expect(nextYearAdvice(account(), walk(20), jar).advice).toBe('the same');
    expect(nextYearAdvice(account(), walk(19), jar).advice).toBe('less');
  });

  test('a few weeks on the shelf say nothing about a year', () => {
    expect(nextYearAdvice(account({ daysWithout: 310 }), walk(28), jar)).toEqual({
      advice: null,
      needUnits: null,
      because: 'Only 55 days with any on the shelf; 56 are needed to judge.',
    });
  });

  test('what was written down for a few weeks, or only afterwards, is not said to have been missing', () => {
    const because = (days: number) =>
      nextYearAdvice(account({ days, daysWithout: 0 }), walk(28), jar).because;

    expect(because(17)).toBe(
      'What happens to it has been written down for only 17 days; 56 are needed to judge.',
    );
    expect(because(0)).toBe(
      'Nothing of it was written down when it happened: what was entered later says nothing of how it is eaten.',
    );
    expect(nextYearAdvice(account({ days: 56 }), walk(28), jar).advice).not.toBeNull();
  });

  test('its figures are written as their reader weighs', () => {
    const inHalves = (units: number) => String(units / 2);
    const { because } = nextYearAdvice(account({ eaten: 20 }), walk(28, 4), { unit: 'lb' }, inHalves);

    expect(because).toContain('10 eaten');
    expect(because).toContain('A year needs 14: 12 to use up and 2 in reserve.');
  });

  test('what is no longer kept is only looked back on', () => {
    expect(nextYearAdvice(account({ eaten: 21, closing: 1, daysWithout: 1 }), null, jar)).toEqual({
      advice: null,
      needUnits: null,
      because: '22 came, 21 eaten, none on the shelf for 1 day; 1 is left.',
    });
  });

  test('no sentence has a part of a jar', () => {
    expect(nextYearAdvice(account({ eaten: 21.5, closing: 0.5 }), walk(28), jar).because).not.toMatch(
      /\d\.\d/,
    );
  });
});
