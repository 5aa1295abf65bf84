import { describe, expect, it } from 'vitest';
import { solveInBackground } from '../../server/solver/plan-year.ts';
import { asJarKind } from '../../shared/jar.ts';
import { asCents } from '../../shared/money.ts';
import { makePlan } from '../../src/planning/make-plan.ts';
import type { Plan } from '../../src/planning/plan.ts';
import type { PlannedItem, PlannedRecipe, PlanningYear } from '../../src/planning/planning-year.ts';
import { generatedHousehold } from './generated-household.ts';
import { checkPlan } from './independent-checker.ts';
import { jamRecipe, plumJam, plumWeeks, plumYear } from './plum-year.ts';

async function planned(year: PlanningYear): Promise<Plan> {
  const answer = await makePlan(year, solveInBackground, { gap: 0.01 });
  if (answer.outcome !== 'planned') throw new Error(`${answer.outcome}: ${answer.detail}`);
  expect(checkPlan(answer.plan, year)).toEqual([]);
  return answer.plan;
}

/** Units of an item that a plan makes and buys. */
const comes = (year: PlanningYear, plan: Plan, { id }: PlannedItem): number => {
  const recipes = new Set(year.recipes.filter(({ itemId }) => itemId === id).map((recipe) => recipe.id));
  return plan.weeks.reduce(
    (sum, { sessions, purchases }) =>
      sum +
      sessions
        .filter(({ recipe }) => recipes.has(recipe))
        .reduce((units, session) => units + session.units, 0) +
      purchases
        .filter(({ kind, what }) => kind === 'item' && what === id)
        .reduce((units, { quantity }) => units + quantity, 0),
    0,
  );
};

const everyWeek = <T>(value: T): T[] => plumWeeks.map(() => value);
const rich = { opening: asCents(1_000_000), setAsideByWeek: everyWeek(asCents(0)) };
const fill = (id: string, change: Partial<PlannedItem>): PlannedItem => ({
  ...plumJam,
  id: id as PlannedItem['id'],
  name: id,
  openingLots: [],
  reserveUnits: 0,
  yearEndUnits: 0,
  ...change,
});
const way = (item: PlannedItem, crop: string, change: Partial<PlannedRecipe>): PlannedRecipe => ({
  ...jamRecipe,
  id: `recipe-of-${item.id}` as PlannedRecipe['id'],
  name: `Recipe of ${item.id}`,
  itemId: item.id,
  supplies: [],
  produce: [{ crop: crop as PlannedRecipe['produce'][number]['crop'], lb: 10, mayBeFrozen: false }],
  ...change,
});
const source = (crop: string, kind: 'market' | 'garden', lbIn: (week: number) => number) => ({
  id: `source-of-${crop}` as PlanningYear['sources'][number]['id'],
  name: crop,
  crop: crop as PlanningYear['sources'][number]['crop'],
  kind,
  lbByWeek: plumWeeks.map((_, week) => lbIn(week)),
  priceCentsPerLbByWeek: everyWeek(asCents(kind === 'garden' ? 0 : 100)),
  useByDays: 4,
  poorYearChance: 0,
  poorYearShare: 1,
  fallBack: 'do-without' as const,
});

