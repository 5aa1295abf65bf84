import { describe, expect, test } from 'vitest';
import { asDate, asWeek, type WeekStart } from '../../../shared/week.ts';
import type { KitchenHours } from '../../../src/household/kitchen.ts';
import type { CanningSession } from '../../../src/household/session.ts';
import {
  nextCanningWeek,
  sessionDays,
  standsOnUsualDay,
  weekAtTheStove,
  weeksWithSessions,
} from '../../../src/planning/days/week-sessions.ts';
import type { Plan, PlannedSession, PlannedWeek } from '../../../src/planning/plan.ts';

// Week 34 of 2026 is Monday, August 17 to Sunday, August 23; canning is on Saturdays.
const hours = (change: Partial<KitchenHours> = {}): KitchenHours => ({
  sessionsPerWeek: 1,
  hoursPerSession: 5,
  setUpMinutes: 30,
  stoveBurners: 4,
  sessionWeekday: 6,
  weeks: [],
  ...change,
});
const load = (recipe: string, change: Partial<PlannedSession> = {}): PlannedSession =>
  ({ recipe, batches: 1, handsOnMinutes: 90, jars: [], ...change }) as PlannedSession;
const weekOf = (sessions: readonly PlannedSession[], change: Partial<PlannedWeek> = {}): PlannedWeek =>
  ({ week: asWeek('2026-W34'), sessions, kitchenSessions: 1, ...change }) as PlannedWeek;
const begunOn = (on: string, ...work: readonly (readonly [recipe: string, batches: number])[]) =>
  ({
    on: asDate(on),
    work: work.map(([recipeId, batches]) => ({ recipeId, batches })),
  }) as unknown as CanningSession;
const span = (fromOn: string, untilOn: string) => ({ fromOn: asDate(fromOn), untilOn: asDate(untilOn) });

describe('a load stands on the usual day of its week', () => {
  test('where it is begun before, is begun already, or shares what another leaves', () => {
    expect(standsOnUsualDay(load('jam'))).toBe(false);
    expect(standsOnUsualDay(load('jam', { begin: {} as never }))).toBe(true);
    expect(standsOnUsualDay(load('jam', { begun: {} as never }))).toBe(true);
    expect(standsOnUsualDay(load('jam', { sharesByProduct: true }))).toBe(true);
  });
});

describe('weeks with something to put up', () => {
  const planOf = (...weeks: readonly (readonly [week: string, loads: number])[]) =>
    ({
      weeks: weeks.map(([week, loads]) => ({
        week: asWeek(week),
        sessions: Array.from({ length: loads }, () => load('jam')),
      })),
    }) as unknown as Plan;
  const plan = planOf(['2026-W33', 1], ['2026-W34', 0], ['2026-W35', 2], ['2026-W36', 1]);

  test('are those of the plan with a load', () => {
    expect(weeksWithSessions(plan).map(({ week }) => week)).toEqual(['2026-W33', '2026-W35', '2026-W36']);
    expect(weeksWithSessions(null)).toEqual([]);
  });

  test('the next is this one or the first after it, planned or begun', () => {
    const next = (today: string, begun: readonly string[] = [], startsOn: WeekStart = 'monday') =>
      nextCanningWeek(
        plan,
        begun.map((on) => begunOn(on)),
        asDate(today),
        startsOn,
      );
    expect(next('2026-08-16')).toBe('2026-W33');
    expect(next('2026-08-17')).toBe('2026-W35');
    expect(next('2026-08-30')).toBe('2026-W35');
    expect(next('2026-09-07')).toBeNull();
    // Begun days come in whatever order, and those behind count for nothing.
    expect(next('2026-08-17', ['2026-09-26', '2026-08-20', '2026-08-12'])).toBe('2026-W34');
    expect(next('2026-09-07', ['2026-09-26', '2026-09-12'])).toBe('2026-W37');
    expect(nextCanningWeek(null, [], asDate('2026-08-17'), 'monday')).toBeNull();
    // Where weeks begin on Sunday, August 16 belongs to week 34, begun or today.
    expect(next('2026-08-16', [], 'sunday')).toBe('2026-W35');
    expect(next('2026-08-16', ['2026-08-16'], 'sunday')).toBe('2026-W34');
  });
});

