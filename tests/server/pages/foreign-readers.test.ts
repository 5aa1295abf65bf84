import type { AddressInfo } from 'node:net';
import { parse as readCsv } from 'csv-parse/sync';
import ICAL from 'ical.js';
import { sql } from 'kysely';
import { type DefaultTreeAdapterTypes, parse as readHtml } from 'parse5';
import PostalMime, { type Email } from 'postal-mime';
import { SMTPServer } from 'smtp-server';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { setMailWish } from '../../../server/records/notices/notice-settings.ts';
import { confirmWithoutLetter } from '../../builders/confirmed-address.ts';
import { mailTurn } from '../../builders/mail-turn.ts';
import { worked } from '../../builders/outcomes.ts';
import { settledQuinceYard } from '../../builders/planned-quince-yard.ts';
import type { QuinceYardPages } from '../../builders/quince-yard-pages.ts';

// What a household calls its things is read by programs that are not ours: a browser, a calendar, a mail program, a spreadsheet.
// Each output is read here by a reader of its kind, once with plain names and once with names made to be misread. Whatever things
// are called: as many elements, entries, rows and letters as before, and the name itself comes through whole.

/** Markup, the end of a quotation, a separator, an escape and a formula at once; no control character, as a form takes it. */
const trap = ' <b id=x>"\'&lt;\\n;,\\,--></script>%0aBcc:x';
const plain = ' zz';

/** Where a household writes a name of its own. */
const named = [
  'household.name',
  'item.name',
  'recipe.name',
  'recipe_stage.name',
  'canner.name',
  'place.name',
  'source.name',
  'supply.name',
  'material.name',
  'item_group.name',
  'person.name',
  'occasion.note',
  'week_time.reason',
];

let pages: QuinceYardPages;
let server: SMTPServer;
let received: string[];
beforeEach(async () => {
  received = [];
  server = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS'],
    onData(stream, _session, done) {
      const parts: Buffer[] = [];
      stream.on('data', (part: Buffer) => parts.push(part));
      stream.on('end', () => {
        received.push(Buffer.concat(parts).toString('utf8'));
        done();
      });
    },
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
});
afterEach(() => new Promise<void>((closed) => server.close(() => closed())));

interface Read {
  /** By address: the page's elements in order, and every text and attribute on it. */
  readonly pages: ReadonlyMap<string, { readonly elements: readonly string[]; readonly texts: string }>;
  readonly entries: readonly string[];
  readonly tables: ReadonlyMap<string, readonly (readonly string[])[]>;
  readonly household: string;
  readonly letters: readonly Email[];
}

/** The elements of a page with their attributes' names, and what it says, as a browser's own parser reads it. */
function elementsOf(html: string) {
  const elements: string[] = [];
  const texts: string[] = [];
  const walk = (node: DefaultTreeAdapterTypes.Node): void => {
    if ('value' in node) texts.push(node.value);
    if ('attrs' in node) {
      elements.push([node.tagName, ...node.attrs.map(({ name }) => name)].join(' '));
      texts.push(...node.attrs.map(({ value }) => value));
    }
    if ('childNodes' in node) for (const child of node.childNodes) walk(child);
  };
  walk(readHtml(html));
  return { elements, texts: texts.join('\n') };
}

