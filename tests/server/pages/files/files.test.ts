import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { householdText } from '../../../../server/files/household-file.ts';
import { quinceYard } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

let keys = 0;
async function send(url: string, fields: Readonly<Record<string, string>>, content: string) {
  const page = await pages.visitor.open('/files');
  const csrf = /name="_csrf" value="([^"]+)"/.exec(page.body)?.[1] ?? '';
  keys += 1;
  return pages.visitor.upload(url, { _csrf: csrf, key: `sent-file-${keys}`, ...fields }, content);
}
const restore = (content: string) => send('/files/household', { sure: 'yes' }, content);
const bringList = (content: string) => send('/files/lists', { kind: 'stock' }, content);

/** The saved household with one value of the first row of a table, or of the household itself, put in its place. */
const withValue = (text: string, table: string, column: string, value: unknown): string => {
  const saved = JSON.parse(text);
  const row = table === 'household' ? saved.household : saved.tables[table][0];
  expect(row).toHaveProperty(column);
  row[column] = value;
  return JSON.stringify(saved);
};

/** Main pages, each read after a refused file. */
const mainPages = [
  '/',
  '/year',
  '/shelf',
  '/items',
  '/targets',
  '/harvest',
  '/kitchen',
  '/files',
  '/notices',
];

describe('a saved household with values no form takes', () => {
  // Each of these used to be accepted, and then 5 to 15 of 18 pages answered 500.
  it.each([
    ['household', 'time_zone', 'Mars/Olympus', 'a time zone like “America/Chicago”'],
    ['household', 'time_zone', '', 'a time zone'],
    ['household', 'locale', 'not a locale', 'one of “en-US”, “en-GB”'],
    ['household', 'name', 'x'.repeat(5_000_000), 'one line of at most 120 letters'],
    ['household', 'name', 'Birch\r\nBEGIN:VEVENT', 'without hidden signs'],
    ['household', 'people', 41, 'a whole number from 1 to 40'],
    ['household', 'altitude_ft', '1240', 'a number from -1,500 to 20,000'],
    ['item', 'usual_jar', 'bucket/none', 'a jar like “pint/regular”'],
    ['item', 'best_quality_days', 1e308, 'a whole number from 1 to 3,650'],
    ['item', 'name', 'Plum\u202ejam', 'without hidden signs'],
    ['canner', 'quart_jars', 1e308, 'a whole number from 0 to 40'],
    ['recipe', 'yield_high', 1e6, 'a number from 0.01 to 500'],
    ['recipe', 'changes_json', '["more-flour"]', 'changes of the closed list'],
    ['canner', 'gauge_checked_on', '9999-12-31', 'of the years 2000 to 2200'],
  ])(
    'is refused for %s %s %j, and nothing of the present one is lost',
    async (table, column, value, expected) => {
      const before = await householdText(pages.db, quinceYard);

      const answer = await restore(withValue(before, table, column, value));

      expect(answer.status).toBe(422);
      expect(wordsOf(answer.body)).toContain('Nothing was changed');
      expect(wordsOf(answer.body)).toContain(expected);
      expect(answer.body).not.toMatch(/CHECK|constraint|SQLITE|ZodError/);
      expect(await householdText(pages.db, quinceYard)).toBe(before);
      for (const page of mainPages)
        expect([page, (await pages.visitor.open(page)).status]).toEqual([page, 200]);
    },
  );

  it('is told of every row that does not fit, with where it stands', async () => {
    const saved = JSON.parse(await householdText(pages.db, quinceYard));
    for (const item of saved.tables.item) item.best_quality_days = 0;

    const answer = await restore(JSON.stringify(saved));

    expect(wordsOf(answer.body)).toContain(
      'Items, row 1 (Cured pickles): “best quality days” is a whole number from 1 to 3,650, not 0.',
    );
    expect(wordsOf(answer.body)).toContain(`${saved.tables.item.length} values do not fit.`);
  });

  it.each([
    ['a bomb of small rows', () => `{"a":{"item":[${'{},'.repeat(2_000_000)}{}]}}`],
    ['lists within lists', () => '['.repeat(4_000_000)],
    ['a text as large as a file may be', () => JSON.stringify({ a: 'x'.repeat(8_000_000) })],
    ['a value that stands twice', (text: string) => text.replace('"locale":', '"people":3,"locale":')],
    [
      'a key of every object',
      (text: string) => text.replace('"household": {', '"household": {"__proto__":{"name":"x"},'),
    ],
    [
      'a table of every object',
      (text: string) => text.replace('"tables": {', '"tables": {"constructor":[{}],'),
    ],
    [
      'numbers without end',
      (text: string) => text.replace(/"people":\d+/, `"people":${'9'.repeat(1_000_000)}`),
    ],
    ['half a file', (text: string) => text.slice(0, text.length / 2)],
    ['no text at all', () => '\u0000\u0001\u0002'.repeat(1000)],
  ])('is refused as %s, and others are answered meanwhile', async (_, content) => {
    const before = await householdText(pages.db, quinceYard);

    const answer = await restore(content(before));

    expect(answer.status).toBe(422);
    expect(await householdText(pages.db, quinceYard)).toBe(before);
    expect(Object.getPrototypeOf({})).not.toHaveProperty('name');
    expect((await pages.visitor.open('/shelf')).status).toBe(200);
  });

  it('is refused above 8 MB', async () => {
    expect((await restore(' '.repeat(8 * 1_048_576 + 1))).status).toBe(413);
  });
});

