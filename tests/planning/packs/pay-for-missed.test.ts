import { afterAll, describe, expect, test } from 'vitest';
import { openHighsSolver } from '../../../server/solver/highs-solver.ts';
import { asCents } from '../../../shared/money.ts';
import { makePlan, type PlannedYear } from '../../../src/planning/make-plan.ts';
import { packsForMissed } from '../../../src/planning/packs/pay-for-missed.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import { generatedHousehold } from '../generated-household.ts';
import { byWeek, canningOf, food, pack, packsAround, shortYear, valuesOf, weekAt } from '../short-year.ts';

const solver = openHighsSolver();
afterAll(() => solver.close());

// Six weeks of oats and of rice; oats in bags of two at 300 or of five at 600, rice in bags of one at 200.
const year = shortYear(6, {
  foods: [
    food('oats', { packs: [pack('bag', 2, 300), pack('sack', 5, 600)] }),
    food('rice', { packs: [pack('bag', 1, 200)], bestQualityWeeks: 2 }),
  ],
});
const built = packsAround(year, canningOf(year));
/** Cents that the fund always keeps back for bills rounded to whole cents. */
const keptBack = 200;
/** Packs more, by item, size and week, for what a fund holds over what it keeps back. */
const more = (fund: readonly number[], oats: readonly number[], rice: readonly number[] = []) =>
  packsForMissed(
    built,
    valuesOf(built, {
      ...byWeek(
        'fund[*]',
        fund.map((cents) => cents + keptBack),
      ),
      ...byWeek('shortage[oats,*]', oats),
      ...byWeek('shortage[rice,*]', rice),
    }),
  ).map(({ item, pack, week, column }) => {
    expect(built.model.columns[column]?.name).toBe(
      `purchases[${['oats', 'rice'][item]},${item === 0 ? ['bag', 'sack'][pack] : 'bag'},${weekAt(week)}]`,
    );
    return [item, pack, week];
  });
const flat = (cents: number) => Array.from({ length: 6 }, () => cents);

describe('packs for what is missed', () => {
  test('are none where nothing is missed, or nothing can be paid', () => {
    expect(more(flat(5000), flat(0))).toEqual([]);
    expect(more(flat(199), flat(1), flat(1))).toEqual([]);
  });

  test('are bought in the first week from which the fund pays for them in every later one', () => {
    // There is money at first, but the fourth week needs it.
    expect(more([900, 900, 900, 100, 300, 300], [1, 1, 1, 1, 1, 1])).toEqual([[0, 0, 4]]);
    expect(more(flat(300), [0, 0, 1, 1, 0, 0])).toEqual([[0, 0, 2]]);
  });

  test('are those first that serve most for their price, one after the other', () => {
    // A sack serves five for 600, then there is money for one of rice.
    expect(more(flat(800), [1, 1, 1, 1, 1, 1], [0, 1, 0, 0, 0, 0])).toEqual([
      [0, 1, 0],
      [1, 0, 1],
    ]);
    // Where one is missed alone, the smaller bag is enough.
    expect(more(flat(800), [0, 0, 0, 0, 0, 1])).toEqual([[0, 0, 5]]);
  });

  test('serve what they keep for, and no more', () => {
    // Rice keeps two weeks: a bag of one for each week in which it is missed.
    expect(more(flat(400), [], [0.5, 0, 0.5, 0, 0, 0])).toEqual([
      [1, 0, 0],
      [1, 0, 2],
    ]);
  });

  test('are never more than the fund pays for', () => {
    for (const fund of [flat(1000), [1000, 700, 1200, 500, 800, 900], [0, 0, 0, 0, 0, 650]]) {
      const bought = more(fund, [1, 1, 1, 1, 1, 1], [1, 1, 1, 1, 1, 1]);
      const spent = fund.map((_, until) =>
        bought
          .filter(([, , week]) => (week ?? 0) <= until)
          .reduce((sum, [item, size]) => sum + (item === 1 ? 200 : size === 0 ? 300 : 600), 0),
      );
      expect(Math.min(...fund.map((cents, week) => cents - (spent[week] ?? 0)))).toBeGreaterThanOrEqual(0);
    }
  });
});

describe('a plan of a small purse', () => {
  const planned = async (
    of: PlanningYear,
    before?: { readonly year: PlanningYear; readonly plan: PlannedYear['plan'] },
  ) => {
    const answer = await makePlan(of, solver.solve, before === undefined ? {} : { beginsFrom: before });
    if (answer.outcome !== 'planned') throw new Error(answer.detail);
    return answer;
  };
  /** Weeks in which an item stands bare although a pack of it could be paid for, then and in every week after. */
  const bareBesideMoney = ({ items }: PlanningYear, { plan, paths }: PlannedYear): string[] =>
    items.flatMap(({ id, packs }) => {
      const missed = paths.find(({ item }) => item === id)?.missedByWeek ?? [];
      return missed.flatMap((units, week) => {
        const left = Math.min(...plan.weeks.slice(week).map(({ fundAfter }) => fundAfter)) - keptBack;
        const isPaid = packs.some(({ priceByWeek }) => (priceByWeek[week] ?? Infinity) <= left);
        return units > 0.02 && isPaid ? [`${id} in week ${week}`] : [];
      });
    });

  test.each([21, 22, 23])('leaves no shelf bare beside money that nobody uses, seed %i', async (seed) => {
    const tight = generatedHousehold({ seed, preserves: 5, staples: 6, fundShare: 0.5 });
    const first = await planned(tight);
    expect(bareBesideMoney(tight, first)).toEqual([]);

    // The same where its packs are kept and more money is counted in the fund than that plan knew of.
    const richer = {
      ...tight,
      fund: { ...tight.fund, opening: asCents(tight.fund.opening + 6000) },
    };
    expect(bareBesideMoney(richer, await planned(richer, { year: tight, plan: first.plan }))).toEqual([]);

    // The same where a plan made with more money has to be given up.
    const ample = generatedHousehold({ seed, preserves: 5, staples: 6, fundShare: 0.8 });
    const before = await planned(ample);
    expect(bareBesideMoney(tight, await planned(tight, { year: ample, plan: before.plan }))).toEqual([]);
  });
});
