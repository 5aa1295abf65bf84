import { describe, expect, test } from 'vitest';
import { addDays, asDate, type CalendarDate } from '../../../shared/week.ts';
import type { BatchResult } from '../../../src/household/batch-result.ts';
import type { CanningSession } from '../../../src/household/session.ts';
import { type BatchDaysAsked, stageMinutes } from '../../../src/planning/days/batch-days.ts';
import { neededFor, shoppingDayBefore } from '../../../src/planning/days/buy-by.ts';
import { dayLines, daysBesides, linesWithin } from '../../../src/planning/days/day-lines.ts';
import { householdAt, ofBook } from '../../preserving/own-kitchen.ts';
import {
  asked,
  begun,
  brief,
  days,
  dill,
  leather,
  peaches,
  planOf,
  saturday,
  weekOf,
} from './dill-kitchen.ts';

describe('the days of a batch that is planned', () => {
  test('are those of its stages, its load, its seals the day after, and the first good jar', () => {
    const [batch] = days();
    expect(batch).toMatchObject({
      key: 'quick-dill-pickles-2026-W34',
      itemId: 'dill',
      batches: 1,
      begunId: null,
      plannedOn: saturday,
      sealsOn: '2026-08-23',
      // 28 days: the curing of other cucumber pickles, from memory.
      readyOn: addDays(saturday, dill.readyAfterDays),
      calendar: { state: 'to begin', load: { on: saturday, at: '2026-08-22T09:00' } },
    });
    expect(dill.readyAfterDays).toBe(28);
    expect(batch?.calendar.before.map(({ on }) => on)).toEqual(['2026-08-21']);
  });

  test('made in one go and eaten at once, it has its load and its seals', () => {
    const [batch] = days({ plan: planOf(weekOf('2026-W34', [peaches, 2])) });
    expect(batch).toMatchObject({
      batches: 2,
      sealsOn: '2026-08-23',
      readyOn: null,
      calendar: { state: 'one go', before: [] },
    });
  });

  test('not canned, it has no seals, and is good when it says', () => {
    const [batch] = days({ plan: planOf(weekOf('2026-W34', [leather, 1])) });
    expect(batch).toMatchObject({ sealsOn: null, readyOn: '2026-08-24', plannedOn: saturday });
  });

  test('come in the order of their loads, of one day by their keys', () => {
    const plan = planOf(weekOf('2026-W35', [peaches, 1]), weekOf('2026-W34', [dill, 1], [leather, 1]));
    expect(days({ plan }).map(({ key }) => key)).toEqual([
      'leather-2026-W34',
      'quick-dill-pickles-2026-W34',
      'peaches-pints-2026-W35',
    ]);
  });

  test('are asked from today on: neither a week behind nor a day of this week', () => {
    const plan = planOf(weekOf('2026-W33', [peaches, 1]), weekOf('2026-W34', [peaches, 1]));
    expect(brief({ plan }).map(({ load }) => load)).toEqual([saturday]);
    expect(brief({ plan, asOf: saturday })).toHaveLength(1);
    expect(brief({ plan, asOf: asDate('2026-08-23') })).toEqual([]);
    expect(brief({ plan: null })).toEqual([]);
  });

  test('are without what was filled on that day already', () => {
    const filled = (batches: number, on = saturday) => ({
      preparations: { batches: [], filled: [{ recipeId: peaches.id, on, batches }] },
      plan: planOf(weekOf('2026-W34', [peaches, 2])),
    });
    expect(brief(filled(1))).toMatchObject([{ batches: 1 }]);
    expect(brief(filled(2))).toEqual([]);
    expect(brief(filled(2, asDate('2026-08-21')))).toMatchObject([{ batches: 2 }]);
  });

  test('are none of a recipe the gate does not let in, or that is no longer there', () => {
    expect(brief({ household: householdAt(null, { weekStartsOn: 'monday' }) })).toEqual([]);
    expect(brief({ recipes: [peaches] })).toEqual([]);
    const notCanned = {
      household: householdAt(null, { weekStartsOn: 'monday' }),
      plan: planOf(weekOf('2026-W34', [leather, 1])),
    };
    expect(brief(notCanned)).toHaveLength(1);
  });
});