/** A settled household whose every name ends as said, read by readers of each kind. */
async function readWith(end: string): Promise<Read> {
  pages = await settledQuinceYard();
  const { db, app, visitor } = pages;
  for (const [table, column] of named.map((one) => one.split('.')))
    await sql`UPDATE ${sql.table(table ?? '')} SET ${sql.ref(column ?? '')} = ${sql.ref(column ?? '')} || ${end}`.execute(
      db,
    );
  await visitor.submitOn('/calendar', { form: '/calendar/address' });

  const urls = app.servedRoutes.flatMap(({ method, url }) =>
    method === 'GET' && !url.includes(':') ? [url] : [],
  );
  const shown = new Map<string, { elements: readonly string[]; texts: string }>();
  const ids = async (table: string) =>
    (await sql<{ id: string }>`SELECT id FROM ${sql.table(table)}`.execute(db)).rows.map(({ id }) => id);
  const [items, lots, sources] = await Promise.all([ids('item'), ids('lot'), ids('source')]);
  for (const url of [
    ...urls,
    ...items.flatMap((id) => [`/items/${id}`, `/shelf/${id}`, `/targets/${id}`, `/year/${id}`]),
    ...lots.map((id) => `/shelf/lots/${id}`),
    ...sources.map((id) => `/harvest/${id}`),
  ]) {
    const answer = await visitor.open(url);
    if (/^\s*</.test(answer.body)) shown.set(url, elementsOf(answer.body));
  }

  const feed = /\/calendar\/[A-Za-z0-9_-]+\.ics/.exec((await visitor.open('/calendar')).body)?.[0] ?? '';
  const calendar = new ICAL.Component(ICAL.parse((await visitor.open(feed)).body));
  const entries = calendar
    .getAllSubcomponents()
    .map((entry) => `${entry.name} ${entry.getFirstPropertyValue('summary')}`);

  const tables = new Map<string, readonly (readonly string[])[]>();
  for (const url of urls.filter((one) => one.endsWith('.csv')))
    tables.set(url, readCsv((await visitor.open(url)).body, { bom: true, relax_column_count: false }));
  const household = (await visitor.open('/files/household.json')).body;

  worked(
    await setMailWish(pages.writer(), {
      address: 'pantry@example.org',
      weekly: true,
      weekday: '1',
      urgent: false,
    } as unknown as Parameters<typeof setMailWish>[1]),
  );
  await confirmWithoutLetter(db);
  await mailTurn(db, Date.UTC(2026, 7, 17, 18), (server.server.address() as AddressInfo).port);
  await pages.close();
  return {
    pages: shown,
    entries,
    tables,
    household,
    letters: await Promise.all(received.splice(0).map((text) => PostalMime.parse(text))),
  };
}

/** A letter's lines end where they are long enough. */
const inOneLine = (text = '') => text.replace(/\s+/g, ' ').trim();

it('whatever a household calls its things, every reader finds what it found before, and the name as it was given', async () => {
  const before = await readWith(plain);
  const after = await readWith(trap);

  expect([...after.pages.keys()]).toEqual([...before.pages.keys()]);
  const changed = [...after.pages].filter(
    ([url, { elements }]) => JSON.stringify(elements) !== JSON.stringify(before.pages.get(url)?.elements),
  );
  expect(changed.map(([url]) => url)).toEqual([]);
  const says = (read: Read, end: string) =>
    [...read.pages].filter(([, { texts }]) => texts.includes(end.trim())).map(([url]) => url);
  expect(says(after, trap)).toEqual(says(before, plain));
  expect(says(after, trap).length).toBeGreaterThan(30);

  expect(after.entries).toEqual(before.entries.map((entry) => entry.replaceAll(plain, trap)));
  expect(after.entries.join('\n')).toContain(trap);

  for (const [url, rows] of after.tables)
    expect(rows.length === 0 ? [] : rows, url).toEqual(
      before.tables.get(url)?.map((row) => row.map((cell) => cell.replaceAll(plain, trap))),
    );
  expect(JSON.stringify([...after.tables])).toContain(JSON.stringify(trap).slice(1, -1));

  const texts = (json: string) => {
    const all: string[] = [];
    JSON.parse(json, (_, value) => {
      if (typeof value === 'string' && value.includes('Plum jam')) all.push(value);
      return value;
    });
    return all.toSorted();
  };
  expect(texts(after.household)).toEqual(texts(before.household).map((text) => text.replaceAll(plain, trap)));
  expect(texts(after.household).join('\n')).toContain(trap);

  expect(after.letters.length).toBe(before.letters.length);
  expect(after.letters.length).toBeGreaterThan(0);
  for (const [at, letter] of after.letters.entries()) {
    const same = before.letters[at];
    expect(letter.headers.map(({ key }) => key)).toEqual(same?.headers.map(({ key }) => key));
    expect(letter.subject).toBe(same?.subject?.replaceAll(plain, trap));
    expect(letter.attachments).toEqual([]);
    expect(inOneLine(letter.text)).toBe(inOneLine(same?.text?.replaceAll(plain, trap)));
    expect(elementsOf(letter.html ?? '').elements).toEqual(elementsOf(same?.html ?? '').elements);
    expect(elementsOf(letter.html ?? '').texts).toContain(trap.trim());
  }
});
