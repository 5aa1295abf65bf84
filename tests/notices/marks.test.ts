import { describe, expect, it } from 'vitest';
import { asDate } from '../../shared/week.ts';
import { dayMark, measuredMark, type NoticeReader, plainReader, readOut } from '../../src/notices/marks.ts';
import { defaultNoticeSettings } from '../../src/notices/notice.ts';
import type { NoticePicture } from '../../src/notices/notice-picture.ts';
import { noticesFor } from '../../src/notices/notices-for.ts';
import { asOf, peaches, quietPantry } from './pantry.ts';

// Days and measured amounts of a notice are data until its reader writes them out; the words around them are never looked into.

const elsewhere: NoticeReader = {
  day: (date) => `<${date}>`,
  amount: (amount, unit) => `<${amount * 2} of ${unit}>`,
};
const lb = { one: 'lb', many: 'lb' };

const saidOf = (facts: Partial<NoticePicture>, reader?: NoticeReader): readonly string[] =>
  noticesFor(
    quietPantry({ ...facts, ...(reader === undefined ? {} : { reader }) }),
    defaultNoticeSettings,
  ).map(({ reason }) => reason);

describe('a sentence with figures in it', () => {
  it('is read out by whoever reads it', () => {
    const sentence = `Buy ${measuredMark(2.5, lb)} and ${measuredMark(3, { one: 'qt', many: 'qt' })} by ${dayMark(asDate('2026-08-12'))}.`;

    expect(readOut(sentence, plainReader)).toBe('Buy 2.5 lb and 3 qt by Aug 12, 2026.');
    expect(readOut(sentence, elsewhere)).toBe('Buy <5 of lb> and <6 of qt> by <2026-08-12>.');
  });

  it('begins and ends with a figure, or has none', () => {
    expect(readOut(`${measuredMark(1, lb)}${dayMark(asDate('2026-01-02'))}`, elsewhere)).toBe(
      '<2 of lb><2026-01-02>',
    );
    expect(readOut('Nothing.', elsewhere)).toBe('Nothing.');
    expect(readOut('', elsewhere)).toBe('');
  });

  it('leaves what is counted as it is, and what looks like a figure in somebody’s own words', () => {
    expect(readOut(measuredMark(2, { one: 'jar', many: 'jars' }), elsewhere)).toBe('2 jars');
    expect(readOut('“6 lb by Aug 12, 2026” {2026-08-12}', elsewhere)).toBe(
      '“6 lb by Aug 12, 2026” {2026-08-12}',
    );
  });
});

describe('a notice', () => {
  const soon: Partial<NoticePicture> = {
    lots: [peaches({ itemName: 'Plums of 6 lb, Aug 1, 2025', left: 2.5, unit: lb, bestQualityUntil: asOf })],
  };

  it('says its days and amounts as its reader has them, and an item by its own name', () => {
    const [said] = saidOf(soon, elsewhere);

    expect(said).toContain('Eat soon: <5 of lb> of Plums of 6 lb, Aug 1, 2025 put up on <2025-12-12>.');
    expect(said).toContain(`Best until <${asOf}>.`);
  });

  it('speaks of pounds, the month first, where nobody says who reads', () => {
    const [said] = saidOf(soon);

    expect(said).toContain('Eat soon: 2.5 lb of Plums of 6 lb, Aug 1, 2025 put up on Dec 12, 2025.');
  });

  it('keeps no sign of its data', () => {
    for (const reader of [plainReader, elsewhere])
      for (const said of saidOf(soon, reader)) expect(said).not.toMatch(/\p{Cc}/u);
  });
});
