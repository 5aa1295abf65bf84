import { describe, expect, test } from 'vitest';
import type { ItemId } from '../../../shared/ids.ts';
import type { PlanBefore, PlanningAnswer } from '../../../src/planning/make-plan.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import { type PlanAim, planWithAim } from '../../../src/planning/simulation/plan-with-aim.ts';
import type { SimulatedPlan } from '../../../src/planning/simulation/simulated-plan.ts';
import { planOf } from '../short-plan.ts';
import { batchOf, food, pack, pint, shortYear } from '../short-year.ts';

const year = shortYear(2, {
  foods: [
    food('jam', { jarKind: pint }),
    food('oats', { packs: [pack('bag', 1, 300)] }),
    food('relish', { jarKind: pint }),
    food('honey'),
  ],
  recipes: [
    batchOf('jam-of-plums', 'jam'),
    batchOf('relish-of-plums', 'relish'),
    batchOf('oats-of-ours', 'oats'),
  ],
});

/** How an item does in a round: its chance of lasting, what is missed in the aimed share of years, and as planned. */
interface Round {
  readonly lasts: number;
  readonly missed?: number;
  readonly asPlanned?: number;
  readonly error?: number;
}
type Rounds = Readonly<Record<string, readonly Round[]>>;

async function aimed(rounds: Rounds, aim: Partial<PlanAim> = {}, of: PlanningYear = year, failsIn = -1) {
  const asked: { readonly year: PlanningYear; readonly earlier: PlanBefore | null }[] = [];
  const quantiles: number[] = [];
  const answers: PlanningAnswer[] = [];
  const result = await planWithAim(
    of,
    async (year, earlier) => {
      asked.push({ year, earlier });
      const answer = (asked.length - 1 === failsIn
        ? { outcome: 'infeasible' }
        : { outcome: 'planned', plan: planOf(year) }) as unknown as PlanningAnswer;
      answers.push(answer);
      return answer;
    },
    async () => {
      const round = asked.length - 1;
      return {
        items: Object.entries(rounds).map(([item, list]) => {
          const one = list[Math.min(round, list.length - 1)] ?? { lasts: 1 };
          return {
            item: item as ItemId,
            lasts: { value: one.lasts, standardError: one.error ?? 0.01 },
            missedQuantile: (share: number) => {
              quantiles.push(share);
              return one.missed ?? 0;
            },
            missedAsPlanned: one.asPlanned ?? 0,
          };
        }),
      } as unknown as SimulatedPlan;
    },
    { chance: 0.9, rounds: 4, ...aim },
  );
  const reserves = (name: string) =>
    asked.map(({ year }) => year.items.find(({ id }) => id === name)?.reserveForAim);
  return { ...result, asked, answers, quantiles, reserves };
}

