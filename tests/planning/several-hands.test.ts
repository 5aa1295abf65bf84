import { describe, expect, it } from 'vitest';
import { solveInBackground } from '../../server/solver/plan-year.ts';
import { asCents } from '../../shared/money.ts';
import { asDate, weeksFrom } from '../../shared/week.ts';
import { handsOf } from '../../src/household/hands.ts';
import { canningDays } from '../../src/planning/answer/canning-days.ts';
import { makePlan } from '../../src/planning/make-plan.ts';
import { buildModel, canningStage } from '../../src/planning/model/build-model.ts';
import { householdRules } from '../../src/planning/model/rules.ts';
import type { Plan } from '../../src/planning/plan.ts';
import type { PlannedRecipe, PlanningYear } from '../../src/planning/planning-year.ts';
import { kitchenWeeks } from '../../src/planning/year/kitchen-weeks.ts';
import { cheapestByTrying } from './brute-force.ts';
import { checkPlan } from './independent-checker.ts';
import { jamRecipe, plumWeeks, plumYear } from './plum-year.ts';
import { tinyYear } from './tiny-year.ts';

// Who is there when something is canned: several people do several batches beside each other, nobody speeds up one, and a
// canner takes its time whoever stands beside it.

const habits = {
  sessionsPerWeek: 1,
  hoursPerSession: 5,
  sessionWeekday: 6,
  setUpMinutes: 60,
  weeks: [],
  away: [],
};
const monday = asDate('2026-08-17');
const weeks = weeksFrom('2026-W34' as PlanningYear['weeks'][number], 2);
const handsIn = (said: Partial<Parameters<typeof kitchenWeeks>[0]>) =>
  kitchenWeeks({ ...habits, ...said }, weeks, monday).handsByWeek;
const rule = (weekday: number, hours: number, who?: readonly string[]) => ({
  id: `on-${weekday}`,
  weekday,
  which: 'every' as const,
  hours,
  ...(who === undefined ? {} : { who }),
});

describe('pairs of hands', () => {
  it('are one for nobody named and for one, and three quarters more for each further person', () => {
    expect([0, 1, 2, 3, 5].map(handsOf)).toEqual([1, 1, 1.75, 2.5, 4]);
  });

  it('are left out where one person works all year', () => {
    expect(handsIn({})).toBeUndefined();
    expect(handsIn({ who: ['Ann'] })).toBeUndefined();
    expect(handsIn({ rules: [rule(6, 5, ['Ann'])] })).toBeUndefined();
  });

  it('are those of who usually is there, or of who is there on a day', () => {
    expect(handsIn({ who: ['Ann', 'Ben'] })).toEqual([1.75, 1.75]);
    expect(handsIn({ who: ['Ann', 'Ben'], rules: [rule(6, 5)] })).toEqual([1.75, 1.75]);
    expect(handsIn({ who: ['Ann', 'Ben'], rules: [rule(6, 5, ['Cleo', 'Dan', 'Eve'])] })).toEqual([2.5, 2.5]);
  });

  // Saturday 4 hours after an hour of setting up for two, Wednesday 2 hours for one: (240 × 1.75 + 120) / 360.
  it('of days of unlike length count by their minutes, set-up left out', () => {
    const hands = handsIn({ rules: [rule(6, 5, ['Ann', 'Ben']), rule(3, 3, ['Ann'])] });
    expect(hands?.[0]).toBeCloseTo(1.5, 9);
  });
});

describe('work laid on the days of a week', () => {
  it('goes where the most of it can be done, who is there included', () => {
    const work = [{ minutes: 300 }, { minutes: 100 }];
    const days = canningDays(work, {
      days: [
        { on: asDate('2026-08-19'), hours: 5 },
        { on: asDate('2026-08-22'), hours: 4, who: ['Ann', 'Ben'] },
      ],
      usualWeekday: 3,
      sessions: 2,
      setUpMinutes: 60,
    });

    expect(days.map(({ on, work: own }) => [on, own.map(({ minutes }) => minutes)])).toEqual([
      ['2026-08-19', [100]],
      ['2026-08-22', [300]],
    ]);
  });
});