describe('a day that was begun', () => {
  const session = (change: object = {}): CanningSession =>
    ({
      on: asDate('2026-08-20'),
      setting: { by: 'start', time: '13:30', people: 2, burners: 4, rows: {} },
      work: [{ recipeId: peaches.id, batches: 3 }],
      openedAt: 0,
      ...change,
    }) as unknown as CanningSession;

  test('goes before the plan, at the hour it is laid out from', () => {
    const [batch] = days({ plan: planOf(weekOf('2026-W34', [peaches, 1])), sessions: [session()] });
    expect(batch).toMatchObject({
      batches: 3,
      plannedOn: '2026-08-20',
      calendar: { load: { at: '2026-08-20T13:30' } },
    });
    const byEnd = session({ setting: { by: 'end', time: '18:00', people: 2, burners: 4, rows: {} } });
    expect(days({ plan: null, sessions: [byEnd] })[0]?.calendar.load?.at).toBe('2026-08-20T09:00');
  });

  test('behind us asks for nothing more', () => {
    expect(brief({ plan: null, sessions: [session({ on: asDate('2026-08-18') })] })).toEqual([]);
  });
});

describe('batches that are begun', () => {
  test('belong to the load they are ready for, whatever was begun first', () => {
    const preparations = { batches: [begun('a', '2026-08-21T20:30')], filled: [] };
    expect(brief({ preparations, asOf: asDate('2026-08-21') })).toEqual([
      { key: 'a', batches: 1, begunId: 'a', plannedOn: saturday, state: 'on its way', load: saturday },
    ]);
  });

  test('more than were begun are still to begin', () => {
    const preparations = { batches: [begun('a', '2026-08-21T20:30')], filled: [] };
    const plan = planOf(weekOf('2026-W34', [dill, 3]));
    expect(brief({ preparations, plan, asOf: asDate('2026-08-21') })).toMatchObject([
      { key: 'a', batches: 1, state: 'on its way' },
      { key: 'quick-dill-pickles-2026-W34', batches: 2, begunId: null },
    ]);
  });

  test('fewer than were begun leave the rest without a load, under a second name', () => {
    const preparations = { batches: [begun('a', '2026-08-21T20:30', 3)], filled: [] };
    expect(brief({ preparations, asOf: asDate('2026-08-21') })).toMatchObject([
      { key: 'a', batches: 1, plannedOn: saturday },
      { key: 'a-2', batches: 2, plannedOn: null, begunId: 'a' },
    ]);
  });

  test('not ready for the load near them move it: begun on Wednesday evening they are filled on Thursday', () => {
    const preparations = { batches: [begun('a', '2026-08-19T20:00')], filled: [] };
    expect(brief({ preparations })).toEqual([
      { key: 'a', batches: 1, begunId: 'a', plannedOn: saturday, state: 'moved', load: '2026-08-20' },
    ]);
  });

  // Two weeks are near: Thursday, August 20 and Thursday, September 3.
  test.each([
    ['2026-W36', 4, true],
    ['2026-W36', 5, false],
  ])('near a load in %s on weekday %i: %s', (week, sessionWeekday, isMoved) => {
    const preparations = { batches: [begun('a', '2026-08-19T20:00')], filled: [] };
    const hours = { ...asked().hours, sessionWeekday };
    const plan = planOf(weekOf(week, [dill, 1]));
    const all = brief({ preparations, hours, plan });
    expect(all.filter(({ begunId }) => begunId === 'a')).toMatchObject([
      { load: '2026-08-20', state: isMoved ? 'moved' : 'on its way' },
    ]);
    expect(all).toHaveLength(isMoved ? 1 : 2);
  });

  test('without a load in the plan stand by themselves', () => {
    const preparations = { batches: [begun('a', '2026-08-19T20:00', 2)], filled: [] };
    expect(brief({ preparations, plan: null })).toEqual([
      { key: 'a', batches: 2, begunId: 'a', plannedOn: null, state: 'on its way', load: '2026-08-20' },
    ]);
  });

  test('that may not be canned any more stay in sight, with no seals and never ready', () => {
    const preparations = { batches: [begun('a', '2026-08-19T20:00')], filled: [] };
    const [batch] = days({
      preparations,
      household: householdAt(null, { weekStartsOn: 'monday', timeZone: 'America/Denver' }),
    });
    expect(batch).toMatchObject({ key: 'a', begunId: 'a', sealsOn: null, readyOn: null });
  });

  test('and filled since are gone', () => {
    const preparations = {
      batches: [begun('a', '2026-08-16T20:00')],
      filled: [{ recipeId: dill.id, on: asDate('2026-08-17'), batches: 1 }],
    };
    expect(brief({ preparations, plan: null })).toEqual([]);
  });
});

