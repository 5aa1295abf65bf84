import { describe, expect, it } from 'vitest';
import { reasonWords, wishReasonWords } from '../../../../server/pages/year/reason-words.ts';
import { asDate, weekOf } from '../../../../shared/week.ts';
import type { Reading } from '../../../../views/words/reading.ts';

const reading: Reading = { locale: 'en-US', units: 'us', weekStartsOn: 'monday' };
const bySunday: Reading = { ...reading, weekStartsOn: 'sunday' };
const august = weekOf(asDate('2026-08-19'));
const september = weekOf(asDate('2026-09-09'));

describe('why a batch is planned', () => {
  it('names weeks as the household begins them', () => {
    const wanted = { code: 'wanted', item: 'peach jam', shortIn: august } as const;

    expect(reasonWords(wanted, reading)).toBe('Without it peach jam would run short by the week of Aug 17.');
    expect(reasonWords(wanted, bySunday)).toBe('Without it peach jam would run short by the week of Aug 16.');
  });

  it('says one week as one and several from first to last', () => {
    const only = { code: 'only-weeks', isBegunBefore: false, from: august, until: september } as const;

    expect(reasonWords(only, reading)).toBe(
      'It can be made only from the week of Aug 17 to the week of Sep 7.',
    );
    expect(reasonWords({ ...only, until: august, isBegunBefore: true }, reading)).toBe(
      'It can be begun only in the week of Aug 17.',
    );
  });

  it('writes days in full, never as they are kept', () => {
    const begun = { code: 'begun', on: asDate('2026-08-12'), may: null } as const;

    expect(reasonWords(begun, reading)).toBe('It was begun on Aug 12, 2026.');
    expect(reasonWords({ ...begun, may: { from: august, until: august } }, reading)).toBe(
      'It was begun on Aug 12, 2026, and its jars may be filled only in the week of Aug 17.',
    );
  });
});

describe('why a wish gave way', () => {
  it('names the food and the week', () => {
    expect(wishReasonWords({ code: 'before-supply', first: august }, reading)).toBe(
      'Too little is left to reach the week of Aug 17, when you can first make more.',
    );
    expect(wishReasonWords({ code: 'produce', item: 'applesauce' }, reading)).toBe(
      'All the produce that could become applesauce is already used.',
    );
    expect(wishReasonWords({ code: 'not-worth-a-batch', batchUnits: 7 }, reading)).toBe(
      'One more batch makes 7, and most of it would be left over: too seldom needed for the work.',
    );
  });
});
