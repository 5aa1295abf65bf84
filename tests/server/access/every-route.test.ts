import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { congruential32 } from 'pure-rand/generator/congruential32';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { may, type Need, type Role, roles } from '../../../server/access/roles.ts';
import { needOf } from '../../../server/access/route-needs.ts';
import { beginSignIn } from '../../../server/access/sign-ins.ts';
import { buildApp } from '../../../server/app.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { routes } from '../../../server/routes/index.ts';
import { type Cast, plumJam, quinceYard, quinceYardHousehold, shelve } from '../../builders/quince-yard.ts';

// Quince Yard has an owner, and beside it stands Medlar Lane with members of every role and nothing in it: whoever belongs
// to Medlar Lane asks for Quince Yard's items, lots, recipes and sources.

interface Known {
  readonly method: 'GET' | 'POST';
  readonly url: string;
  readonly needs: Need | null;
}

const now = Date.UTC(2026, 7, 17, 18);
const known: Known[] = [];
let cast: Cast;
let app: Awaited<ReturnType<typeof buildApp>>;
const tokenOf = new Map<string, string>();

beforeAll(async () => {
  cast = await quinceYardHousehold();
  const { db } = cast;
  await shelve(db, {
    id: 'first-lot',
    itemId: plumJam,
    units: 5,
    madeOn: '2026-08-01',
    bestQualityUntil: '2027-08-01',
  });
  await db
    .insertInto('household')
    .values({ id: 'medlar-lane', name: 'Medlar Lane', time_zone: 'UTC', created_at: 1, altitude_ft: 100 })
    .execute();
  const people = [
    ['quince-owner', quinceYard, 'owner'],
    ...roles.map((role) => [`medlar-${role}`, 'medlar-lane', role] as const),
  ] as const;
  for (const [id, household_id, role] of people) {
    await db.insertInto('person').values({ id, name: id, passphrase_hash: 'none', created_at: 0 }).execute();
    await db.insertInto('membership').values({ household_id, person_id: id, role, since_at: 0 }).execute();
    tokenOf.set(id, await beginSignIn(db, id, now, undefined));
  }
  app = await buildApp({
    db,
    reference: loadReferenceTables(),
    now: () => now,
    requestsPerMinute: 1_000_000,
  });
  for (const route of routes) {
    await buildAppOf(route);
  }
});
afterAll(async () => {
  await app.close();
  await cast.db.destroy();
});

/** Reads which routes a file adds, without serving them. */
async function buildAppOf(route: (typeof routes)[number]): Promise<void> {
  const add = (method: 'GET' | 'POST') => (url: string) => {
    known.push({ method, url, needs: needOf(method, url) });
  };
  const listener = {
    ...app,
    db: cast.db,
    get: add('GET'),
    post: add('POST'),
    register: async () => undefined,
  };
  await route(listener as unknown as typeof app, {});
}

const ask = async (
  who: string,
  { method, url }: Pick<Known, 'method' | 'url'>,
  body: Record<string, string> = {},
) => {
  const cookies = { 'sign-in': tokenOf.get(who) ?? '' };
  if (method === 'GET') return app.inject({ method, url, cookies });
  const page = await app.inject({ url: '/sign-in', cookies });
  const csrf = /name="_csrf" value="([^"]+)"/.exec(page.body)?.[1] ?? '';
  const form = page.cookies.find(({ name }) => name === 'form')?.value ?? '';
  return app.inject({
    method,
    url,
    cookies: { ...cookies, form },
    headers: { 'content-type': 'application/x-www-form-urlencoded' },
    payload: new URLSearchParams({ _csrf: csrf, key: 'one-key-for-all', ...body }).toString(),
  });
};

const theirs: Readonly<Record<string, string>> = {
  item: 'plum-jam',
  lot: 'first-lot',
  source: 'plum-tree',
  recipe: 'plum-jam-batch',
  canner: 'kettle',
  year: '2026',
  week: '2026-W34',
  day: '2026-08-22',
  person: 'quince-owner',
  household: 'quince-yard',
};

