import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ledgerOf } from '../../../../server/queries/shelf/ledger.ts';
import { shelfByItem } from '../../../../server/queries/shelf/shelf.ts';
import { shelfCountsOf } from '../../../../server/queries/shelf/shelf-counts.ts';
import {
  curedPickles,
  greenBeans,
  plumJam,
  quinceYard,
  shelve,
  today,
} from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
  await shelve(pages.db, {
    id: 'jam',
    itemId: plumJam,
    units: 9,
    madeOn: '2026-04-10',
    bestQualityUntil: '2027-04-10',
  });
  await shelve(pages.db, {
    id: 'beans',
    itemId: greenBeans,
    units: 12,
    madeOn: '2026-07-20',
    bestQualityUntil: '2027-07-20',
    jarKind: 'pint/regular',
  });
  await pages.db.updateTable('lot').set({ place_id: 'cellar' }).where('id', '=', 'beans').execute();
  await pages.db
    .insertInto('occasion')
    .values({
      household_id: quinceYard,
      id: 'market-day',
      item_id: plumJam,
      kind: 'promised',
      on_date: '2026-09-05',
      units: 4,
      yearly: 0,
    })
    .execute();
  await pages.db
    .insertInto('declared_use')
    .values({
      household_id: quinceYard,
      item_id: greenBeans,
      since_on: '2026-08-10',
      amount: 4,
      per: 'week',
      counted_in: 'units',
      recorded_at: 0,
    })
    .execute();
});
afterEach(() => pages.close());

const left = async (item: string) =>
  (await shelfByItem(pages.db, quinceYard)).find((own) => own.item.id === item)?.units;
const enter = (fill: Record<string, string>) =>
  pages.visitor.submitOn('/shelf/tallies', { form: '/shelf/tallies', fill });

describe('the sheet at the pantry door', () => {
  it('says what is there, where it stands and what is promised', async () => {
    const words = wordsOf((await pages.visitor.open('/shelf/sheet')).body);

    expect(words).toContain('Quince Yard, Aug 17, 2026');
    expect(words).toMatch(/Plum jam 9 4 promised/);
    expect(words).toMatch(/Green beans 12 \d+ (\d+|a year) Cellar/);
  });

  it('has boxes in fives, more of what is eaten more, never fewer than five', async () => {
    const { body } = await pages.visitor.open('/shelf/sheet');

    const boxes = [...body.matchAll(/<title>(\d+) boxes<\/title>/g)].map(([, count]) => Number(count));
    expect(boxes).toHaveLength(4);
    expect(boxes.every((count) => count % 5 === 0)).toBe(true);
    expect(Math.max(...boxes)).toBeGreaterThan(5);
    expect(Math.min(...boxes)).toBe(5);
  });
});

describe('a sheet entered', () => {
  it('takes what was ticked off the shelf as eaten and not written down, in one go', async () => {
    const answer = await enter({ 'units-plum-jam': '3', 'units-green-beans': '2' });

    expect([answer.status, answer.location]).toEqual([303, '/shelf/count']);
    expect([await left(plumJam), await left(greenBeans)]).toEqual([6, 10]);
    const counted = (await ledgerOf(pages.db, quinceYard)).filter(({ kind }) => kind === 'counted');
    expect(counted.map(({ units, trainsUse }) => [units, trainsUse])).toEqual([
      [-2, true],
      [-3, true],
    ]);
  });

  it('takes counted figures as they are, and leaves out what is empty', async () => {
    await enter({ mode: 'counted', 'units-plum-jam': '7' });

    expect([await left(plumJam), await left(greenBeans)]).toEqual([7, 12]);
    expect(await shelfCountsOf(pages.db, quinceYard, today)).toMatchObject([
      { itemId: plumJam, countedUnits: 7 },
    ]);
  });

  it.each([
    [{ 'units-plum-jam': '10', 'units-green-beans': '2' }, '10 are ticked, and the book has 9.'],
    [{ 'units-plum-jam': 'III', 'units-green-beans': '2' }, 'cannot be “III”'],
    [
      { mode: 'counted', 'units-plum-jam': '6.5', 'units-green-beans': '2' },
      'counted in whole jars, and 6.5 is not',
    ],
    [{ mode: 'counted', 'units-cured-pickles': '2', 'units-green-beans': '2' }, 'was ever put up'],
    [{ countedOn: '2027-01-01', 'units-green-beans': '2' }, 'Jan 1, 2027 is still to come'],
    [{}, 'Count one item and send again.'],
  ])('with something wrong changes nothing and keeps what was typed: %j', async (fill, message) => {
    const answer = await enter(fill);

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(message);
    if ('units-green-beans' in fill) expect(answer.body).toMatch(/name="units-green-beans"[^>]* value="2"/);
    expect([await left(plumJam), await left(greenBeans), await left(curedPickles)]).toEqual([9, 12, 0]);
  });
});
