import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { asDate } from '../../shared/week.ts';
import { comingWeekCount } from '../../src/planning/model/coming-weeks.ts';
import type { Plan } from '../../src/planning/plan.ts';
import { HouseholdByPages } from '../builders/household-by-pages.ts';

// Tinker's Row, invented: two people near Montrose in Colorado with seven dollars a week for everything, oats and rice from the store, and
// a wish for peaches and tomatoes in summer. The purse does not reach for both; what is on the table next week comes first.

const setUpOn = asDate('2026-03-03');
const staple = (name: string, price: string, perMonth: string) => ({
  kind: 'staple',
  name,
  amount: perMonth,
  per: 'month',
  bestQualityMonths: '12',
  packUnits: '1',
  packPrice: price,
});

let home: HouseholdByPages;
const plans: { readonly on: string; readonly plan: Plan; readonly missed: readonly string[] }[] = [];

/** What is bought and lacks in the coming weeks of a plan though the purse could pay for it, by hand: `oats in week 2`. */
async function missedWithMoney(plan: Plan): Promise<string[]> {
  const { loaded, items } = await home.year();
  return loaded.year.items.flatMap((item) => {
    if (item.packs.length === 0) return [];
    let standing = items.find(({ item: { id } }) => id === item.id)?.unitsOnShelf ?? 0;
    return plan.weeks.slice(0, comingWeekCount).flatMap(({ purchases, fundAfter }, week) => {
      const bought = purchases
        .filter(({ kind, what }) => kind === 'item' && what === item.id)
        .reduce((sum, { quantity }) => sum + quantity, 0);
      standing += bought - (item.useByWeek[week] ?? 0);
      const isMissed = standing < -1e-6;
      standing = Math.max(0, standing);
      const cheapest = Math.min(...item.packs.map(({ priceByWeek }) => priceByWeek[week] ?? 0));
      return isMissed && fundAfter >= cheapest ? [`${item.name} in week ${week}`] : [];
    });
  });
}

beforeAll(async () => {
  home = await HouseholdByPages.beginning(setUpOn);
  await home.setUp({
    name: 'Tinker’s Row',
    people: '2',
    town: 'Montrose, CO',
    altitude: '5300',
    pressure: '',
    sourceKind: 'market',
    halfPints: '0',
    pints: '24',
    quarts: '12',
    lids: '24',
    sessionsPerWeek: '1',
    hoursPerSession: '5',
    fundNow: '30',
    fundWeekly: '7',
    'eats-quick-dill-pickles': '',
    'eats-applesauce-pints': 'month:2',
    'eats-peaches-pints': 'month:2',
    'eats-tomatoes-crushed-pints': 'week:1',
  });
  await home.send('/items/new?kind=staple', '/items', staple('Oats', '4.80', '4'));
  await home.send('/items/new?kind=staple', '/items', staple('Rice', '2.10', '3'));
  for (const on of ['2026-07-06', '2026-08-10']) {
    home.goTo(asDate(on));
    const plan = await home.plan();
    plans.push({ on, plan, missed: await missedWithMoney(plan) });
  }
});
afterAll(async () => {
  await home.close();
});

describe('a small purse', () => {
  test('leaves nothing of the coming weeks unbought that it could pay for, whenever it is planned', () => {
    expect(plans.flatMap(({ on, missed }) => missed.map((what) => `${on}: ${what}`))).toEqual([]);
  });

  test('is too small for everything, and the year says what gives way', async () => {
    for (const { plan } of plans)
      expect(plan.gaveWay.filter(({ rung }) => rung === 'use').length).toBeGreaterThan(0);
    expect(await home.words('/year')).toMatch(
      /Short of what you eat .*Crushed tomatoes \d+ pints; Oats \d+ lb/,
    );
  });
});
