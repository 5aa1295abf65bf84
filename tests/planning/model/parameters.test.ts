import { describe, expect, it } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { planningParameters } from '../../../src/planning/model/parameters.ts';
import { planningSets } from '../../../src/planning/model/sets.ts';
import type { KitchenTime, PlannedRecipe, PlanningYear } from '../../../src/planning/planning-year.ts';
import {
  each,
  handMadeYear,
  lot,
  named,
  pack,
  pint,
  processing,
  produceOf,
  recipe,
  source,
  staged,
  used,
  week,
  wideQuart,
} from './hand-made-year.ts';

const parametersOf = (year: PlanningYear) => planningParameters(planningSets(year));
const time = (parts: Partial<KitchenTime> = {}): KitchenTime => ({
  maxSessionsByWeek: [1, 2, 0],
  hoursPerSessionByWeek: [4, 3, 4],
  setUpMinutes: 20,
  ...parts,
});
const jamOf = (one: PlannedRecipe, parts: Partial<PlanningYear> = {}) =>
  parametersOf(handMadeYear(3, { items: [used('jam', each(3, 1))], recipes: [one], time: time(), ...parts }));

describe('sessions', () => {
  it('last their hours where one can be held', () => {
    const { sessionMinutesByWeek, mostSessionsByWeek, handsByWeek } = jamOf(recipe('boil', 'jam'));
    expect(sessionMinutesByWeek).toEqual([240, 180, 0]);
    expect(mostSessionsByWeek).toEqual([1, 2, 0]);
    expect(handsByWeek).toEqual([1, 1, 1]);
  });

  it('are none where they are no longer than their set-up', () => {
    const { mostSessionsByWeek } = jamOf(recipe('boil', 'jam'), { time: time({ setUpMinutes: 180 }) });
    expect(mostSessionsByWeek).toEqual([1, 0, 0]);
  });
});

describe('batches of one session', () => {
  const perSession = (one: PlannedRecipe, parts: Partial<KitchenTime> = {}) =>
    jamOf(one, { time: time(parts) }).batchesPerSession[0];

  it('are as many as fit its work beside the set-up', () => {
    expect(perSession(recipe('boil', 'jam', { handsOnMinutes: 110 }))).toEqual([2, 1, 0]);
    expect(perSession(recipe('boil', 'jam', { handsOnMinutes: 111 }))).toEqual([1, 1, 0]);
    expect(perSession(recipe('boil', 'jam', { handsOnMinutes: 80 }))).toEqual([2, 2, 0]);
  });

  it('are a part where one takes several sessions', () => {
    expect(perSession(recipe('boil', 'jam', { handsOnMinutes: 230 }))).toEqual([1 / 2, 1 / 2, 0]);
    expect(perSession(recipe('boil', 'jam', { handsOnMinutes: 320 }))).toEqual([1 / 2, 1 / 2, 0]);
    expect(perSession(recipe('boil', 'jam', { handsOnMinutes: 330 }))).toEqual([1 / 2, 1 / 3, 0]);
  });

  it('are none in a session that is no longer than its set-up', () => {
    expect(perSession(recipe('boil', 'jam', { handsOnMinutes: 0 }), { setUpMinutes: 240 })).toEqual([
      0, 0, 0,
    ]);
  });

  it('are twenty of what takes no time', () => {
    expect(perSession(recipe('boil', 'jam', { handsOnMinutes: 0 }))).toEqual([20, 20, 0]);
  });

  it('are as many as the canner takes in the whole session, whatever hands there are', () => {
    const canned = recipe('boil', 'jam', { handsOnMinutes: 10, processing: processing({ loadMinutes: 80 }) });
    expect(perSession(canned)).toEqual([3, 2, 0]);
    expect(perSession(canned, { handsByWeek: [2, 2, 2] })).toEqual([3, 2, 0]);
    expect(perSession(recipe('boil', 'jam', { handsOnMinutes: 110 }), { handsByWeek: [2, 1, 1] })).toEqual([
      4, 1, 0,
    ]);
    // 10 minutes of hands-on work and 10 attended: 11 times in 220, were the canner free.
    const attended = recipe('boil', 'jam', {
      handsOnMinutes: 10,
      processing: processing({ loadMinutes: 5 }),
    });
    expect(perSession(attended)).toEqual([11, 8, 0]);
  });

  it('are bounded by the longest session of the week', () => {
    const long = recipe('boil', 'jam', { handsOnMinutes: 200 });
    expect(perSession(long, { hoursPerSessionByWeek: [3, 3, 4] })).toEqual([1 / 2, 1 / 2, 0]);
    const unlike = jamOf(long, {
      time: time({ hoursPerSessionByWeek: [3, 3, 4], longestSessionByWeek: [4, 3, 9] }),
    });
    expect(unlike.batchesPerSession[0]).toEqual([1, 1 / 2, 0]);
    expect(unlike.mostBatches[0]).toEqual([1, 1, 0]);
  });

  it('of a set-up are what is left of it', () => {
    expect(
      perSession(recipe('cast', 'jam', { handsOnMinutes: 10, setUp: { minutes: 45, cents: 0 } })),
    ).toEqual([17.5, 11.5, 0]);
  });
});

