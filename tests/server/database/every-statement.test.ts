import { CompiledQuery } from 'kysely';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { addMember } from '../../../server/access/members.ts';
import { SQLite, type SQLiteDatabase } from '../../../server/database/sqlite.ts';
import { openMailJob } from '../../../server/jobs/mail-job.ts';
import { openNightly } from '../../../server/jobs/nightly.ts';
import { failedWork } from '../../../server/queries/notices/troubles.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import type { HouseholdId } from '../../../shared/ids.ts';
import { Asker } from '../../builders/asker.ts';
import { attribute } from '../../builders/html-text.ts';
import { filled, noon, type TwoHouseholds, twoHouseholds } from '../../builders/two-households.ts';
import { formOf } from '../../builders/visitor.ts';

// Nobody pays for the others: what a request, a minute and a night ask of the file is found by index, and there is no more of
// it in a file of many households.

/** Statements that may read a table from end to end, each with the reason. */
const mayScan: readonly { readonly statement: RegExp; readonly why: string }[] = [
  { statement: /from "household" where not exists .* limit \?$/, why: 'it ends with the first one' },
  { statement: /and is_open = 1 and not exists/, why: 'an index that has only what nobody owns' },
  { statement: /^SELECT id FROM household LIMIT 1$/, why: 'it ends with the first one' },
  { statement: /^select "id" from "household" limit \?$/, why: 'it ends with as many as a file may hold' },
  { statement: /from "household_deletion" as "deletion"/, why: 'what was deleted in the last week' },
  { statement: /^select "person_id" from "membership" limit \?$/, why: 'it ends with the first one' },
  { statement: /from "clock_jump" order by "seq" desc limit \?$/, why: 'it ends with the latest' },
  { statement: /^select "latest_at" from "clock_reading"$/, why: 'one row a file' },
  { statement: /^WITH RECURSIVE lived/, why: 'a row for each zone' },
  { statement: /from "job" where "job"."failure" is not null/, why: 'an index that has only what failed' },
  {
    statement: /from "mail_wish" where "confirmed_at" is not null union/,
    why: 'each of them may be due a letter in this minute',
  },
];

let both: TwoHouseholds;
let asker: Asker;
const statements = new Set<string>();
let recording = false;
let executed = 0;
beforeAll(async () => {
  const prepare = SQLite.prototype.prepare;
  vi.spyOn(SQLite.prototype, 'prepare').mockImplementation(function (
    this: SQLiteDatabase,
    statement: string,
  ) {
    executed += 1;
    if (recording) statements.add(statement);
    return prepare.call(this, statement);
  });
  both = await twoHouseholds();
  recording = true;
  asker = new Asker(both.app, (who) => both.tokenOf.get(who) ?? '', both.medlar.accessToken);
});
afterAll(async () => {
  vi.restoreAllMocks();
  await both.close();
});

const background = () => {
  const { db } = both;
  const sent = { send: async () => {}, close: () => {} };
  return {
    nightly: openNightly({
      db,
      now: () => noon,
      work: { backup: async () => {}, notices: async () => {}, replan: async () => {} },
    }),
    mail: openMailJob({
      db,
      reference: loadReferenceTables(),
      now: () => noon,
      mailer: sent,
      address: 'https://pantry.example',
    }),
  };
};

/** Every page and every form on it, each as it stands there. */
async function everythingAsked(): Promise<number> {
  const sentTo = new Set<string>();
  for (const route of both.app.servedRoutes) {
    if (route.method !== 'GET') continue;
    const url = filled(route.url, (kind) => both.medlar[kind] ?? '1');
    const { body } = await asker.ask('medlar-owner', { method: 'GET', url });
    for (const form of body.match(/<form\b[\s\S]*?<\/form>/g) ?? []) {
      const action = attribute(form, 'action') ?? '';
      if (attribute(form, 'method') !== 'post' || sentTo.has(action) || endsTheAsking.test(action)) continue;
      sentTo.add(action);
      const { _csrf, key, ...values } = formOf(form, action).values;
      await asker.ask('medlar-owner', { method: 'POST', url: action }, values);
    }
  }
  return sentTo.size;
}