const filled = (url: string, ids: Readonly<Record<string, string>>): string =>
  url.replaceAll(/:(\w+)/g, (_, name: string) => ids[name] ?? '1');
const unknown = Object.fromEntries(
  Object.entries(theirs).map(([name, id]) => [
    name,
    ['year', 'week', 'day'].includes(name) ? id : 'nobody-has-this',
  ]),
);
/** What an id in the address, the time and the keys of forms leave in an answer. */
const plain = (text: string): string =>
  text.replaceAll(/(name="(?:_csrf|key)" value=")[^"]*/g, '$1').replaceAll(
    new RegExp(
      Object.keys(theirs)
        .flatMap((name) => [theirs[name], unknown[name]])
        .filter((id) => !/^2026/.test(id ?? ''))
        .join('|'),
      'g',
    ),
    'ID',
  );

test('every route says what it needs', () => {
  expect(known.length).toBeGreaterThan(80);
  expect(known.filter(({ needs }) => needs === null).map(({ method, url }) => `${method} ${url}`)).toEqual(
    [],
  );
});

test('another household’s ids are answered like ids nobody has, on every route', async () => {
  const before = JSON.stringify(
    await cast.db.selectFrom('household').select('facts_version').where('id', '=', quinceYard).execute(),
  );
  const told: string[] = [];
  let asked = 0;
  for (const route of known.filter(({ url }) => /:(?!token|number|load|id|conflict|material)/.test(url))) {
    const theirAnswer = await ask('medlar-owner', { ...route, url: filled(route.url, theirs) });
    const noAnswer = await ask('medlar-owner', { ...route, url: filled(route.url, unknown) });
    asked += 1;
    if (theirAnswer.statusCode !== noAnswer.statusCode || plain(theirAnswer.body) !== plain(noAnswer.body))
      told.push(`${route.method} ${route.url}: ${theirAnswer.statusCode} and ${noAnswer.statusCode}`);
    if (/Quince Yard|Plum jam|Plum tree/.test(theirAnswer.body))
      told.push(`${route.method} ${route.url} shows what is theirs`);
  }

  expect((await ask('quince-owner', { method: 'GET', url: '/shelf/plum-jam' })).body).toContain('Plum jam');
  expect(told).toEqual([]);
  expect(asked).toBeGreaterThan(30);
  expect(
    JSON.stringify(
      await cast.db.selectFrom('household').select('facts_version').where('id', '=', quinceYard).execute(),
    ),
  ).toBe(before);
}, 240_000);

test('every route is refused to roles that may not, and to nobody else for that reason', async () => {
  const wrong: string[] = [];
  for (const route of known.filter(
    ({ needs, method }) => method === 'POST' && needs !== 'anyone' && needs !== 'person',
  )) {
    for (const role of roles satisfies readonly Role[]) {
      const { statusCode } = await ask(`medlar-${role}`, { ...route, url: filled(route.url, unknown) });
      const refused = statusCode === 403;
      if (refused === may(role, route.needs ?? 'own'))
        wrong.push(`${role}: POST ${route.url} is ${statusCode}`);
    }
  }

  expect(wrong).toEqual([]);
}, 240_000);

test('without signing in, every route of a closed household leads to the sign-in', async () => {
  const shown: string[] = [];
  for (const route of known.filter(({ needs }) => needs !== 'anyone' && needs !== 'person')) {
    const answer = await ask('nobody', { ...route, url: filled(route.url, theirs) });
    if (answer.statusCode !== 303 || answer.headers.location !== '/sign-in')
      shown.push(`${route.method} ${route.url}: ${answer.statusCode}`);
  }

  expect(shown).toEqual([]);
}, 120_000);

