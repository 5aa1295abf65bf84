import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { calendarEntries } from '../../../../server/calendar/calendar-entries.ts';
import { weeksAhead } from '../../../../server/commands/weeks-ahead.ts';
import { jarStockOf, lidStockOf, seasonFundOf } from '../../../../server/queries/household/kitchen.ts';
import { suppliesOf } from '../../../../server/queries/household/recipes.ts';
import { lotsOf } from '../../../../server/queries/shelf/shelf.ts';
import { fetchedProduceOf } from '../../../../server/queries/year/buying.ts';
import { standingPlanOf } from '../../../../server/queries/year/plans.ts';
import { noticesNow } from '../../../../server/records/notices/standing-notices.ts';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import { loadPlanningYear } from '../../../../server/year/load-year.ts';
import { yearPicture } from '../../../../server/year/year-picture.ts';
import { asJarKind } from '../../../../shared/jar.ts';
import { asCents } from '../../../../shared/money.ts';
import { asDate } from '../../../../shared/week.ts';
import type { PurchaseKind } from '../../../../src/household/purchase.ts';
import type { PlannedPurchase, PlannedSession, PlannedWeek } from '../../../../src/planning/plan.ts';
import { measuresIn } from '../../../../src/preserving/foods/trade-measures.ts';
import { readingOf } from '../../../../views/words/reading.ts';
import { keepPlanOfNothing } from '../../../builders/plan-of-nothing.ts';
import { oats, quinceYard } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { formOf, wordsOf } from '../../../builders/visitor.ts';

// Quince Yard on Monday 17 August 2026, canning on Saturday the 22nd. Two batches of plum jam are planned: 10 lb of plums,
// 6 packets of pectin of which none is there, two dozen jars and two boxes of lids; and 4 lb of oats for the pantry in two packs.

const reference = loadReferenceTables();
const today = asDate('2026-08-17');
const halfPint = asJarKind('half-pint', 'regular');

const jam: PlannedSession = {
  recipe: 'plum-jam-batch' as PlannedSession['recipe'],
  batches: 2,
  jars: [{ kind: halfPint, count: 18 }],
  units: 16,
  handsOnMinutes: 140,
  canner: 'kettle' as PlannedSession['canner'],
  loads: 2,
};