const endsTheAsking = /start\/demo|sign-out|sign-ins|\/people\/.*removal|deletion|passphrase/;

describe('every statement', () => {
  test('finds what it asks for by an index', async () => {
    const forms = await everythingAsked();
    const { nightly, mail } = background();
    await nightly.run();
    await mail.run();
    await failedWork(both.db);
    recording = false;
    const scans: string[] = [];
    for (const statement of statements)
      if (!mayScan.some((one) => one.statement.test(statement)))
        for (const scan of await readFromEndToEnd(statement)) scans.push(`${scan}: ${statement}`);

    expect(forms).toBeGreaterThan(60);
    expect(statements.size).toBeGreaterThan(300);
    expect(scans).toEqual([]);
  });

  test('that may read a table from end to end is one the program asks', () => {
    const asked = [...statements];

    expect(mayScan.filter(({ statement }) => !asked.some((one) => statement.test(one)))).toEqual([]);
  });
});

test('a page, a take and a minute ask no more of a file with three hundred other households', async () => {
  const jam = both.medlar.item ?? '';
  const askedFor = async (): Promise<Readonly<Record<string, number>>> => ({
    page: await counted(() => asker.ask('medlar-owner', { method: 'GET', url: '/shelf' })),
    take: await counted(() => asker.ask('medlar-owner', { method: 'POST', url: `/shelf/${jam}/take` })),
    minute: await counted(async () => {
      const { nightly, mail } = background();
      await nightly.run();
      await mail.run();
    }),
  });
  await askedFor();
  const alone = await askedFor();
  await otherHouseholds(300);
  // Their night is written down and worked once.
  await background().nightly.run();
  const amongMany = await askedFor();

  expect(alone.page).toBeGreaterThan(5);
  expect(amongMany).toEqual(alone);
});

/** How many statements something takes. */
async function counted(work: () => Promise<unknown>): Promise<number> {
  const before = executed;
  await work();
  return executed - before;
}

async function otherHouseholds(howMany: number): Promise<void> {
  await both.db.transaction().execute(async (trx) => {
    for (let at = 0; at < howMany; at += 1) {
      const id = `other-${at}` as HouseholdId;
      await trx
        .insertInto('household')
        .values({ id, name: `Household ${at}`, time_zone: 'America/Denver', region: 'CO', created_at: at })
        .execute();
      await trx
        .insertInto('person')
        .values({ id, name: `owner ${at}`, name_key: `owner ${at}`, passphrase_hash: 'none', created_at: at })
        .execute();
      await addMember(trx, id, id, 'owner', at);
    }
  });
}

/** A table from end to end, or all of a kind in it; rows that stand in the statement itself are none of a table. */
const isOfMost = (detail: string): boolean =>
  (/^SCAN \w/.test(detail) && !/ CONSTANT ROWS?$/.test(detail)) || /\((?:kind|state)=\?\)$/.test(detail);

/** Tables that a statement goes through from end to end, as SQLite plans it; a schema's own questions are none of a household's. */
async function readFromEndToEnd(statement: string): Promise<readonly string[]> {
  if (!/^\s*(select|insert|update|delete|with)\b/i.test(statement) || /sqlite_|pragma_/i.test(statement))
    return [];
  const places = statement.replaceAll(/'[^']*'|"[^"]*"/g, '').split('?').length - 1;
  const { rows } = await both.db.executeQuery<{ readonly detail: string }>(
    CompiledQuery.raw(`EXPLAIN QUERY PLAN ${statement}`, Array<null>(places).fill(null)),
  );
  return rows.flatMap(({ detail }) => (isOfMost(detail) ? [detail] : []));
}
