import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { plannedQuinceYard } from '../../builders/planned-quince-yard.ts';
import { quinceYard } from '../../builders/quince-yard.ts';
import type { QuinceYardPages } from '../../builders/quince-yard-pages.ts';
import { Thing } from '../../builders/thing.ts';

// A client that an independent generator makes of the description alone, checked for types and then let loose on the server.

const root = resolve(import.meta.dirname, '../../..');
const run = promisify(execFile);

/** What somebody would write with the client; the lines marked as mistakes have to be mistakes for the compiler. */
const walk = `
import { defaults, readEatFirst, readItem, readNotices, readShelf, readWeek, take, undoTake } from './client.ts';

const [address, full, reading] = process.argv.slice(2);
const as = (token: string | undefined) => {
  defaults.baseUrl = address + '/api/v1';
  defaults.headers = token === undefined ? {} : { authorization: 'Bearer ' + token };
};
as(full);
const before = await readShelf({});
if (before.status !== 200) throw new Error('the shelf is not read');
const jam = before.data.items.find(({ name }) => name === 'Plum jam');
if (jam === undefined) throw new Error('no plum jam');
const left: number = jam.unitsLeft;
// @ts-expect-error an item has no such field
void jam.password;
const write = { idempotencyKey: 'once-for-the-walk', takeSent: { item: jam.id, units: 1, who: 'Ida' } };
const taken = await take(write);
if (taken.status !== 201) throw new Error('not taken');
const again = await take(write);
const key = { idempotencyKey: 'another-of-the-walk' };
// @ts-expect-error what became of it is one of a list
const unfit = await take({ ...key, takeSent: { item: jam.id, outcome: 'sold' } });
const item = await readItem({ item: jam.id });
const undone = await undoTake({ take: taken.data.take ?? '', idempotencyKey: 'back-again' });
const rest = [await readEatFirst({}), await readWeek({}), await readNotices({})];
as(reading);
const looked = await readShelf({});
const refused = await take({ idempotencyKey: 'not-for-this-one', takeSent: { item: jam.id } });
const notBack = await undoTake({ take: taken.data.take ?? '', idempotencyKey: 'not-back-again' });
as(undefined);
const nobody = await readShelf({});
console.log(JSON.stringify({
  left,
  taken: { left: taken.data.unitsLeft, same: again.status === 201 && again.data.take === taken.data.take },
  item: item.status === 200 ? item.data.unitsLeft : item.status,
  undone: undone.status === 200 ? undone.data.unitsLeft : undone.status,
  unfit: [unfit.status, unfit.status === 422 ? unfit.data.errors : null],
  rest: rest.map(({ status }) => status),
  looked: looked.status,
  refused: [refused.status, refused.status === 403 ? refused.data.code : null],
  notBack: notBack.status,
  nobody: [nobody.status, nobody.status === 401 ? nobody.data.code : null],
}));
`;

let pages: QuinceYardPages;
let folder: string;
beforeAll(async () => {
  pages = await plannedQuinceYard();
  folder = mkdtempSync(join(tmpdir(), 'client-'));
  symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'));
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }');
  writeFileSync(join(folder, 'walk.ts'), walk);
  const description = await pages.app.inject({ url: '/api/v1/openapi.json' });
  writeFileSync(join(folder, 'openapi.json'), description.body);
  await run(
    process.execPath,
    [join(root, 'node_modules/oazapfts/dist/cli.js'), 'openapi.json', 'client.ts', '--argumentStyle=object'],
    { cwd: folder },
  );
});
afterAll(async () => {
  await pages.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('a client generated from the description', () => {
  test('fits its types, and what the description does not know is a mistake in it', async () => {
    const options = { strict: true, noEmit: true, skipLibCheck: true, allowImportingTsExtensions: true };
    writeFileSync(
      join(folder, 'tsconfig.json'),
      JSON.stringify({
        compilerOptions: { ...options, target: 'esnext', module: 'nodenext', types: ['node'] },
        include: ['walk.ts'],
      }),
    );
    const checked = await run(join(root, 'node_modules/.bin/tsc'), ['-p', 'tsconfig.json'], {
      cwd: folder,
    }).then(
      () => '',
      (failed: { readonly stdout: string }) => failed.stdout,
    );

    expect(checked).toBe('');
  });

  test('takes a jar once however often it is sent, reads the shelf, undoes, and is refused what its token lacks', async () => {
    const { app, db } = pages;
    const address = await app.listen({ port: 0, host: '127.0.0.1' });
    const full = await Thing.of(app, db, quinceYard, { name: 'Kitchen tablet' });
    const reading = await Thing.of(app, db, quinceYard, { name: 'Hall clock', may: 'read' });
    const { stdout } = await run(
      process.execPath,
      ['--import', 'tsx', 'walk.ts', address, full.token, reading.token],
      { cwd: folder },
    );
    const told = JSON.parse(stdout) as Readonly<Record<string, unknown>> & { readonly left: number };

    expect(told).toEqual({
      left: told.left,
      taken: { left: told.left - 1, same: true },
      item: told.left - 1,
      undone: told.left,
      unfit: [422, [{ field: 'outcome', detail: expect.stringContaining('“sold”'.slice(1, 5)) }]],
      rest: [200, 200, 200],
      looked: 200,
      refused: [403, 'scope-missing'],
      notBack: 403,
      nobody: [401, 'token-missing'],
    });
    expect(told.left).toBeGreaterThan(0);
    const who = await db
      .selectFrom('jar_event')
      .select(['recorded_by', 'units'])
      .where('kind', '=', 'taken')
      .execute();
    expect(who).toEqual([{ recorded_by: 'Ida (Kitchen tablet)', units: -1 }]);
  });
});
