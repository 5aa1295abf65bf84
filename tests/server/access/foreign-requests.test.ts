import type { AddressInfo } from 'node:net';
import { connect } from 'node:net';
import type { FastifyInstance } from 'fastify';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { buildApp } from '../../../server/app.ts';
import { type Database, openDatabase } from '../../../server/database/database.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { furnish, member, memberPassphrase } from '../../builders/furnished-household.ts';
import { medlarLane, noon } from '../../builders/two-households.ts';
import { formOf } from '../../builders/visitor.ts';

// Requests that another page, or another program on the way, made up: forms with a planted cookie, names that are not ours.

const reference = loadReferenceTables();
let db: Database;
let idasToken: string;
let alone: FastifyInstance;
let served: FastifyInstance;
beforeEach(async () => {
  db = await openDatabase(':memory:');
  await furnish(db, medlarLane, 'medlar', '2026-12-14');
  idasToken = await member(db, medlarLane, { id: 'Ida', role: 'owner' }, noon);
  alone = await buildApp({ db, reference, now: () => noon });
  served = await buildApp({ db, reference, now: () => noon, publicAddress: 'https://pantry.example' });
});
afterEach(async () => {
  await alone.close();
  await served.close();
  await db.destroy();
});

const signInAt = async (app: FastifyInstance, host: string, headers: Record<string, string>) => {
  const page = await app.inject({ url: '/sign-in', headers: { host } });
  const form = page.cookies.find(({ name }) => name.endsWith('form'));
  const answer = await app.inject({
    method: 'POST',
    url: '/sign-in',
    headers: { host, 'content-type': 'application/x-www-form-urlencoded', ...headers },
    cookies: { [form?.name ?? '']: form?.value ?? '' },
    payload: new URLSearchParams({
      ...formOf(page.body, '/sign-in').values,
      name: 'Ida',
      passphrase: memberPassphrase,
    }).toString(),
  });
  return answer.statusCode;
};

describe('a form with its token and cookie', () => {
  test.each<[string, Record<string, string>, number]>([
    ['from a page of another port of this machine', { origin: 'http://127.0.0.1:3000' }, 403],
    ['from another name of this machine', { origin: 'http://localhost:8137' }, 403],
    ['from elsewhere', { origin: 'https://attacker.example' }, 403],
    ['from a page that hides where it is', { origin: 'null' }, 403],
    ['from a page of the same site', { 'sec-fetch-site': 'same-site' }, 403],
    ['from a page of another site', { 'sec-fetch-site': 'cross-site' }, 403],
    ['from our own page', { origin: 'http://127.0.0.1:8137', 'sec-fetch-site': 'same-origin' }, 303],
    ['from a program that says nothing', {}, 303],
  ])('%s: %j is answered %i', async (_, headers, status) => {
    expect(await signInAt(alone, '127.0.0.1:8137', headers)).toBe(status);
  });

  test.each<[string, string, number]>([
    ['pantry.example', 'https://pantry.example', 303],
    ['pantry.example', 'http://pantry.example', 403],
    ['pantry.example', 'https://pantry.example:8443', 403],
    ['127.0.0.1:8137', 'http://127.0.0.1:8137', 303],
    ['127.0.0.1:8137', 'http://127.0.0.1:3000', 403],
  ])('served to others: sent to %s from %s is answered %i', async (host, origin, status) => {
    expect(await signInAt(served, host, { origin })).toBe(status);
  });
});

describe('the name asked for', () => {
  const asked = async (headers: Record<string, string>) =>
    (await served.inject({ url: '/sign-in', headers })).statusCode;

  test('may be written large, and with a port', async () => {
    expect(await asked({ host: 'PANTRY.example' })).toBe(200);
    expect(await asked({ host: 'pantry.example:443' })).toBe(200);
  });

  test('is the Host header alone: what a browser says beside it is not read', async () => {
    expect(await asked({ host: 'evil.example', 'x-forwarded-host': 'pantry.example' })).toBe(421);
    expect(await asked({ host: 'pantry.example', 'x-forwarded-host': 'evil.example' })).toBe(200);
  });

  test('is one name: a request with two is refused', async () => {
    await served.listen({ host: '127.0.0.1', port: 0 });
    const { port } = served.server.address() as AddressInfo;
    const answer = await new Promise<string>((resolve, reject) => {
      let text = '';
      const socket = connect(port, '127.0.0.1', () =>
        socket.write(
          'GET /sign-in HTTP/1.1\r\nHost: pantry.example\r\nHost: evil.example\r\nConnection: close\r\n\r\n',
        ),
      );
      socket.on('data', (chunk) => {
        text += chunk.toString();
      });
      socket.on('close', () => resolve(text));
      socket.on('error', reject);
    });

    expect(answer).toMatch(/^HTTP\/1\.1 4(00|21)/);
  });
});

test('every address the pages print begins with the public one, whatever the request says', async () => {
  const headers = {
    host: 'pantry.example',
    'x-forwarded-for': '203.0.113.7',
    'x-forwarded-host': 'localhost:6666',
  };
  const cookies = { '__Host-sign-in': idasToken };
  const get = (url: string) => served.inject({ url, headers, cookies });
  const post = async (url: string, on: string, more: Record<string, string> = {}) => {
    const page = await get(on);
    const form = page.cookies.find(({ name }) => name === '__Host-form')?.value ?? '';
    return served.inject({
      method: 'POST',
      url,
      headers: { ...headers, 'content-type': 'application/x-www-form-urlencoded' },
      cookies: { ...cookies, '__Host-form': form },
      payload: new URLSearchParams({ ...formOf(page.body, url).values, ...more }).toString(),
    });
  };
  await post('/calendar/address', '/calendar');
  const bodies = [
    (await get('/calendar')).body,
    (await get('/labels')).body,
    (await post('/people/invitations', '/people')).body,
  ];
  const feed = await db.selectFrom('calendar_feed').select('token').executeTakeFirstOrThrow();
  bodies.push((await get(`/calendar/${feed.token}.ics`)).body);

  for (const body of bodies) {
    expect(body).toContain('https://pantry.example');
    expect(body).not.toMatch(/http:\/\/pantry|localhost|6666/);
  }
});
