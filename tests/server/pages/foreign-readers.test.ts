import type { AddressInfo } from 'node:net';
import { parse as readCsv } from 'csv-parse/sync';
import ICAL from 'ical.js';
import { sql } from 'kysely';
import { type DefaultTreeAdapterTypes, parse as readHtml } from 'parse5';
import PostalMime, { type Email } from 'postal-mime';
import { SMTPServer } from 'smtp-server';
import { afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { setMailWish } from '../../../server/records/notices/notice-settings.ts';
import { diceOf } from '../../bench/spoilt-files.ts';
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
const plain = ' zzzzzz';

/** Pieces of what some reader takes for more than text; none is a control character or a hidden sign, as a form takes none. */
const pieces = [
  '<',
  '>',
  '</',
  '<!--',
  '-->',
  '<![CDATA[',
  ']]>',
  '<script>',
  '</script>',
  '</title>',
  '</textarea>',
  '<svg onload=x>',
  '"',
  "'",
  '`',
  '&',
  '&amp;',
  '&#10;',
  '&#x3c;',
  '\\',
  '\\n',
  '\\"',
  '\\u000a',
  '%0d%0a',
  '%00',
  '%3C',
  ',',
  ';',
  ':',
  '|',
  '=1+1',
  '+1',
  '-1',
  '@x',
  '\u{1f383}',
  'e\u0301',
  'END:VEVENT',
  'BEGIN:VEVENT',
  'Subject: x',
  '=?utf-8?q?x?=',
  '.',
  '..',
  '--',
  '/*',
  '*/',
  '{',
  '}',
  '${',
  '{{x}}',
  'null',
];

/** `EVERY_TRAP=60` makes so many names out of those pieces, each as likely as the other, from one seed. */
const traps = [trap, ...Array.from({ length: Number(process.env.EVERY_TRAP ?? 0) }, (_, nth) => trapOf(nth))];

function trapOf(nth: number): string {
  const dice = diceOf(1000 + nth);
  const made = Array.from({ length: 3 + dice.below(6) }, () => dice.oneOf(pieces)).join(
    dice.below(2) === 0 ? '' : ' ',
  );
  // A form takes no more letters, and no blank at the end.
  return ` ${[...made].slice(0, 24).join('').trim()}z`;
}

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
async function startMailServer(): Promise<void> {
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
}
const stopMailServer = () => new Promise<void>((closed) => server.close(() => closed()));
beforeEach(startMailServer);
afterEach(stopMailServer);

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
    `/labels/sheet?${lots.map((id) => `lot-${id}=1`).join('&')}`,
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

let before: Read;
beforeAll(async () => {
  // Its letters go to a server of its own.
  await startMailServer();
  before = await readWith(plain);
  await stopMailServer();
});

it.each(traps)(
  'called%s, everything is to every reader what it was before, and the name as it was given',
  async (trap) => {
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
    expect(texts(after.household)).toEqual(
      texts(before.household).map((text) => text.replaceAll(plain, trap)),
    );
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
  },
);