describe('an aim for what can only be made', () => {
  test('that is reached leaves the year as it is', async () => {
    const {
      asked,
      year: planned,
      roundsUsed,
      answer,
      answers,
    } = await aimed({ jam: [{ lasts: 0.9, missed: 0 }] });

    expect(asked).toEqual([{ year, earlier: null }]);
    expect(planned).toBe(year);
    expect(roundsUsed).toBe(0);
    expect(answer).toBe(answers[0]);
  });

  test.each([
    // Two standard errors of a hundredth below nine in ten.
    [0.881, 1],
    [0.88 - 1e-9, 2],
  ])('is missed only beyond two standard errors: at %d, %d plans', async (lasts, plans) => {
    expect((await aimed({ jam: [{ lasts, missed: 3 }, { lasts: 0.95 }] })).asked).toHaveLength(plans);
  });

  test('asks for what was missed in the aimed share of years, in whole units, near the plan found', async () => {
    const { reserves, asked, answers, quantiles } = await aimed({
      jam: [{ lasts: 0.5, missed: 2.1 }, { lasts: 0.95 }],
    });

    expect(reserves('jam')).toEqual([undefined, 3]);
    const [first] = answers;
    expect(asked[1]?.earlier).toEqual({ year, plan: first?.outcome === 'planned' ? first.plan : null });
    expect(asked[1]?.year.items.map(({ id }) => id)).toEqual(year.items.map(({ id }) => id));
    expect(quantiles[0]).toBe(0.9);
  });

  test('leaves out what is missed even when everything comes as expected', async () => {
    const { reserves } = await aimed({ jam: [{ lasts: 0.5, missed: 5, asPlanned: 2.5 }, { lasts: 0.95 }] });
    expect(reserves('jam')).toEqual([undefined, 3]);

    const all = await aimed({ jam: [{ lasts: 0.5, missed: 5, asPlanned: 6 }] });
    expect(all.reserves('jam')).toEqual([undefined]);
  });

  test('asks nothing for what is not worth a batch, and the rest for what misses more', async () => {
    const letGo = {
      ...year,
      items: year.items.map((item) => (item.id === 'jam' ? { ...item, reserveNotWorthABatch: 2 } : item)),
    };
    const missing = (missed: number) => aimed({ jam: [{ lasts: 0.5, missed }, { lasts: 0.95 }] }, {}, letGo);

    expect((await missing(2)).asked).toHaveLength(1);
    expect((await missing(5)).reserves('jam')).toEqual([undefined, 3]);
  });

  test('adds to what was asked for before, as long as it helps', async () => {
    const { reserves } = await aimed({
      jam: [
        { lasts: 0.5, missed: 8 },
        { lasts: 0.7, missed: 3 },
        { lasts: 0.9, missed: 0 },
      ],
    });

    expect(reserves('jam')).toEqual([undefined, 8, 11]);
  });

  test.each([
    // A quarter of the eight asked for is two.
    [6, [undefined, 8, 14]],
    [6.1, [undefined, 8]],
  ])('takes back what cures less than a quarter: %d are missed still', async (missed, expected) => {
    const { reserves } = await aimed({
      jam: [
        { lasts: 0.5, missed: 8 },
        { lasts: 0.6, missed },
        { lasts: 0.95, missed: 0 },
      ],
    });

    expect(reserves('jam')).toEqual(expected);
  });

  test('never asks again for what is past cure', async () => {
    const { reserves, roundsUsed, answer, answers } = await aimed({
      jam: [
        { lasts: 0.5, missed: 8 },
        { lasts: 0.5, missed: 8 },
        { lasts: 0.5, missed: 8 },
      ],
    });

    // Taken back, the year is the first one: there is nothing to plan.
    expect(reserves('jam')).toEqual([undefined, 8]);
    expect(roundsUsed).toBe(1);
    expect(answer).toBe(answers[0]);
  });

  test('takes back what does not help while what does stays', async () => {
    const { reserves } = await aimed({
      jam: [{ lasts: 0.5, missed: 8 }],
      relish: [{ lasts: 0.5, missed: 2 }, { lasts: 0.95 }],
    });

    expect(reserves('jam')).toEqual([undefined, 8, undefined]);
    expect(reserves('relish')).toEqual([undefined, 2, 2]);
  });

  test('asks nothing for an item of which all is made that can be', async () => {
    const { reserves } = await aimed(
      { jam: [{ lasts: 0.5, missed: 8 }], relish: [{ lasts: 0.5, missed: 2 }, { lasts: 0.95 }] },
      { allMadeOf: () => (item) => item === 'jam' },
    );

    expect(reserves('jam')).toEqual([undefined, undefined]);
    expect(reserves('relish')).toEqual([undefined, 2]);
  });

  test('keeps what was asked for where nothing more is missed, however little that is', async () => {
    const { reserves } = await aimed({
      jam: [
        { lasts: 0.5, missed: 8 },
        { lasts: 0.95, missed: 1 },
        { lasts: 0.95, missed: 1 },
      ],
      relish: [{ lasts: 0.95 }, { lasts: 0.5, missed: 2 }, { lasts: 0.95 }],
    });

    // Relish is asked for a round later; jam, of which nothing more was asked, is not taken for past cure by that.
    expect(reserves('jam')).toEqual([undefined, 8, 8]);
    expect(reserves('relish')).toEqual([undefined, undefined, 2]);
  });

  test('is none of what is bought, or of what has no recipe', async () => {
    const low = [{ lasts: 0.1, missed: 9 }];

    expect((await aimed({ oats: low, honey: low })).asked).toHaveLength(1);
  });

  test('is the household’s own for an item it named one for', async () => {
    const { reserves, quantiles } = await aimed(
      {
        jam: [{ lasts: 0.75, missed: 4 }],
        relish: [{ lasts: 0.75, missed: 5 }, { lasts: 0.95 }],
      },
      { chanceByItem: new Map([['jam' as ItemId, 0.75]]) },
    );

    expect(reserves('jam')).toEqual([undefined, undefined]);
    expect(reserves('relish')).toEqual([undefined, 5]);
    expect(quantiles.slice(0, 2)).toEqual([0.75, 0.9]);
  });

  test('starts from what the year asks for already, and takes that back where nothing asks for it', async () => {
    const before = {
      ...year,
      items: year.items.map((item) => (item.id === 'jam' ? { ...item, reserveForAim: 5 } : item)),
    };

    expect((await aimed({ jam: [{ lasts: 0.95 }] }, {}, before)).reserves('jam')).toEqual([5, undefined]);
    // Asked for as much as it has: the same year.
    expect((await aimed({ jam: [{ lasts: 0.5, missed: 5 }] }, {}, before)).asked).toHaveLength(1);
  });
});

