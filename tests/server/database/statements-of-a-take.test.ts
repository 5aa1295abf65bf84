import { afterAll, afterEach, beforeAll, expect, test, vi } from 'vitest';
import { SQLiteStatements } from '../../../server/database/sqlite.ts';
import { Thing } from '../../builders/thing.ts';
import { medlarLane, type TwoHouseholds, twoHouseholds } from '../../builders/two-households.ts';

// Each statement is a way to the database and back, and most of what a take costs where that is another machine.

let both: TwoHouseholds;
beforeAll(async () => {
  both = await twoHouseholds();
});
afterEach(() => vi.restoreAllMocks());
afterAll(() => both.close());

/** What a request asks of the database, its transaction apart. */
async function asked(request: () => Promise<{ readonly status: number }>): Promise<readonly string[]> {
  const prepare = vi.spyOn(SQLiteStatements.prototype, 'prepare');
  const { status } = await request();
  const statements = prepare.mock.calls.map(([statement]) => String(statement));
  prepare.mockRestore();
  expect(status).toBe(201);
  return statements.filter((statement) => !/^(begin|commit)/.test(statement));
}

test('a take of a thing asks nine times, of the item that is taken and of no other', async () => {
  const thing = await Thing.of(both.app, both.db, medlarLane, { name: 'Hall clock' });
  const take = () => thing.write('/takes', { item: both.medlar.item });
  // The first time it is written down that the thing is used.
  await take();
  const statements = await asked(take);

  // The token with its household, the household held, the key, the item, what stands of it, the jar, how many empty ones there were,
  // the empty one, and the key kept; what is promised of an item only where anything is.
  expect(statements).toHaveLength(9);
  const looked = statements.filter((one) => /^select .* from "(item|lot)" (where|left)/.test(one));
  expect(looked).toHaveLength(2);
  for (const statement of looked) expect(statement).toMatch(/"(item_id|id)" = \?[^"]*$|"item_id" = \? group/);
});

test('one of a batch asks besides what is left of the item', async () => {
  const thing = await Thing.of(both.app, both.db, medlarLane, { name: 'Cellar button' });
  const take = () => thing.write('/takes', { item: both.medlar.item, batch: both.medlar.lot });
  await take();

  expect((await asked(take)).length).toBeLessThanOrEqual(11);
});
