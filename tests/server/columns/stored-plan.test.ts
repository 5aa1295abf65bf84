import { afterEach, describe, expect, it } from 'vitest';
import { storedResult, storedYear } from '../../../server/columns/stored-plan.ts';
import { newestPlan, oldestPlan } from '../../../server/queries/year/plans.ts';
import { plannedQuinceYard } from '../../builders/planned-quince-yard.ts';
import { quinceYard } from '../../builders/quince-yard.ts';
import type { QuinceYardPages } from '../../builders/quince-yard-pages.ts';

let pages: QuinceYardPages | undefined;
afterEach(async () => {
  await pages?.close();
  pages = undefined;
});

const keptRow = async () =>
  (pages as QuinceYardPages).db.selectFrom('plan').selectAll().executeTakeFirstOrThrow();

/** Keeps a later plan, the newest one changed. */
const keepChanged = async (change: (result: Record<string, unknown>) => Record<string, unknown>) => {
  const row = await keptRow();
  await (pages as QuinceYardPages).db
    .insertInto('plan')
    .values({
      ...row,
      id: 'of-another-version',
      seq: 1_000,
      result_json: JSON.stringify(change(JSON.parse(row.result_json))),
    })
    .execute();
};

describe('a kept plan', () => {
  it('is read whole: nothing that was kept is lost on the way', async () => {
    pages = await plannedQuinceYard();
    const row = await keptRow();
    const [result, year] = [JSON.parse(row.result_json), JSON.parse(row.input_json)];

    expect(storedResult.parse(result)).toEqual(result);
    expect(storedYear.parse(year)).toEqual(year);
    expect(await newestPlan(pages.db, quinceYard)).toMatchObject({ id: row.id, plan: result.plan, year });
  });

  it('from before its rungs were proven has none', async () => {
    pages = await plannedQuinceYard();
    await keepChanged(({ shape: _, ...result }) => ({
      ...result,
      plan: { ...(result.plan as object), rungs: undefined },
    }));

    expect((await newestPlan(pages.db, quinceYard))?.plan.rungs).toEqual([]);
  });

  const unread: readonly [string, (result: Record<string, unknown>) => Record<string, unknown>][] = [
    ['of a shape to come', (result) => ({ ...result, shape: 1_000 })],
    [
      'without its weeks',
      (result) => ({ ...result, plan: { ...(result.plan as object), weeks: undefined } }),
    ],
    [
      'whose numbers are words',
      (result) => ({ ...result, plan: { ...(result.plan as object), gap: 'small' } }),
    ],
    ['that is something else', () => ({})],
  ];

  it.each(unread)('%s is no plan, and every page answers', async (_, change) => {
    pages = await plannedQuinceYard();
    await keepChanged(change);

    expect(await newestPlan(pages.db, quinceYard)).toBeNull();
    expect(await oldestPlan(pages.db, quinceYard)).not.toBeNull();
    for (const page of ['/', '/year', '/shelf', '/targets', '/buying', '/look-back', '/harvest'])
      expect((await pages.visitor.open(page)).status, page).toBe(200);
  });
});