describe('scarce hours', () => {
  // Tomatoes in quarts count as two pints each: a batch of 14 against one of 9 for the same two hours at the stove.
  const tomatoes = fill('tomatoes', { useByWeek: everyWeek(1.5) });
  const corn = fill('corn', { useByWeek: everyWeek(0.35) });
  const salsa = fill('salsa', { useByWeek: everyWeek(0.3) });
  const inAugust = (week: number) => (week >= 10 && week < 13 ? 60 : 0);
  const scarce = (kind: 'market' | 'garden') =>
    plumYear({
      fund: rich,
      items: [tomatoes, corn, salsa],
      recipes: [
        way(tomatoes, 'tomato', {
          yieldLowUnits: 14,
          yieldHighJars: 7,
          jarKind: asJarKind('pint', 'regular'),
        }),
        way(corn, 'corn', { yieldLowUnits: 9, yieldHighJars: 8 }),
        way(salsa, 'tomatillo', { yieldLowUnits: 8, yieldHighJars: 8 }),
      ],
      sources: [
        source('tomato', kind, inAugust),
        source('corn', 'market', inAugust),
        source('tomatillo', 'market', inAugust),
      ],
      jars: plumYear().jars.map((holding) => ({ ...holding, empty: 100 })),
      // Three weeks, one session in each, time for one batch of 100 minutes and the set-up.
      time: { maxSessionsByWeek: everyWeek(1), hoursPerSessionByWeek: everyWeek(2.2), setUpMinutes: 30 },
    });

  it.each(['market', 'garden'] as const)(
    'give each of three foods its first batch, though tomatoes of the %s would fill more jars',
    async (kind) => {
      const year = scarce(kind);

      const plan = await planned(year);

      expect(year.items.map((item) => comes(year, plan, item))).toEqual([14, 9, 8]);
    },
  );

  it('go on to what fills most once every food has half of its year', async () => {
    const year = scarce('market');
    const longer = { ...year, time: { ...year.time, hoursPerSessionByWeek: everyWeek(5) } };

    const plan = await planned(longer);

    expect(year.items.map((item) => comes(year, plan, item))).toEqual([56, 9, 8]);
  });

  it.each([1, 2, 3, 4, 5, 6])(
    'leave no food of household %i at zero while another has over twice its target',
    async (seed) => {
      const made = generatedHousehold({ seed, preserves: 7, staples: 2 });
      const year: PlanningYear = {
        ...made,
        items: made.items.map((item) => ({
          ...item,
          openingLots: item.kind === 'preserve' ? [] : item.openingLots,
          packs: item.kind === 'preserve' ? [] : item.packs,
        })),
        time: {
          ...made.time,
          maxSessionsByWeek: made.time.maxSessionsByWeek.map((most) => Math.min(1, most)),
          hoursPerSessionByWeek: made.time.hoursPerSessionByWeek.map(() => 3.5),
        },
      };

      const plan = await planned(year);

      const preserves = year.items.filter(({ kind }) => kind === 'preserve');
      const units = preserves.map((item) => ({ item, units: comes(year, plan, item) }));
      const bare = units.filter((one) => one.units === 0).map(({ item }) => item.name);
      const overfull = units
        .filter((one) => one.units > 2 * (one.item.yearlyTarget + one.item.yearEndUnits))
        .map(({ item }) => item.name);
      // In these households every crop fills at least one batch, and there is an hour for it: nothing need be bare.
      expect({ bare, overfull }).toEqual({ bare: [], overfull: [] });
    },
  );
});

describe('apples of our own, more than are eaten', () => {
  const pint = asJarKind('pint', 'regular');
  const sauce = fill('applesauce', { useByWeek: everyWeek(1), bestQualityWeeks: 52, yearEndUnits: 10 });
  const butter = fill('apple-butter', { useByWeek: everyWeek(0.25), bestQualityWeeks: 26, yearEndUnits: 4 });
  const inFall = (week: number) => (week >= 8 && week < 16 ? 45 : 0);
  const year = plumYear({
    fund: rich,
    items: [sauce, butter],
    recipes: [
      way(sauce, 'apple', { yieldLowUnits: 8, yieldHighJars: 8, handsOnMinutes: 150 }),
      way(butter, 'apple', {
        yieldLowUnits: 8,
        yieldHighJars: 8,
        handsOnMinutes: 40,
        produce: [{ crop: 'apple' as PlannedRecipe['produce'][number]['crop'], lb: 16, mayBeFrozen: false }],
      }),
    ],
    sources: [source('apple', 'garden', inFall)],
    jars: [{ kind: pint, owned: 200, empty: 200, pack: 12, packPrice: asCents(1500), returnShare: 1 }],
    time: { maxSessionsByWeek: everyWeek(1), hoursPerSessionByWeek: everyWeek(3.5), setUpMinutes: 30 },
  });

  it('become no more butter than is eaten before its date, to the nearest batch', async () => {
    const plan = await planned(year);

    // First ready in week 8, the last in week 15, good for 26 weeks: eaten from week 8 to 40, 8.25 units; a batch is 8.
    const eatenInTime = 0.25 * (15 + 26 - 8);
    expect(comes(year, plan, butter)).toBeLessThanOrEqual(Math.ceil(eatenInTime / 8) * 8);
    expect(comes(year, plan, butter)).toBeGreaterThan(0);
    // Every week in which there are apples has time for one batch of sauce: they are what the apples become.
    expect(comes(year, plan, sauce)).toBeGreaterThan(40);
  });
});