const lines: Readonly<Record<PurchaseKind, PlannedPurchase>> = {
  item: {
    what: oats,
    kind: 'item',
    quantity: 4,
    unit: 'unit',
    packs: { id: 'two-pounds', count: 2 },
    cost: asCents(698),
  },
  produce: { what: 'plum-tree', kind: 'produce', quantity: 10, unit: 'lb', packs: null, cost: asCents(450) },
  supply: {
    what: 'pectin',
    kind: 'supply',
    quantity: 6,
    unit: 'packet',
    packs: { id: 'pectin', count: 3 },
    cost: asCents(897),
  },
  jars: {
    what: halfPint,
    kind: 'jars',
    quantity: 24,
    unit: 'jar',
    packs: { id: halfPint, count: 2 },
    cost: asCents(2798),
  },
  lids: {
    what: 'regular',
    kind: 'lids',
    quantity: 24,
    unit: 'lid',
    packs: { id: 'regular', count: 2 },
    cost: asCents(798),
  },
};
const kinds = Object.keys(lines) as readonly PurchaseKind[];
/** What a screen says where it asks for a line of a kind. */
const asks: Readonly<Record<PurchaseKind, RegExp>> = {
  item: /Rolled oats/,
  produce: /Plum tree/,
  supply: /pectin/i,
  jars: /empty jars, half-pint|half-pint jars|jars \(half-pint/i,
  lids: /lids, regular|new regular lids|24 regular lids/i,
};

const jamWeek: Partial<PlannedWeek> = {
  sessions: [jam],
  kitchenMinutes: 185,
  purchases: Object.values(lines),
  spend: asCents(698 + 450 + 897 + 2798 + 798),
};

let pages: QuinceYardPages;
let presses = 0;
beforeEach(async () => {
  pages = await quinceYardPages();
  const own = { household_id: quinceYard };
  const { db } = pages;
  await db
    .insertInto('kitchen_time')
    .values({ ...own, session_weekday: 6 })
    .execute();
  await db
    .insertInto('supply')
    .values({ ...own, id: 'pectin', name: 'Pectin', unit: 'packet', pack_quantity: 2, pack_price_cents: 299 })
    .execute();
  await db
    .insertInto('recipe_supply')
    .values({ ...own, recipe_id: 'plum-jam-batch', supply_id: 'pectin', quantity: 3 })
    .execute();
  await db
    .insertInto('shop_pack')
    .values({ ...own, item_id: oats, id: 'two-pounds', units: 2, price_cents: 349 })
    .execute();
  await db
    .insertInto('declared_use')
    .values({
      ...own,
      item_id: oats,
      since_on: '2026-08-10',
      amount: 1,
      per: 'week',
      counted_in: 'units',
      recorded_at: 0,
    })
    .execute();
  await db
    .insertInto('lid_price')
    .values({ ...own, mouth: 'regular', box: 12, box_price_cents: 399 })
    .execute();
  // No lids and no empty jars, so that notices ask for both.
  await db.deleteFrom('lid_box').execute();
  await pages.visitor.submitOn('/kitchen', { form: '/kitchen/fund', fill: { balance: '100', weekly: '0' } });
  await keepPlanOfNothing(db, quinceYard, today, { '2026-W34': jamWeek });
});
afterEach(() => pages.close());

/** Every place that asks for something to buy, as words. */
const screens = {
  'This week': async () => {
    const words = wordsOf((await pages.visitor.open('/')).body);
    return words
      .slice(words.indexOf('Pick and buy'), words.indexOf('Eat first'))
      .split('Bought or skipped')[0];
  },
  Buying: async () => {
    const words = wordsOf((await pages.visitor.open('/buying')).body);
    return words.slice(words.indexOf('Week of')).split('Bought or skipped')[0];
  },
  notices: async () => (await theNotices()).map(({ reason }) => reason).join('\n'),
  letter: async () =>
    (await theNotices())
      .filter(({ state }) => state === 'open')
      .map(({ reason }) => reason)
      .join('\n'),
  calendar: async () => {
    const picture = await yearPicture(pages.db, quinceYard, today, reference);
    return calendarEntries(picture, [], await names(), reference)
      .filter(({ kind }) => kind === 'shopping')
      .map(({ words }) => words)
      .join('\n');
  },
  'the plan in words': async () => {
    const kept = await standingPlanOf(pages.db, quinceYard);
    if (kept === null) throw new Error('expected a plan');
    return weeksAhead(kept.plan, await names(), { lines: [], reference }).join('\n');
  },
} as const;
const reading = readingOf({ locale: 'en-US', units: 'us', weekStartsOn: 'monday' }, today);
/** What is told of buying for a session; that the oats run out is another matter. */
const theNotices = async () =>
  (await noticesNow(pages.db, quinceYard, { at: Date.UTC(2026, 7, 17, 18), today }, reference)).filter(
    ({ kind }) => kind === 'buy for a session',
  );

async function names() {
  const { facts } = await loadPlanningYear(pages.db, quinceYard, today, reference);
  return { ...facts, reading, measuresOf: measuresIn(reference) };
}

const tick = (kind: PurchaseKind, fill: Readonly<Record<string, string>> = {}, page = '/buying') => {
  const { what, packs } = lines[kind];
  presses += 1;
  return pages.visitor.open(page).then((opened) =>
    pages.visitor.post(opened, page === '/' ? '/buying/week/lines' : '/buying/lines', {
      week: '2026-W34',
      kind,
      what,
      pack: packs?.id ?? '',
      answer: 'bought',
      key: `press-number-${presses}`,
      ...fill,
    }),
  );
};
const undoLast = () => pages.visitor.submitOn('/buying', { form: '/buying/undone' });

const fundNow = async () => {
  const fund = await seasonFundOf(pages.db, quinceYard);
  return fund === null ? null : fund.balance - fund.spentSince;
};

const standing = async () => ({
  oats: (await lotsOf(pages.db, quinceYard, { itemId: oats })).reduce(
    (sum, { unitsLeft }) => sum + unitsLeft,
    0,
  ),
  plums: (await fetchedProduceOf(pages.db, quinceYard, today)).reduce((sum, { lbLeft }) => sum + lbLeft, 0),
  pectin: (await suppliesOf(pages.db, quinceYard)).find(({ id }) => id === 'pectin')?.onHand,
  jars: (await jarStockOf(pages.db, quinceYard)).find(({ kind }) => kind === halfPint)?.empty,
  lids: (await lidStockOf(pages.db, quinceYard)).find(({ mouth }) => mouth === 'regular')?.onHand,
  fund: await fundNow(),
});
const nothing = { oats: 0, plums: 0, pectin: 0, jars: 0, lids: 0, fund: 10_000 };

describe('a line of the shopping list', () => {
  // Problem 9 of a year lived with the list: nothing on it could be said to be bought.
  test.each([
    ['item', { oats: 4, fund: 10_000 - 698 }],
    ['produce', { plums: 10, fund: 10_000 - 450 }],
    ['supply', { pectin: 6, fund: 10_000 - 897 }],
    ['jars', { jars: 24, fund: 10_000 - 2798 }],
    ['lids', { lids: 24, fund: 10_000 - 798 }],
  ] as const)('of kind %s is bought as planned with one press, and undone exactly', async (kind, raised) => {
    expect((await tick(kind)).status).toBe(303);
    expect(await standing()).toEqual({ ...nothing, ...raised });

    expect((await undoLast()).status).toBe(303);
    expect(await standing()).toEqual(nothing);
  });

  test('on This week is bought otherwise than planned where one stands: opened alone, mended, taken', async () => {
    const first = await pages.visitor.open('/');
    expect(first.body).not.toContain('name="amount"');
    const [, address = ''] = /href="(\/\?other=[^"#]*)#pick-and-buy"/.exec(first.body) ?? [];

    const opened = await pages.visitor.open(address.replaceAll('&amp;', '&'));
    expect(opened.body.match(/name="amount"/g)).toHaveLength(1);
    const wrong = await pages.visitor.submit(opened, {
      form: '/buying/week/lines',
      fill: { amount: '-2', paid: '', boughtOn: '', answer: 'bought' },
    });
    expect(wrong.status).toBe(422);
    expect(wrong.body.match(/name="amount"/g)).toHaveLength(1);
  });

  test.each(kinds)(
    'of kind %s is gone from every screen once it is bought, and back once that is undone',
    async (kind) => {
      const asking = async () =>
        Object.fromEntries(
          await Promise.all(
            Object.entries(screens).map(
              async ([name, words]) => [name, asks[kind].test((await words()) ?? '')] as const,
            ),
          ),
        );
      const before = await asking();
      await tick(kind);
      const after = await asking();
      await undoLast();
      const again = await asking();

      expect(before).toMatchObject({
        'This week': true,
        Buying: true,
        calendar: true,
        'the plan in words': true,
      });
      expect(Object.values(after)).not.toContain(true);
      expect(again).toEqual(before);
    },
  );

  test.each(kinds)(
    'of kind %s that is not to be bought is gone from every screen and raises nothing',
    async (kind) => {
      await tick(kind, { answer: 'skipped' });

      for (const [name, words] of Object.entries(screens))
        expect([name, asks[kind].test((await words()) ?? '')]).toEqual([name, false]);
      expect(await standing()).toEqual(nothing);

      await undoLast();
      expect(await screens.Buying()).toMatch(asks[kind]);
    },
  );

  test.each(['/', '/buying'])('is ticked on %s by its own form, with script and without', async (page) => {
    const plain = await pages.visitor.submitOn(page, {
      form: page === '/' ? '/buying/week/lines' : '/buying/lines',
    });
    const quick = await pages.visitor.submitOn(page, {
      form: page === '/' ? '/buying/week/lines' : '/buying/lines',
      asPart: true,
    });

    expect([plain.status, quick.status]).toEqual([303, 303]);
    expect(plain.location).toMatch(page === '/' ? /^\/#pick-and-buy/ : /^\/buying#/);
    expect(wordsOf((await pages.visitor.open(page)).body)).toMatch(/Bought or skipped .*Undo .*Undo/);
  });

  test('is bought in another amount, for another price, on another day; what the day gives is best-by as from the shelf', async () => {
    await tick('item', { amount: '2', paid: '4.10', boughtOn: '2026-08-15' });

    const [lot] = await lotsOf(pages.db, quinceYard, { itemId: oats });
    // 540 days after August 15, 2026, as the shelf's own form gives it.
    expect(lot).toMatchObject({ unitsLeft: 2, madeOn: '2026-08-15', bestQualityUntil: '2028-02-06' });
    expect(await screens.Buying()).not.toMatch(asks.item);
  });

  test('for another price, or beside the list, leaves in the fund what Settings say it holds', async () => {
    const inFund = async () =>
      Number(formOf((await pages.visitor.open('/kitchen')).body, '/kitchen/fund').values.balance);
    const stillToPay = async () =>
      Number(/\$([\d.]+) .*?this week\./.exec((await screens['This week']()) ?? '')?.[1] ?? '0');
    const leaves = async () =>
      Number(/That leaves \$([\d.]+) in the season fund/.exec((await screens['This week']()) ?? '')?.[1]);
    await tick('item', { amount: '4', paid: '11.40' });
    await pages.visitor.submitOn('/shelf/put-up', {
      form: '/shelf/lots',
      fill: { itemId: oats, origin: 'bought', units: '3', madeOn: today, paid: '5.00' },
    });

    expect(await inFund()).toBeCloseTo(100 - 11.4 - 5, 2);
    expect(await leaves()).toBeCloseTo((await inFund()) - (await stillToPay()), 2);
    expect(wordsOf((await pages.visitor.open('/buying')).body)).toContain(
      `leaving $${(await leaves()).toFixed(2)} in the fund`,
    );
  });

  test('of which the rest is still asked for keeps the rest on the list, in whole packs', async () => {
    await tick('item', { amount: '2', rest: 'asked' });

    expect(await screens.Buying()).toMatch(/Rolled oats 2 lb 1 pack \$3\.49/);
    await tick('item');
    expect(await screens.Buying()).not.toMatch(asks.item);
    expect((await standing()).oats).toBe(4);
  });

  test('says beside the field what is wrong, keeps what was typed, and writes nothing', async () => {
    const wrong = await tick('jars', { amount: '11.5' });
    const ahead = await tick('lids', { boughtOn: '2026-09-01' }, '/');

    expect(wrong.status).toBe(422);
    expect(wordsOf(wrong.body)).toContain('11.5 is not a whole number');
    expect(wrong.body).toContain('value="11.5"');
    expect(ahead.status).toBe(422);
    expect(wordsOf(ahead.body)).toContain('Sep 1, 2026 is still to come');
    expect(await standing()).toEqual(nothing);
  });

  test('that somebody else ticked meanwhile is not bought twice', async () => {
    await tick('supply');
    const second = await tick('supply');

    expect(second.status).toBe(422);
    expect(wordsOf(second.body)).toContain('it was bought or skipped already');
    expect((await standing()).pectin).toBe(6);
  });

  test('is settled by what was bought elsewhere: on the shelf, in the kitchen, under what is kept', async () => {
    await pages.visitor.submitOn('/shelf/put-up?item=oats', {
      form: '/shelf/lots',
      fill: { itemId: oats, origin: 'bought', units: '4', madeOn: today },
    });
    await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/lids',
      fill: { mouth: 'regular', onHand: '24', box: '12', boxPrice: '3.99' },
    });
    const buying = await screens.Buying();

    expect(buying).not.toMatch(asks.item);
    expect(buying).not.toMatch(asks.lids);
    expect(buying).toMatch(asks.produce);
  });

  test('that was counted since is left as it was counted when it is undone', async () => {
    await tick('jars');
    await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/jars',
      fill: { jarKind: halfPint, empty: '20', pack: '12', price: '13.99' },
    });
    await undoLast();

    expect((await standing()).jars).toBe(20);
  });

  test('of which some is used already cannot be undone, and says why', async () => {
    await tick('item');
    await pages.visitor.submitOn(`/shelf/${oats}`, {
      form: `/shelf/${oats}/takes`,
      fill: { outcome: 'took-one' },
    });

    const refused = await undoLast();

    expect(refused.status).toBe(422);
    expect(wordsOf(refused.body)).toMatch(/Undo what was taken from it first/);
  });
});

