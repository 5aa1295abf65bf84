import { describe, expect, test } from 'vitest';
import { asDate } from '../../../shared/week.ts';
import type { BatchResult } from '../../../src/household/batch-result.ts';
import type { CanningSession } from '../../../src/household/session.ts';
import type { BatchDaysAsked } from '../../../src/planning/days/batch-days.ts';
import { copyOf, householdAt, pressureCanner } from '../../preserving/own-kitchen.ts';
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
  today,
  weekOf,
} from './dill-kitchen.ts';

// Canning on Saturdays, seen on Wednesday, August 19, 2026. Dill pickles begun on Wednesday evening are filled on Thursday.

const preparing = (...batches: BatchDaysAsked['preparations']['batches']) => ({
  preparations: { batches, filled: [] },
});
const wednesday = '2026-08-19T20:00';
const sunday = householdAt(5300, { weekStartsOn: 'sunday' });
const begunOn = (on: string, ...work: readonly (readonly [recipe: string, batches: number])[]) =>
  ({
    on: asDate(on),
    setting: { by: 'start', time: '10:00' },
    work: work.map(([recipeId, batches]) => ({ recipeId, batches })),
  }) as unknown as CanningSession;
const shares = (change: Partial<BatchDaysAsked>) =>
  brief(change).map(({ key, batches, plannedOn, load }) => `${key}: ${batches} for ${plannedOn}, on ${load}`);

describe('loads and what is begun share each other out', () => {
  test('two loads near take what was begun together, each its number; nothing is left to begin', () => {
    const plan = planOf(weekOf('2026-W34', [dill, 1]), weekOf('2026-W35', [dill, 2]));
    expect(shares({ plan, ...preparing(begun('a', wednesday, 3)) })).toEqual([
      'a: 1 for 2026-08-22, on 2026-08-20',
      'a-2: 2 for 2026-08-29, on 2026-08-20',
    ]);
    expect(shares({ plan, ...preparing(begun('a', wednesday, 2)) })).toEqual([
      'a: 1 for 2026-08-22, on 2026-08-20',
      'a-2: 1 for 2026-08-29, on 2026-08-20',
      'quick-dill-pickles-2026-W35: 1 for 2026-08-29, on 2026-08-29',
    ]);
  });

  test('one load takes several that were begun, oldest first, as far as it reaches', () => {
    const plan = planOf(weekOf('2026-W34', [dill, 3]));
    const both = preparing(begun('b', '2026-08-21T20:30', 2), begun('a', '2026-08-21T20:10', 2));
    expect(shares({ plan, asOf: asDate('2026-08-21'), ...both }).toSorted()).toEqual([
      'a: 2 for 2026-08-22, on 2026-08-22',
      'b-2: 1 for null, on 2026-08-22',
      'b: 1 for 2026-08-22, on 2026-08-22',
    ]);
  });

  test('what is ready for its load goes before what would have to move it', () => {
    const plan = planOf(weekOf('2026-W34', [dill, 1]));
    const both = preparing(begun('early', wednesday), begun('ready', '2026-08-21T20:30'));
    expect(shares({ plan, asOf: asDate('2026-08-21'), ...both })).toContain(
      'ready: 1 for 2026-08-22, on 2026-08-22',
    );
  });

  test('what is on its way to a later load is not moved to an earlier one', () => {
    // Begun on Wednesday evening they are ready on Thursday: a day begun for Wednesday would be moved there.
    const sessions = ['2026-08-19', '2026-08-20'].map((on) => begunOn(on, ['quick-dill-pickles', 1]));
    expect(shares({ plan: null, sessions, ...preparing(begun('a', wednesday)) })).toContain(
      'a: 1 for 2026-08-20, on 2026-08-20',
    );
  });

  test('a load filled beyond what was planned takes no more', () => {
    const plan = planOf(weekOf('2026-W34', [dill, 1]));
    const preparations = {
      batches: [begun('a', '2026-08-21T20:30', 4)],
      filled: [{ recipeId: dill.id, on: saturday, batches: 3 }],
    };
    expect(shares({ plan, asOf: asDate('2026-08-21'), preparations })).toEqual([
      'a: 1 for null, on 2026-08-22',
    ]);
  });

  test('a load of another recipe takes none of it', () => {
    const plan = planOf(weekOf('2026-W34', [peaches, 2]));
    expect(shares({ plan, ...preparing(begun('a', wednesday)) })).toEqual([
      'a: 1 for null, on 2026-08-20',
      'peaches-pints-2026-W34: 2 for 2026-08-22, on 2026-08-22',
    ]);
  });

  test('a day begun in a week before comes first, however it stands beside the plan', () => {
    const plan = planOf(weekOf('2026-W35', [dill, 1]));
    const sessions = [begunOn('2026-08-22', ['quick-dill-pickles', 1])];
    expect(
      shares({ plan, sessions, asOf: asDate('2026-08-21'), ...preparing(begun('a', '2026-08-21T20:30')) }),
    ).toEqual([
      'a: 1 for 2026-08-22, on 2026-08-22',
      'quick-dill-pickles-2026-W35: 1 for 2026-08-29, on 2026-08-29',
    ]);
  });

  test('thrown away, of a recipe made in one go, or of one not canned, nothing begun stands', () => {
    const gone = { ...begun('a', wednesday), isThrownAway: true };
    expect(shares({ plan: null, ...preparing(gone) })).toEqual([]);
    expect(shares({ plan: null, ...preparing(begun('a', wednesday, 1, peaches)) })).toEqual([]);
    expect(shares({ plan: null, ...preparing(begun('a', wednesday, 1, leather)) })).toEqual([]);
    const uncanned = { ...dill, process: null };
    expect(
      days({ recipes: [uncanned], ...preparing(begun('a', wednesday)) }).map(
        ({ calendar }) => calendar.state,
      ),
    ).toEqual([]);
  });
});

