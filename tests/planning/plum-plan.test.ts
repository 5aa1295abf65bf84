import { describe, expect, it } from 'vitest';
import { solveInBackground } from '../../server/solver/plan-year.ts';
import { asCents } from '../../shared/money.ts';
import { planDifference } from '../../src/planning/answer/plan-difference.ts';
import { batchReasons } from '../../src/planning/explanation/batch-reasons.ts';
import { moveCost } from '../../src/planning/explanation/move-cost.ts';
import { wishReasons } from '../../src/planning/explanation/wish-reasons.ts';
import { worthOfMore } from '../../src/planning/explanation/worth-of-more.ts';
import { glutWays } from '../../src/planning/glut/glut.ts';
import { makePlan, type PlannedYear, type PlanOptions } from '../../src/planning/make-plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import { yearWalk } from '../../src/planning/year/year-walk.ts';
import { checkPlan } from './independent-checker.ts';
import { jamRecipe, plumJam, plumWeeks, plumYear } from './plum-year.ts';

async function planned(year: PlanningYear, options: PlanOptions = {}): Promise<PlannedYear> {
  const answer = await makePlan(year, solveInBackground, { gap: 0, ...options });
  if (answer.outcome !== 'planned') throw new Error(`${answer.outcome}: ${answer.detail}`);
  expect(checkPlan(answer.plan, year)).toEqual([]);
  return answer;
}
const batchesByWeek = ({ plan }: PlannedYear) =>
  plan.weeks.flatMap(({ sessions }, week) => sessions.map(({ batches }) => [week, batches]));
const plum = 'plum' as PlanningYear['sources'][number]['crop'];

// 30 jars stand, 26 are eaten, 17 are handed over and 2 are held back: 15 are missing, three batches of 7.
describe('a year of plum jam', () => {
  it('is put up in its season, cheapest week first, at most two batches in a week', async () => {
    const answer = await planned(plumYear());

    const batches = batchesByWeek(answer);
    expect(batches.reduce((sum, [, count]) => sum + (count ?? 0), 0)).toBe(3);
    expect(batches).toContainEqual([35, 2]);
    expect(answer.plan.gaveWay).toEqual([]);
  });

  it('costs what the parts cost: plums, sugar beyond what is in the house, lids, whole packs last', async () => {
    const { plan } = await planned(plumYear());

    // 20 lb at 90 and 10 lb at 120 cents; 15 lb of sugar less 4, at 80 cents; 24 jars and their spare lids less 10.
    expect(plan.objective.produce).toBeCloseTo(20 * 90 + 10 * 120, 3);
    expect(plan.objective.supplies).toBeCloseTo(11 * 80, 3);
    expect(plan.objective.lids).toBeCloseTo((24 * 1.05 - 10) * (450 / 12), 3);
    const bought = (kind: string) =>
      plan.weeks.flatMap(({ purchases }) =>
        purchases.filter((line) => line.kind === kind).map(({ packs }) => packs?.count),
      );
    expect(bought('supply').reduce<number>((sum, count) => sum + (count ?? 0), 0)).toBe(3);
    expect(bought('lids').reduce<number>((sum, count) => sum + (count ?? 0), 0)).toBe(2);
  });

  it('says by how much the reserve, then the use, gives way when there are too few plums', async () => {
    const sources = plumYear().sources.map((source) => ({
      ...source,
      lbByWeek: source.lbByWeek.map((lb, week) => (week === 35 ? lb : 0)),
    }));

    const { plan } = await planned(plumYear({ sources }));

    // Two batches give 14 of the 15: the reserve gives way by one, the use not at all.
    expect(plan.gaveWay).toEqual([{ rung: 'reserve', what: 'plum-jam', amount: 1, unit: 'units' }]);
    expect(wishReasons(plumYear({ sources }), plan)[0]?.reasons.map(({ code }) => code)).toContain('produce');
  });

  it('buys jars for those that left the house with a gift and do not come back', async () => {
    const jarsWhen = async (returnShare: number) => {
      const jars = plumYear().jars.map((holding) => ({ ...holding, empty: 10, returnShare }));
      const items = [{ ...plumJam, givenByWeek: plumJam.useByWeek }];
      return (await planned(plumYear({ jars, items }))).plan.objective.jars;
    };

    // 24 jars are filled by the fourth week of plums; 10 are empty and half a jar comes back each week, or none does.
    expect(await jarsWhen(1)).toBeCloseTo(0, 3);
    expect(await jarsWhen(0)).toBeCloseTo((24 - 10) * (1500 / 12), 3);
  });

  it('is not put up in weeks without a session', async () => {
    const time = {
      ...plumYear().time,
      maxSessionsByWeek: plumWeeks.map((_, week) => (week === 35 ? 0 : 1)),
    };

    expect(batchesByWeek(await planned(plumYear({ time }))).map(([week]) => week)).not.toContain(35);
  });

  it('never spends what is not yet set aside', async () => {
    const fund = {
      opening: asCents(0),
      setAsideByWeek: plumWeeks.map((_, week) => asCents(week < 30 ? 0 : 700)),
    };

    const { plan } = await planned(plumYear({ fund }));

    expect(Math.min(...plan.weeks.map(({ fundAfter }) => fundAfter))).toBeGreaterThanOrEqual(0);
  });
});