describe('the most batches of a week', () => {
  const most = (one: PlannedRecipe, parts: Partial<PlanningYear> = {}) => jamOf(one, parts).mostBatches[0];

  it('are whole ones over all its sessions', () => {
    expect(most(recipe('boil', 'jam', { handsOnMinutes: 80 }))).toEqual([2, 4, 0]);
    expect(most(recipe('boil', 'jam', { handsOnMinutes: 230 }))).toEqual([0, 1, 0]);
  });

  it('are no more than the produce gives', () => {
    const plums = recipe('boil', 'jam', { produce: [produceOf('plum', 4)] });
    expect(most(plums, { sources: [source('orchard', 'plum', [8, 7.9, 20])] })).toEqual([2, 1, 0]);
    expect(most(plums)).toEqual([0, 0, 0]);
  });

  it('are none where it is ruled out, not allowed or its canner is missing', () => {
    const boil = recipe('boil', 'jam', { handsOnMinutes: 80, processing: processing() });
    expect(most(boil)).toEqual([2, 2, 0]);
    expect(most(boil, { kept: [{ recipeId: named('boil'), week: week(1), decision: 'ruled-out' }] })).toEqual(
      [2, 0, 0],
    );
    expect(
      most(boil, { kept: [{ recipeId: named('boil'), week: week(1), decision: 'pinned', batches: 1 }] }),
    ).toEqual([2, 2, 0]);
    expect(most(boil, { kept: [{ recipeId: named('dry'), week: week(1), decision: 'ruled-out' }] })).toEqual([
      2, 2, 0,
    ]);
    expect(most({ ...boil, allowedByWeek: [false, true, true] })).toEqual([0, 2, 0]);
    expect(most({ ...boil, processing: processing({ cannerId: named('gone') }) })).toEqual([0, 0, 0]);
    expect(
      most(
        { ...boil, processing: processing({ cannerId: named('gone') }) },
        {
          canners: [...handMadeYear(1).canners, { id: named('gone'), name: 'Back', method: 'pressure' }],
        },
      ),
    ).toEqual([2, 2, 0]);
    expect(most({ ...boil, yieldHighJars: 0 })).toEqual([0, 0, 0]);
  });

  it('need their weeks of stages before them, and the work of those', () => {
    const soak = (weeks: number, minutes: readonly number[]) =>
      recipe('soak', 'jam', { stages: staged(weeks, minutes) });
    const open = { time: time({ maxSessionsByWeek: [1, 1, 1], hoursPerSessionByWeek: [4, 4, 4] }) };
    expect(most(soak(1, [10, 50]), open)).toEqual([0, 4, 4]);
    expect(most(soak(2, [10, 0, 50]), open)).toEqual([0, 0, 4]);
    // 220 minutes of work each week: twice 110.
    expect(most(soak(1, [110, 10]), open)).toEqual([0, 2, 2]);
    expect(most(soak(2, [10, 110, 10]), open)).toEqual([0, 0, 2]);
    expect(
      most(soak(1, [110, 10]), {
        time: time({ maxSessionsByWeek: [0, 2, 1], hoursPerSessionByWeek: [4, 4, 4] }),
      }),
    ).toEqual([0, 0, 4]);
    expect(
      most(soak(1, [110, 10]), {
        time: time({
          maxSessionsByWeek: [1, 1, 1],
          hoursPerSessionByWeek: [4, 4, 4],
          handsByWeek: [2, 1, 1],
        }),
      }),
    ).toEqual([0, 4, 2]);
    expect(
      most(
        { ...soak(1, [10, 50]), stages: { ...staged(1, [10, 50]), possibleByWeek: [true, true, false] } },
        open,
      ),
    ).toEqual([0, 4, 0]);
  });

  it('take the produce of the week in which they are begun', () => {
    const soak = recipe('soak', 'jam', { produce: [produceOf('plum', 4)], stages: staged(1, [10, 50]) });
    expect(
      most(soak, {
        sources: [source('orchard', 'plum', [8, 0, 8])],
        time: time({ maxSessionsByWeek: [1, 1, 1] }),
      }),
    ).toEqual([0, 2, 0]);
  });

  it('of a set-up are as much as the use from then on still takes', () => {
    const cast = recipe('cast', 'jam', {
      yieldLowUnits: 2,
      handsOnMinutes: 1,
      setUp: { minutes: 0, cents: 0 },
    });
    expect(most(cast)).toEqual([1.5, 1, 0]);
  });

  it('of a by-product are those that its givers could leave at most', () => {
    const { mostBatches } = parametersOf(
      handMadeYear(3, {
        items: [used('jam', each(3, 1)), used('juice', each(3, 1))],
        recipes: [
          recipe('a-use', 'jam', { uses: [{ materialId: 'pulp', quantity: 2 }], handsOnMinutes: 10 }),
          recipe('b-refine', 'jam', {
            uses: [{ materialId: 'whey', quantity: 1 }],
            gives: [{ materialId: 'pulp', quantity: 4 }],
            handsOnMinutes: 110,
          }),
          recipe('c-press', 'juice', {
            gives: [{ materialId: 'whey', quantity: 1 }],
            handsOnMinutes: 110,
            allowedByWeek: [true, false, false],
          }),
        ],
        materials: ['pulp', 'whey'].map((id) => ({
          id,
          name: id,
          unit: 'lb',
          opening: 0,
          keepsDaysCold: 7,
          keepsMonthsFrozen: null,
          quartsPerUnit: 1,
        })),
      }),
    );
    // Two pressed in the first week leave 2 of whey, for two refined then or the week after, which leave 8 of pulp.
    expect(mostBatches).toEqual([
      [4, 8, 4],
      [2, 2, 0],
      [2, 0, 0],
    ]);
  });

  it('begun already are those, in the weeks of their load', () => {
    const parameters = parametersOf(
      handMadeYear(3, {
        items: [used('jam', each(3, 1))],
        recipes: [recipe('soak', 'jam', { stages: staged(1, [10, 50]), produce: [produceOf('plum', 4)] })],
        begun: [
          {
            id: 'standing',
            recipeId: named('soak'),
            jarKind: null,
            batches: 2,
            begunOn: handMadeYear(1).asOf,
            mayLoadByWeek: [true, true, false],
          },
        ],
        kept: [{ recipeId: named('soak'), week: week(0), decision: 'done', batches: 1 }],
      }),
    );
    expect(parameters.mostBatches).toEqual([
      [0, 0, 0],
      [2, 2, 0],
    ]);
    expect(parameters.doneBatches).toEqual([
      [1, 0, 0],
      [0, 0, 0],
    ]);
  });
});

