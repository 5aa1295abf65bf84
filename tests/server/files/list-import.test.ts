import { sql } from 'kysely';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { csvText } from '../../../server/files/csv-text.ts';
import { checkList, dateFrom, guessMapping, parseList } from '../../../server/files/list-import.ts';
import { items } from '../../../server/queries/items.ts';
import { places } from '../../../server/queries/kitchen.ts';
import { ledger } from '../../../server/queries/ledger.ts';
import { lots, shelfByItem } from '../../../server/queries/shelf.ts';
import { importList, keepDraft } from '../../../server/records/import-list.ts';
import { refusalOf, worked } from '../../builders/outcomes.ts';
import { greenBeans, oats, plumJam, quinceYard, today } from '../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

/** Every table but the lists on their way in and the keys of writes, as one text. */
async function logicalState(): Promise<string> {
  const { rows } = await sql<{ name: string }>`
    SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'
    AND name NOT IN ('import_draft') ORDER BY name`.execute(pages.db);
  const all: Record<string, unknown> = {};
  for (const { name } of rows)
    all[name] = (await sql`SELECT * FROM ${sql.table(name)}`.execute(pages.db)).rows;
  return JSON.stringify(all);
}

const draft = (kind: 'stock' | 'past use', content: string) =>
  keepDraft(pages.db, quinceYard, { kind, fileName: 'list.csv', content }, 0);

async function bring(kind: 'stock' | 'past use', content: string) {
  const parsed = worked(parseList(content));
  return importList(pages.writer(), {
    draftId: await draft(kind, content),
    mapping: guessMapping(kind, parsed.header),
    dates: 'year first',
  });
}

const unitsOf = async (itemId: string) =>
  (await shelfByItem(pages.db, quinceYard)).find(({ item }) => item.id === itemId)?.units;

/** Sends a file as a browser does. */
async function send(action: string, fields: Record<string, string>, content: string) {
  const page = await pages.visitor.open('/files');
  const csrf = /name="_csrf" value="([^"]+)"/.exec(page.body)?.[1] ?? '';
  return pages.visitor.upload(action, { _csrf: csrf, key: `upload-${Math.random()}`, ...fields }, content);
}

describe('a stock list', () => {
  it('is brought in whole: jars, sizes, days and places', async () => {
    worked(
      await bring(
        'stock',
        'Name;Jars;Put up;Size;Best by;Where\r\nPlum jam;12;2026-07-01;half-pint;;Cellar\r\nplum jam;3;2026-06-01;pint/regular;2027-01-01;\r\nRolled oats;4,5;2026-08-01;;;\r\n',
      ),
    );

    // A pint counts as two half-pints.
    expect(await unitsOf(plumJam)).toBe(18);
    expect(await unitsOf(oats)).toBe(4.5);
    const [first] = await lots(pages.db, quinceYard, { itemId: plumJam });
    expect(first).toMatchObject({
      bestQualityUntil: '2027-01-01',
      jarKind: 'pint/regular',
      origin: 'put-up',
    });
  });

  it('is refused for one bad row, and nothing at all is changed', async () => {
    const content =
      'item,units,made\nPlum jam,12,2026-07-01\nPeach jam,3,2026-07-01\nPlum jam,-2,2026-07-01\nGreen beans,2.5,2027-01-01\n';
    const id = await draft('stock', content);
    const before = await logicalState();

    const refusal = refusalOf(
      await importList(pages.writer(), {
        draftId: id,
        mapping: { item: 0, units: 1, made: 2 },
        dates: 'year first',
      }),
    );

    expect(refusal.message).toContain('Expected an item this household keeps; found “Peach jam”');
    expect(refusal.message).toContain('Expected a number above 0 and up to 5,000; found “-2”');
    expect(refusal.message).toContain('Green beans comes by the jar; found “2.5”');
    expect(refusal.message).toContain('Expected a day up to today, 2026-08-17; found 2027-01-01');
    expect(await logicalState()).toBe(before);
  });

  it('names every bad row of 5,000 by its line and column', async () => {
    const rows = Array.from({ length: 5000 }, (_, at) =>
      at % 50 === 0 ? `Nothing like it,${at},2026-07-01` : `Plum jam,${(at % 12) + 1},2026-07-01`,
    );
    const parsed = worked(parseList(`item,units,made\n${rows.join('\n')}\n`));

    const { problems, rows: good } = checkList(parsed, {
      kind: 'stock',
      mapping: guessMapping('stock', parsed.header),
      dates: 'year first',
      items: await items(pages.db, quinceYard),
      places: await places(pages.db, quinceYard),
      today,
    });

    // The first row under the heading is line 2; row 0 also has 0 units.
    const unknown = problems.filter(({ column }) => column === 'item');
    expect(unknown.map(({ line }) => line)).toEqual(Array.from({ length: 100 }, (_, at) => 2 + 50 * at));
    expect(problems.filter(({ column }) => column === 'units').map(({ line }) => line)).toEqual([2]);
    expect(good).toHaveLength(4900);
  });

  it('counts lines of the file, not rows, when a cell has a line break', () => {
    const parsed = worked(parseList('item,units\n"Plum\njam",3\nOats,2\n'));

    expect(parsed.rows.map(({ line }) => line)).toEqual([3, 4]);
  });
});

