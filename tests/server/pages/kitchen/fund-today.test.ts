import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { seasonFundOf } from '../../../../server/queries/household/kitchen.ts';
import { asCents } from '../../../../shared/money.ts';
import { weekOf, weeksFrom } from '../../../../shared/week.ts';
import { fundAhead } from '../../../../src/planning/year/fund-ahead.ts';
import { keepPlanOfNothing } from '../../../builders/plan-of-nothing.ts';
import { oats, quinceYard, shelve, today } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

// A household that told its fund on 4 May 2026: $300, and $60 a week from then on. Today is 17 August, 15 weeks later.

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

const tellFund = () =>
  pages.db
    .insertInto('season_fund')
    .values({
      household_id: quinceYard,
      balance_cents: 30_000,
      balance_on: '2026-05-04',
      weekly_cents: 6_000,
    })
    .execute();

const fund = async () => {
  const told = await seasonFundOf(pages.db, quinceYard);
  if (told === null) throw new Error('expected a fund');
  return told;
};

const fundOnForm = async () => {
  const form = /<form[^>]*action="\/kitchen\/fund".*?<\/form>/s.exec(
    (await pages.visitor.open('/kitchen')).body,
  )?.[0];
  return /name="balance"[^>]*value="([^"]*)"|value="([^"]*)"[^>]*name="balance"/
    .exec(form ?? '')
    ?.slice(1)
    .find(Boolean);
};

describe('the season fund', () => {
  // Before, the form showed the $300 of May; saving it with another weekly sum threw the fund back to $300.
  test('stands on the kitchen page as it is today, with what was set aside since and without what was spent', async () => {
    await tellFund();
    await shelve(pages.db, {
      id: 'oats-june',
      itemId: oats,
      units: 20,
      madeOn: '2026-06-03',
      bestQualityUntil: '2027-12-01',
    });
    await pages.db.updateTable('lot').set({ cost_cents: 4_250 }).where('id', '=', 'oats-june').execute();

    expect(await fundOnForm()).toBe('1157.5');
  });

  test('keeps what it holds when the weekly sum is changed: only the weeks to come differ', async () => {
    await tellFund();
    const weeks = weeksFrom(weekOf(today), 3);
    const before = fundAhead(await fund(), weeks);

    await pages.visitor.submitOn('/kitchen', { form: '/kitchen/fund', fill: { weekly: '30' } });
    const after = fundAhead(await fund(), weeks);

    expect(after.opening).toBe(before.opening);
    expect(after.opening).toBe(asCents(120_000));
    expect(after.setAsideByWeek).toEqual([0, 3_000, 3_000]);
  });

  test('where none is kept, no page names what it would hold', async () => {
    await keepPlanOfNothing(pages.db, quinceYard, today);

    const pagesOfMoney = await Promise.all(['/', '/buying', '/year'].map((path) => pages.visitor.open(path)));

    for (const { status, body } of pagesOfMoney) {
      expect(status).toBe(200);
      expect(wordsOf(body)).not.toMatch(/100,000|in the (?:season )?fund/);
    }
  });
});

describe('the price of a wish', () => {
  // Before: "This plan $138,010. No plan can be below $137,995", for a pantry of about two thousand a year.
  test('is never shown as money: a plan’s money is what it spends, groceries apart from what is put up', async () => {
    const cents = (amount: number) => asCents(amount);
    await keepPlanOfNothing(
      pages.db,
      quinceYard,
      today,
      {
        '2026-W34': {
          spend: cents(7_000),
          purchases: [
            { what: oats, kind: 'item', quantity: 4, unit: 'lb', packs: null, cost: cents(2_500) },
            { what: 'plum-tree', kind: 'produce', quantity: 10, unit: 'lb', packs: null, cost: cents(4_500) },
          ],
        },
      },
      { objective: { use: 13_700_000, total: 13_801_000 }, bound: 13_799_500 },
    );
    const words = wordsOf((await pages.visitor.open('/year')).body);
    const buying = wordsOf((await pages.visitor.open('/buying')).body);

    expect(words).not.toMatch(/138,010|137,995|137,000/);
    expect(words).toMatch(/Spent for the pantry \$25 .*Spent to put up \$45/);
    expect(buying).toContain('$70.00 ($25.00 for the pantry, $45.00 to put up)');
  });
});