describe('the canning days of a week', () => {
  const daysOf = (
    planned: PlannedWeek | null,
    begun: readonly CanningSession[] = [],
    kitchen = hours(),
    startsOn: WeekStart = 'monday',
  ) =>
    sessionDays(planned, begun, kitchen, startsOn).map(({ on, work, session }) => [
      on,
      work.map(({ recipeId, batches }) => `${recipeId} ${batches}`).join(', '),
      session === null ? 'ahead' : 'begun',
    ]);

  test('are laid on those its sessions are held on, in the order of the days', () => {
    expect(daysOf(weekOf([load('jam'), load('salsa', { batches: 2 })]))).toEqual([
      ['2026-08-22', 'jam 1, salsa 2', 'ahead'],
    ]);
    const two = hours({ sessionsPerWeek: 2, sessionWeekday: 4 });
    expect(
      daysOf(weekOf([load('jam'), load('salsa', { handsOnMinutes: 200 })], { kitchenSessions: 2 }), [], two),
    ).toEqual([
      ['2026-08-20', 'salsa 1', 'ahead'],
      ['2026-08-21', 'jam 1', 'ahead'],
    ]);
    expect(daysOf(weekOf([load('jam')]), [], hours({ sessionWeekday: 7 }), 'sunday')).toEqual([
      ['2026-08-16', 'jam 1', 'ahead'],
    ]);
  });

  test('of what shares a by-product, the usual one, whatever has most room', () => {
    const two = hours({ sessionsPerWeek: 2 });
    const of = (change: Partial<PlannedSession>) =>
      daysOf(
        weekOf([load('long', { handsOnMinutes: 250, sharesByProduct: true }), load('jam', change)], {
          kitchenSessions: 2,
        }),
        [],
        two,
      );
    expect(of({ sharesByProduct: true })).toEqual([['2026-08-22', 'long 1, jam 1', 'ahead']]);
    expect(of({})).toEqual([
      ['2026-08-22', 'long 1', 'ahead'],
      ['2026-08-23', 'jam 1', 'ahead'],
    ]);
  });

  test('have one entry for a recipe: batches begun already and those to begin go in together', () => {
    expect(
      daysOf(weekOf([load('dill', { batches: 2, begun: {} as never }), load('dill', { batches: 3 })])),
    ).toEqual([['2026-08-22', 'dill 5', 'ahead']]);
  });

  test('that are begun stand as they were begun, and what is in them is nowhere else', () => {
    expect(daysOf(weekOf([load('jam'), load('salsa')]), [begunOn('2026-08-20', ['jam', 4])])).toEqual([
      ['2026-08-20', 'jam 4', 'begun'],
      ['2026-08-22', 'salsa 1', 'ahead'],
    ]);
    expect(daysOf(weekOf([load('jam')]), [begunOn('2026-08-20', ['jam', 4])])).toEqual([
      ['2026-08-20', 'jam 4', 'begun'],
    ]);
    // A day that was begun takes nothing else in.
    expect(daysOf(weekOf([load('jam')]), [begunOn('2026-08-22', ['pears', 1])])).toEqual([
      ['2026-08-22', 'pears 1', 'begun'],
    ]);
  });

  test('without a plan are those begun, in their order', () => {
    expect(daysOf(null, [begunOn('2026-08-22'), begunOn('2026-08-19')]).map(([on]) => on)).toEqual([
      '2026-08-19',
      '2026-08-22',
    ]);
    expect(daysOf(null)).toEqual([]);
    expect(daysOf(weekOf([]))).toEqual([]);
  });
});

describe('a week at the stove', () => {
  const atStove = (change: Partial<KitchenHours> = {}, planned: Partial<PlannedWeek> = {}) =>
    weekAtTheStove(weekOf([load('jam')], planned), hours(change), 'monday');
  const daysOf = (...asked: Parameters<typeof atStove>) => atStove(...asked).days.map(({ on }) => on);
  const saturdays = { id: 'a', weekday: 6, which: 'every', hours: 3 } as const;

  test('has its days with their hours, as many sessions as are planned, and its set-up', () => {
    expect(atStove({ sessionsPerWeek: 2 }, { kitchenSessions: 2 })).toEqual({
      days: [
        { on: '2026-08-22', hours: 5 },
        { on: '2026-08-23', hours: 5 },
      ],
      usualWeekday: 6,
      sessions: 2,
      setUpMinutes: 30,
    });
    expect(atStove({ rules: [{ ...saturdays, weekday: 3 }] })).toMatchObject({
      days: [{ on: '2026-08-19', hours: 3 }],
      usualWeekday: 3,
    });
  });

  test('passes over days that were over when the plan was made', () => {
    const three = { sessionsPerWeek: 3, sessionWeekday: 5 };
    expect(daysOf(three).toSorted()).toEqual(['2026-08-20', '2026-08-21', '2026-08-22']);
    expect(daysOf(three, { from: asDate('2026-08-21') }).toSorted()).toEqual(['2026-08-21', '2026-08-22']);
    // All of them are: then the plan meant what is left of them.
    expect(daysOf(three, { from: asDate('2026-08-23') })).toHaveLength(3);
  });

  test('without a day left to its rules keeps what stands in the plan on the days at home, the nearest first', () => {
    const paused = {
      rules: [saturdays],
      pauses: [{ id: 'p', eachYear: false, ...span('2026-08-01', '2026-09-01') }],
    };
    expect(daysOf(paused)).toEqual([
      '2026-08-22',
      '2026-08-23',
      '2026-08-21',
      '2026-08-20',
      '2026-08-19',
      '2026-08-18',
      '2026-08-17',
    ]);
    expect(daysOf(paused, { from: asDate('2026-08-22') })).toEqual(['2026-08-22', '2026-08-23']);
    expect(atStove(paused).days[0]?.hours).toBe(5);
    const closed = { week: asWeek('2026-W34'), sessions: 0, hoursPerSession: null, reason: null };
    expect(daysOf({ weeks: [closed] })[0]).toBe('2026-08-22');
  });

  test('away on the usual day, it is on the nearest day at home; away all week, the usual day stands', () => {
    expect(daysOf({ away: [span('2026-08-22', '2026-08-23')] })[0]).toBe('2026-08-23');
    expect(daysOf({ away: [span('2026-08-21', '2026-08-24')] })[0]).toBe('2026-08-20');
    expect(daysOf({ away: [span('2026-08-19', '2026-08-24')], rules: [saturdays] })).toEqual([
      '2026-08-18',
      '2026-08-17',
    ]);
    expect(atStove({ away: [span('2026-08-10', '2026-08-30')] }).days).toEqual([
      { on: '2026-08-22', hours: 5 },
    ]);
  });
});
