import { describe, expect, test } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { wishReasons } from '../../../src/planning/explanation/wish-reasons.ts';
import type { Plan } from '../../../src/planning/plan.ts';
import type { PlannedItem, PlannedSource, PlanningYear } from '../../../src/planning/planning-year.ts';
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
/** Lines of a shopping list, the same in every week of the season. */
const buying = (...lines: readonly (readonly [kind: string, what: string, quantity: number])[]): Plan => {
  const plan = planOf();
  return {
    ...plan,
    weeks: plan.weeks.map((week, at) => ({
      ...week,
      purchases: inSeason(at) ? lines.map(([kind, what, quantity]) => ({ kind, what, quantity })) : [],
    })),
  } as unknown as Plan;
};
const sourceOf = (change: Partial<PlannedSource>): PlannedSource =>
  ({ ...plumYear().sources[0], ...change }) as PlannedSource;
const stages = { weeks: 1, daysFromMonday: 5, handsOnByWeek: [40, 50], possibleByWeek: null };
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

  test('is that the rest of a reserve is not worth a batch, and then nothing else', () => {
    const lacking = (amount: number, rung = 'reserve', missing = 3): readonly unknown[] | undefined => {
      const plan = { ...planOf(), gaveWay: [{ rung, what: plumJam.id, amount, unit: 'units' }] } as Plan;
      const year = plumYear({ items: [{ ...plumJam, reserveUnits: 5, reserveNotWorthABatch: missing }] });
      return wishReasons(year, plan)[0]?.reasons;
    };
    const batch = [{ code: 'not-worth-a-batch', batchUnits: jamRecipe.yieldLowUnits }];
    expect(lacking(2)).toEqual(batch);
    expect(lacking(3)).toEqual(batch);
    // Told in hundredths: a third of a jar that was let go is 0.33.
    expect(lacking(0.34, 'reserve', 1 / 3)).toEqual(batch);
    expect(lacking(3.1)).toEqual([{ code: 'other-wishes' }]);
    expect(lacking(2, 'use')).toEqual([{ code: 'other-wishes' }]);
  });

  test('is that beside what else used it up, where what is eaten is short too', () => {
    const gaveWay = ['reserve', 'use'].map((rung) => ({ rung, what: plumJam.id, amount: 2, unit: 'units' }));
    const plan = { ...planOf(), gaveWay } as Plan;
    const items = [{ ...plumJam, openingLots: [], reserveUnits: 5, reserveNotWorthABatch: 3 }];
    const [reserve, use] = wishReasons(plumYear({ items }), plan).map(({ reasons }) =>
      reasons.map(({ code }) => code),
    );
    expect(reserve).toEqual(['not-worth-a-batch', 'before-supply']);
    expect(use).toEqual(['before-supply']);
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

  test('is told of the item whose wish it was, and of each wish for itself', () => {
    const butter: PlannedItem = { ...plumJam, id: 'butter' as never, name: 'Plum butter', openingLots: [] };
    const year = plumYear({ items: [plumJam, butter] });
    const gaveWay = ['plum-jam', 'butter'].map((what) => ({ rung: 'use', what, amount: 3, unit: 'jar' }));
    const wishes = wishReasons(year, { ...planOf(), gaveWay } as unknown as Plan);
    expect(wishes.map(({ wish, reasons }) => [wish.what, reasons])).toEqual([
      ['plum-jam', [{ code: 'other-wishes' }]],
      ['butter', [{ code: 'cannot-be-made', item: 'Plum butter' }]],
    ]);
  });

  test('what is missed before it could be made is told from more than a twentieth of a jar on', () => {
    const missing = (units: number) =>
      plumYear({
        items: [
          { ...plumJam, openingLots: [], useByWeek: plumWeeks.map((_, at) => (at === 33 ? units : 0)) },
        ],
      });
    expect(codes(planOf(), missing(0.05))).toEqual(['other-wishes']);
    expect(codes(planOf(), missing(0.06))).toEqual([`before-supply ${plumWeeks[34]}`]);
  });

  test('neither hours nor produce of what is only bought', () => {
    const [pack] = [{ id: 'jar', units: 1, priceByWeek: plumWeeks.map(() => asCents(600)) }];
    const bought = plumYear({ items: [{ ...plumJam, packs: [pack] }], recipes: [] });
    expect(
      codes(
        planOf(() => ({ minutes: 300, lb: 20 })),
        bought,
      ),
    ).toEqual(['other-wishes']);
  });

  test('produce counts what all sources of the crop give, less what is bought of them', () => {
    const two = plumYear({ sources: [sourceOf({}), sourceOf({ id: 'stall' as never })] });
    // Forty pounds a week, of which a batch takes ten.
    expect(codes(buying(['produce', 'orchard', 20]), two)).toEqual(['other-wishes']);
    expect(codes(buying(['produce', 'orchard', 20], ['produce', 'stall', 10]), two)).toEqual([
      'other-wishes',
    ]);
    expect(codes(buying(['produce', 'orchard', 20], ['produce', 'stall', 10.5]), two)).toEqual(['produce']);
    expect(codes(buying(['produce', 'orchard', 6], ['produce', 'orchard', 5]))).toEqual(['produce']);
  });

  test('pears do not make plum jam, and a line that is no produce takes none', () => {
    const pears = plumYear({
      sources: [sourceOf({}), sourceOf({ id: 'pears' as never, crop: 'pear' as never })],
    });
    expect(codes(buying(['produce', 'orchard', 15]), pears)).toEqual(['produce']);
    expect(codes(buying(['item', 'orchard', 15], ['supply', 'orchard', 15]))).toEqual(['other-wishes']);
    expect(codes(buying(['produce', 'other', 15]))).toEqual(['other-wishes']);
  });

  test('produce is used up where it is for one of its recipes, in all weeks of that one', () => {
    const large = {
      ...jamRecipe,
      id: 'large' as never,
      produce: jamRecipe.produce.map((part) => ({ ...part, lb: 18 })),
    };
    const never = { ...jamRecipe, id: 'a-never' as never, allowedByWeek: plumWeeks.map(() => false) };
    expect(codes(buying(['produce', 'orchard', 5]), plumYear({ recipes: [jamRecipe, large] }))).toEqual([
      'produce',
    ]);
    expect(codes(planOf(), plumYear({ recipes: [jamRecipe, never] }))).toEqual(['other-wishes']);
  });

  test('of two crops one that is used up is enough', () => {
    const year = plumYear({
      recipes: [
        {
          ...jamRecipe,
          produce: [...jamRecipe.produce, { crop: 'pear' as never, lb: 4, mayBeFrozen: false }],
        },
      ],
      sources: [sourceOf({}), sourceOf({ id: 'pears' as never, crop: 'pear' as never })],
    });
    expect(codes(buying(['produce', 'pears', 17]), year)).toEqual(['produce']);
    expect(codes(buying(['produce', 'pears', 16]), year)).toEqual(['other-wishes']);
  });

  test('what is begun a week before its load takes its produce then', () => {
    const year = plumYear({ recipes: [{ ...jamRecipe, stages }] });
    // Loads in weeks 35 to 38: their produce is that of 34 to 37.
    expect(
      codes(
        planOf((week) => (inSeason(week) ? { lb: 15 } : {})),
        year,
      ),
    ).toEqual(['produce']);
    expect(
      codes(
        planOf((week) => (week >= 35 && week <= 38 ? { lb: 15 } : {})),
        year,
      ),
    ).toEqual(['other-wishes']);
  });

  test('hours, where any of its recipes could still be made in a week that is not full, are not', () => {
    const later = { ...jamRecipe, id: 'later' as never, stages };
    const year = plumYear({ recipes: [jamRecipe, later] });
    const full = (last: number) => planOf((week) => (week >= 34 && week <= last ? { minutes: 300 } : {}));
    expect(codes(full(37), year)).toEqual(['other-wishes']);
    expect(codes(full(38), year)).toEqual(['hours']);
  });
});