const seed = 20_261_125;
const requests = Number(process.env.FUZZ_REQUESTS ?? 300);
const oddTexts = [
  '',
  ' ',
  '0',
  '-1',
  '1e999',
  'NaN',
  '2026-02-30',
  '\u0000',
  '💥'.repeat(40),
  '../../etc/passwd',
  '%',
  '<script>1</script>',
  "' OR 1=1 --",
  'a'.repeat(5_000),
  '__proto__',
  'constructor',
  '9007199254740993',
  '2026-W99',
  '١٢',
  '-0',
];
const fields = [
  'units',
  'outcome',
  'day',
  'date',
  'lotId',
  'name',
  'amount',
  'per',
  'recipeId',
  'dayInWeek',
  'altitude',
  'unit',
  'price',
  'jarKind',
  'kind',
  'fromOn',
  'lastOn',
  'minutes',
  'role',
  'passphrase',
  'balance',
  'weekly',
  'sure',
  'columns',
  'takes',
  'answers',
  '__proto__',
  'said',
];

test(`${requests} mutated requests over all routes (seed ${seed}) never break the program`, async () => {
  const random = congruential32(seed);
  const pick = <T>(list: readonly T[]): T => list[uniformInt(random, 0, list.length - 1)] as T;
  const broken: string[] = [];
  for (let at = 0; at < requests; at += 1) {
    const route = pick(known);
    const ids = Object.fromEntries(
      Object.entries(theirs).map(([name, id]) => [
        name,
        uniformInt(random, 0, 3) === 0 ? encodeURIComponent(pick(oddTexts)).slice(0, 400) : id,
      ]),
    );
    const body: Record<string, string> = {};
    for (let field = uniformInt(random, 0, 8); field > 0; field -= 1)
      body[pick(fields)] = pick([
        ...oddTexts,
        '1',
        '2',
        'taken',
        'week',
        'today',
        '2026-08-17',
        'plum-jam',
        'half-pint/regular',
      ]);
    body.key = `mutated-request-${at}`;
    const query =
      uniformInt(random, 0, 4) === 0
        ? `?${pick(fields)}=${encodeURIComponent(pick(oddTexts).slice(0, 400))}`
        : '';
    const url = `${filled(route.url, ids)}${route.method === 'GET' ? query : ''}`;
    const { statusCode, body: said } = await ask('quince-owner', { ...route, url }, body);
    if (statusCode >= 500 || /node_modules|SQLITE|\.ts:\d/.test(said))
      broken.push(`${statusCode} ${route.method} ${url.slice(0, 120)} ${JSON.stringify(body).slice(0, 200)}`);
    if (
      route.url.startsWith('/sign-out') ||
      route.url.includes('passphrase') ||
      route.url.startsWith('/invitations') ||
      route.url.startsWith('/sign-in')
    )
      tokenOf.set('quince-owner', await beginSignIn(cast.db, 'quince-owner', now, undefined));
  }

  expect(broken).toEqual([]);
  const negative = await cast.db
    .selectFrom('jar_event')
    .select((row) => row.fn.sum<number>('units').as('left'))
    .groupBy('lot_id')
    .execute();
  expect(negative.every(({ left }) => left >= 0)).toBe(true);
}, 600_000);

test('values that are no text, where text is expected, are read as empty', async () => {
  const cookies = { 'sign-in': tokenOf.get('quince-owner') ?? '' };
  const page = await app.inject({ url: '/sign-in', cookies });
  const _csrf = /name="_csrf" value="([^"]+)"/.exec(page.body)?.[1] ?? '';
  const form = page.cookies.find(({ name }) => name === 'form')?.value ?? '';

  for (const odd of [{ toString: 1 }, [[]], [null], { length: 3 }]) {
    const answer = await app.inject({
      method: 'POST',
      url: '/kitchen/household',
      cookies: { ...cookies, form },
      payload: { _csrf, key: 'no-text-where-text', name: odd, people: odd, units: odd },
    });
    expect(answer.statusCode, JSON.stringify(odd)).toBe(422);
  }
});
