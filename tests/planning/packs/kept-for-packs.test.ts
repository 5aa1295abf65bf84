import { describe, expect, test } from 'vitest';
import { solveInBackground } from '../../../server/solver/plan-year.ts';
import { asCents } from '../../../shared/money.ts';
import { makePlan } from '../../../src/planning/make-plan.ts';
import { buildModel } from '../../../src/planning/model/build-model.ts';
import {
  type DecidedStage,
  keptForPacks,
  missesMore,
  servesBetter,
} from '../../../src/planning/packs/kept-for-packs.ts';
import type { Plan } from '../../../src/planning/plan.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import type { ServedRung } from '../../../src/planning/solving/rungs.ts';
import { checkPlan } from '../independent-checker.ts';
import {
  batchOf,
  byWeek,
  canningOf,
  food,
  pack,
  packsAround,
  pint,
  shortYear,
  sourceOf,
  valuesOf,
  weekAt,
} from '../short-year.ts';

// Oats at five dollars a week; a batch of jam in the second week for the last four, with jars by the dozen of which it takes four.
const year = shortYear(8, {
  foods: [
    food('oats', { packs: [pack('bag', 1, 500)] }),
    food('jam', { kind: 'preserve', jarKind: pint, useByWeek: [0, 0, 0, 0, 1, 1, 1, 1] }),
  ],
  recipes: [batchOf('jam-of-plums', 'jam', { supplies: [] })],
  sources: [sourceOf('stall', { lbByWeek: [0, 100, 0, 0, 0, 0, 0, 0] })],
  jars: [{ kind: pint, owned: 0, empty: 0, pack: 12, packPrice: asCents(1200), returnShare: 0 }],
  lids: [{ mouth: 'regular', onHand: 12, box: 12, boxPrice: asCents(300) }],
  fund: { opening: asCents(3150), setAsideByWeek: Array(8).fill(asCents(0)) },
});
const canning = canningOf(year, { 'jam-of-plums': [0, 1, 0, 0, 0, 0, 0, 0] });
const rung = (name: ServedRung['name'], missed: number): ServedRung => ({ name, missed, atLeast: 0 });
const boxes = (byWeekBought: readonly number[]) =>
  byWeek(
    'jars_bought[pint/regular,*]',
    byWeekBought.map((count, week) => (week === 0 ? count : null)),
  );

describe('what is kept back for whole packs', () => {
  const weekly = buildModel(year, { wholePacks: false, joinedWeeks: false, canning, earlier: null });
  const stage = (
    built: DecidedStage['built'],
    dozen: number,
    missed: number,
    overdrawn: Readonly<Record<string, number>> = {},
  ): DecidedStage => ({
    built,
    values: valuesOf(built, { ...boxes([dozen]), [`produce[stall,${weekAt(1)}]`]: 5, ...overdrawn }),
    rungs: [rung('coming weeks', missed), rung('first jars', 0)],
  });

  test('is what canning costs more in them than in any amount, from its week on', () => {
    expect(keptForPacks(stage(weekly, 1 / 3, 0), stage(packsAround(year, canning), 1, 1))).toEqual(
      year.weeks.map(() => 800),
    );
  });

  test('is the same where they overdraw a coming week, by however little, and nothing where they overdraw a later one', () => {
    const packs = (week: number, cents: number) =>
      stage(packsAround(year, canning), 1, 0, { [`fund_over[${weekAt(week)}]`]: cents });
    expect(keptForPacks(stage(weekly, 1 / 3, 0), packs(3, 2))).toEqual(year.weeks.map(() => 800));
    expect(keptForPacks(stage(weekly, 1 / 3, 0), packs(3, 1))).toBeNull();
    expect(keptForPacks(stage(weekly, 1 / 3, 0), packs(4, 500))).toBeNull();
  });

  test('is nothing where they leave enough for what comes before any jar', () => {
    expect(keptForPacks(stage(weekly, 1 / 3, 0.5), stage(packsAround(year, canning), 1, 0.5))).toBeNull();
    expect(keptForPacks(stage(weekly, 1 / 3, 0.5), stage(packsAround(year, canning), 1, 0.51))).toBeNull();
  });
});

test('what misses more is told by the heaviest wish in which two plans differ, of those before any jar', () => {
  expect(missesMore([rung('coming weeks', 1)], [rung('coming weeks', 0)])).toBe(true);
  expect(missesMore([rung('coming weeks', 0)], [rung('coming weeks', 1)])).toBe(false);
  expect(missesMore([rung('pins', 1), rung('coming weeks', 0)], [rung('coming weeks', 5)])).toBe(true);
  expect(missesMore([rung('first jars', 9), rung('use', 9)], [])).toBe(false);
});

test('a plan serves better that can be paid for in the coming weeks, and then one that misses less', () => {
  const plan = (fundAfter: readonly number[], missed: number) => ({
    weeks: fundAfter.map((cents) => ({ fundAfter: asCents(cents) })) as unknown as Plan['weeks'],
    rungs: [rung('coming weeks', missed)],
  });
  expect(servesBetter(plan([100, 0, 0, 0, -900], 5), plan([100, -20, 0, 0, 0], 0))).toBe(true);
  expect(servesBetter(plan([100, -20, 0, 0, 0], 0), plan([100, 0, 0, 0, -900], 5))).toBe(false);
  expect(servesBetter(plan([-20, 0, 0, 0], 0), plan([-20, 0, 0, 0], 1))).toBe(true);
  expect(servesBetter(plan([-20, 0, 0, 0], 1), plan([-20, 0, 0, 0], 1))).toBe(false);
});

describe('a purse that would pay for jars in any amount, and not by the dozen', () => {
  const planned = async (given: PlanningYear) => {
    const answer = await makePlan(given, solveInBackground, { gap: 0 });
    if (answer.outcome !== 'planned') throw new Error(`${answer.outcome}: ${answer.detail}`);
    expect(checkPlan(answer.plan, given)).toEqual([]);
    return answer.plan;
  };

  test('pays for what is eaten in the coming weeks, and jam is left', async () => {
    const plan = await planned(year);

    expect(plan.rungs.find(({ name }) => name === 'coming weeks')).toMatchObject({ missed: 0 });
    expect(plan.weeks.flatMap(({ sessions }) => sessions)).toEqual([]);
  });

  test('pays for both where it holds a dozen', async () => {
    const plan = await planned({ ...year, fund: { ...year.fund, opening: asCents(4400) } });

    expect(plan.rungs.find(({ name }) => name === 'coming weeks')).toMatchObject({ missed: 0 });
    expect(plan.weeks.flatMap(({ sessions }) => sessions)).toHaveLength(1);
  });
});
