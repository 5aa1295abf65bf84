import { describe, expect, test } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { wishReasons } from '../../../src/planning/explanation/wish-reasons.ts';
import type { Plan } from '../../../src/planning/plan.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import { jamRecipe, plumJam, plumWeeks, plumYear } from '../plum-year.ts';

// Plums come in weeks 34 to 37, 20 lb each; a batch takes 10 lb. A week has one session of 300 minutes.
const planOf = (
  of: (week: number) => {
    readonly minutes?: number;
    readonly lb?: number;
    readonly fund?: number;
  } = () => ({}),
  what: string = plumJam.id,
): Plan =>
  ({
    weeks: plumWeeks.map((week, at) => {
      const { minutes = 0, lb = 0, fund = 100_000 } = of(at);
      return {
        week,
        kitchenMinutes: minutes,
        fundAfter: fund,
        sessions: [],
        purchases: lb > 0 ? [{ kind: 'produce', what: 'orchard', quantity: lb }] : [],
      };
    }),
    gaveWay: [{ rung: 'use', what, amount: 3, unit: 'jar' }],
  }) as unknown as Plan;
const inSeason = (week: number) => week >= 34 && week <= 37;
const codes = (plan: Plan, year: PlanningYear = plumYear()) =>
  wishReasons(year, plan)[0]?.reasons.map((reason) =>
    'first' in reason ? `${reason.code} ${reason.first}` : reason.code,
  );
const hungry = plumYear({ items: [{ ...plumJam, openingLots: [] }] });

describe('why a wish gave way', () => {
  test('is other wishes where nothing of its own was used up, or it is no item', () => {
    expect(codes(planOf())).toEqual(['other-wishes']);
    expect(codes(planOf(() => ({}), 'group-of-spreads'))).toEqual(['other-wishes']);
    expect(wishReasons(plumYear(), planOf())[0]?.wish).toEqual({
      rung: 'use',
      what: 'plum-jam',
      amount: 3,
      unit: 'jar',
    });
  });

  test('is that it cannot be made, and then nothing else', () => {
    expect(codes(planOf(), plumYear({ recipes: [] }))).toEqual(['cannot-be-made']);
    const never = plumYear({ recipes: [{ ...jamRecipe, allowedByWeek: plumWeeks.map(() => false) }] });
    expect(codes(planOf(), never)).toEqual(['cannot-be-made']);
  });

  test('is that nothing stood before it could be made first', () => {
    expect(codes(planOf(), hungry)).toEqual([`before-supply ${plumWeeks[34]}`]);
    // Thirty jars last into the season: nothing is missed before.
    expect(codes(planOf())).toEqual(['other-wishes']);
  });

  test('is hours, where every week in which it could be made is all but full', () => {
    const full = (minutes: number, weeks = inSeason) =>
      codes(planOf((week) => (weeks(week) ? { minutes } : {})));
    expect(full(265)).toEqual(['hours']);
    expect(full(264)).toEqual(['other-wishes']);
    expect(full(300, (week) => week > 34 && week <= 37)).toEqual(['other-wishes']);
  });

  test('is produce, where none of these weeks has a batch of it left', () => {
    const taken = (lb: number, weeks = inSeason) => codes(planOf((week) => (weeks(week) ? { lb } : {})));
    expect(taken(10.5)).toEqual(['produce']);
    expect(taken(10)).toEqual(['other-wishes']);
    expect(taken(20, (week) => week >= 34 && week < 37)).toEqual(['other-wishes']);
  });

  test('is money, where the fund is all but spent in more than a quarter of the weeks', () => {
    // 300 cents are set aside a week; 52 weeks, of which 13 are a quarter.
    const poor = (weeks: number, fund = 299) => codes(planOf((week) => (week < weeks ? { fund } : {})));
    expect(poor(14)).toEqual(['money']);
    expect(poor(13)).toEqual(['other-wishes']);
    expect(poor(52, 300)).toEqual(['other-wishes']);
    const rich = plumYear({ fund: { opening: asCents(0), setAsideByWeek: plumWeeks.map(() => asCents(0)) } });
    expect(
      codes(
        planOf(() => ({ fund: 0 })),
        rich,
      ),
    ).toEqual(['other-wishes']);
  });

  test('may be all of them at once', () => {
    const all = planOf((week) => ({ fund: 0, ...(inSeason(week) ? { minutes: 300, lb: 20 } : {}) }));
    expect(codes(all, hungry)).toEqual([`before-supply ${plumWeeks[34]}`, 'hours', 'produce', 'money']);
  });
});
