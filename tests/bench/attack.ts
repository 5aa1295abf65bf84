import { sql } from 'kysely';
import { isThingNeed, may, roles } from '../../server/access/roles.ts';
import type { ServedRoute } from '../../server/plugins/app/household.ts';
import { Asker } from '../builders/asker.ts';
import { filled, quinceYard, twoHouseholds } from '../builders/two-households.ts';

// npm run -s bench:attack: another household's ids in every place of every request a signed-in owner can send (path, query, form
// field, header), and every route asked by nobody, by each role and by the other household's owner. Answers a table.

const both = await twoHouseholds();
// The interface is asked as the own household's thing; the walk by roles below asks it as people do.
const asker = new Asker(both.app, (who) => both.tokenOf.get(who) ?? '', both.medlar.accessToken);
const people = new Asker(both.app, (who) => both.tokenOf.get(who) ?? '');
const routes: readonly (ServedRoute & { readonly method: 'GET' | 'POST' })[] = both.app.servedRoutes.flatMap(
  (route) => (route.method === 'GET' || route.method === 'POST' ? [{ ...route, method: route.method }] : []),
);
/** These take the asker's own sign-in, membership or household away, which is no answer to the question. */
const endsTheAsking =
  /sign-out|sign-ins|removal|deletion|passphrase|second-factor|\/people\/|\/households?\b/;
/** Dates belong to nobody; and these are secrets that open what they name for whoever has them. */
const notOwned = ['year', 'week', 'day', 'name', 'token', 'accessToken', 'invitation', 'reset'];
const theirs = Object.entries(both.quince).filter(([kind]) => !notOwned.includes(kind));
const names = /larch plum|quince (?:home|plum|tree|pulp|sugar|cellar|kettle|spreads|oats)/;

/** All rows of the household the ids belong to, by table. */
async function everythingOfQuince(): Promise<ReadonlyMap<string, string>> {
  const tables = await sql<{ name: string }>`
    SELECT m.name FROM sqlite_master AS m JOIN pragma_table_info(m.name) AS c
    WHERE m.type = 'table' AND c.name = 'household_id' ORDER BY m.name`.execute(both.db);
  const rows = new Map<string, string>();
  for (const { name } of tables.rows) {
    const found = await sql`SELECT * FROM ${sql.table(name)} WHERE household_id = ${quinceYard}`.execute(
      both.db,
    );
    rows.set(name, JSON.stringify(found.rows));
  }
  const own = await both.db.selectFrom('household').selectAll().where('id', '=', quinceYard).execute();
  return rows.set('household', JSON.stringify(own));
}

const asked = { path: 0, query: 0, 'form field': 0, header: 0, roles: 0 };
const amiss: string[] = [];
const look = (what: string, { statusCode, body }: { readonly statusCode: number; readonly body: string }) => {
  if (statusCode >= 500) amiss.push(`${what}: ${statusCode}`);
  if (names.test(body)) amiss.push(`${what} shows what is theirs`);
};

const before = await everythingOfQuince();
for (const route of routes) {
  const own = filled(route.url, (kind) => both.medlar[kind] ?? '1');
  if (endsTheAsking.test(route.url)) continue;
  for (const [kind, id] of theirs) {
    const say = `${route.method} ${route.url} with their ${kind}`;
    if (route.url.includes(':')) {
      const url = filled(route.url, (of) => (of === kind ? id : (both.medlar[of] ?? '1')));
      if (url !== own) {
        asked.path += 1;
        look(`${say} in the path`, await asker.ask('medlar-owner', { ...route, url }, { [kind]: id }));
      }
    }
    if (route.method === 'GET') {
      asked.query += 1;
      const query = new URLSearchParams({ [kind]: id, [`${kind}Id`]: id, id, household: quinceYard });
      look(`${say} in the query`, await asker.ask('medlar-owner', { ...route, url: `${own}?${query}` }));
    } else {
      asked['form field'] += 1;
      const fields = { [kind]: id, [`${kind}Id`]: id, id, household: quinceYard, householdId: quinceYard };
      look(`${say} in a field`, await asker.ask('medlar-owner', { ...route, url: own }, fields));
    }
  }
  if (route.method === 'GET') {
    asked.header += 1;
    const answer = await both.app.inject({
      url: own,
      cookies: { 'sign-in': both.tokenOf.get('medlar-owner') ?? '', household: quinceYard },
      headers: {
        'hx-request': 'true',
        'hx-current-url': `/?household=${quinceYard}`,
        'x-household': quinceYard,
      },
    });
    look(`GET ${route.url} with their household in headers and cookie`, answer);
  }
}
const after = await everythingOfQuince();
for (const [table, rows] of after)
  if (rows !== before.get(table)) amiss.push(`rows of ${table} of the other household changed`);

for (const route of routes) {
  const { needs } = route;
  if (needs === null || needs === 'anyone' || needs === 'person') continue;
  const url = filled(route.url, (kind) =>
    ['year', 'week', 'day'].includes(kind) ? (both.medlar[kind] ?? '') : 'nobodys',
  );
  for (const who of ['nobody', ...roles.map((role) => `medlar-${role}`)]) {
    const role = roles.find((one) => who === `medlar-${one}`);
    const { statusCode } = await people.ask(who, { ...route, url });
    asked.roles += 1;
    // No sign-in opens what a connected thing asks for.
    if (isThingNeed(needs)) {
      if (statusCode !== 401)
        amiss.push(`${who}: ${route.method} ${url} is ${statusCode} without an access token`);
      continue;
    }
    const isLetIn = statusCode !== 403 && !(role === undefined && [302, 303, 401].includes(statusCode));
    if (isLetIn !== (role !== undefined && may(role, needs)))
      amiss.push(`${who}: ${route.method} ${url} is ${statusCode}`);
  }
}

await both.close();
console.table(asked);
for (const line of amiss) console.log(line);
console.log(
  `${Object.values(asked).reduce((sum, one) => sum + one, 0)} requests: ${amiss.length === 0 ? 'nothing of the other household shown or changed, no role wrong.' : `${amiss.length} amiss.`}`,
);
process.exitCode = amiss.length === 0 ? 0 : 1;
