import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { InjectOptions } from 'fastify';
import { sql } from 'kysely';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { congruential32 } from 'pure-rand/generator/congruential32';
import { z } from 'zod';
import { beginSignIn } from '../../server/access/sign-ins.ts';
import { tokenHash } from '../../server/access/tokens.ts';
import { type Database, openDatabase } from '../../server/database/database.ts';
import { takeSent } from '../../server/interface/shapes.ts';
import { lotsOf } from '../../server/queries/shelf/shelf.ts';
import { Asker } from '../builders/asker.ts';
import { type PageForm, postFormsOf } from '../builders/form-fields.ts';
import { member } from '../builders/furnished-household.ts';
import {
  filled,
  medlarLane,
  noon,
  quinceYard,
  type Route,
  type TwoHouseholds,
  twoHouseholds,
} from '../builders/two-households.ts';
import { Onlooker } from './onlooker.ts';
import { ServedFile } from './served-file.ts';
import type { Served } from './serving-aims.ts';

// Requests over all routes. Half of them are what the program's own forms would send, filled in from their fields and choices;
// the others are such requests gone wrong: fields left out, doubled, swapped, of another type, with names of any schema and
// with texts nobody expects, in any of the kinds a body can be sent in.

export interface FuzzProtocol {
  readonly requests: number;
  readonly seed: number;
  /** Told every so many requests. */
  readonly onProgress?: (made: number) => void;
}

export interface FuzzReport extends Served {
  readonly requests: number;
  readonly asForms: number;
  readonly mutated: number;
  readonly routes: number;
  readonly routesWithForms: number;
  /** How many requests were answered by which status. */
  readonly statuses: Readonly<Record<string, number>>;
  /** Answers of 500 and above, and answers that show something of the inside. */
  readonly broken: readonly string[];
  /** Refused, and yet something was written. */
  readonly halfWritten: readonly string[];
  readonly integrity: string;
  readonly foreignKeys: number;
  /** Lots whose stock is not the sum of their events, or below zero. */
  readonly wrongStock: readonly string[];
  readonly changed: number;
}

const oddTexts = [
  '',
  ' ',
  '0',
  '-1',
  '-0',
  '1e999',
  'NaN',
  'Infinity',
  '0x10',
  '1.5.5',
  '2026-02-30',
  '9999-12-31',
  '0000-00-00',
  '2026-W99',
  '\u0000',
  '\ud800',
  '\u202e reversed',
  'a\r\nset-cookie: x=1',
  '💥'.repeat(40),
  '../../etc/passwd',
  '%',
  '%00',
  '{{7*7}}',
  '<script>1</script>',
  "' OR 1=1 --",
  '"; DROP TABLE item; --',
  'a'.repeat(5_000),
  '__proto__',
  'constructor',
  '9007199254740993',
  '99999999999999999999999',
  '١٢',
  '１２',
  'null',
  'undefined',
  '[]',
  '{"a":1}',
] as const;

const likelyTexts = [
  '1',
  '2',
  '3.5',
  '12',
  '0.25',
  '4.99',
  'Plum butter',
  'a note',
  '2026-08-17',
  '2026-08-22',
  '2026-12-24',
  '2026-W34',
  'quart',
  'half-pint/regular',
  'plum',
  '09:30',
  'taken',
  'today',
] as const;

/** Written by looking, or by being refused: what is allowed to change although nothing was done. */
const besideTheFacts = new Set(['notice', 'sign_in_failure', 'security_event', 'sign_in', 'half_sign_in']);