describe('what was canned within the last days', () => {
  const result = (madeOn: string, change: object = {}): BatchResult =>
    ({
      id: 'r',
      recipeId: peaches.id,
      madeOn: asDate(madeOn),
      batches: 2,
      lots: [{ isProcessed: true, sealCheck: null }],
      ...change,
    }) as unknown as BatchResult;
  const behind = (...results: readonly BatchResult[]) => days({ plan: null, results });

  test('has its seals to be checked, and no more once they are', () => {
    expect(behind(result('2026-08-18'))).toMatchObject([
      {
        key: 'peaches-pints-canned-2026-08-18-r',
        itemId: 'peaches',
        batches: 2,
        plannedOn: null,
        sealsOn: '2026-08-19',
        readyOn: null,
        calendar: { state: 'one go', load: { on: '2026-08-18', at: '2026-08-18T09:00' } },
      },
    ]);
    expect(behind(result('2026-08-18', { lots: [{ isProcessed: true, sealCheck: { at: 0 } }] }))).toEqual([]);
    expect(behind(result('2026-08-18', { lots: [{ isProcessed: false, sealCheck: null }] }))).toEqual([]);
    expect(behind(result('2026-08-18', { recipeId: 'gone' }))).toEqual([]);
  });

  test.each([
    ['2026-08-12', 1],
    ['2026-08-11', 0],
    ['2026-08-19', 1],
    ['2026-08-20', 0],
  ])('canned on %s: %i', (madeOn, count) => {
    expect(behind(result(madeOn))).toHaveLength(count);
  });
});

describe('what went into the canner and is not written down', () => {
  const filled = (on: string, batches: number, recipeId = peaches.id) => ({
    plan: null,
    preparations: { batches: [], filled: [{ recipeId, on: asDate(on), batches }] },
  });
  const written = (madeOn: string, batches: number): BatchResult =>
    ({ id: 'r', recipeId: peaches.id, madeOn: asDate(madeOn), batches, lots: [] }) as unknown as BatchResult;

  test('has its seals to be checked as what is written down has, and those of one day are one line', () => {
    expect(days(filled('2026-08-19', 2))).toMatchObject([
      { batches: 2, plannedOn: null, begunId: null, sealsOn: '2026-08-20', readyOn: null },
    ]);
    const both = days({
      ...filled('2026-08-19', 1),
      plan: planOf(weekOf('2026-W34', [peaches, 1])),
      asOf: asDate('2026-08-19'),
    });
    expect(dayLines(both).map(({ kind, on }) => `${on} ${kind}`)).toEqual([
      '2026-08-20 seals',
      '2026-08-23 seals',
    ]);
  });

  test('is what of the day is not among what came out', () => {
    expect(days({ ...filled('2026-08-18', 2), results: [written('2026-08-18', 1)] })).toMatchObject([
      { batches: 1 },
    ]);
    expect(days({ ...filled('2026-08-18', 2), results: [written('2026-08-18', 2)] })).toEqual([]);
    expect(days({ ...filled('2026-08-18', 2), results: [written('2026-08-17', 2)] })).toMatchObject([
      { batches: 2 },
    ]);
  });

  test.each([
    ['2026-08-19', 1],
    ['2026-08-18', 1],
    ['2026-08-17', 0],
    ['2026-08-20', 0],
  ])('is asked after until the day of that check is over: filled on %s: %i', (on, count) => {
    expect(days(filled(on, 1))).toHaveLength(count);
  });

  test('has no seals where it is not canned, and is nothing where its recipe is gone', () => {
    expect(days(filled('2026-08-18', 1, leather.id))).toEqual([]);
    expect(days({ ...filled('2026-08-18', 1), recipes: [dill] })).toEqual([]);
  });
});

