import { CompiledQuery, sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { addMember } from '../../../server/access/members.ts';
import { SQLiteStatements } from '../../../server/database/sqlite.ts';
import { openMailJob } from '../../../server/jobs/mail-job.ts';
import { openNightly } from '../../../server/jobs/nightly.ts';
import { failedWork } from '../../../server/queries/notices/troubles.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import type { HouseholdId } from '../../../shared/ids.ts';
import { Asker } from '../../builders/asker.ts';
import { everyFormSent } from '../../builders/every-form-sent.ts';
import { noon, type TwoHouseholds, twoHouseholds } from '../../builders/two-households.ts';
import { unbound } from './household-bound.ts';

// Nobody pays for the others: what a request, a minute and a night ask of the file is found by index, and there is no more of
// it in a file of many households.

/** Statements that may read a table from end to end, each with the reason. */
const mayScan: readonly {
  readonly statement: RegExp;
  /** Only these of the tables it names, as the plan of the query has them. */
  readonly only?: RegExp;
  readonly why: string;
}[] = [
  { statement: /from "household" where not exists .* limit \?$/, why: 'it ends with the first one' },
  { statement: /and is_open = 1 and not exists/, why: 'an index that has only what nobody owns' },
  { statement: /^SELECT id FROM household LIMIT 1$/, why: 'it ends with the first one' },
  { statement: /^select "id" from "household" limit \?$/, why: 'it ends with as many as a file may hold' },
  { statement: /from "household_deletion" as "deletion"/, why: 'what was deleted in the last week' },
  { statement: /^select "person_id" from "membership" limit \?$/, why: 'it ends with the first one' },
  { statement: /from "clock_jump" order by "seq" desc limit \?$/, why: 'it ends with the latest' },
  { statement: /^select "latest_at" from "clock_reading"$/, why: 'one row a file' },
  { statement: /^WITH RECURSIVE lived/, why: 'a row for each zone' },
  {
    statement: /^\s*SELECT 'facts ' \|\| facts_version /,
    only: /^SCAN (newest|last)$/,
    why: 'the newest plan and the last fourteen days, found by index',
  },
  { statement: /from "job" where "job"."failure" is not null/, why: 'an index that has only what failed' },
  {
    statement: /from "mail_wish" inner join "household" .* where "mail_wish"."confirmed_at" is not null/,
    why: 'each of them may be due a letter in this minute',
  },
  {
    statement: /^select "household_id" from "mail_confirmation"$/,
    why: 'each of them waits for a letter in this minute',
  },
];

/** Statements that ask of more than one household, each with the reason. */
const mayBeUnbound: readonly { readonly statement: RegExp; readonly why: string }[] = [
  {
    statement: /^select "household_id", "role" from "membership" where "person_id" = \?$/,
    why: 'of a person',
  },
  { statement: /^select "\w+" from "household_setup" where "asker" = \?/, why: 'of a person' },
  { statement: /^select "person_id" from "membership" limit \?$/, why: 'whether anybody has an account' },
  {
    statement: /^select .* from "household_token" as "key" .* where "key"."token_hash" = \?/,
    why: 'of a secret',
  },
  {
    statement: /^select \* from "household" where not exists .* and is_open = 1 and/,
    why: 'those that nobody owns, which are seen by whoever sits at the machine',
  },
  {
    statement: /^select \* from "household" where not exists .* limit \?$/,
    why: 'the first one, for commands',
  },
  {
    statement: /^select .* from "household_deletion" as "deletion"/,
    why: 'what was deleted in the last week',
  },
  { statement: /^SELECT id FROM household LIMIT 1$/, why: 'whether the file answers' },
  { statement: /^select "id" from "household" limit \?$/, why: 'as many as a file may hold' },
  {
    statement: /^delete from "(household_token|invitation)" where [^=]*"expires_at" <= \?/,
    why: 'a sweep by time',
  },
  { statement: /^delete from "(idempotency|security_event)" where "\w+" <=? \?$/, why: 'a sweep by time' },
  {
    statement: /^select "seq" from "security_event" where "person_id" is null/,
    why: 'of nobody, swept by number',
  },
  {
    statement: /\(SELECT max\(failed_at\) FROM sign_in_failure\) AS failed/,
    why: 'the newest instant of the file, for its clock',
  },
  { statement: /^WITH RECURSIVE lived/, why: 'the zones the night is in' },
  { statement: /^select "id" from "household" where "time_zone" = \?/, why: 'whose night it is' },
  {
    statement: /from "mail_wish" inner join "household" .* where "mail_wish"."confirmed_at" is not null/,
    why: 'whose letters may be due',
  },
  { statement: /^select "household_id" from "mail_confirmation"$/, why: 'who asks an address' },
  {
    statement: /^(select .* from|delete from|update) "job" (as "other" )?(where|set)/,
    why: 'the queue of all',
  },
];

let both: TwoHouseholds;
let asker: Asker;
const statements = new Set<string>();
let recording = false;
let executed = 0;
beforeAll(async () => {
  const prepare = SQLiteStatements.prototype.prepare;
  vi.spyOn(SQLiteStatements.prototype, 'prepare').mockImplementation(function (
    this: SQLiteStatements,
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

describe('every statement', () => {
  test('finds what it asks for by an index', async () => {
    const forms = await everyFormSent(both, asker);
    const { nightly, mail } = background();
    await nightly.run();
    await mail.run();
    await failedWork(both.db);
    recording = false;
    const scans: string[] = [];
    for (const statement of statements)
      for (const scan of await readFromEndToEnd(statement))
        if (
          !mayScan.some(({ statement: which, only }) => which.test(statement) && (only?.test(scan) ?? true))
        )
          scans.push(`${scan}: ${statement}`);

    expect(forms).toBeGreaterThan(60);
    expect(statements.size).toBeGreaterThan(300);
    expect(scans).toEqual([]);
  });

  test('that may read a table from end to end is one the program asks', () => {
    const asked = [...statements];

    expect(mayScan.filter(({ statement }) => !asked.some((one) => statement.test(one)))).toEqual([]);
  });
});

describe('every table of households', () => {
  test('is bound by its household wherever a statement reads or changes it', async () => {
    const owners = await ownersOf();
    const loose = [...statements].flatMap((statement) =>
      isOfRows(statement) && !mayBeUnbound.some((one) => one.statement.test(statement))
        ? unbound(statement, (table) => owners.get(table) ?? null).map((table) => `${table}: ${statement}`)
        : [],
    );

    expect(owners.size).toBeGreaterThan(60);
    expect(loose).toEqual([]);
  });

  test('is left unbound only in statements that the program asks', () => {
    const asked = [...statements];

    expect(mayBeUnbound.filter(({ statement }) => !asked.some((one) => statement.test(one)))).toEqual([]);
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

/** Each table of households with the column that says whose a row is. */
async function ownersOf(): Promise<ReadonlyMap<string, string>> {
  const { rows } = await sql<{ table: string }>`
    SELECT m.name AS "table" FROM sqlite_master AS m JOIN pragma_table_info(m.name) AS c
    WHERE m.type = 'table' AND c.name = 'household_id'`.execute(both.db);
  return new Map([['household', 'id'], ...rows.map(({ table }) => [table, 'household_id'] as const)]);
}

/** A schema's own questions are none of a household's. */
const isOfRows = (statement: string): boolean =>
  /^\s*(select|insert|update|delete|with)\b/i.test(statement) && !/sqlite_|pragma_/i.test(statement);

/** Tables that a statement goes through from end to end, as SQLite plans it. */
async function readFromEndToEnd(statement: string): Promise<readonly string[]> {
  if (!isOfRows(statement)) return [];
  const places = statement.replaceAll(/'[^']*'|"[^"]*"/g, '').split('?').length - 1;
  const { rows } = await both.db.executeQuery<{ readonly detail: string }>(
    CompiledQuery.raw(`EXPLAIN QUERY PLAN ${statement}`, Array<null>(places).fill(null)),
  );
  return rows.flatMap(({ detail }) => (isOfMost(detail) ? [detail] : []));
}

describe('a table of households', () => {
  const ownedBy = (table: string) =>
    table === 'household' ? 'id' : table.startsWith('own') ? 'household_id' : null;

  test.each([
    ['select "a" from "own_jar" where "household_id" = ?'],
    ['select * from "household" where "id" = ?'],
    [
      'select * from "own_jar" as "jar" inner join "own_lot" on "own_lot"."household_id" = "jar"."household_id" where "jar"."household_id" = ?',
    ],
    [
      'select * from "person" inner join "own_jar" on "own_jar"."taken_by" = "person"."id" and "own_jar"."household_id" = ?',
    ],
    [
      'delete from "own_jar" where "household_id" = ? and "id" in (select "id" from "own_lot" where "household_id" = ?)',
    ],
    ['update "own_jar" set "a" = ? where "household_id" = ?'],
    [
      'select * from "own_lot" where "own_lot"."household_id" = ? and not exists (select "seq" from "own_jar" as "came" where "came"."household_id" = "own_lot"."household_id")',
    ],
    [
      'insert into "own_jar" ("household_id", "seq") values (?, (SELECT max(seq) FROM "own_jar" WHERE household_id = ?))',
    ],
    [
      'select "a" from "own_jar" where "household_id" = ? union select "a" from "own_lot" where "household_id" = ?',
    ],
    ['select "a" from "person"'],
  ])('is bound in %s', (statement) => {
    expect(unbound(statement, ownedBy)).toEqual([]);
  });

  test.each([
    ['select "a" from "own_jar" where "id" = ?', ['own_jar']],
    ['select * from "household" where "name" = ?', ['household']],
    [
      'select * from "own_jar" as "jar" left join "own_jar" as "undone" on "undone"."reverses" = "jar"."seq" where "jar"."household_id" = ?',
      ['own_jar as undone'],
    ],
    ['select * from "own_jar", "own_lot" where "own_jar"."household_id" = ?', ['own_lot']],
    ['delete from "own_jar" where "household_id" = ? and "id" in (select "id" from "own_lot")', ['own_lot']],
    ['update "own_jar" set "household_id" = "id" where "a" = ?', ['own_jar']],
    [
      'select * from "own_lot" where "own_lot"."household_id" = ? and not exists (select "seq" from "own_jar" as "came" where "came"."lot_id" = "own_lot"."id")',
      ['own_jar as came'],
    ],
    ['insert into "own_jar" ("household_id", "seq") values (?, (SELECT max(seq) FROM own_jar))', ['own_jar']],
    ['select "a" from "own_jar" where "household_id" = ? union select "a" from "own_lot"', ['own_lot']],
    ['select * from "own_jar" where "household_id" in (select "household_id" from "person")', ['own_jar']],
  ])('is not bound in %s', (statement, loose) => {
    expect(unbound(statement, ownedBy)).toEqual(loose);
  });
});