describe('a batch that was put up', () => {
  // "The batch already made still asks for its pectin" and for its fruit.
  test('takes what was bought for it: nothing of it is asked for again, nor on hand', async () => {
    for (const kind of ['produce', 'supply', 'jars', 'lids'] as const) await tick(kind);
    await pages.visitor.submitOn('/shelf/put-up?item=plum-jam', {
      form: '/shelf/lots',
      fill: { itemId: 'plum-jam', origin: 'put-up', units: '16', madeOn: today, jarKind: halfPint },
    });

    expect(await standing()).toMatchObject({ plums: 0, pectin: 0, jars: 8, lids: 8 });
    expect(await screens.Buying()).not.toMatch(/plum|pectin|jars|lids/i);
    expect(wordsOf((await pages.visitor.open('/')).body)).toContain('Done this week: Plum jam, 2 batches');

    await pages.visitor.submitOn('/shelf', { form: '/shelf/reversals' });
    expect(await standing()).toMatchObject({ plums: 10, pectin: 6, jars: 24, lids: 24 });
    expect(wordsOf((await pages.visitor.open('/')).body)).not.toContain('Done this week');
  });

  test('of two: half the fruit that was fetched waits for the other', async () => {
    await tick('produce');
    await tick('supply');
    await pages.visitor.submitOn('/shelf/put-up?item=plum-jam', {
      form: '/shelf/lots',
      fill: { itemId: 'plum-jam', origin: 'put-up', units: '8', madeOn: today, jarKind: halfPint },
    });

    expect(await standing()).toMatchObject({ plums: 5, pectin: 3 });
    const { year } = await loadPlanningYear(pages.db, quinceYard, today, reference);
    expect(year.sources.find(({ isAtHand }) => isAtHand)).toMatchObject({
      crop: 'plum',
      lbByWeek: expect.arrayContaining([5]),
    });
    // The tree gives 20 lb a week, of which 10 are picked.
    expect(year.sources.find(({ id }) => id === 'plum-tree')?.lbByWeek[0]).toBe(10);
  });
});