describe('the key of a load', () => {
  test('is that of its week, which a day moved within it keeps, and its place where a week has several', () => {
    const hours = { ...asked().hours, sessionsPerWeek: 2 };
    const week = weekOf('2026-W34', [peaches, 1]);
    const sessions = [
      begunOn('2026-08-21', ['peaches-pints', 2]),
      begunOn('2026-08-22', ['peaches-pints', 1]),
    ];
    expect(brief({ plan: planOf(week), hours, sessions }).map(({ key }) => key)).toEqual([
      'peaches-pints-2026-W34',
      'peaches-pints-2026-W34-2',
    ]);
    for (const sessionWeekday of [5, 6, 7])
      expect(brief({ plan: planOf(week), hours: { ...hours, sessionWeekday } })[0]?.key).toBe(
        'peaches-pints-2026-W34',
      );
  });

  test('is that of the household’s own week: Sunday, August 23 begins week 35 where weeks begin on Sunday', () => {
    for (const sessionWeekday of [6, 7])
      expect(
        brief({
          plan: planOf(weekOf('2026-W35', [peaches, 1])),
          hours: { ...asked().hours, sessionWeekday },
          household: sunday,
        }).map(({ key, load }) => [key, load]),
      ).toEqual([['peaches-pints-2026-W35', sessionWeekday === 7 ? '2026-08-23' : '2026-08-29']]);
  });
});

describe('days that were begun', () => {
  test('belong to the household’s own week', () => {
    // Sunday, August 23 is of week 35 here: what is planned for week 34 is none of it.
    const plan = planOf(weekOf('2026-W34', [peaches, 1]), weekOf('2026-W35', [peaches, 1]));
    const sessions = [begunOn('2026-08-23', ['peaches-pints', 4])];
    expect(shares({ plan, sessions, household: sunday })).toEqual([
      'peaches-pints-2026-W34: 1 for 2026-08-22, on 2026-08-22',
      'peaches-pints-2026-W35: 4 for 2026-08-23, on 2026-08-23',
    ]);
  });

  test('today count, and what was filled on another day is not taken off', () => {
    const sessions = [begunOn('2026-08-19', ['peaches-pints', 4])];
    const filled = (on: string, recipeId = peaches.id) => ({
      batches: [],
      filled: [{ recipeId, on: asDate(on), batches: 3 }],
    });
    const of = (preparations: BatchDaysAsked['preparations']) =>
      brief({ plan: null, sessions, preparations })
        .filter(({ plannedOn }) => plannedOn !== null)
        .map(({ batches }) => batches);
    expect(of(filled('2026-08-19'))).toEqual([1]);
    expect(of(filled('2026-08-18'))).toEqual([4]);
    expect(of(filled('2026-08-19', dill.id))).toEqual([4]);
    expect(
      of({
        batches: [],
        filled: [1, 1].map((batches) => ({ recipeId: peaches.id, on: today, batches })),
      }),
    ).toEqual([2]);
  });
});