describe('what is done on which day', () => {
  const lines = (change: Partial<BatchDaysAsked> = {}) => dayLines(days(change));
  const brieflines = (all: ReturnType<typeof dayLines>) => all.map(({ kind, on }) => `${on} ${kind}`);
  const plan = planOf(weekOf('2026-W34', [dill, 1], [peaches, 1], [leather, 1]));

  test('stages with their load, seals once for all of a day, and what is good when', () => {
    expect(brieflines(lines({ plan }))).toEqual([
      '2026-08-21 stage',
      '2026-08-22 load',
      '2026-08-23 seals',
      '2026-08-24 ready',
      '2026-09-19 ready',
    ]);
    const seals = lines({ plan }).find(({ kind }) => kind === 'seals');
    expect(seals?.kind === 'seals' ? seals.batches.map(({ itemId }) => itemId).toSorted() : []).toEqual([
      'dill',
      'peaches',
    ]);
  });

  test('within some days, both ends counted', () => {
    const within = (from: string, to: string) =>
      brieflines(linesWithin(lines({ plan }), asDate(from), asDate(to)));
    expect(within('2026-08-21', '2026-08-22')).toEqual(['2026-08-21 stage', '2026-08-22 load']);
    expect(within('2026-08-22', '2026-08-22')).toEqual(['2026-08-22 load']);
    // What was not written down stays: seals until they are checked.
    expect(within('2026-08-24', '2026-08-24')).toEqual(['2026-08-23 seals', '2026-08-24 ready']);
    expect(within('2026-08-10', '2026-08-20')).toEqual([]);
  });

  test('a stage that was missed stays in sight until it is written down', () => {
    const late = lines({ plan, asOf: saturday });
    const stage = late.find(({ kind }) => kind === 'stage');
    expect(stage?.kind === 'stage' ? stage.day.state : null).toBe('missed');
    expect(brieflines(linesWithin(late, saturday, asDate('2026-08-30')))).toContain('2026-08-21 stage');
  });

  test('of one day by the hour: what has none comes first', () => {
    const sameDay = lines({
      plan: planOf(weekOf('2026-W34', [dill, 1])),
      results: [
        {
          id: 'r',
          recipeId: peaches.id,
          madeOn: asDate('2026-08-20'),
          batches: 1,
          lots: [{ isProcessed: true, sealCheck: null }],
        } as unknown as BatchResult,
      ],
      asOf: asDate('2026-08-20'),
    });
    expect(brieflines(sameDay).slice(0, 2)).toEqual(['2026-08-21 seals', '2026-08-21 stage']);
  });

  test('besides the loads of one day: of batches planned for it or moved to it', () => {
    expect(brieflines(daysBesides(days({ plan }), saturday))).toEqual([
      '2026-08-21 stage',
      '2026-08-23 seals',
      '2026-08-24 ready',
      '2026-09-19 ready',
    ]);
    const preparations = { batches: [begun('a', '2026-08-19T20:00')], filled: [] };
    const moved = days({ preparations });
    expect(daysBesides(moved, asDate('2026-08-20')).length).toBeGreaterThan(0);
    expect(daysBesides(moved, saturday)).toEqual(daysBesides(moved, asDate('2026-08-20')));
    expect(daysBesides(moved, asDate('2026-08-21'))).toEqual([]);
  });
});

