import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Plan } from '../../../../src/planning/plan.ts';
import { keepPlanOfNothing } from '../../../builders/plan-of-nothing.ts';
import { greenBeans, oats, quinceYard, today, trueGauge } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

// A household that eats two pints of green beans a month and has none. Its plan, as far as the page knows, makes none.

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
  await eats(greenBeans, 2);
  await pages.db.insertInto('kitchen_time').values({ household_id: quinceYard }).execute();
});
afterEach(() => pages.close());

const eats = (item_id: string, amount: number) =>
  pages.db
    .insertInto('declared_use')
    .values({
      household_id: quinceYard,
      item_id,
      amount,
      since_on: '2026-08-10',
      per: 'month',
      counted_in: 'units',
      recorded_at: 0,
    })
    .execute();

const yearPage = async (gaveWay: Plan['gaveWay'] = []) => {
  await keepPlanOfNothing(pages.db, quinceYard, today, {}, { gaveWay });
  const { body } = await pages.visitor.open('/year');
  const rowOf = (id: string) =>
    body
      .split('<li class="year-row')
      .find((row) => row.includes(`/year/${id}"`))
      ?.split('</li>')[0]
      ?.replace(/^[^>]*>/, '') ?? '';
  return { words: wordsOf(body), rowOf };
};

const own = { household_id: quinceYard };
const { db } = { db: () => pages.db };
const ways: readonly (readonly [string, () => Promise<unknown>, string, string])[] = [
  [
    'its crop has no source',
    () =>
      db().updateTable('source').set({ retired_on: '2026-08-01' }).where('id', '=', 'bean-rows').execute(),
    'No source of green beans',
    '/harvest/new?crop=green-bean',
  ],
  [
    'its source gives nothing',
    () => db().deleteFrom('harvest_window').where('source_id', '=', 'bean-rows').execute(),
    'No harvest of green beans is ahead',
    '/harvest/bean-rows',
  ],
  [
    'its source gives too little at a time',
    () =>
      db()
        .updateTable('harvest_window')
        .set({ lb_per_week: 3 })
        .where('source_id', '=', 'bean-rows')
        .execute(),
    'Too few green beans at a time for one batch',
    '/harvest/bean-rows',
  ],
  [
    'the canner’s gauge was never checked',
    () => db().updateTable('canner').set({ gauge: 'dial' }).where('id', '=', 'pressure-pot').execute(),
    'No check of the canner’s dial gauge is recorded',
    '/kitchen#canners',
  ],
  [
    'the canner’s gauge reads high',
    () =>
      db()
        .updateTable('canner')
        .set({ gauge: 'dial', gauge_checked_on: '2026-05-01', ...trueGauge, gauge_off_at_10_psi: 1 })
        .where('id', '=', 'pressure-pot')
        .execute(),
    'The canner’s dial gauge was found wrong',
    '/kitchen#canners',
  ],
  [
    'there is no pressure canner',
    () =>
      db().updateTable('canner').set({ retired_on: '2026-08-01' }).where('id', '=', 'pressure-pot').execute(),
    'No canner of this kitchen fits its recipe',
    '/kitchen#canners',
  ],
  [
    'the altitude is not known',
    () => db().updateTable('household').set({ altitude_ft: null }).execute(),
    'The altitude of the kitchen is not known',
    '/kitchen#altitude',
  ],
  [
    'its recipe is not a tested one',
    () =>
      db()
        .updateTable('recipe')
        .set({ based_on: 'grandmothers-beans' })
        .where('item_id', '=', greenBeans)
        .execute(),
    'Its recipe has no tested process here',
    '/items/green-beans#recipes',
  ],
  [
    'no recipe is kept',
    () => db().deleteFrom('recipe').where('item_id', '=', greenBeans).execute(),
    'No recipe of it is kept',
    '/items/green-beans#recipes',
  ],
  [
    'there is no kitchen time',
    () => db().updateTable('kitchen_time').set({ sessions_per_week: 0 }).execute(),
    'There is no kitchen time while its crops are ripe',
    '/kitchen#time',
  ],
  [
    'there are no jars and no money',
    async () => {
      await db()
        .insertInto('jar_holding')
        .values({ ...own, jar_kind: 'pint/regular', owned: 2, price_cents: 1499 })
        .execute();
      await db()
        .insertInto('season_fund')
        .values({ ...own, balance_cents: 200, balance_on: '2026-08-17', weekly_cents: 0 })
        .execute();
    },
    'Too few jars for one batch, and no money for more',
    '/kitchen#jars',
  ],
];

describe('what is bare and cannot come is never called enough', () => {
  test.each(ways)(
    'where %s, the year says so with the one step that mends it',
    async (_, goWrong, words, step) => {
      await goWrong();

      const page = await yearPage();
      const row = page.rowOf(greenBeans);

      expect(wordsOf(row)).not.toMatch(/enough|supply not known/);
      expect(wordsOf(row)).toContain(words);
      expect(row).toContain(`href="${step}"`);
      // Its name and the step; the drawing leads where the name does, and nobody tabs to it.
      expect([...row.matchAll(/<a (?![^>]*tabindex="-1")[^>]*href=/g)]).toHaveLength(2);
      expect(page.words).toMatch(/1 of your 3 preserves will probably run out/);
      expect(page.words).toContain('You can’t get more of green beans yet');
    },
  );

  test('where something could come and the plan makes none, the page leads to what gave way', async () => {
    const page = await yearPage([{ rung: 'use', what: greenBeans, amount: 24, unit: 'units' }]);

    expect(wordsOf(page.rowOf(greenBeans))).not.toContain('enough');
    expect(page.rowOf(greenBeans)).toContain('href="/year#gave-way"');
    expect(page.words).not.toContain('You can’t get more of');
  });

  test('a thing of the shop without a pack says so', async () => {
    await eats(oats, 3);

    const page = await yearPage();

    expect(wordsOf(page.rowOf(oats))).toContain('No pack to buy is written down: Add a pack and its price');
    expect(page.words).toContain('You can’t get more of rolled oats yet');
  });

  test('what nobody says they eat is not enough, it is not wanted yet', async () => {
    const page = await yearPage();

    expect(wordsOf(page.rowOf('plum-jam'))).not.toContain('enough');
    expect(page.rowOf('plum-jam')).toContain('href="/targets/plum-jam"');
  });
});
