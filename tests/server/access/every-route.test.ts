import { afterAll, beforeAll, expect, test } from 'vitest';
import { isThingNeed, may, type Need, roles } from '../../../server/access/roles.ts';
import { needOf } from '../../../server/access/route-needs.ts';
import { beginSignIn } from '../../../server/access/sign-ins.ts';
import type { ServedRoute } from '../../../server/plugins/app/household.ts';
import { Asker } from '../../builders/asker.ts';
import { filled, type TwoHouseholds, twoHouseholds } from '../../builders/two-households.ts';

// Every route the server has, as the server itself lists them; a new one is here by being added.

let both: TwoHouseholds;
let asker: Asker;
let routes: readonly (ServedRoute & { readonly method: 'GET' | 'POST' })[];
beforeAll(async () => {
  both = await twoHouseholds();
  asker = new Asker(both.app, (who) => both.tokenOf.get(who) ?? '');
  routes = both.app.servedRoutes.flatMap((route) =>
    route.method === 'GET' || route.method === 'POST' ? [{ ...route, method: route.method }] : [],
  );
});
afterAll(() => both.close());

const isOfNoRole = (needs: Need | null): boolean =>
  needs === 'anyone' || needs === 'person' || isThingNeed(needs);
const nobodys = (kind: string): string =>
  ['year', 'week', 'day'].includes(kind) ? (both.medlar[kind] ?? '') : 'nobody-has-this';

test('every route says what it needs, and there is no other method than looking and posting', () => {
  const mute = both.app.servedRoutes.filter(({ needs }) => needs === null);
  const methods = new Set(both.app.servedRoutes.map(({ method }) => method));

  expect(routes.length).toBeGreaterThan(100);
  expect(mute.map(({ method, url }) => `${method} ${url}`)).toEqual([]);
  expect([...methods].toSorted()).toEqual(['GET', 'HEAD', 'POST']);
});

test('a route nobody spoke of would be the owner’s alone', () => {
  expect(needOf('POST', '/something-new')).toBeNull();
  expect(needOf('DELETE', '/shelf/plum-jam')).toBeNull();
});

test('every route that changes something is refused to roles that may not, and to nobody else for that reason', async () => {
  const wrong: string[] = [];
  let asked = 0;
  for (const route of routes) {
    const { needs } = route;
    if (route.method !== 'POST' || isOfNoRole(needs)) continue;
    for (const role of roles) {
      const { statusCode } = await asker.ask(`medlar-${role}`, { ...route, url: filled(route.url, nobodys) });
      asked += 1;
      if ((statusCode === 403) === may(role, needs ?? 'own'))
        wrong.push(`${role}: POST ${route.url} is ${statusCode}`);
    }
  }

  expect(wrong).toEqual([]);
  expect(asked).toBeGreaterThan(300);
});

test('every page is shown to the roles that may look, and refused to the others', async () => {
  const wrong: string[] = [];
  for (const route of routes) {
    const { needs } = route;
    if (route.method !== 'GET' || isOfNoRole(needs)) continue;
    const url = filled(route.url, (kind) => both.medlar[kind] ?? '1');
    for (const role of roles) {
      const { statusCode } = await asker.ask(`medlar-${role}`, { ...route, url });
      if ((statusCode === 403) === may(role, needs ?? 'own'))
        wrong.push(`${role}: GET ${route.url} is ${statusCode}`);
    }
  }

  expect(wrong).toEqual([]);
});

test('without signing in, every route of a closed household leads to the sign-in', async () => {
  const shown: string[] = [];
  for (const route of routes) {
    if (isOfNoRole(route.needs)) continue;
    const url = filled(route.url, (kind) => both.quince[kind] ?? '1');
    const answer = await asker.ask('nobody', { ...route, url });
    if (answer.statusCode !== 303 || answer.headers.location !== '/sign-in')
      shown.push(`${route.method} ${route.url}: ${answer.statusCode}`);
  }

  expect(shown).toEqual([]);
});

test('no sign-in of any role opens a route of connected things, and a page is opened by no access token', async () => {
  const wrong: string[] = [];
  let ofThings = 0;
  for (const route of routes) {
    const url = filled(route.url, (kind) => both.medlar[kind] ?? '1');
    if (isThingNeed(route.needs)) {
      ofThings += 1;
      for (const who of ['nobody', ...roles.map((role) => `medlar-${role}`)]) {
        const { statusCode, headers } = await asker.ask(who, { ...route, url });
        if (statusCode !== 401 || !String(headers['www-authenticate']).startsWith('Bearer'))
          wrong.push(`${who}: ${route.method} ${route.url} is ${statusCode}`);
      }
    } else if (!isOfNoRole(route.needs)) {
      const { statusCode, headers } = await both.app.inject({
        method: route.method,
        url,
        headers: { authorization: `Bearer ${both.medlar.accessToken}` },
      });
      if (statusCode !== 303 || headers.location !== '/sign-in')
        wrong.push(`with an access token: ${route.method} ${route.url} is ${statusCode}`);
    }
  }

  expect(wrong).toEqual([]);
  expect(ofThings).toBe(7);
});

test('somebody who belongs to no household is answered on every route, and no promise is left alone', async () => {
  const { db, app } = both;
  await db
    .insertInto('person')
    .values({
      id: 'wanderer',
      name: 'wanderer',
      name_key: 'wanderer',
      passphrase_hash: 'none',
      created_at: 0,
    })
    .execute();
  const token = await beginSignIn(db, 'wanderer', app.now());
  const alone = new Asker(app, () => token);
  const left: string[] = [];
  let asking = '';
  const note = (reason: unknown) => void left.push(`${asking}: ${String(reason)}`);
  process.on('unhandledRejection', note);
  const broken: string[] = [];
  for (const route of routes) {
    if (route.url === '/sign-out' || route.url.startsWith('/start')) continue;
    asking = `${route.method} ${route.url}`;
    const { statusCode } = await alone.ask('wanderer', { ...route, url: filled(route.url, nobodys) });
    await new Promise(setImmediate);
    if (statusCode >= 500) broken.push(`${asking} is ${statusCode}`);
  }
  process.off('unhandledRejection', note);

  expect(left).toEqual([]);
  expect(broken).toEqual([]);
});

test('the only routes open to anyone are the way in and what every browser needs', () => {
  const open = routes.filter(({ needs }) => needs === 'anyone').map(({ method, url }) => `${method} ${url}`);

  expect(open.toSorted()).toEqual([
    'GET /api/v1/openapi.json',
    'GET /assets/:name',
    'GET /calendar/:token.ics',
    'GET /favicon.ico',
    'GET /health',
    'GET /invitations',
    'GET /invitations/:secret',
    'GET /mail-address',
    'GET /mail-address/:secret',
    'GET /manifest.webmanifest',
    'GET /offline.js',
    'GET /passphrase',
    'GET /passphrase/:secret',
    'GET /ready',
    'GET /robots.txt',
    'GET /service-worker.js',
    'GET /sign-in',
    'GET /sign-in/code',
    'POST /invitations',
    'POST /invitations/acceptance',
    'POST /mail-address',
    'POST /mail-address/confirmation',
    'POST /passphrase',
    'POST /passphrase/renewal',
    'POST /sign-in',
    'POST /sign-in/code',
    'POST /sign-out',
  ]);
});
