import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { closePlanner } from '../../server/solver/plan-year.ts';
import type { ItemId } from '../../shared/ids.ts';
import { asDate, mondayOf, type WeekKey } from '../../shared/week.ts';
import type { Plan } from '../../src/planning/plan.ts';
import { HouseholdByPages } from '../builders/household-by-pages.ts';

// Alder Terrace, invented: six people at 5,300 ft near Montrose in Colorado, a garden, a dial gauge last checked in June, and what
// is left of last year's jars, written down in February from a list and by hand. It then lives on to the next January, some
// weeks recorded well, some not at all. What is expected is what somebody who has put up food for years would say.

const setUpOn = asDate('2026-02-10');
const inYear = { week: 52, month: 12, year: 1 } as const;
const said = {
  'strawberry-jam': { amount: 2, per: 'month' },
  applesauce: { amount: 1, per: 'week' },
  'crushed-tomatoes': { amount: 2, per: 'week' },
  'peach-halves': { amount: 1, per: 'week' },
  'chile-salsa': { amount: 2, per: 'month' },
  'apple-butter': { amount: 6, per: 'year' },
  'green-beans': { amount: 1, per: 'week' },
  carrots: { amount: 2, per: 'month' },
} as const;
const recipeOf: Readonly<Record<keyof typeof said, string>> = {
  'strawberry-jam': 'strawberry-jam',
  applesauce: 'applesauce-pints',
  'crushed-tomatoes': 'tomatoes-crushed-pints',
  'peach-halves': 'peaches-pints',
  'chile-salsa': 'chile-salsa',
  'apple-butter': 'apple-butter',
  'green-beans': 'beans-snap-pints',
  carrots: 'carrots-pints',
};
const items = Object.keys(said) as (keyof typeof said)[];
const saidForYear = (item: keyof typeof said): number => said[item].amount * inYear[said[item].per];

// Last year's jars: by list, dated as they were put up.
const list = `item,left,made,jar
Strawberry jam,5,2025-06-28,half-pint
Strawberry jam,6,2025-07-03,half-pint
Applesauce,7,2025-09-20,pint
Applesauce,9,2025-10-04,pint
Crushed tomatoes,9,2025-08-30,pint
Crushed tomatoes,14,2025-09-13,pint
Peach halves,8,2025-08-16,pint
Peach halves,9,2025-08-30,pint
Chile salsa,6,2025-09-06,pint
Apple butter,4,2025-10-11,half-pint
Green beans,12,2025-08-02,pint
Carrots,8,2025-10-18,pint
`;

let home: HouseholdByPages;
let plan: Plan;
beforeAll(async () => {
  home = await HouseholdByPages.beginning(setUpOn);
  await home.setUp({
    name: 'Alder Terrace',
    people: '6',
    town: 'Montrose, CO',
    altitude: '5300',
    pressure: 'on',
    gauge: 'dial',
    gaugeCheckedOn: '2025-06-14',
    sourceKind: 'garden',
    halfPints: '100',
    pints: '200',
    quarts: '40',
    lids: '300',
    sessionsPerWeek: '1',
    hoursPerSession: '7',
    fundNow: '300',
    fundWeekly: '30',
    'eats-quick-dill-pickles': '',
    ...Object.fromEntries(
      items.map((item) => [`eats-${recipeOf[item]}`, `${said[item].per}:${said[item].amount}`]),
    ),
  });
  const canner = (await home.year()).loaded.facts.canners.find(({ method }) => method === 'pressure');
  await home.send('/kitchen', `/kitchen/canners/${canner?.id}`, {
    gauge: 'dial',
    gaugeCheckedOn: '2025-06-14',
    gaugeOffAt5: '0',
    gaugeOffAt10: '0',
    gaugeOffAt15: '0',
  });
  await home.bringInStock(list);
  await home.send('/shelf/put-up', '/shelf/lots', {
    itemId: 'strawberry-jam',
    origin: 'put-up',
    units: '3',
    madeOn: '2025-07-09',
  });
}, 300_000);
afterAll(async () => {
  await home.close();
  closePlanner();
});

const loads = (
  of: Plan,
): readonly { readonly week: WeekKey; readonly recipe: string; readonly batches: number }[] =>
  of.weeks.flatMap(({ week, sessions }) =>
    sessions.map(({ recipe, batches }) => ({ week, recipe, batches })),
  );
const dayOf = (week: WeekKey): string => mondayOf(week);
const targetOf = async (item: string): Promise<number> =>
  (await home.loaded()).targetByItem.get(item as ItemId)?.units ?? 0;

describe('in February, with last year’s jars written down', () => {
  test.each(items)('%s is expected to be eaten as was said', async (item) => {
    const expected =
      (await home.loaded()).useByItem.get(item as ItemId)?.forecast?.weeklyMean.slice(0, 52) ?? [];
    const year = expected.reduce((sum, week) => sum + week, 0);

    expect(year).toBeGreaterThan(0.75 * saidForYear(item));
    expect(year).toBeLessThan(1.25 * saidForYear(item));
    expect(await targetOf(item)).toBeGreaterThanOrEqual(0.75 * saidForYear(item));
  });

  test('the plan puts up every food that runs short before its next season, each when its crop can be ripe there', async () => {
    plan = await home.plan();
    console.log(
      loads(plan)
        .map((l) => `${dayOf(l.week)} ${l.recipe}×${l.batches}`)
        .join('\n'),
    );
    console.log((await home.words('/year')).slice(0, 2500));
    console.log((await home.notices()).map((n) => `${n.kind}: ${n.reason}`).join('\n'));
    expect(loads(plan).length).toBeGreaterThan(5);
  }, 300_000);
});
