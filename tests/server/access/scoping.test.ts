import { sql } from 'kysely';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { engineOf } from '../../../server/database/engine-of.ts';
import type { ServedRoute } from '../../../server/plugins/app/household.ts';
import { Asker } from '../../builders/asker.ts';
import { filled, namesIn, type TwoHouseholds, twoHouseholds } from '../../builders/two-households.ts';
import { Visitor } from '../../builders/visitor.ts';

// Two households with one of everything each. The owner of Medlar Lane asks for every address that names something: once with
// Quince Yard's id for it and once with an id nobody has, everything else in the address being Medlar Lane's own.

let both: TwoHouseholds;
let asker: Asker;
let naming: readonly (ServedRoute & { readonly method: 'GET' | 'POST' })[];
beforeAll(async () => {
  both = await twoHouseholds();
  asker = new Asker(both.app, (who) => both.tokenOf.get(who) ?? '', both.medlar.accessToken);
  naming = both.app.servedRoutes.flatMap((route) =>
    (route.method === 'GET' || route.method === 'POST') && route.url.includes(':')
      ? [{ ...route, method: route.method }]
      : [],
  );
});
afterAll(() => both.close());

/** Dates belong to nobody; and these addresses are secrets that open what they name for whoever has them. */
const notOwned = new Set(['year', 'week', 'day', 'name', 'token', 'accessToken', 'invitation', 'reset']);

const nobodys = (kind: string): string => ({ number: '999', from: '2026-12-10' })[kind] ?? `nobodys-${kind}`;

/** What the id itself, the time and the keys of forms leave in an answer. */
const plain = (text: string, ids: readonly string[]): string =>
  ids
    .toSorted((one, other) => other.length - one.length)
    .reduce(
      (left, id) => left.replaceAll(id, 'ID'),
      text.replaceAll(/(name="(?:_csrf|key)" value=")[^"]*/g, '$1'),
    );

/** All that Quince Yard has, row by row; notices are worked out anew when looked at, and nobody looks meanwhile. */
const everythingOfQuince = async (): Promise<string> => {
  const tables = await engineOf(both.db).tables(both.db);
  const rows: unknown[] = [];
  for (const { name } of tables.filter(({ columns }) => columns.includes('household_id')))
    rows.push(
      name,
      (await sql`SELECT * FROM ${sql.table(name)} WHERE household_id = 'quince-yard'`.execute(both.db)).rows,
    );
  rows.push(await both.db.selectFrom('household').selectAll().where('id', '=', 'quince-yard').execute());
  return JSON.stringify(rows);
};

test('every kind of thing an address can name is one that both households have', () => {
  const kinds = new Set(naming.flatMap(({ url }) => namesIn(url).map(({ kind }) => kind)));
  const owned = [...kinds].filter((kind) => !notOwned.has(kind));

  for (const kind of owned) {
    expect(both.quince[kind], kind).toBeTruthy();
    expect(both.medlar[kind], kind).toBeTruthy();
  }
  expect(owned.length).toBeGreaterThan(15);
});

test('another household’s ids are answered like ids nobody has, on every route, and change nothing of theirs', async () => {
  const before = await everythingOfQuince();
  const told: string[] = [];
  let asked = 0;
  for (const route of naming) {
    for (const { kind } of namesIn(route.url)) {
      if (notOwned.has(kind)) continue;
      // A sheet is numbered within its household: a number of theirs that is not ours.
      const theirs = kind === 'number' ? '77' : (both.quince[kind] ?? '');
      const answers = [];
      for (const id of [theirs, nobodys(kind)]) {
        const url = filled(route.url, (of) => (of === kind ? id : (both.medlar[of] ?? '1')));
        answers.push(await asker.ask('medlar-owner', { ...route, url }, { lotId: id, itemId: id }));
      }
      asked += 1;
      const ids = [theirs, nobodys(kind)];
      const [their, no] = answers;
      if (
        their?.statusCode !== no?.statusCode ||
        plain(their?.body ?? '', ids) !== plain(no?.body ?? '', ids)
      )
        told.push(`${route.method} ${route.url} (${kind}): ${their?.statusCode} and ${no?.statusCode}`);
      if (
        /larch plum|quince (?:home|plum|tree|pulp|sugar|cellar|kettle|spreads|oats)/.test(their?.body ?? '')
      )
        told.push(`${route.method} ${route.url} shows what is theirs`);
    }
  }

  expect(told).toEqual([]);
  expect(asked).toBeGreaterThan(60);
  expect(await everythingOfQuince()).toBe(before);
});

test('the same addresses with the own ids do lead somewhere, so that the walk above is not one of closed doors', async () => {
  const found: string[] = [];
  for (const route of naming) {
    if (route.method !== 'GET' || route.needs !== 'read') continue;
    const url = filled(route.url, (kind) => both.medlar[kind] ?? '1');
    const { statusCode } = await asker.ask('medlar-owner', { ...route, url });
    if (statusCode >= 400) found.push(`${route.url}: ${statusCode}`);
  }

  expect(found).toEqual([]);
});

test('a household cannot be named in a form or an address: the one of the sign-in counts', async () => {
  const owner = new Visitor(both.app, { 'sign-in': both.tokenOf.get('medlar-owner') ?? '' });
  const named = { household: 'quince-yard', household_id: 'quince-yard', householdId: 'quince-yard' };
  const { status } = await owner.submitOn('/kitchen?household=quince-yard', {
    form: '/kitchen/household',
    fill: { name: 'Taken over', ...named },
  });
  const names = await both.db.selectFrom('household').select('name').orderBy('id').execute();

  expect(status).toBe(303);
  expect(names).toEqual([{ name: 'Taken over' }, { name: 'quince home' }]);
});

test('calendar addresses and invitations of another household open only by their whole secret', async () => {
  const { token = '', invitation = '' } = both.quince;
  const visitor = new Visitor(both.app);
  for (const [secret, status] of [
    [(whole: string) => whole, 200],
    [(whole: string) => whole.slice(0, -1), 404],
  ] as const) {
    expect((await visitor.open(`/calendar/${secret(token)}.ics`)).status).toBe(status);
    const link = `https://pantry.example/invitations#${secret(invitation)}`;
    expect((await visitor.openLink(link)).status).toBe(status);
  }
});