describe('what is done already', () => {
  it('is summed by week, once for all the jars of a recipe', () => {
    const { doneBatches } = parametersOf(
      handMadeYear(2, {
        items: [used('jam', each(2, 1))],
        recipes: [
          recipe('boil', 'jam', { jarKind: wideQuart }),
          recipe('boil', 'jam', { jarKind: pint }),
          recipe('dry', 'jam'),
        ],
        kept: [
          { recipeId: named('boil'), week: week(0), decision: 'done', batches: 2 },
          { recipeId: named('boil'), week: week(0), decision: 'done', batches: 1 },
          { recipeId: named('boil'), week: week(0), decision: 'pinned', batches: 5 },
          { recipeId: named('boil'), week: week(1), decision: 'ruled-out' },
          { recipeId: named('dry'), week: week(1), decision: 'done', batches: 4 },
        ],
      }),
    );
    expect(doneBatches).toEqual([
      [3, 0],
      [0, 0],
      [0, 4],
    ]);
  });
});

describe('the first supply of an item', () => {
  it('is the first week in which a batch of it is ready; what is bought comes at once', () => {
    const parameters = parametersOf(
      handMadeYear(4, {
        items: [
          used('a', each(4, 2), { openingLots: [lot('old', 3)] }),
          used('b', each(4, 2), { packs: [pack('bag', 1, each(4, 90))] }),
          used('c', each(4, 2)),
          used('d', each(4, 2)),
        ],
        recipes: [
          recipe('late', 'a', { allowedByWeek: [false, false, true, true] }),
          recipe('cured', 'a', { allowedByWeek: [false, true, false, false], readyAfterWeeks: 1 }),
          recipe('never', 'c', { allowedByWeek: each(4, false) }),
          recipe('too-late', 'd', { readyAfterWeeks: 6 }),
        ],
      }),
    );
    expect(parameters.firstSupplyWeek).toEqual([2, 0, 4, 4]);
    expect(parameters.missedByWeek).toEqual([
      [0, 1, 0, 0],
      [0, 0, 0, 0],
      [2, 2, 2, 2],
      [2, 2, 2, 2],
    ]);
    expect(parameters.useByWeek).toEqual([
      [2, 1, 2, 2],
      [2, 2, 2, 2],
      [0, 0, 0, 0],
      [0, 0, 0, 0],
    ]);
    expect(parameters.firstJars.map((food) => food?.wantedUnits ?? null)).toEqual([7, 8, null, null]);
  });
});