export async function fuzz(protocol: FuzzProtocol): Promise<FuzzReport> {
  const folder = mkdtempSync(join(tmpdir(), 'shelfward-fuzz-'));
  try {
    return await fuzzIn(join(folder, 'shelf.sqlite'), protocol);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A file with both households; what stands for the names in addresses, and how each person is signed in. */
async function prepared(file: string): Promise<Pick<TwoHouseholds, 'quince' | 'medlar' | 'tokenOf'>> {
  const { db, quince, medlar, tokenOf, close } = await twoHouseholds(1_000, file);
  const onlooker = await member(db, quinceYard, { id: 'quince-onlooker', role: 'reader' }, noon);
  await close();
  return { quince, medlar, tokenOf: new Map([...tokenOf, ['quince-onlooker', onlooker]]) };
}

async function fuzzIn(file: string, protocol: FuzzProtocol): Promise<FuzzReport> {
  const random = congruential32(protocol.seed);
  const upTo = (most: number): number => uniformInt(random, 0, most);
  const pick = <T>(list: readonly T[]): T => list[upTo(list.length - 1)] as T;
  const oneIn = (count: number): boolean => upTo(count - 1) === 0;

  let lastFault = '';
  const both = await prepared(file);
  const db = await openDatabase(file);
  const app = await ServedFile.start({ file, began: noon + 1_000_000, tickMs: 1_000 }, (line) => {
    lastFault = faultIn(line);
  });
  const tokenOf = new Map(both.tokenOf);
  const onlooker = await Onlooker.start({
    address: app.address,
    path: '/shelf',
    headers: { cookie: `sign-in=${tokenOf.get('quince-onlooker')}` },
    pauseMs: 50,
  });
  const asker = new Asker(app, (who) => tokenOf.get(who) ?? '');
  const routes = app.routes.flatMap(({ method, url }): Route[] =>
    method === 'GET' || method === 'POST' ? [{ method, url }] : [],
  );
  const formsOf = await formsByRoute(both, asker, routes);
  const schemaFields = await fieldNamesOfSchemas();

  const tables = (
    await sql<{
      name: string;
    }>`SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'`.execute(db)
  ).rows.flatMap(({ name }) => (besideTheFacts.has(name) ? [] : [name]));
  const counting = tables.map((name) => `(SELECT count(*) FROM "${name}")`).join(" || ',' || ");
  const factsNow = async (): Promise<string> => {
    const { rows } = await sql<{ counts: string; versions: number }>`
      SELECT ${sql.raw(counting)} AS counts, (SELECT sum(facts_version) FROM household) AS versions`.execute(
      db,
    );
    return `${rows[0]?.counts} at ${rows[0]?.versions}`;
  };

  /** A walk that deletes its own household, makes its owner a reader, or withdraws its thing, would go along closed doors from then on. */
  const keptOpen = async (facts: string): Promise<string> => {
    const deleted = await db.deleteFrom('household_deletion').executeTakeFirst();
    const owners = await db
      .insertInto('membership')
      .values({ household_id: medlarLane, person_id: 'medlar-owner', role: 'owner', since_at: noon })
      .onConflict((row) => row.columns(['household_id', 'person_id']).doUpdateSet({ role: 'owner' }))
      .executeTakeFirst();
    const things = await db
      .insertInto('connected_thing')
      .values({
        household_id: medlarLane,
        id: both.medlar.thing ?? '',
        name: 'Fridge display',
        may: 'read and take',
        token_hash: tokenHash(both.medlar.accessToken ?? ''),
        made_at: noon,
        made_by: null,
        ends_on: null,
        used_at: null,
      })
      .onConflict((row) => row.columns(['household_id', 'id']).doNothing())
      .executeTakeFirst();
    await db
      .insertInto('household_token')
      .values({
        token_hash: tokenHash(both.medlar.accessToken ?? ''),
        household_id: medlarLane,
        opens: 'interface',
      })
      .onConflict((row) => row.column('token_hash').doNothing())
      .execute();
    const isOpened =
      deleted.numDeletedRows > 0n ||
      (owners.numInsertedOrUpdatedRows ?? 0n) > 0n ||
      (things.numInsertedOrUpdatedRows ?? 0n) > 0n;
    return isOpened ? factsNow() : facts;
  };

  const idOf = (kind: string): string => {
    if (oneIn(6)) return encodeURIComponent(safe(pick(oddTexts))).slice(0, 400) || '%20';
    return (oneIn(12) ? both.quince[kind] : both.medlar[kind]) ?? 'nobody-has-this';
  };
  const who = (): string => {
    const draw = upTo(99);
    if (draw < 80) return 'medlar-owner';
    if (draw < 94) return `medlar-${pick(['cook', 'helper', 'reader'])}`;
    return draw < 97 ? 'quince-owner' : 'nobody';
  };

  const asForm = (form: PageForm): [string, string][] =>
    form.fields.flatMap(({ name, kind, values }): [string, string][] => {
      const [present = ''] = values;
      if (kind === 'fixed') return [[name, present]];
      if (kind === 'choice') return [[name, pick(values)]];
      if (kind === 'tick')
        return values.flatMap((value) => (oneIn(2) ? [[name, value] as [string, string]] : []));
      return [[name, present !== '' && !oneIn(3) ? present : pick(likelyTexts)]];
    });
  const mutate = (fields: [string, string][]): [string, string][] => {
    const left = [...fields];
    for (let times = 1 + upTo(3); times > 0; times -= 1) {
      const at = upTo(Math.max(0, left.length - 1));
      const [name = pick(schemaFields), value = ''] = left[at] ?? [];
      const change = upTo(5);
      if (change === 0) left.splice(at, 1);
      else if (change === 1) left.push([name, pick(oddTexts)]);
      else if (change === 2) left[at] = [name, pick(left)?.[1] ?? value];
      else if (change === 3) left.push([pick(schemaFields), pick([...oddTexts, ...likelyTexts])]);
      else left[at] = [name, pick(oddTexts)];
    }
    return left;
  };

  /** A connected thing shows its token in place of a sign-in; a write is JSON with a key of its own. */
  const asThing = (request: InjectOptions, made: number): void => {
    const odd = pick(oddTexts).replaceAll(/[^\x20-\x7e]/g, '?');
    request.headers = {
      ...request.headers,
      authorization: `Bearer ${oneIn(12) ? odd : both.medlar.accessToken}`,
      ...(oneIn(12) ? {} : { 'idempotency-key': `fuzz-${oneIn(8) ? 'again' : made}-key` }),
    };
    if (request.method !== 'POST' || oneIn(4)) return;
    const body: Record<string, unknown> = { item: idOf('item') };
    for (let more = upTo(3); more > 0; more -= 1)
      body[pick(Object.keys(takeSent.shape))] = pick([
        ...oddTexts,
        ...likelyTexts,
        1,
        2,
        -1,
        null,
        true,
        [],
        {},
      ]);
    const text = JSON.stringify(body);
    request.headers['content-type'] = 'application/json';
    request.payload = oneIn(20) ? text.slice(0, -2) : text;
  };

  const statuses: Record<string, number> = {};
  const broken: string[] = [];
  const halfWritten: string[] = [];
  const wrongStock = new Set<string>();
  let asForms = 0;
  let changed = 0;
  const { csrf, form: formCookie } = await asker.secrets();
  let facts = await factsNow();

  for (let made = 0; made < protocol.requests; made += 1) {
    if (made % 1_000 === 0) {
      protocol.onProgress?.(made);
      for (const lot of await lotsWithWrongStock(db)) wrongStock.add(lot);
    }
    // Looking is quickly tried; three of four requests change something or try to.
    const route = oneIn(4) ? pick(routes) : pick(routes.filter(({ method }) => method === 'POST'));
    const forms = formsOf.get(`${route.method} ${route.url}`) ?? [];
    const isForm = forms.length > 0 && oneIn(2);
    const form: PageForm =
      forms.length > 0
        ? pick(forms)
        : {
            action: '',
            sendsFile: false,
            fields: Array.from({ length: upTo(6) }, () => ({
              name: pick(schemaFields),
              kind: 'text' as const,
              values: [''],
            })),
          };
    const fields = isForm ? asForm(form) : mutate(asForm(form));
    const url = isForm && form.action !== '' ? form.action : filled(route.url, idOf);
    const person = isForm ? 'medlar-owner' : who();
    const cookies = { 'sign-in': tokenOf.get(person) ?? '', household: medlarLane, form: formCookie };
    const sent: [string, string][] = [['_csrf', csrf], ['key', `fuzz-${made}`], ...fields];
    const request: InjectOptions =
      route.method === 'GET'
        ? { method: oneIn(30) ? 'HEAD' : 'GET', url: withQuery(url, isForm ? [] : mutate([])), cookies }
        : { method: 'POST', url, cookies, ...bodyOf(sent, form.sendsFile, isForm ? 0 : upTo(19)) };
    if (url.startsWith('/api/')) asThing(request, made);
    const answer = await app.inject(request);
    if (isForm) asForms += 1;
    const status = answer.statusCode;
    statuses[status] = (statuses[status] ?? 0) + 1;
    const shown = () =>
      `${status} ${route.method} ${url.slice(0, 160)} as ${person}: ${JSON.stringify(fields).slice(0, 400)}`;
    if (status >= 500 || /node_modules|SQLITE_|\.tsx?:\d|at async /.test(answer.body)) {
      await pause(50); // For its line in the log.
      broken.push(`${shown()} ${lastFault}`);
    }
    const now = await factsNow();
    if (now !== facts) {
      if (status >= 400) halfWritten.push(shown());
      else changed += 1;
    }
    facts = await keptOpen(now);
    if (status === 303 && answer.headers.location === '/sign-in' && person !== 'nobody')
      tokenOf.set(person, await beginSignIn(db, person, noon + 1_000_000_000));
  }

  const integrity = await sql<{ integrity_check: string }>`PRAGMA integrity_check`.execute(db);
  const foreign = await sql`PRAGMA foreign_key_check`.execute(db);
  for (const lot of await lotsWithWrongStock(db)) wrongStock.add(lot);
  await onlooker.close();
  const { mostMemoryInMb } = await app.seen();
  await app.close();
  await db.destroy();
  return {
    onlooker: onlooker.looks,
    mostMemoryInMb,
    requests: protocol.requests,
    asForms,
    mutated: protocol.requests - asForms,
    routes: routes.length,
    routesWithForms: formsOf.size,
    statuses,
    broken,
    halfWritten,
    integrity: integrity.rows.map((row) => row.integrity_check).join(', '),
    foreignKeys: foreign.rows.length,
    wrongStock: [...wrongStock],
    changed,
  };
}

/** What a line of the log says went wrong, and where. */
function faultIn(line: string): string {
  const stack = /"stack":"((?:[^"\\]|\\.)*)"/.exec(line)?.[1] ?? '';
  return stack.split('\\n').slice(0, 4).join(' ').slice(0, 600);
}

