import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { invite } from '../../../server/access/invitations.ts';
import { offerReset } from '../../../server/access/passphrase-change.ts';
import { buildApp } from '../../../server/app.ts';
import { type Database, openDatabase } from '../../../server/database/database.ts';
import { serverLog } from '../../../server/log.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { furnish, member } from '../../builders/furnished-household.ts';
import { worked } from '../../builders/outcomes.ts';
import { medlarLane, noon } from '../../builders/two-households.ts';
import { linkShown, Visitor, wordsOf } from '../../builders/visitor.ts';

// OWASP ASVS 5.0.0, V14.2.1: what is secret goes in a body or a header, never in an address.

let db: Database;
let app: Awaited<ReturnType<typeof buildApp>>;
let owner: Visitor;
/** Every address that was asked for, and every line the server wrote. */
const asked: string[] = [];
const written: string[] = [];
beforeAll(async () => {
  db = await openDatabase(':memory:');
  await furnish(db, medlarLane, 'medlar', '2026-12-14');
  const token = await member(db, medlarLane, { id: 'Ida', role: 'owner' }, noon);
  app = await buildApp({
    db,
    reference: loadReferenceTables(),
    now: () => noon,
    logger: {
      ...(serverLog as object),
      level: 'trace',
      stream: { write: (line: string) => void written.push(line) },
    },
  });
  app.addHook('onRequest', async (request) => void asked.push(request.url));
  owner = new Visitor(app, { 'sign-in': token });
});
afterAll(async () => {
  await app.close();
  await db.destroy();
});

/** A link of each kind, and the name of the page behind it. */
const kinds = {
  invitation: async () => linkShown(await owner.submitOn('/people', { form: '/people/invitations' })),
  passphrase: async () => {
    const { token } = worked(await offerReset(db, { name: 'Ida', withoutFactor: false }, noon));
    return `http://localhost/passphrase#${token}`;
  },
};

describe.each(Object.entries(kinds))('a link of the kind %s', (_, make) => {
  test('carries its secret where no server, log or referrer sees it, and opens without script too', async () => {
    const link = await make();
    const secret = new URL(link).hash.slice(1);
    asked.length = 0;
    written.length = 0;

    const page = await new Visitor(app).openLink(link);

    expect(secret).toMatch(/^[\w-]{43}$/);
    expect(page.status).toBe(200);
    expect(page.body).toContain(`<input type="hidden" name="link" value="${secret}"`);
    expect(asked.length).toBeGreaterThan(1);
    expect(asked.filter((url) => url.includes(secret))).toEqual([]);
    expect(written.length).toBeGreaterThan(1);
    expect(written.filter((line) => line.includes(secret))).toEqual([]);
  });

  test('may be pasted as a whole or from behind # on; something else is told that it opens nothing', async () => {
    const link = await make();
    const { pathname, hash } = new URL(link);
    const paste = (text: string) =>
      new Visitor(app).submitOn(pathname, { form: pathname, fill: { link: text } });

    expect((await paste(hash.slice(1))).status).toBe(200);
    expect((await paste(` ${link} `)).status).toBe(200);
    expect((await paste('')).status).toBe(422);
    const nothing = await paste('nothing like a link');
    expect(nothing.status).toBe(404);
    expect(wordsOf(nothing.body)).toContain('This link was used, has expired or never was.');
  });

  test('of before, with its secret in the path, leads to where it works now', async () => {
    const { pathname, hash } = new URL(await make());

    const answer = await new Visitor(app).open(`${pathname}/${hash.slice(1)}`);

    expect(answer).toMatchObject({ status: 303, location: `${pathname}${hash}` });
  });
});

test('no page sends its address to other places, and the pages behind links are kept nowhere', async () => {
  const token = await invite(db, medlarLane, 'reader', noon);
  const page = await app.inject('/invitations');

  expect(page.headers['referrer-policy']).toBe('same-origin');
  expect(page.headers['cache-control']).toBe('no-store');
  expect(page.body).not.toContain(token);
});