describe('the order of all batches', () => {
  test('is that of their loads; without one that of the day planned, without either of what was last done', () => {
    const asOf = asDate('2026-08-23');
    const plan = planOf(weekOf('2026-W34', [dill, 1]), weekOf('2026-W35', [peaches, 1]));
    // Begun two weeks ago they are spoilt; pickles for a Saturday that is over were not begun in time.
    const all = days({ plan, asOf: saturday, ...preparing(begun('z', '2026-08-10T20:00')) });
    expect(all.map(({ key, calendar }) => [key, calendar.state, calendar.load?.on])).toEqual([
      ['z', 'spoilt', undefined],
      ['quick-dill-pickles-2026-W34', 'not begun in time', undefined],
      ['peaches-pints-2026-W35', 'one go', '2026-08-29'],
    ]);
    expect(all[0]).toMatchObject({ plannedOn: null, sealsOn: null, readyOn: null });
    expect(all[1]).toMatchObject({ plannedOn: saturday, sealsOn: null, readyOn: null });
    expect(days({ plan, asOf }).map(({ key }) => key)).toEqual(['peaches-pints-2026-W35']);
  });
});

describe('the calendar of a batch', () => {
  test('follows the way the household chose of those its source prints', () => {
    const sliced = (way: string | null) =>
      copyOf(
        'bread-and-butter-pickles',
        {},
        { itemId: 'dill' as never, way: (way === null ? null : { way }) as never },
      );
    const wayOf = (way: string | null) => {
      const recipe = sliced(way);
      return days({ recipes: [recipe], plan: planOf(weekOf('2026-W34', [recipe, 1])) })[0]?.calendar.way;
    };
    expect(wayOf(null)).toBe('salted under ice');
    expect(wayOf('limed')).toBe('limed');
  });

  test('of what nothing readable is written down of comes first: nothing of it can be canned', () => {
    const recipe = copyOf('bread-and-butter-pickles', {}, { itemId: 'dill' as never });
    const unread = {
      ...begun('z', wednesday, 1, recipe),
      begun: [{ position: 1, way: 'gone', begunAt: wednesday }],
    };
    const [first] = days({ recipes: [dill, recipe], ...preparing(unread) });
    expect(first).toMatchObject({ key: 'z', sealsOn: null, readyOn: null, plannedOn: null });
    expect(first?.calendar).toMatchObject({ state: 'spoilt', before: [], load: null });
  });

  test('of several lots of a day one with seals to check is enough', () => {
    const lot = (sealCheck: object | null) => ({ isProcessed: true, sealCheck });
    const result = {
      id: 'r',
      recipeId: peaches.id,
      madeOn: today,
      batches: 2,
      lots: [lot({ at: 0 }), lot(null)],
    } as unknown as BatchResult;
    expect(days({ plan: null, results: [result] }).map(({ sealsOn }) => sealsOn)).toEqual(['2026-08-20']);
  });
});

describe('what may not be canned here', () => {
  const nowhere = householdAt(null, { weekStartsOn: 'monday', timeZone: 'America/Denver' });

  test('is planned nowhere, but what needs no canner is', () => {
    const plan = planOf(weekOf('2026-W34', [dill, 1], [peaches, 1], [leather, 1]));
    expect(days({ plan, household: nowhere }).map(({ itemId }) => itemId)).toEqual(['leather']);
    expect(days({ plan, canners: [] }).map(({ itemId }) => itemId)).toEqual(['leather']);
    expect(days({ plan, canners: [pressureCanner] }).map(({ itemId }) => itemId)).toEqual(['leather']);
    // Nobody says what a recipe without an item is kept as: it stands as planned.
    expect(days({ plan, household: nowhere, items: [] })).toHaveLength(3);
  });
});