describe('batches that were moved', () => {
  test('stand in their new week at once, with what is still to be bought for them', async () => {
    await tick('supply');
    const say = (week: string, decision: 'ruled-out' | 'pinned', batches: number | null) =>
      pages.db
        .insertInto('kept')
        .values({
          household_id: quinceYard,
          recipe_id: 'plum-jam-batch',
          week,
          decision,
          batches,
          decided_at: 1,
        })
        .execute();
    await say('2026-W34', 'ruled-out', null);
    await say('2026-W35', 'pinned', 2);

    const plan = await standingPlanOf(pages.db, quinceYard);

    expect(plan?.plan.weeks[0]?.sessions).toEqual([]);
    expect(plan?.plan.weeks[0]?.purchases.map(({ kind }) => kind)).toEqual(['item']);
    expect(plan?.plan.weeks[1]?.sessions).toMatchObject([{ recipe: 'plum-jam-batch', batches: 2 }]);
    expect(plan?.plan.weeks[1]?.purchases.map(({ kind }) => kind)).toEqual(['produce', 'jars', 'lids']);
  });
});

describe('what was paid', () => {
  const prices = async () => ({
    item: (await pages.db.selectFrom('shop_pack').select('price_cents').executeTakeFirstOrThrow())
      .price_cents,
    produce: (
      await pages.db
        .selectFrom('source')
        .select('price_cents_per_lb')
        .where('id', '=', 'plum-tree')
        .executeTakeFirstOrThrow()
    ).price_cents_per_lb,
    supply: (await suppliesOf(pages.db, quinceYard)).find(({ id }) => id === 'pectin')?.packPrice,
    jars: (await jarStockOf(pages.db, quinceYard)).find(({ kind }) => kind === halfPint)?.price,
    lids: (await lidStockOf(pages.db, quinceYard)).find(({ mouth }) => mouth === 'regular')?.boxPrice,
  });
  beforeEach(async () => {
    await pages.db.updateTable('source').set({ kind: 'market', price_cents_per_lb: 45 }).execute();
    await pages.db
      .insertInto('jar_holding')
      .values({ household_id: quinceYard, jar_kind: halfPint, price_cents: 1399, pack: 12 })
      .onConflict((same) =>
        same.columns(['household_id', 'jar_kind']).doUpdateSet({ price_cents: 1399, pack: 12 }),
      )
      .execute();
  });

  // 4 lb in packs of 2, 10 lb, 6 packets in packs of 2, 24 jars by the dozen, 24 lids by the dozen.
  test.each([
    ['item', '9.80', 490, '$4.90 a pack from now on'],
    ['produce', '7.00', 70, '$0.70 a lb from now on'],
    ['supply', '12.00', 400, '$4.00 a pack from now on'],
    ['jars', '31.00', 1550, '$15.50 a pack from now on'],
    ['lids', '10.00', 500, '$5.00 a box from now on'],
  ] as const)(
    'for a line of kind %s is its price from now on, until that is undone',
    async (kind, paid, cents, said) => {
      const before = await prices();
      await tick(kind, { paid });

      expect(await prices()).toEqual({ ...before, [kind]: cents });
      expect(wordsOf((await pages.visitor.open('/buying')).body)).toContain(said);

      await undoLast();
      expect(await prices()).toEqual(before);
    },
  );

  test('as planned, or nothing, teaches no price', async () => {
    const before = await prices();
    for (const fill of [{}, { paid: '6.98' }, { paid: '0' }]) {
      await tick('item', fill);
      expect(await prices()).toEqual(before);
      await undoLast();
    }
  });

  test('in the weeks of a sale teaches no price', async () => {
    await pages.db
      .updateTable('shop_pack')
      .set({ sale_from_month: 7, sale_until_month: 9, sale_price_cents: 299 })
      .execute();
    const before = await prices();
    await tick('item', { paid: '5.00' });

    expect(await prices()).toEqual(before);
  });

  test('for a crumb, at a price no form would take, teaches none', async () => {
    const before = await prices();
    await tick('produce', { amount: '0.01', paid: '90' });

    expect(await prices()).toEqual(before);
  });

  test('twice is as it was once both are undone, whichever first', async () => {
    const before = await prices();
    for (const first of [0, 1]) {
      await tick('item', { amount: '2', paid: '4.90', rest: 'asked' });
      await tick('item', { amount: '2', paid: '5.20' });
      const bought = await pages.db
        .selectFrom('bought')
        .select('id')
        .where('undone_at', 'is', null)
        .orderBy('recorded_at')
        .execute();
      const order = first === 0 ? bought : bought.toReversed();
      for (const { id } of order) {
        const page = await pages.visitor.open('/buying');
        presses += 1;
        await pages.visitor.post(page, '/buying/undone', { id, key: `press-number-${presses}` });
      }

      expect(await prices()).toEqual(before);
    }
  });

  test('does not come back by an undo where the price was set by hand since', async () => {
    await tick('item', { paid: '9.80' });
    await pages.db.updateTable('shop_pack').set({ price_cents: 520 }).execute();
    await undoLast();

    expect((await prices()).item).toBe(520);
  });
});