describe('when what canning days need is bought', () => {
  const away = (fromOn: string, untilOn: string) => ({
    away: [{ fromOn: asDate(fromOn), untilOn: asDate(untilOn) }],
  });

  test('on the Thursday before the first of them', () => {
    expect(neededFor([saturday], [], {})).toEqual({ on: saturday, buyBy: '2026-08-20' });
    expect(neededFor([asDate('2026-08-29'), saturday], [], {})).toEqual({
      on: saturday,
      buyBy: '2026-08-20',
    });
    expect(neededFor([], [], {})).toBeNull();
  });

  test('before the soak or brine that begins earlier, unless that is done or past', () => {
    const batch = (on: string, state: string, plannedOn: CalendarDate | null = saturday) =>
      ({ plannedOn, calendar: { before: [{ on: asDate(on), state }] } }) as never;
    expect(neededFor([saturday], [batch('2026-08-20', 'ahead')], {})).toEqual({
      on: '2026-08-20',
      buyBy: '2026-08-13',
    });
    for (const state of ['done', 'missed'])
      expect(neededFor([saturday], [batch('2026-08-20', state)], {})?.on).toBe(saturday);
    for (const plannedOn of [null, asDate('2026-08-29')])
      expect(neededFor([saturday], [batch('2026-08-20', 'ahead', plannedOn)], {})?.on).toBe(saturday);
  });

  test('on the last day at home before it, at most two weeks ahead', () => {
    expect(shoppingDayBefore(saturday, away('2026-08-19', '2026-08-21'))).toBe('2026-08-18');
    expect(shoppingDayBefore(saturday, away('2026-08-09', '2026-08-21'))).toBe('2026-08-08');
    expect(shoppingDayBefore(saturday, away('2026-08-08', '2026-08-22'))).toBe('2026-08-20');
    // Away for longer, on the day they come home; away until the day itself, the usual one stands.
    expect(shoppingDayBefore(saturday, away('2026-07-01', '2026-08-21'))).toBe('2026-08-21');
    expect(shoppingDayBefore(saturday, away('2026-07-01', '2026-08-22'))).toBe('2026-08-20');
    expect(shoppingDayBefore(saturday, away('2026-07-01', '2026-08-30'))).toBe('2026-08-20');
    // For a Wednesday that is the Thursday before it; back on Monday, they shop on Monday.
    expect(shoppingDayBefore(asDate('2026-08-26'), away('2026-07-01', '2026-08-24'))).toBe('2026-08-24');
  });
});

describe('the minutes of a stage', () => {
  const { stages } = ofBook('quick-dill-pickles');
  const [brine, filling] = stages;

  test('are its even share of a batch, for as many as are made', () => {
    if (brine === undefined || filling === undefined) throw new Error('expected two stages');
    expect(stageMinutes({ ...dill, handsOnMinutes: 90 }, stages, null, brine, 1)).toBe(45);
    expect(stageMinutes({ ...dill, handsOnMinutes: 91 }, stages, null, brine, 3)).toBe(137);
    const own = [
      { name: 'a', afterDays: 0, handsOnMinutes: 20 },
      { name: 'b', afterDays: 1, handsOnMinutes: 60 },
    ];
    expect(stageMinutes({ ...dill, handsOnMinutes: 80, stages: own }, stages, null, brine, 2)).toBe(40);
    expect(stageMinutes({ ...dill, handsOnMinutes: 80, stages: own }, stages, null, filling, 2)).toBe(120);
    const other = ofBook('beans-dried-pints').stages[0];
    if (other !== undefined) expect(stageMinutes(dill, stages, null, other, 2)).toBe(0);
  });
});
