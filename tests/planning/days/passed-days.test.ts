import { describe, expect, test } from 'vitest';
import { asDate } from '../../../shared/week.ts';
import type { BatchDecision } from '../../../src/household/decision.ts';
import type { Canner, KitchenHours } from '../../../src/household/kitchen.ts';
import type { CanningSession } from '../../../src/household/session.ts';
import { checkDay, gaugeChecksAhead } from '../../../src/planning/days/gauge-checks.ts';
import { passedSessions } from '../../../src/planning/days/passed-sessions.ts';
import type { Plan, PlannedWeek } from '../../../src/planning/plan.ts';
import { pressureCanner } from '../../preserving/own-kitchen.ts';

// Canning on Saturdays; August 15 and 22, 2026 are Saturdays of weeks 33 and 34.
const hours = {
  sessionsPerWeek: 1,
  hoursPerSession: 6,
  setUpMinutes: 20,
  stoveBurners: 4,
  sessionWeekday: 6,
  weeks: [],
} as KitchenHours;
const weekOf = (week: string, ...sessions: readonly (readonly [recipe: string, canner: string])[]) =>
  ({
    week,
    sessions: sessions.map(([recipe, canner]) => ({ recipe, canner, batches: 2, handsOnMinutes: 60 })),
    kitchenSessions: 1,
  }) as unknown as PlannedWeek;

describe('canning days behind us of which nothing was said', () => {
  const planned = [
    weekOf('2026-W33', ['jam', 'kettle'], ['beans', 'pressure']),
    weekOf('2026-W34', ['jam', 'kettle']),
  ];
  const passed = (
    today: string,
    decisions: readonly BatchDecision[] = [],
    begun: readonly CanningSession[] = [],
  ) =>
    passedSessions(planned, decisions, begun, hours, 'monday', asDate(today)).map(
      ({ recipeId, batches, week, on }) => `${week} ${on} ${recipeId} ${batches}`,
    );
  const decided = (recipeId: string, week: string, decision: string) =>
    ({ recipeId, week, decision, batches: 1 }) as BatchDecision;

  test('are asked about from the day after', () => {
    expect(passed('2026-08-15')).toEqual([]);
    expect(passed('2026-08-16')).toEqual(['2026-W33 2026-08-15 jam 2', '2026-W33 2026-08-15 beans 2']);
    expect(passed('2026-08-23')).toHaveLength(3);
  });

  test('any answer ends the question, but a pin, and one about another week or recipe', () => {
    expect(passed('2026-08-16', [decided('jam', '2026-W33', 'done')])).toEqual([
      '2026-W33 2026-08-15 beans 2',
    ]);
    expect(passed('2026-08-16', [decided('jam', '2026-W33', 'ruled-out')])).toHaveLength(1);
    expect(passed('2026-08-16', [decided('jam', '2026-W33', 'pinned')])).toHaveLength(2);
    expect(passed('2026-08-16', [decided('jam', '2026-W34', 'done')])).toHaveLength(2);
  });

  test('a day that was begun counts as it was begun', () => {
    const begun = (on: string) =>
      ({
        on: asDate(on),
        work: [{ recipeId: 'jam', batches: 5 }],
        setting: {},
        openedAt: 0,
      }) as unknown as CanningSession;
    expect(passed('2026-08-16', [], [begun('2026-08-13')])).toEqual([
      '2026-W33 2026-08-13 jam 5',
      '2026-W33 2026-08-15 beans 2',
    ]);
    expect(passed('2026-08-16', [], [begun('2026-08-20')])).toHaveLength(2);
  });
});

describe('the yearly check of a dial gauge', () => {
  // USDA Complete Guide 1, p1-20: checked every year before use.
  const dial = (change: Partial<Canner> = {}): Canner => ({
    ...pressureCanner,
    gauge: 'dial',
    gaugeCheckedOn: asDate('2025-08-15'),
    ...change,
  });
  const plan = {
    weeks: [
      weekOf('2026-W32', ['beans', 'pressure']),
      weekOf('2026-W33', ['beans', 'pressure'], ['jam', 'kettle']),
      weekOf('2026-W34', ['jam', 'kettle']),
      weekOf('2026-W35', ['stock', 'pressure'], ['jam', 'kettle']),
    ],
  } as unknown as Plan;
  const ahead = (canner: Canner, asOf = '2026-08-03', of: Plan | null = plan) =>
    gaugeChecksAhead({ canners: [canner], hours, weekStartsOn: 'monday' }, of, asDate(asOf));

  test('is needed for the first planned day at the stove after its year is over, and what is canned in it', () => {
    // 365 days from August 15, 2025 end on August 15, 2026, the Saturday of week 33: that one still counts.
    expect(ahead(dial())).toMatchObject([
      { countsUntil: '2026-08-15', neededFor: { on: '2026-08-29', recipes: ['stock'] } },
    ]);
    expect(ahead(dial({ gaugeCheckedOn: asDate('2025-08-14') }))).toMatchObject([
      { countsUntil: '2026-08-14', neededFor: { on: '2026-08-15', recipes: ['beans'] } },
    ]);
  });

  test('is needed for no day behind us', () => {
    const longAgo = dial({ gaugeCheckedOn: asDate('2025-01-01') });
    expect(ahead(longAgo)[0]?.neededFor?.on).toBe('2026-08-08');
    expect(ahead(longAgo, '2026-08-09')[0]?.neededFor?.on).toBe('2026-08-15');
  });

  test('is needed for nothing while no plan asks for it', () => {
    expect(ahead(dial(), '2026-08-03', null)).toMatchObject([{ neededFor: null }]);
    expect(ahead(dial({ gaugeCheckedOn: asDate('2026-08-01') }))).toMatchObject([{ neededFor: null }]);
    expect(ahead(dial({ id: 'other' as never }))).toMatchObject([{ neededFor: null }]);
  });

  test('is none of a weighted gauge, of another method, or of one that was never checked', () => {
    for (const canner of [
      dial({ gauge: 'weighted' }),
      dial({ method: 'steam' }),
      dial({ gaugeCheckedOn: null }),
    ])
      expect(ahead(canner)).toEqual([]);
  });

  test('stands two weeks before it is needed, the day before where that is past, at its last day where nothing needs it', () => {
    const [check] = ahead(dial());
    if (check === undefined) throw new Error('expected a check');
    expect(checkDay(check, asDate('2026-08-03'))).toBe('2026-08-15');
    expect(checkDay(check, asDate('2026-08-15'))).toBe('2026-08-15');
    expect(checkDay(check, asDate('2026-08-16'))).toBe('2026-08-28');
    expect(checkDay({ ...check, neededFor: null }, asDate('2026-08-03'))).toBe('2026-08-15');
  });
});
