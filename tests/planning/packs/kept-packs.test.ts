import { describe, expect, test } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { householdRules } from '../../../src/planning/model/rules.ts';
import { keptPacks } from '../../../src/planning/packs/kept-packs.ts';
import { solvePackStage } from '../../../src/planning/packs/pack-stage.ts';
import type { ServedRung } from '../../../src/planning/solving/rungs.ts';
import type { Solve, SolvedAnswer } from '../../../src/planning/solving/solving.ts';
import { wishRungs } from '../../../src/planning/solving/wish-rungs.ts';
import { planOf } from '../short-plan.ts';
import {
  batchOf,
  byWeek,
  canningOf,
  food,
  pack,
  packsAround,
  shortYear,
  sourceOf,
  valuesOf,
} from '../short-year.ts';

// Peas for three weeks, a unit a week, in bags of one at 300 cents; a batch of jam in the third week takes two pounds of sugar.
const year = shortYear(3, {
  foods: [food('peas', { packs: [pack('bag', 1, 300)] }), food('jam', { useByWeek: [0, 0, 0] })],
  sources: [sourceOf('tree')],
  recipes: [batchOf('jam-of-plums', 'jam', { supplies: [{ supplyId: 'sugar', quantity: 2 }] })],
  supplies: [{ id: 'sugar', name: 'Sugar', unit: 'lb', onHand: 0, packQuantity: 1, packPrice: asCents(100) }],
});
const canning = { batches: [[0, 0, 1]], sessionsByWeek: [0, 0, 1] };
const built = packsAround(year, canning);
const bag = (count: number) => ({
  kind: 'item' as const,
  what: 'peas',
  quantity: count,
  packs: { id: 'bag', count },
});
const sugar = (count: number) => ({
  kind: 'supply' as const,
  what: 'sugar',
  quantity: count,
  packs: { id: 'sugar', count },
});
const before = planOf(year, { 0: { purchases: [bag(2)] }, 1: { purchases: [sugar(2), bag(1)] } });
const kept = (plan: typeof before) =>
  Object.fromEntries(
    [...(keptPacks(built, plan) ?? [])].map(([column, [lower, upper]]) => {
      expect(upper).toBe(lower);
      return [built.model.columns[column]?.name, lower];
    }),
  );

describe('the packs of an earlier plan', () => {
  test('are bought as it bought them, and no others', () => {
    expect(kept(before)).toMatchObject({
      ...byWeek('purchases[peas,bag,*]', [2, 1, 0]),
      'supply_bought[sugar,2027-W02]': 2,
    });
  });

  test('come with as much more as canning now needs', () => {
    const without = planOf(year, { 0: { purchases: [bag(2), sugar(1)] } });

    expect(kept(without)).toMatchObject({
      'supply_bought[sugar,2027-W01]': 1,
      'supply_bought[sugar,2027-W02]': 1,
    });
  });

  test('are not kept of other weeks, or where they were only rounded up', () => {
    expect(keptPacks(built, { ...before, weeks: before.weeks.slice(1) })).toBeNull();
    expect(
      keptPacks(built, { ...before, packRounding: { cost: asCents(0), gap: 0.1, isRoundedUp: true } }),
    ).toBeNull();
  });
});

describe('whole packs that go on from an earlier plan', () => {
  const peas = shortYear(2, { foods: [food('peas', { packs: [pack('bag', 1, 300)] })] });
  const around = packsAround(peas, canningOf(peas));
  const rungs: readonly ServedRung[] = wishRungs(around).map(({ name }) => ({ name, missed: 0, atLeast: 0 }));
  const earlier = (bags: readonly number[], gap: number, missed = 0) => ({
    ...planOf(peas, { 0: { purchases: [bag(bags[0] ?? 0)] }, 1: { purchases: [bag(bags[1] ?? 0)] } }),
    packRounding: { cost: asCents(0), gap },
    rungs: rungs.map((rung) => (['use', 'coming weeks'].includes(rung.name) ? { ...rung, missed } : rung)),
  });
  const answering = (bags: readonly number[], missed: readonly number[], bound: number): SolvedAnswer => ({
    status: 'solved',
    stoppedBy: 'gap',
    values: valuesOf(around, {
      ...byWeek('purchases[peas,bag,*]', bags),
      ...byWeek('shortage[peas,*]', missed),
    }),
    objective: 0,
    bound,
    basis: null,
    nodes: 0,
    seconds: 1,
  });

  /** The relaxation costs 580; packs that are fixed cost what they are; nothing else finds anything. */
  async function gone(from: ReturnType<typeof earlier>, missed: readonly number[] = [0, 0]) {
    let fixed = 0;
    let others = 0;
    const solve: Solve = async (model, { bounds }) => {
      const counts = model.columns.flatMap(({ name }, at) =>
        name.startsWith('purchases[') ? [bounds?.get(at)?.[0] ?? Number.NaN] : [],
      );
      if (model.columns.length < around.model.columns.length) {
        others += 1;
        return { status: 'time limit without plan', detail: 'nothing' };
      }
      if (!counts.some(Number.isFinite)) return answering([0.9, 0.9], [0, 0], 580);
      fixed += 1;
      return answering(counts, fixed === 1 ? missed : [0, 0], 600);
    };
    const { answer } = await solvePackStage(peas, canningOf(peas), householdRules, solve, {
      settled: rungs,
      before: from,
    });
    return { answer, fixed, others };
  }

  test('stand where they are as near to the best as they were', async () => {
    const { answer, fixed, others } = await gone(earlier([1, 1], 0.04));

    expect(answer).toMatchObject({ status: 'solved', objective: 600, bound: 580 });
    expect([fixed, others]).toEqual([1, 0]);
  });

  test('are bought better where they are not, one store after the other', async () => {
    const { answer, fixed, others } = await gone(earlier([2, 1], 0.04));

    expect(answer).toMatchObject({ status: 'solved', objective: 900 });
    expect([fixed, others]).toEqual([1, 1]);
  });

  test('stand where they miss no more than that plan did, and are looked for anew where they do', async () => {
    expect((await gone(earlier([1, 0], 0.04, 0.5), [0, 0.5])).fixed).toBe(1);
    expect((await gone(earlier([1, 0], 0.04, 0.4), [0, 0.5])).fixed).toBeGreaterThan(1);
  });
});