describe('weeks in which the reserve is looked at', () => {
  const weeksOf = (count: number, allowed: (week: number) => boolean, parts: Partial<PlannedRecipe> = {}) =>
    parametersOf(
      handMadeYear(count, {
        items: [used('jam', each(count, 1))],
        recipes: [
          recipe('boil', 'jam', {
            allowedByWeek: Array.from({ length: count }, (_, at) => allowed(at)),
            ...parts,
          }),
        ],
      }),
    ).reserveWeeks[0];

  it('are every fourth of a season from its second month on, and the last of the year', () => {
    expect(weeksOf(14, () => true)).toEqual([3, 7, 11, 13]);
    expect(weeksOf(10, (at) => at >= 2)).toEqual([5, 9]);
    expect(weeksOf(1, () => true)).toEqual([0]);
  });

  it('are the last before a season that begins after eight weeks without', () => {
    // Every fourth is looked at once more of the two months before it.
    expect(weeksOf(20, (at) => at < 2 || (at >= 10 && at < 12))).toEqual([3, 7, 9, 19]);
    expect(weeksOf(20, (at) => at < 2 || (at >= 12 && at < 14))).toEqual([7, 11, 19]);
    // Seven weeks without are a pause of the same season.
    expect(weeksOf(20, (at) => at < 2 || (at >= 9 && at < 11))).toEqual([3, 7, 19]);
    expect(weeksOf(20, (at) => at < 2)).toEqual([19]);
  });

  it('count a new season from its own first week', () => {
    expect(weeksOf(20, (at) => at < 1 || at >= 9)).toEqual([3, 7, 8, 12, 16, 19]);
  });

  it('count a season from the week in which its batches are ready', () => {
    expect(weeksOf(14, () => true, { readyAfterWeeks: 2 })).toEqual([5, 9, 13]);
  });

  it('count whatever way it comes', () => {
    const { reserveWeeks } = parametersOf(
      handMadeYear(20, {
        items: [used('jam', each(20, 1))],
        recipes: [
          recipe('early', 'jam', { allowedByWeek: [true, ...each(19, false)] }),
          recipe('late', 'jam', { allowedByWeek: [...each(12, false), ...each(8, true)] }),
        ],
      }),
    );
    expect(reserveWeeks).toEqual([[7, 11, 15, 19]]);
  });

  it('of what can never come are only the last of the year', () => {
    expect(weeksOf(6, () => false)).toEqual([5]);
  });

  it('of what is bought are all from the first in which somebody can shop', () => {
    const bought = (awayByWeek?: readonly boolean[]) =>
      parametersOf(
        handMadeYear(4, {
          items: [used('salt', each(4, 1), { packs: [pack('bag', 1, each(4, 90))] })],
          time: {
            maxSessionsByWeek: each(4, 1),
            hoursPerSessionByWeek: each(4, 4),
            setUpMinutes: 20,
            ...(awayByWeek === undefined ? {} : { awayByWeek }),
          },
        }),
      ).reserveWeeks[0];
    expect(bought()).toEqual([0, 1, 2, 3]);
    expect(bought([true, true, false, true])).toEqual([2, 3]);
  });
});

it('the fund keeps back two dollars for rounding, or what there is', () => {
  const { fundFloorByWeek } = parametersOf(
    handMadeYear(4, { fund: { opening: asCents(20), setAsideByWeek: [0, 100, 80, 900].map(asCents) } }),
  );
  expect(fundFloorByWeek).toEqual([20, 120, 200, 200]);
});