describe('an aim that goes on from one before', () => {
  const before = {
    ...year,
    items: year.items.map((item) => (item.id === 'jam' ? { ...item, reserveForAim: 5 } : item)),
  };
  const low = [{ lasts: 0.5, missed: 4 }, { lasts: 0.9 }];

  test('lets the reserves it comes with stand, and asks for no more', async () => {
    const { reserves, roundsUsed, simulated } = await aimed(
      { jam: low, relish: low },
      { aimedBefore: new Set(['jam', 'relish'] as ItemId[]) },
      before,
    );

    expect(reserves('jam')).toEqual([5]);
    expect(reserves('relish')).toEqual([undefined]);
    expect(roundsUsed).toBe(0);
    expect(simulated?.items.map(({ lasts }) => lasts.value)).toEqual([0.5, 0.5]);
  });

  test('aims what is not of it, with all else as it stands', async () => {
    const { reserves } = await aimed(
      { jam: low, relish: low },
      { aimedBefore: new Set(['jam'] as ItemId[]) },
      before,
    );

    expect(reserves('jam')).toEqual([5, 5]);
    expect(reserves('relish')).toEqual([undefined, 4]);
  });
});

describe('the rounds of an aim', () => {
  const never = [8, 6, 4, 2, 1].map((missed) => ({ lasts: 0.5, missed }));

  test.each([0, 1, 3])('are no more than %d', async (rounds) => {
    const { asked, roundsUsed } = await aimed({ jam: never }, { rounds });

    expect(asked).toHaveLength(rounds + 1);
    expect(roundsUsed).toBe(rounds);
  });

  test('are four, for nine years in ten, unless said otherwise', async () => {
    const shares: number[] = [];
    let rounds = 0;
    const { roundsUsed } = await planWithAim(
      year,
      async (of) => ({ outcome: 'planned', plan: planOf(of) }) as unknown as PlanningAnswer,
      () => {
        rounds += 1;
        const items = [
          {
            item: 'jam',
            lasts: { value: 0.5, standardError: 0 },
            missedQuantile: (share: number) => {
              shares.push(share);
              return 90 - 10 * rounds;
            },
            missedAsPlanned: 79 - 10 * rounds,
          },
        ];
        return { items } as unknown as SimulatedPlan;
      },
    );

    expect(roundsUsed).toBe(4);
    expect(new Set(shares)).toEqual(new Set([0.9]));
  });

  test('are answered with the one that came nearest to all aims together, the first of equal ones', async () => {
    const {
      answer,
      answers,
      year: planned,
      roundsUsed,
    } = await aimed(
      {
        jam: [
          { lasts: 0.3, missed: 8 },
          { lasts: 0.7, missed: 4 },
          { lasts: 0.7, missed: 2 },
          { lasts: 0.6, missed: 1 },
        ],
        relish: [{ lasts: 0.9 }, { lasts: 0.85 }, { lasts: 0.85 }, { lasts: 0.9 }],
      },
      { rounds: 3 },
    );

    // Short of nine in ten by 0.6, 0.25, 0.25 and 0.3.
    expect(answer).toBe(answers[1]);
    expect(planned.items.find(({ id }) => id === 'jam')?.reserveForAim).toBe(8);
    expect(roundsUsed).toBe(3);
  });

  test('count no item that lasts longer than aimed for against one that does not, and none that is bought or cannot be made', async () => {
    const { answer, answers } = await aimed(
      {
        jam: [
          { lasts: 0.7, missed: 8 },
          { lasts: 0.6, missed: 4 },
        ],
        relish: [{ lasts: 0.9 }, { lasts: 1 }],
        oats: [{ lasts: 0.1 }, { lasts: 1 }],
        honey: [{ lasts: 0.1 }, { lasts: 1 }],
      },
      { rounds: 1 },
    );

    expect(answer).toBe(answers[0]);
  });

  test('measure each item by the chance wished for it', async () => {
    const { answer, answers } = await aimed(
      {
        jam: [
          { lasts: 0.7, missed: 8 },
          { lasts: 0.5, missed: 4 },
        ],
        relish: [{ lasts: 0.8, missed: 3 }, { lasts: 0.85 }],
      },
      {
        rounds: 1,
        chanceByItem: new Map([
          ['jam' as ItemId, 0.5],
          ['relish' as ItemId, 0.9],
        ]),
      },
    );

    expect(answer).toBe(answers[1]);
  });

  test('that end without a plan are answered with the best before, or with what the first said', async () => {
    const later = await aimed({ jam: never }, {}, year, 2);
    expect(later.answer).toBe(later.answers[0]);
    expect(later.simulated).not.toBeNull();
    expect(later.roundsUsed).toBe(0);

    const first = await aimed({ jam: never }, {}, year, 0);
    expect(first.answer).toBe(first.answers[0]);
    expect(first.simulated).toBeNull();
    expect(first.roundsUsed).toBe(0);
    expect(first.year).toBe(year);
  });
});