/** Half a character cannot travel in an address. */
const safe = (text: string): string =>
  text.replaceAll(/[\ud800-\udfff]/g, (half) => (text.length > 1 ? half : '?'));

const withQuery = (url: string, fields: readonly (readonly [string, string])[]): string => {
  const query = new URLSearchParams(fields.map(([name, value]) => [name, value.slice(0, 400)])).toString();
  return query === '' ? url : `${url}?${query}`;
};

/** Most bodies are plain forms; some are sent in another kind, well made or not. */
function bodyOf(
  fields: readonly (readonly [string, string])[],
  sendsFile: boolean,
  draw: number,
): Pick<InjectOptions, 'payload' | 'headers'> {
  if (sendsFile || draw === 1) {
    const boundary = 'a-boundary-of-the-fuzz';
    const parts = fields.map(
      ([name, value]) =>
        `--${boundary}\r\ncontent-disposition: form-data; name="${name.replaceAll(/["\r\n]/g, '')}"\r\n\r\n${value}\r\n`,
    );
    const file = `--${boundary}\r\ncontent-disposition: form-data; name="file"; filename="list.csv"\r\ncontent-type: text/csv\r\n\r\nitem,units\nplum jam,${fields.length}\n\r\n`;
    const end = draw === 1 && fields.length % 2 === 0 ? '' : `--${boundary}--\r\n`;
    return {
      headers: { 'content-type': `multipart/form-data; boundary=${boundary}` },
      payload: `${parts.join('')}${file}${end}`,
    };
  }
  if (draw === 2 || draw === 3) {
    const odd: readonly unknown[] = [{ toString: 1 }, [], [[]], null, 3, true, { length: 9 }];
    const body = Object.fromEntries(
      fields.map(([name, value], at) => [
        name,
        at < 2 || (at + value.length) % 3 > 0 ? value : odd[value.length % odd.length],
      ]),
    );
    const text = JSON.stringify(body);
    return {
      headers: { 'content-type': 'application/json' },
      payload: draw === 3 && fields.length % 3 === 0 ? text.slice(0, -2) : text,
    };
  }
  const payload = new URLSearchParams(fields.map(([name, value]) => [name, value])).toString();
  if (draw === 4) return { headers: { 'content-type': 'text/plain' }, payload };
  if (draw === 5)
    return {
      headers: { 'content-type': 'application/x-www-form-urlencoded', 'hx-request': 'true' },
      payload,
    };
  return { headers: { 'content-type': 'application/x-www-form-urlencoded' }, payload };
}

