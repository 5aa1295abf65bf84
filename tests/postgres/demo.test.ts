import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildApp } from '../../server/app.ts';
import type { Database } from '../../server/database/database.ts';
import { makeDemoHousehold } from '../../server/demo/make-demo.ts';
import { householdText, restoreHousehold } from '../../server/files/household-file.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { asDate } from '../../shared/week.ts';
import { pagesOfDemo } from '../browser/pages-of-demo.ts';
import { worked } from '../builders/outcomes.ts';
import { Visitor } from '../builders/visitor.ts';
import { openDatabase, openInMemory } from './database.ts';

// The demo household in a file and on the server: the same rows, the same household file, the same pages, and the same after
// a jar was taken and put back.

const reference = loadReferenceTables();
const at = Date.UTC(2026, 7, 12, 16);

interface Side {
  readonly db: Database;
  readonly visitor: Visitor;
  close(): Promise<void>;
}

async function demoIn(db: Database): Promise<Side> {
  await makeDemoHousehold(db, asDate('2026-08-12'));
  let ticks = 0;
  const app = await buildApp({
    db,
    reference,
    now: () => {
      ticks += 1;
      return at + ticks;
    },
  });
  await app.ready();
  return {
    db,
    visitor: new Visitor(app),
    close: async () => {
      await app.close();
      await db.destroy();
    },
  };
}

/** Without what differs from one asking to the next: keys and tokens of forms, and ids that chance gives. */
const lasting = (body: string): string =>
  body
    .replaceAll(/[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/g, 'an id')
    .replaceAll(/value="[\w-]{20,}(?:\.[\w-]+)*"/g, 'value="a token"')
    .replaceAll(/nonce="[^"]*"/g, '');

let file: Side;
let server: Side;
beforeAll(async () => {
  file = await demoIn(await openInMemory());
  server = await demoIn(await openDatabase(':memory:'));
});
afterAll(async () => {
  await file.close();
  await server.close();
});

const householdOf = async (db: Database) =>
  (await db.selectFrom('household').select('id').executeTakeFirstOrThrow()).id as Parameters<
    typeof householdText
  >[1];
const textOf = async ({ db }: Side): Promise<string> => householdText(db, await householdOf(db));

describe('the demo household on the server', () => {
  it('is the one in a file, row for row', async () => {
    expect(await textOf(server)).toBe(await textOf(file));
  });

  it.each(pagesOfDemo.map(({ name, path }) => [name, path] as const))(
    'shows the same page: %s',
    async (_, path) => {
      const [here, there] = [await file.visitor.open(path), await server.visitor.open(path)];

      expect(there.status).toBe(here.status);
      expect(lasting(there.body)).toBe(lasting(here.body));
    },
  );

  it('gives a jar and takes it back as in a file', async () => {
    for (const { visitor } of [file, server]) {
      const shelf = await visitor.open('/shelf');
      const form = /action="(\/shelf\/[^"/]+\/takes)"/.exec(shelf.body)?.[1] ?? '';
      await visitor.submit(shelf, { form, fill: { outcome: 'took-one' } });
      expect((await visitor.submitOn('/shelf', { form: '/shelf/reversals' })).status).toBe(303);
    }
    const events = ({ db }: Side) =>
      db
        .selectFrom('jar_event')
        .select(['seq', 'lot_id', 'kind', 'units', 'reverses_seq'])
        .orderBy('seq', 'desc')
        .limit(2)
        .execute();

    expect(await events(server)).toEqual(await events(file));
    expect((await events(server)).map(({ kind }) => kind)).toEqual(['reversed', 'taken']);
  });

  it('is put in its place again from its own file, the ledger that only grows included', async () => {
    const saved = await textOf(server);
    const householdId = await householdOf(server.db);

    worked(
      await restoreHousehold(
        {
          db: server.db,
          householdId,
          key: 'put in its place',
          at: at + 1_000_000,
          today: asDate('2026-08-12'),
        },
        saved,
        { reference },
      ),
    );

    expect(await textOf(server)).toBe(saved);
    await expect(server.db.deleteFrom('jar_event').execute()).rejects.toThrow('append-only');
  });
});