describe('a list', () => {
  it('of two million headings is refused before anything of it is kept', async () => {
    const answer = await bringList(`${'a,'.repeat(2_000_000)}a\n1\n`);

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(
      'This file is not a CSV table: a row is longer than 100,000 letters',
    );
    expect(await pages.db.selectFrom('import_draft').selectAll().execute()).toEqual([]);
  });

  it('of 101 columns is refused, in its headings or under them; of 100 it is looked at', async () => {
    const headings = (count: number) => Array.from({ length: count }, (_, at) => `h${at}`).join(',');

    for (const list of [`${headings(101)}\nPlums\n`, `item,units\n${headings(101)}\n`]) {
      const answer = await bringList(list);
      expect(answer.status).toBe(422);
      expect(wordsOf(answer.body)).toContain('A list may have 100 columns; line');
    }
    expect((await bringList(`${headings(100)}\nPlums\n`)).status).toBe(303);
  });

  it.each([
    [
      'rows without number',
      () => `item,units,made\n${'x\n'.repeat(1_000_000)}`,
      'A list may have 10,000 rows',
    ],
    [
      'a quotation mark that is never closed',
      () => `item,units\n"${'x'.repeat(3_000_000)}`,
      'a quotation mark is never closed',
    ],
    ['a single line', () => 'item,units', 'at least one row under it'],
  ])('of %s is refused in words', async (_, content, words) => {
    const answer = await bringList(content());

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(words);
  });

  it('keeps the five that were sent last, and no more', async () => {
    for (let at = 0; at < 7; at += 1) await bringList(`item,units,made\nPlum jam,${at + 1},2026-08-01\n`);

    const kept = await pages.db.selectFrom('import_draft').select('content').execute();

    expect(kept.map(({ content }) => content.split(',')[3]).sort()).toEqual(['3', '4', '5', '6', '7']);
  });

  it('names the lines whose names hold signs that cannot be seen, and brings none of them in', async () => {
    const sent = await bringList('item,units,made\n"Plum\u202ejam",2,2026-08-01\nPlum jam,2,9999-12-31\n');

    const shown = await pages.visitor.open(sent.location);

    expect(wordsOf(shown.body)).toContain('2 lines do not fit');
    expect(wordsOf(shown.body)).toContain('a sign that turns the direction of reading around');
    expect(wordsOf(shown.body)).toContain('“9999-12-31” is not a day. Write one like 2026-08-17');
  });
});

describe('days away', () => {
  it.each(['/kitchen/away', '/kitchen/school-holidays'])(
    'until the year 9999 are refused at %s',
    async (url) => {
      const page = await pages.visitor.open('/kitchen');

      const answer = await pages.visitor.post(page, url, { fromOn: '2026-08-20', lastOn: '9999-12-31' });

      expect(answer.status).toBe(422);
      expect(wordsOf(answer.body)).toContain('Pick a day of the years 2000 to 2200');
    },
  );
});
