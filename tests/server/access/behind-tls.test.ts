import type { FastifyInstance } from 'fastify';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { buildApp } from '../../../server/app.ts';
import { type Database, openDatabase } from '../../../server/database/database.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { furnish, member, memberPassphrase } from '../../builders/furnished-household.ts';
import { medlarLane, noon, quinceYard } from '../../builders/two-households.ts';
import { formOf } from '../../builders/visitor.ts';

// Served to others as https://pantry.example: a proxy on this machine speaks TLS and passes requests on with the name that was
// asked for, `X-Forwarded-Proto`, and `X-Forwarded-For`, to which it adds the address it was asked from.

let db: Database;
let app: FastifyInstance;
beforeEach(async () => {
  db = await openDatabase(':memory:');
  await furnish(db, medlarLane, 'medlar', '2026-12-14');
  await furnish(db, quinceYard, 'quince', '2026-12-07');
  await member(db, medlarLane, { id: 'Ida', role: 'owner' }, noon);
  app = await buildApp({
    db,
    reference: loadReferenceTables(),
    now: () => noon,
    publicAddress: 'https://pantry.example',
  });
});
afterEach(async () => {
  await app.close();
  await db.destroy();
});

const throughProxy = {
  host: 'pantry.example',
  'x-forwarded-proto': 'https',
  'x-forwarded-for': '203.0.113.7',
};

const signInFrom = async (forwardedFor: string, passphrase = memberPassphrase) => {
  const headers = { ...throughProxy, 'x-forwarded-for': forwardedFor };
  const page = await app.inject({ url: '/sign-in', headers });
  const form = page.cookies.find(({ name }) => name === '__Host-form');
  const answer = await app.inject({
    method: 'POST',
    url: '/sign-in',
    headers: { ...headers, 'content-type': 'application/x-www-form-urlencoded' },
    cookies: { '__Host-form': form?.value ?? '' },
    payload: new URLSearchParams({
      ...formOf(page.body, '/sign-in').values,
      name: 'Ida',
      passphrase,
    }).toString(),
  });
  return { page, answer };
};

describe('behind TLS', () => {
  // OWASP ASVS 5.0.0, V3.3.1 and V3.3.3: Secure, and the name begins with __Host-.
  test('every cookie is Secure, HttpOnly, for every path and this host only, and says so in its name', async () => {
    const { page, answer } = await signInFrom('203.0.113.7');
    const cookies = [...page.cookies, ...answer.cookies];

    expect(answer.statusCode).toBe(303);
    expect(cookies.map(({ name }) => name).toSorted()).toEqual(['__Host-form', '__Host-sign-in']);
    for (const cookie of cookies) {
      expect(cookie).toMatchObject({ secure: true, httpOnly: true, path: '/' });
      expect(cookie).not.toHaveProperty('domain');
      expect(['Lax', 'Strict']).toContain(cookie.sameSite);
    }
  });

  test('a sign-in under the plain name counts for nothing', async () => {
    const token = await member(db, quinceYard, { id: 'Odo', role: 'owner' }, noon);
    const ask = (name: string) =>
      app.inject({ url: '/shelf', headers: throughProxy, cookies: { [name]: token } });

    expect((await ask('sign-in')).headers.location).toBe('/sign-in');
    expect((await ask('__Host-sign-in')).statusCode).toBe(200);
  });

  // OWASP ASVS 5.0.0, V3.4.1: a year at least, subdomains too.
  test('browsers are told to stay with TLS for a year', async () => {
    const { headers } = await app.inject({ url: '/sign-in', headers: throughProxy });

    expect(headers['strict-transport-security']).toBe('max-age=31536000; includeSubDomains');
  });

  test('a household without an owner is not shown, nor is the demo offered', async () => {
    const page = await app.inject({ url: '/sign-in', headers: throughProxy });
    await db.deleteFrom('membership').where('household_id', '=', quinceYard).execute();

    expect(page.body).not.toContain('/start/demo');
    expect((await app.inject({ url: '/shelf', headers: throughProxy })).headers.location).toBe('/sign-in');
  });

  test('other names than the public one are not answered to', async () => {
    const other = await app.inject({
      url: '/sign-in',
      headers: { ...throughProxy, host: 'attacker.example' },
    });

    expect(other.statusCode).toBe(421);
  });

  // V4.1.3 and V15.3.4: what a browser claims to be forwarded for stands left of what the proxy knows.
  test('the address that counts is the one the proxy was asked from, whatever the browser claims', async () => {
    await signInFrom('198.51.100.1, 203.0.113.7', 'not the passphrase');

    const [failed] = await db.selectFrom('security_event').selectAll().execute();
    expect(failed).toMatchObject({ kind: 'sign-in-failed', address: '203.0.113.7' });
  });

  test('an invitation leads to the public address', async () => {
    const token = await member(db, quinceYard, { id: 'Odo', role: 'owner' }, noon);
    const cookies = { '__Host-sign-in': token };
    const page = await app.inject({ url: '/people', headers: throughProxy, cookies });
    const form = page.cookies.find(({ name }) => name === '__Host-form')?.value ?? '';
    const answer = await app.inject({
      method: 'POST',
      url: '/people/invitations',
      headers: { ...throughProxy, 'content-type': 'application/x-www-form-urlencoded' },
      cookies: { ...cookies, '__Host-form': form },
      payload: new URLSearchParams(formOf(page.body, '/people/invitations').values).toString(),
    });

    expect(answer.body).toMatch(/<code>https:\/\/pantry\.example\/invitations#[\w-]{43}<\/code>/);
  });
});

test('on this machine alone nothing is promised about TLS, and nobody is believed about where they come from', async () => {
  const alone = await buildApp({ db, reference: loadReferenceTables(), now: () => noon });
  const page = await alone.inject({ url: '/sign-in', headers: { 'x-forwarded-for': '203.0.113.7' } });
  await alone.close();

  expect(page.headers['strict-transport-security']).toBeUndefined();
  expect(page.cookies).toEqual([expect.objectContaining({ name: 'form', httpOnly: true })]);
});
