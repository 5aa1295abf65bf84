import { describe, expect, test } from 'vitest';
import { asDate } from '../../../shared/week.ts';
import type { BegunStage } from '../../../src/household/begun.ts';
import { batchCalendar } from '../../../src/preserving/stages/batch-calendar.ts';
import {
  beginRuling,
  hoursWords,
  localDateTime,
  nextStages,
  stagesRuling,
} from '../../../src/preserving/stages/stages-done.ts';
import { ofBook } from '../own-kitchen.ts';
import { codesOf } from '../tables.ts';

const beans = ofBook('beans-dried-pints').stages;
const dill = ofBook('quick-dill-pickles').stages;
const kraut = ofBook('sauerkraut').stages;
const done = (position: number, begunAt: string, way: string | null = null): BegunStage => ({
  position,
  begunAt,
  way,
});
const overnight = (begunAt: string) => done(1, begunAt, 'soaked overnight');

describe('whether a stage may be written down', () => {
  test('the first of a batch may, in a way that is printed', () => {
    expect(beginRuling(dill, [], done(1, '2026-08-21T21:00'))).toEqual({ ok: true, value: dill[0] });
    expect(beginRuling(beans, [], overnight('2026-08-21T21:00'))).toMatchObject({
      value: { way: 'soaked overnight' },
    });
    for (const wanted of [
      done(1, '2026-08-21T21:00'),
      done(1, '2026-08-21T21:00', 'for an hour'),
      done(9, '2026-08-21T21:00'),
    ])
      expect(beginRuling(beans, [], wanted)).toMatchObject({
        problems: [
          {
            code: 'stage-unknown',
            message: expect.stringContaining(
              'This is no stage of this recipe in the one printed way the batch was begun by (soaked overnight, or quick soak)',
            ),
          },
        ],
      });
    expect(beginRuling(dill, [], done(9, '2026-08-21T21:00'))).toMatchObject({
      problems: [{ message: expect.stringMatching(/^This is no stage of this recipe \(/) }],
    });
    expect(codesOf(beginRuling([], [], done(1, '2026-08-21T21:00')))).toEqual(['stage-unknown']);
  });

  test('not one that is written down already, nor one before it', () => {
    for (const position of [1, 2])
      expect(
        beginRuling(dill, [done(2, '2026-08-22T09:00')], done(position, '2026-08-22T10:00')),
      ).toMatchObject({
        problems: [
          {
            code: 'stage-done-already',
            message: expect.stringMatching(
              /^This stage, or one after it, is written down already \(USDA-G6, p6-10\)\. Take that back first/,
            ),
          },
        ],
      });
  });

  test('not before the wait before it is over, nor after it was too long, nor without it', () => {
    const brined = [done(1, '2026-08-21T21:00')];
    expect(codesOf(beginRuling(dill, brined, done(2, '2026-08-22T08:59')))).toEqual(['stage-too-short']);
    expect(codesOf(beginRuling(dill, brined, done(2, '2026-08-22T09:00')))).toEqual([]);
    // One printed figure is the time meant: an hour more is still that time.
    expect(codesOf(beginRuling(dill, brined, done(2, '2026-08-22T10:00')))).toEqual([]);
    expect(codesOf(beginRuling(dill, brined, done(2, '2026-08-22T10:01')))).toEqual(['stage-too-long']);
    expect(codesOf(beginRuling(dill, [], done(2, '2026-08-22T09:00')))).toEqual(['stage-not-begun']);
  });

  test('not in another way than the batch was begun by', () => {
    const warm = [done(1, '2026-09-01T09:00', 'at 70 to 75 F')];
    expect(codesOf(beginRuling(kraut, warm, done(2, '2026-09-25T09:00')))).toEqual([]);
    expect(codesOf(beginRuling(kraut, [], done(1, '2026-09-01T09:00', 'at 60 to 65 F')))).toEqual([]);
    expect(
      codesOf(beginRuling(kraut, [done(1, '2026-09-01T09:00', 'warm')], done(2, '2026-09-25T09:00'))),
    ).toEqual(['stage-unknown']);
  });
});

describe('the refusals of a batch before its canner', () => {
  test('say the earliest moment, and the latest, in words', () => {
    expect(stagesRuling(dill, [done(1, '2026-08-21T21:00')], '2026-08-22T06:00')).toMatchObject({
      problems: [
        {
          path: ['stages'],
          message:
            '“Cover the washed cucumbers with salt water and let them stand” needs 12 hours: what follows may begin Aug 22, 2026, 9:00 AM at the earliest (USDA-G6, p6-10). Wait until then; nothing can shorten it.',
        },
      ],
    });
    expect(stagesRuling(dill, [done(1, '2026-08-20T21:00')], '2026-08-22T06:00')).toMatchObject({
      problems: [
        {
          message: expect.stringContaining(
            'may last 12 hours at most: what follows had to begin by Aug 21, 2026, 10:00 AM',
          ),
        },
      ],
    });
    expect(
      stagesRuling(kraut, [done(1, '2026-09-01T09:00', 'at 70 to 75 F')], '2026-09-10T09:00'),
    ).toMatchObject({
      problems: [
        { message: expect.stringContaining('needs 21 days: what follows may begin Sep 22, 2026, 9:00 AM') },
      ],
    });
  });

  test('a pot that is drained goes into the canner the same working day, twelve hours long, and not before', () => {
    const drained = [done(1, '2026-08-21T21:00'), done(2, '2026-08-22T09:30')];
    expect(codesOf(stagesRuling(dill, drained, '2026-08-22T09:29'))).toEqual(['stage-not-begun']);
    expect(stagesRuling(dill, drained, '2026-08-22T09:30')).toEqual({
      ok: true,
      value: { since: '2026-08-22T09:30' },
    });
    expect(codesOf(stagesRuling(dill, drained, '2026-08-22T21:30'))).toEqual([]);
    expect(codesOf(stagesRuling(dill, drained, '2026-08-22T21:31'))).toEqual(['stage-too-long']);
    expect(stagesRuling(dill, [done(1, '2026-08-21T21:00')], '2026-08-22T09:30')).toEqual({
      ok: true,
      value: { since: '2026-08-22T09:00' },
    });
    expect(stagesRuling([], [], '2026-08-22T09:30')).toEqual({ ok: true, value: { since: null } });
  });

  test('nothing written down in any of the printed ways names them', () => {
    expect(stagesRuling(beans, [], '2026-08-22T09:00')).toMatchObject({
      problems: [
        { message: expect.stringContaining('in one of the printed ways: soaked overnight, or quick soak') },
      ],
    });
  });
});

describe('what may be begun next', () => {
  test('of nothing is every way; of a batch on its way the rest of it', () => {
    expect(nextStages(beans, []).map(({ stage, isLast }) => [stage.way, isLast])).toEqual([
      ['soaked overnight', false],
      ['quick soak', false],
    ]);
    expect(nextStages(beans, [overnight('2026-08-21T21:00')])).toMatchObject([
      { isLast: true, from: '2026-08-22T09:00', until: '2026-08-22T15:00' },
    ]);
    // Begun in a way that is not printed nothing may follow.
    expect(nextStages(beans, [done(1, '2026-08-21T21:00', 'for an hour')])).toEqual([]);
    expect(nextStages(dill, [done(2, '2026-08-22T09:00')])).toEqual([]);
  });

  test('what needs no waiting may be left out: kraut goes cold, or into the jars', () => {
    const ready = nextStages(kraut, [done(1, '2026-09-01T09:00', 'at 70 to 75 F')]);
    expect(ready.map(({ stage }) => stage.position)).toEqual([2, 3]);
    expect(ready.every(({ from }) => from === '2026-09-22T09:00')).toBe(true);
  });
});

describe('hours in words', () => {
  test.each([
    [1, 'hours', '1 hour'],
    [12, 'hours', '12 hours'],
    [71, 'hours', '71 hours'],
    [72, 'hours', '3 days'],
    [84, 'hours', '3.5 days'],
    [24, 'date', '1 day'],
  ] as const)('%i counted by %s is %s', (hours, counted, words) => {
    expect(hoursWords(hours, { counted })).toBe(words);
  });

  test('the clock of a kitchen at an instant', () => {
    expect(localDateTime(Date.UTC(2026, 7, 22, 3, 5), 'America/Denver')).toBe('2026-08-21T21:05');
  });
});

describe('the calendar of a batch without a day', () => {
  const asked = (change: object) => ({
    stages: dill,
    way: null,
    begun: [],
    load: null,
    asOf: asDate('2026-08-19'),
    timeZone: 'America/Denver',
    ...change,
  });

  test('not begun, it may be filled twelve hours after the first civil hour', () => {
    expect(batchCalendar(asked({}))).toEqual({
      state: 'to begin',
      way: null,
      before: [],
      load: null,
      fill: { from: '2026-08-19T19:00', until: null },
    });
    expect(batchCalendar(asked({ now: '2026-08-19T20:00' })).fill?.from).toBe('2026-08-20T08:00');
  });

  test('begun, it has the first day on which it may be filled', () => {
    const begun = [done(1, '2026-08-19T20:00')];
    expect(batchCalendar(asked({ begun }))).toMatchObject({
      state: 'on its way',
      load: { on: '2026-08-20' },
      fill: { from: '2026-08-20T08:00', until: '2026-08-20T09:00' },
      before: [{ state: 'done', on: '2026-08-19', from: '2026-08-19T20:00', until: '2026-08-19T20:00' }],
    });
  });

  test('made in one go, it has its load as planned, or none', () => {
    expect(batchCalendar(asked({ stages: [] }))).toEqual({
      state: 'one go',
      way: null,
      before: [],
      load: null,
      fill: null,
    });
    const load = { on: asDate('2026-08-22'), at: '10:15' };
    expect(batchCalendar(asked({ stages: [], load })).load).toEqual({
      on: '2026-08-22',
      at: '2026-08-22T10:15',
    });
  });

  test('begun in two ways, or in none that is printed, it is spoilt, with what was done of it', () => {
    const two = [overnight('2026-08-18T21:00'), done(2, '2026-08-19T09:00', 'quick soak')];
    for (const begun of [two, [done(1, '2026-08-18T21:00', 'for an hour')]]) {
      const calendar = batchCalendar(asked({ stages: beans, begun }));
      expect(calendar).toMatchObject({ state: 'spoilt', way: null, load: null, fill: null });
    }
    expect(
      batchCalendar(asked({ stages: beans, begun: two })).before.map(({ on, state }) => [on, state]),
    ).toEqual([
      ['2026-08-18', 'done'],
      ['2026-08-19', 'done'],
    ]);
  });

  test('due today, ahead, or missed', () => {
    const stateOn = (asOf: string) =>
      batchCalendar(
        asked({ load: { on: asDate('2026-08-22'), at: '09:00' }, asOf: asDate(asOf) }),
      ).before.map(({ state }) => state);
    expect(stateOn('2026-08-20')).toEqual(['ahead']);
    expect(stateOn('2026-08-21')).toEqual(['due']);
    // On the day itself it would have to be begun at night.
    expect(stateOn('2026-08-22')).toEqual(['missed']);
  });

  test('a drained pot is filled that day, and no other', () => {
    const begun = [done(1, '2026-08-18T21:00'), done(2, '2026-08-19T09:30')];
    const of = (on: string, asOf = '2026-08-19') =>
      batchCalendar(asked({ begun, load: { on: asDate(on), at: '09:00' }, asOf: asDate(asOf) }));
    expect(of('2026-08-19')).toMatchObject({
      state: 'on its way',
      load: { on: '2026-08-19', at: '2026-08-19T09:30' },
    });
    expect(of('2026-08-22')).toMatchObject({ state: 'moved', load: { on: '2026-08-19' } });
    expect(of('2026-08-22', '2026-08-20')).toMatchObject({ state: 'spoilt' });
  });
});