describe('decisions a person has made', () => {
  const week = plumWeeks[37] ?? ('' as never);

  it('keeps a pinned batch in its week', async () => {
    const kept = [{ recipeId: jamRecipe.id, week, decision: 'pinned', batches: 2 } as const];

    expect(batchesByWeek(await planned(plumYear({ kept })))).toContainEqual([37, 2]);
  });

  it('says when a pin cannot be kept, and plans all the same', async () => {
    const kept = [
      { recipeId: jamRecipe.id, week: plumWeeks[2] ?? week, decision: 'pinned', batches: 1 } as const,
    ];

    const { plan } = await planned(plumYear({ kept }));

    expect(plan.gaveWay).toContainEqual({
      rung: 'cash and hours',
      what: `jam-of-plums in ${plumWeeks[2]}`,
      amount: 1,
      unit: 'batches',
      batches: { recipe: 'jam-of-plums', pinnedIn: plumWeeks[2], begunOn: null },
    });
  });

  it('leaves a ruled-out week alone', async () => {
    const kept = [{ recipeId: jamRecipe.id, week: plumWeeks[35] ?? week, decision: 'ruled-out' } as const];

    expect(batchesByWeek(await planned(plumYear({ kept }))).map(([at]) => at)).not.toContain(35);
  });

  it('counts the hours of what is already done in its week', async () => {
    const kept = [
      { recipeId: jamRecipe.id, week: plumWeeks[35] ?? week, decision: 'done', batches: 1 } as const,
    ];

    const batches = batchesByWeek(await planned(plumYear({ kept })));

    expect(batches.find(([at]) => at === 35)?.[1] ?? 0).toBeLessThanOrEqual(1);
  });
});

describe('planning again', () => {
  it('keeps the near weeks of the plan before unless a change is worth it', async () => {
    const early = plumYear({
      fund: { ...plumYear().fund, opening: asCents(20_000) },
      sources: plumYear().sources.map((source) => ({
        ...source,
        lbByWeek: source.lbByWeek.map((_, week) => (week <= 3 ? 20 : 0)),
        priceCentsPerLbByWeek: source.priceCentsPerLbByWeek.map((_, week) => asCents(week === 2 ? 100 : 110)),
      })),
    });
    const first = await planned(early);
    const earlier = first.plan.weeks.map((week, at) => ({
      ...week,
      sessions: at === 1 ? (first.plan.weeks[2]?.sessions ?? []) : at === 2 ? [] : week.sessions,
    }));

    const again = await planned(early, { earlier });

    expect(batchesByWeek(first)).toContainEqual([2, 2]);
    expect(batchesByWeek(again)).toContainEqual([1, 2]);
  });

  it('gives the same plan for the same year, whatever the order things were entered in', async () => {
    const year = plumYear({
      items: [plumJam, { ...plumJam, id: 'another' as typeof plumJam.id, name: 'Another' }],
    });
    const turned = { ...year, items: [...year.items].reverse(), lids: [...year.lids].reverse() };

    const [one, other] = [await planned(year), await planned(turned)];

    expect({ ...one.plan, solveSeconds: 0 }).toEqual({ ...other.plan, solveSeconds: 0 });
  });
});