describe('past use', () => {
  it('teaches what was eaten and leaves the shelf as it is', async () => {
    worked(
      await bring(
        'past use',
        'date,item,eaten\n2026-06-01,Plum jam,2\n2026-05-01,Plum jam,1\n2026-06-03,Green beans,1\n',
      ),
    );

    expect(await unitsOf(plumJam)).toBe(0);
    const taken = (await ledger(pages.db, quinceYard)).filter(({ kind }) => kind === 'taken');
    expect(
      taken.map(({ itemId, units, occurredOn, trainsUse }) => [itemId, units, occurredOn, trainsUse]),
    ).toEqual([
      [plumJam, -1, '2026-05-01', true],
      [plumJam, -2, '2026-06-01', true],
      [greenBeans, -1, '2026-06-03', true],
    ]);
  });

  it('is brought in once, however often it is sent', async () => {
    const id = await draft('past use', 'date,item,eaten\n2026-06-01,Plum jam,2\n');
    const request = { draftId: id, mapping: { day: 0, item: 1, units: 2 }, dates: 'year first' as const };
    worked(await importList(pages.writer({ key: 'the-same-key' }), request));
    const before = await logicalState();

    worked(await importList(pages.writer({ key: 'the-same-key' }), request));
    expect(refusalOf(await importList(pages.writer(), request)).code).toBe('list-unknown');

    expect(await logicalState()).toBe(before);
  });
});

describe('dates in a list', () => {
  it.each([
    ['2026-08-17', 'year first', '2026-08-17'],
    ['8/17/2026', 'month first', '2026-08-17'],
    ['8/17/26', 'month first', '2026-08-17'],
    ['17.8.2026', 'day first', '2026-08-17'],
    ['17.8.2026', 'month first', null],
    ['2026-02-30', 'year first', null],
    ['last week', 'year first', null],
  ] as const)('“%s”, %s, is %s', (text, order, expected) => {
    expect(dateFrom(text, order)).toBe(expected);
  });
});

describe('lists taken along', () => {
  // What a spreadsheet would run: OWASP, CSV Injection.
  it.each([
    ['=1+1', "'=1+1"],
    ['+CMD', "'+CMD"],
    ['-2', "'-2"],
    ['@SUM(A1)', "'@SUM(A1)"],
    ['\tx', "'\tx"],
    ['plum jam', 'plum jam'],
    ['a "b", c', '"a ""b"", c"'],
  ])('write the text %j so that it stays text', (text, expected) => {
    expect(csvText(['h'], [[text]])).toBe(`\uFEFFh\r\n${expected}\r\n`);
  });

  it('write a number of ours as a number', () => {
    expect(csvText(['h'], [[-1], [0.1 + 0.2], [null]])).toBe('\uFEFFh\r\n-1\r\n0.3\r\n\r\n');
  });

  it('can be brought in again', async () => {
    worked(await bring('stock', 'item,units,made\nPlum jam,12,2026-07-01\nGreen beans,5,2026-07-15\n'));
    const { body } = await pages.visitor.open('/files/shelf.csv');

    worked(await bring('stock', body));

    expect(await unitsOf(plumJam)).toBe(24);
    expect(await unitsOf(greenBeans)).toBe(10);
  });

  it.each(['ledger', 'plan', 'buying'])('%s.csv has headings even when there is nothing', async (name) => {
    const answer = await pages.visitor.open(`/files/${name}.csv`);

    expect(answer.status).toBe(200);
    expect(answer.body).toMatch(/^\uFEFF\w+,/);
  });
});

describe('the files page', () => {
  it('takes a list, shows what it holds, and brings it in', async () => {
    const sent = await send('/files/lists', { kind: 'stock' }, 'item,units,made\nPlum jam,12,2026-07-01\n');
    expect(sent.status).toBe(303);

    const look = await pages.visitor.open(sent.location);
    expect(wordsOf(look.body)).toContain('1 rows, and all of them fit.');
    const done = await pages.visitor.submit(look, { form: `${sent.location}/import` });

    expect(done.location).toBe('/files?said=imported&rows=1');
    expect(await unitsOf(plumJam)).toBe(12);
  });

  it('shows what does not fit and offers nothing to bring in', async () => {
    const sent = await send('/files/lists', { kind: 'stock' }, 'item,units,made\nPlum jam,many,2026-07-01\n');
    const look = await pages.visitor.open(sent.location);

    expect(wordsOf(look.body)).toMatch(/2 units Expected a number above 0 and up to 5,000; found “many”/);
    expect(look.body).not.toContain('/import"');
  });

  it.each([
    ['', 'found less'],
    ['item,units,made\n', 'found less'],
    ['item,units\n"Plum', 'Expected a table as CSV'],
  ])('refuses %j as a list', async (content, message) => {
    const answer = await send('/files/lists', { kind: 'stock' }, content);

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(message);
  });

  it('restores a household only when told to be sure', async () => {
    const { body } = await pages.visitor.open('/files/household.json');

    const unsure = await send('/files/household', {}, body);
    const sure = await send('/files/household', { sure: 'yes' }, body);

    expect(unsure.status).toBe(422);
    expect(wordsOf(unsure.body)).toContain('the box is not ticked');
    expect(sure.location).toMatch(/^\/files\?said=restored/);
    expect((await pages.visitor.open('/files/household.json')).body).toBe(body);
  });

  it('takes nothing without the token of its form', async () => {
    const answer = await pages.visitor.upload('/files/household', { key: 'some-upload', sure: 'yes' }, '{}');

    expect(answer.status).toBe(403);
  });
});
