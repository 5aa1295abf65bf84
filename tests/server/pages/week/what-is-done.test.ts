import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { newestPlan, standingPlanOf } from '../../../../server/queries/year/plans.ts';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import { yearPicture } from '../../../../server/year/year-picture.ts';
import { asJarKind } from '../../../../shared/jar.ts';
import { asCents } from '../../../../shared/money.ts';
import { asDate } from '../../../../shared/week.ts';
import type { PlannedSession, PlannedWeek } from '../../../../src/planning/plan.ts';
import { factsChanged } from '../../../builders/facts-changed.ts';
import { keepPlanOfNothing } from '../../../builders/plan-of-nothing.ts';
import { quinceYard } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

// Quince Yard on Monday 17 August 2026; its sessions are on Saturdays. Two batches of plum jam stand in this week, for which
// 10 lb are picked and a dozen half-pint jars bought; a bag of oats is bought for the pantry.

const jam = (batches: number): PlannedSession => ({
  recipe: 'plum-jam-batch' as PlannedSession['recipe'],
  batches,
  jars: [{ kind: asJarKind('half-pint', 'regular'), count: 9 * batches }],
  units: 8 * batches,
  handsOnMinutes: 70 * batches,
  canner: 'kettle' as PlannedSession['canner'],
  loads: batches,
});

const jamWeek = (batches: number): Partial<PlannedWeek> => ({
  sessions: [jam(batches)],
  kitchenMinutes: 30 + 70 * batches,
  purchases: [
    { what: 'plum-tree', kind: 'produce', quantity: 5 * batches, unit: 'lb', packs: null, cost: asCents(0) },
    {
      what: 'half-pint/regular',
      kind: 'jars',
      quantity: 12,
      unit: 'jar',
      packs: { id: 'dozen', count: 1 },
      cost: asCents(1_399),
    },
    { what: 'oats', kind: 'item', quantity: 2, unit: 'lb', packs: null, cost: asCents(349) },
  ],
  spend: asCents(1_748),
});

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
  await pages.db
    .insertInto('kitchen_time')
    .values({ household_id: quinceYard, session_weekday: 6 })
    .execute();
});
afterEach(() => pages.close());

const said = async (decision: 'done' | 'ruled-out', batches: number | null, week = '2026-W34') => {
  await pages.db
    .insertInto('kept')
    .values({ household_id: quinceYard, recipe_id: 'plum-jam-batch', week, decision, batches, decided_at: 1 })
    .execute();
  await factsChanged(pages.db);
};
const planned = (week: string, batches: number, asOf = '2026-08-17') =>
  keepPlanOfNothing(pages.db, quinceYard, asDate(asOf), { [week]: jamWeek(batches) });
const errands = async () => {
  const words = wordsOf((await pages.visitor.open('/')).body);
  return words.slice(words.indexOf('In the kitchen'), words.indexOf('Eat first'));
};

describe('what is done is done', () => {
  test('a batch that was written down is no work any more, nor its fruit and jars errands', async () => {
    await planned('2026-W34', 1);
    expect(await errands()).toContain('Work through this day');

    await said('done', 1);
    const week = await errands();
    const buying = wordsOf((await pages.visitor.open('/buying')).body);

    expect(week).toContain('Done this week: Plum jam, 1 batch.');
    expect(week).not.toContain('Work through this day');
    expect(week).not.toMatch(/Plum tree|half-pint jars/i);
    expect(buying).toContain('$3.49 for the pantry');
    expect(buying).not.toMatch(/Plum tree|13\.99/);
  });

  test('of two batches one is left, with half the fruit', async () => {
    await planned('2026-W34', 2);
    await said('done', 1);

    const kept = await standingPlanOf(pages.db, quinceYard);
    const week = kept?.plan.weeks[0];

    expect(week?.sessions.map(({ batches, units, loads }) => [batches, units, loads])).toEqual([[1, 8, 1]]);
    expect(week?.purchases.map(({ what, quantity }) => [what, quantity])).toEqual([
      ['plum-tree', 5],
      ['half-pint/regular', 12],
      ['oats', 2],
    ]);
  });

  test('what the plan knew when it was made is not taken out of it again', async () => {
    await said('done', 1);
    await planned('2026-W34', 1);

    expect((await standingPlanOf(pages.db, quinceYard))?.plan).toEqual(
      (await newestPlan(pages.db, quinceYard))?.plan,
    );
  });

  test('what was ruled out since is neither work nor errand, and neither a notice nor a jar to come', async () => {
    await planned('2026-W34', 2);
    await said('ruled-out', null);

    const picture = await yearPicture(pages.db, quinceYard, asDate('2026-08-17'), loadReferenceTables());

    expect(picture.plan?.plan.weeks[0]?.sessions).toEqual([]);
    expect(picture.notices.filter(({ kind }) => kind === 'buy for a session')).toEqual([]);
    expect(await errands()).not.toContain('Work through this day');
  });
});

describe('a session that passed', () => {
  test('is asked about once: done, moved or dropped', async () => {
    await planned('2026-W33', 2, '2026-08-10');
    const asked = wordsOf((await pages.visitor.open('/')).body);

    await pages.visitor.submitOn('/', { form: '/plan/passed', fill: { answer: 'dropped' } });
    const afterwards = wordsOf((await pages.visitor.open('/')).body);

    expect(asked).toMatch(
      /Plum jam, 2 batches Saturday, August 15, 2 days ago\s*\. Done, moved or dropped\?/,
    );
    expect(afterwards).not.toContain('Done, moved or dropped?');
  });

  test('that was moved is kept for the next usual day', async () => {
    await planned('2026-W33', 2, '2026-08-10');

    await pages.visitor.submitOn('/', { form: '/plan/passed', fill: { answer: 'moved' } });

    const kept = await pages.db
      .selectFrom('kept')
      .select(['week', 'decision', 'batches'])
      .orderBy('week')
      .execute();
    expect(kept).toEqual([
      { week: '2026-W33', decision: 'ruled-out', batches: null },
      { week: '2026-W34', decision: 'pinned', batches: 2 },
    ]);
    expect(wordsOf((await pages.visitor.open('/')).body)).not.toContain('Done, moved or dropped?');
  });

  test('that was done leads to the page on which its batches are written down', async () => {
    await planned('2026-W33', 1, '2026-08-10');

    const answer = await pages.visitor.submitOn('/', {
      form: '/plan/passed/2026-08-15/plum-jam-batch/results',
    });
    const page = await pages.visitor.open(answer.location ?? '');

    expect(answer.location).toBe('/canning-day/2026-W33/2026-08-15/results/plum-jam-batch');
    expect(page.status).toBe(200);
    expect(wordsOf(page.body)).toContain('Plum jam');
  });

  test('of which something was written down is not asked about', async () => {
    await planned('2026-W33', 1, '2026-08-10');
    await said('done', 1, '2026-W33');

    expect(wordsOf((await pages.visitor.open('/')).body)).not.toContain('Done, moved or dropped?');
  });
});