describe('why', () => {
  it('names for each batch that it is wanted and that its weeks are few', async () => {
    const { plan, paths } = await planned(plumYear());

    const [first] = batchReasons(plumYear(), plan, paths);

    expect(first?.reasons.map(({ code }) => code)).toEqual(expect.arrayContaining(['wanted', 'only-weeks']));
  });

  it('prices a move by what the plums cost more: two batches from the cheap week to the next', async () => {
    const { plan } = await planned(plumYear());
    const target = plan.weeks[36]?.sessions.length === 0 ? 1 : -1;

    const cost = await moveCost(
      plumYear(),
      plan,
      { recipe: jamRecipe.id, week: plumWeeks[35] ?? ('' as never), by: target },
      solveInBackground,
    );

    expect(cost).toMatchObject({ outcome: 'possible' });
    expect(cost.outcome === 'possible' ? Math.abs(cost.cents - 20 * 30) : Number.NaN).toBeLessThan(5);
  });

  it('says that a batch cannot be made out of season', async () => {
    const { plan } = await planned(plumYear());

    const cost = await moveCost(
      plumYear(),
      plan,
      { recipe: jamRecipe.id, week: plumWeeks[35] ?? ('' as never), by: 8 },
      solveInBackground,
    );

    expect(cost).toEqual({ outcome: 'cannot be made then' });
  });

  it('finds an hour worth something only where hours are short', async () => {
    const short = plumYear({
      time: {
        ...plumYear().time,
        hoursPerSessionByWeek: plumWeeks.map(() => 3),
        maxSessionsByWeek: plumWeeks.map((_, week) => (week === 35 ? 1 : 0)),
      },
    });
    const hour = { what: 'hour', week: plumWeeks[35] ?? ('' as never) } as const;

    const [scarce] = await worthOfMore(short, [hour], solveInBackground);
    const [ample] = await worthOfMore(plumYear(), [hour], solveInBackground);

    // Where there is room a longer session saves at most a part of another session, priced 40 cents.
    expect(scarce?.cents).toBeGreaterThan(1000);
    expect(ample?.cents).toBeLessThanOrEqual(40);
  });
});

const walkOfPlums = () => {
  const [item] = plumYear().items;
  if (item === undefined) throw new Error('the year of plums has no item');
  const standing = item.openingLots.reduce((sum, { units }) => sum + units, 0);
  return yearWalk(item, { target: null, standing, planned: 0 });
};

describe('a glut of plums', () => {
  it('becomes whole batches, with everything they need, at once', () => {
    const [way] = glutWays(plumYear(), { crop: plum, lb: 44 }, walkOfPlums);

    expect(way).toMatchObject({
      recipe: 'jam-of-plums',
      batches: 4,
      lbUsed: 40,
      lbLeft: 4,
      units: 28,
      unitsStillWanted: 15,
      batchesWanted: 3,
      jars: { kind: 'pint/regular', mouth: 'regular', count: 32, missing: 2 },
      lids: { count: 34, missing: 24 },
      supplies: [{ supplyId: 'sugar', quantity: 20, missing: 16, unit: 'lb' }],
      loads: 4,
      handsOnMinutes: 400,
      cannerMinutes: 200,
      processing: { minutes: 10, psi: null },
    });
  });

  it('is nothing to a household whose recipes use none of it', () => {
    expect(glutWays(plumYear(), { crop: 'quince' as typeof plum, lb: 40 }, walkOfPlums)).toEqual([]);
  });

  it('is worked up this week when the year is planned again, and what it displaces is named', async () => {
    const before = await planned(plumYear());
    const [orchard] = plumYear().sources;
    if (orchard === undefined) throw new Error('the year of plums has no source');
    const atHand = {
      ...orchard,
      id: 'at-hand' as typeof orchard.id,
      lbByWeek: plumWeeks.map((_, week) => (week === 0 ? 30 : 0)),
      priceCentsPerLbByWeek: plumWeeks.map(() => asCents(0)),
      isAtHand: true as const,
    };
    const after = await planned(plumYear({ sources: [orchard, atHand] }), { earlier: before.plan.weeks });

    const { batches, spend } = planDifference(before.plan, after.plan);

    expect(batches[0]).toMatchObject({ week: plumWeeks[0], recipe: 'jam-of-plums', before: 0 });
    expect(batches.some((change) => change.after < change.before)).toBe(true);
    expect(spend).toBeLessThan(0);
  });
});
