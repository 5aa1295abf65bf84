import { describe, expect, test } from 'vitest';
import { addDays, asDate, type CalendarDate } from '../../shared/week.ts';
import { defaultNoticeSettings } from '../../src/notices/notice.ts';
import { noticeChanges } from '../../src/notices/notice-changes.ts';
import type { NoticeLot } from '../../src/notices/notice-picture.ts';
import { noticesFor } from '../../src/notices/notices-for.ts';
import { asOf, peaches, quietPantry } from './pantry.ts';

const told = (lots: readonly NoticeLot[], on: CalendarDate = asOf, settings = defaultNoticeSettings) =>
  noticesFor(quietPantry({ lots, asOf: on }), settings);
const quiet = { leadDays: { ...defaultNoticeSettings.leadDays, 'best by near': null } };

const beans = peaches({
  lotId: 'beans',
  itemName: 'Green beans',
  left: 8,
  madeOn: asDate('2023-08-01'),
  keptUntil: asDate('2025-01-31'),
});
const pears = peaches({
  lotId: 'pears',
  left: 1,
  madeOn: asDate('2024-01-10'),
  keptUntil: addDays(asOf, -1),
});
const relish = peaches({ lotId: 'relish', neverPastDays: true, bestQualityUntil: asOf });

describe('what is older than the household keeps anything', () => {
  test('is thrown away, in one notice, and nowhere eaten first', () => {
    const found = told([beans, pears, peaches({ madeOn: addDays(asOf, -400), keptUntil: asOf })]);

    expect(found.map(({ kind, subject }) => [kind, subject])).toEqual([
      ['kept too long', 'lots:past-limit'],
      ['best by near', 'lot:peaches-25-12'],
    ]);
    expect(found[0]?.reason).toBe(
      'Throw away: 8 jars of Green beans put up on Aug 1, 2023 and 1 jar of Peach halves put up on Jan 10, 2024. They are older than the longest you keep what you put up, as Settings, Storage has it. Write down what you threw away and plan again; if you keep such food longer, change it there.',
    );
    expect(found[1]?.reason).toContain('eat them first');
  });

  test('on the last day it is still eaten first', () => {
    expect(told([beans], asDate('2025-01-31')).map(({ kind }) => kind)).toEqual(['best by near']);
    expect(told([beans], asDate('2025-02-01')).map(({ kind }) => kind)).toEqual(['kept too long']);
  });
});

describe('what stands in the refrigerator past its days', () => {
  test('is thrown away, by its lot, from the day after them', () => {
    expect(told([relish]).map(({ kind }) => kind)).toEqual(['best by near']);
    expect(told([relish], addDays(asOf, 1)).map(({ kind, subject }) => [kind, subject])).toEqual([
      ['kept too long', 'lot:relish'],
    ]);
  });

  test('is told even to who put off eating it, or wants no word of what to eat soon', () => {
    const [soon] = told([relish]);
    if (soon === undefined) throw new Error('expected a notice');
    const putOff = { ...soon, id: '1', state: 'snoozed' as const, snoozedUntil: addDays(asOf, 30) };
    const changes = noticeChanges([putOff], told([relish], addDays(asOf, 1)), addDays(asOf, 1));

    expect(changes.opened.map(({ kind }) => kind)).toEqual(['kept too long']);
    expect(told([relish, beans], addDays(asOf, 1), quiet).map(({ kind }) => kind)).toEqual([
      'kept too long',
      'kept too long',
    ]);
  });
});