const ripe = 35;
const onlyIn = (there: number): number[] => plumWeeks.map((_, week) => (week === ripe ? there : 0));
const [orchard] = plumYear().sources;
const processing = jamRecipe.processing as NonNullable<PlannedRecipe['processing']>;
/** Plums for ten batches, in one week with one session. */
const glut = (time: Partial<PlanningYear['time']>, recipe: Partial<PlannedRecipe> = {}): PlanningYear => {
  const year = plumYear({
    fund: { opening: asCents(500_000), setAsideByWeek: plumWeeks.map(() => asCents(0)) },
    recipes: [{ ...jamRecipe, ...recipe }],
    sources: orchard === undefined ? [] : [{ ...orchard, kind: 'market', lbByWeek: onlyIn(100) }],
  });
  return {
    ...year,
    items: year.items.map((item) => ({ ...item, useByWeek: item.useByWeek.map(() => 1.5) })),
    time: { ...year.time, maxSessionsByWeek: onlyIn(1), ...time },
  };
};
async function planned(year: PlanningYear): Promise<Plan> {
  const answer = await makePlan(year, solveInBackground, { gap: 0 });
  if (answer.outcome !== 'planned') throw new Error(`${answer.outcome}: ${answer.detail}`);
  expect(checkPlan(answer.plan, year)).toEqual([]);
  return answer.plan;
}
const batches = (plan: Plan): number =>
  plan.weeks.flatMap(({ sessions }) => sessions).reduce((sum, session) => sum + session.batches, 0);
const handsAllYear = (pairs: number) => ({ handsByWeek: plumWeeks.map(() => pairs) });

describe('a session with two people', () => {
  const quick = { ...processing, loadMinutes: 20, attendedMinutes: 0 };
  const five = { hoursPerSessionByWeek: plumWeeks.map(() => 5), setUpMinutes: 30 };

  // 270 minutes after setting up: two batches of 100 minutes for one, three for two (1.75 × 270 = 472, 1.75 × 2 = 3.5).
  it('holds more work by hand', async () => {
    const recipe = { handsOnMinutes: 100, processing: quick };
    const alone = await planned(glut(five, recipe));
    const both = await planned(glut({ ...five, ...handsAllYear(handsOf(2)) }, recipe));

    expect([batches(alone), batches(both)]).toEqual([2, 3]);
  });

  // Loads of 140 minutes: two fit the 300 minutes of the session, whoever is there.
  it('holds no more canner loads', async () => {
    const recipe = {
      handsOnMinutes: 20,
      processing: { ...processing, loadMinutes: 140, attendedMinutes: 0 },
    };
    const alone = await planned(glut(five, recipe));
    const three = await planned(glut({ ...five, ...handsAllYear(handsOf(3)) }, recipe));

    expect([batches(alone), batches(three)]).toEqual([2, 2]);
  });

  // One batch of 300 minutes is longer than the 270 of the session: nobody can be faster at it by being two.
  it('does no single batch that is longer than the session', async () => {
    const recipe = { handsOnMinutes: 300, processing: quick };

    expect(batches(await planned(glut({ ...five, ...handsAllYear(handsOf(2)) }, recipe)))).toBe(0);
  });

  it('is not what the checker of one person lets pass', async () => {
    const year = glut({ ...five, ...handsAllYear(handsOf(2)) }, { handsOnMinutes: 100, processing: quick });
    const plan = await planned(year);
    const { handsByWeek, ...time } = year.time;

    expect(handsByWeek).toBeDefined();
    expect(checkPlan(plan, { ...year, time }).join('\n')).toContain(
      'minutes of work in 300 minutes of sessions',
    );
  });
});

describe('the planner with several hands against every plan there is', () => {
  it('finds the cheapest plan of sixty tiny years, many of them another than alone', async () => {
    const rules = { ...householdRules, keepingCentsPerUnitWeek: 0 };
    const weekByWeek = { ...canningStage, joinedWeeks: false };
    const disagreements: string[] = [];
    let changed = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const alone = tinyYear(seed);
      const several = {
        ...alone,
        time: { ...alone.time, handsByWeek: alone.weeks.map((_, at) => handsOf(1 + ((seed + at) % 3))) },
      };
      const built = buildModel(several, weekByWeek, rules);
      const answer = await solveInBackground(built.model, { gap: 0 });
      const tried = cheapestByTrying(several, { ...built.prices, ...rules });
      const before = cheapestByTrying(alone, { ...built.prices, ...rules });
      if (answer.status !== 'solved') disagreements.push(`seed ${seed}: ${answer.status}`);
      else if (Math.abs(answer.objective - tried.cost) > 0.01 + 1e-6 * tried.cost)
        disagreements.push(`seed ${seed}: solver ${answer.objective}, tried ${tried.cost}`);
      if (Math.abs(tried.cost - before.cost) > 0.01) changed += 1;
    }

    expect(disagreements).toEqual([]);
    expect(changed).toBeGreaterThan(10);
  });
});
