import { sql } from 'kysely';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

const households = () => pages.db.selectFrom('household').select(['name', 'facts_version']).execute();
const rename = (name: string) =>
  pages.visitor.submitOn('/kitchen', { form: '/kitchen/household', fill: { name } });

describe('a file that cannot be written', () => {
  test('says that it is read-only, changes nothing, and goes on once it can be written', async () => {
    const before = await households();
    await sql`PRAGMA query_only = 1`.execute(pages.db);

    const answer = await rename('Quince Hill');

    expect(answer.status).toBe(503);
    expect(wordsOf(answer.body)).toContain('read-only, so nothing was changed');
    expect(await households()).toEqual(before);
    await sql`PRAGMA query_only = 0`.execute(pages.db);
    expect((await rename('Quince Hill')).status).toBe(303);
  });

  test('still shows its pages', async () => {
    await sql`PRAGMA query_only = 1`.execute(pages.db);

    expect((await pages.visitor.open('/shelf')).status).toBe(200);
  });
});

test('a full disk keeps nothing of what did not fit, and says so', async () => {
  const { rows } = await sql<{ page_count: number }>`PRAGMA page_count`.execute(pages.db);
  const items = () => pages.db.selectFrom('week_time').selectAll().execute();
  const page = await pages.visitor.open('/kitchen');
  await sql.raw(`PRAGMA max_page_count = ${rows[0]?.page_count ?? 1}`).execute(pages.db);
  let full = await pages.visitor.open('/kitchen');

  for (let month = 1; month <= 12 && full.status !== 507; month += 1) {
    for (let day = 1; day <= 28 && full.status !== 507; day += 7) {
      const dayInWeek = `2027-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
      const before = await items();
      full = await pages.visitor.submit(page, {
        form: '/kitchen/weeks',
        fill: { dayInWeek, sessions: '2', reason: 'a long reason '.repeat(8), key: `week-of-${dayInWeek}` },
      });
      if (full.status === 507) expect(await items()).toEqual(before);
    }
  }

  expect(full.status).toBe(507);
  expect(wordsOf(full.body)).toContain('There was no room to write this down');
  const health = await sql<{ integrity_check: string }>`PRAGMA integrity_check`.execute(pages.db);
  expect(health.rows).toEqual([{ integrity_check: 'ok' }]);
});

test('the addresses for watching over the server say up and ready, and not ready once the file is gone', async () => {
  expect((await pages.app.inject('/health')).body).toBe('up\n');
  expect((await pages.app.inject('/ready')).body).toBe('ready\n');

  await sql`ALTER TABLE household RENAME TO mislaid`.execute(pages.db);

  expect((await pages.app.inject('/health')).statusCode).toBe(200);
  expect((await pages.app.inject('/ready')).statusCode).toBe(503);
});