/** The forms that the pages of Medlar Lane's owner hold, by the route that takes them. */
async function formsByRoute(
  { medlar }: Pick<TwoHouseholds, 'medlar'>,
  asker: Asker,
  routes: readonly Route[],
): Promise<ReadonlyMap<string, readonly PageForm[]>> {
  const takes = routes.flatMap(({ method, url }) =>
    method === 'POST' ? [{ url, fits: new RegExp(`^${url.replaceAll(/:[A-Za-z]+/g, '[^/?]+')}$`) }] : [],
  );
  const byRoute = new Map<string, PageForm[]>();
  for (const route of routes) {
    if (route.method !== 'GET') continue;
    const { body } = await asker.ask('medlar-owner', {
      ...route,
      url: filled(route.url, (kind) => medlar[kind] ?? '1'),
    });
    for (const form of postFormsOf(body)) {
      const path = form.action.split(/[?#]/)[0] ?? '';
      // A route without names in it is meant before one with names that would also fit.
      const [taken] = takes
        .filter(({ fits }) => fits.test(path))
        .toSorted((one, other) => one.url.split(':').length - other.url.split(':').length);
      if (!taken) continue;
      const key = `POST ${taken.url}`;
      byRoute.set(key, [...(byRoute.get(key) ?? []), form]);
    }
  }
  return byRoute;
}

/** The names of the fields of every schema of the program. */
async function fieldNamesOfSchemas(): Promise<readonly string[]> {
  const folder = new URL('../../shared/schemas/', import.meta.url);
  const names = new Set<string>(['__proto__', 'constructor', 'household_id', 'householdId', 'key', '_csrf']);
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
    (file) => file.endsWith('.ts') && !file.startsWith('reference/'),
  );
  for (const file of files) {
    const module: Readonly<Record<string, unknown>> = await import(new URL(file, folder).href);
    for (const schema of Object.values(module))
      if (schema instanceof z.ZodObject) for (const name of Object.keys(schema.shape)) names.add(name);
  }
  return [...names].toSorted();
}

async function lotsWithWrongStock(db: Database): Promise<readonly string[]> {
  const wrong: string[] = [];
  for (const household of [medlarLane, quinceYard]) {
    const events = await db
      .selectFrom('jar_event')
      .select(['lot_id', 'units'])
      .where('household_id', '=', household)
      .orderBy('seq')
      .execute();
    const replayed = new Map<string, number>();
    for (const { lot_id, units } of events) {
      const left = (replayed.get(lot_id) ?? 0) + units;
      if (left < -1e-9) wrong.push(`${household} ${lot_id} fell below zero`);
      replayed.set(lot_id, left);
    }
    for (const lot of await lotsOf(db, household, {}))
      if (Math.abs(lot.unitsLeft - (replayed.get(lot.id) ?? 0)) > 1e-9)
        wrong.push(`${household} ${lot.id}: ${lot.unitsLeft}, replayed ${replayed.get(lot.id) ?? 0}`);
  }
  return wrong;
}
