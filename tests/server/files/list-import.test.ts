import { sql } from 'kysely';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { engineOf } from '../../../server/database/engine-of.ts';
import { csvText } from '../../../server/files/csv-text.ts';
import { importList, keepDraft } from '../../../server/files/keep-list.ts';
import { dateFrom } from '../../../server/files/list-cells.ts';
import { checkList, faultsOf, guessMapping, linesInWords } from '../../../server/files/list-import.ts';
import { parseList } from '../../../server/files/list-table.ts';
import type { NewListItem } from '../../../server/files/new-list-items.ts';
import { itemsOf } from '../../../server/queries/household/items.ts';
import { placesOf } from '../../../server/queries/household/kitchen.ts';
import { ledgerOf } from '../../../server/queries/shelf/ledger.ts';
import { lotsOf, shelfByItem } from '../../../server/queries/shelf/shelf.ts';
import { htmlProblems } from '../../builders/html-problems.ts';
import { refusalOf, worked } from '../../builders/outcomes.ts';
import { greenBeans, oats, plumJam, quinceYard, today } from '../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../builders/quince-yard-pages.ts';
import { formOf, wordsOf } from '../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

/** Every table but the lists on their way in and the keys of writes, as one text. */
async function logicalState(): Promise<string> {
  const all: Record<string, unknown> = {};
  for (const { name, key } of await engineOf(pages.db).tables(pages.db))
    if (name !== 'import_draft') {
      const order = sql.join(key.map((column) => sql.ref(column)));
      all[name] = (await sql`SELECT * FROM ${sql.table(name)} ORDER BY ${order}`.execute(pages.db)).rows;
    }
  return JSON.stringify(all);
}

const draft = (kind: 'stock' | 'past use', content: string) =>
  keepDraft(pages.db, quinceYard, { kind, fileName: 'list.csv', content }, 0);

async function bring(kind: 'stock' | 'past use', content: string, newItems: readonly NewListItem[] = []) {
  const parsed = worked(parseList(content));
  return importList(pages.writer(), {
    draftId: await draft(kind, content),
    mapping: guessMapping(kind, parsed.header),
    dates: 'year first',
    newItems,
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
    const [first] = await lotsOf(pages.db, quinceYard, { itemId: plumJam });
    expect(first).toMatchObject({
      bestQualityUntil: '2027-01-01',
      jarKind: 'pint/regular',
      origin: 'put-up',
    });
  });

  it('with places where the household has none yet says where one is added', async () => {
    await pages.db.updateTable('lot').set({ place_id: null }).execute();
    await pages.db.deleteFrom('place').execute();
    const refused = refusalOf(
      await bring(
        'stock',
        'Name;Jars;Put up;Size;Best by;Where\r\nPlum jam;12;2026-07-01;half-pint;;Attic\r\n',
      ),
    );

    expect(refused.message).toContain('You have no places yet, so “Attic” is not known.');
    expect(refused.message).not.toContain('none yet.');
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
        newItems: [],
      }),
    );

    expect(refusal.message).toContain('“-2” is not a number above 0 and up to 5,000');
    expect(refusal.message).toContain('Green beans comes by the jar, so “2.5” cannot be right');
    expect(refusal.message).toContain('Jan 1, 2027 is still to come; today is Aug 17, 2026');
    expect(await logicalState()).toBe(before);
  });

  it('names every bad row of 5,000 by its line and column', async () => {
    const rows = Array.from({ length: 5000 }, (_, at) =>
      at % 50 === 0 ? `Plum jam,${at}x,2026-07-01` : `Plum jam,${(at % 12) + 1},2026-07-01`,
    );
    rows[4999] = 'Plum jam,,tomorrow';
    const parsed = worked(parseList(`item,units,made\n${rows.join('\n')}\n`));

    const { problems, rows: good } = checkList(parsed, {
      kind: 'stock',
      mapping: guessMapping('stock', parsed.header),
      dates: 'year first',
      items: await itemsOf(pages.db, quinceYard),
      places: await placesOf(pages.db, quinceYard),
      today,
    });

    // The first row under the heading is line 2.
    const everyFiftieth = Array.from({ length: 100 }, (_, at) => 2 + 50 * at);
    expect(problems.filter(({ column }) => column === 'units').map(({ line }) => line)).toEqual([
      ...everyFiftieth,
      5001,
    ]);
    expect(problems.filter(({ column }) => column === 'made').map(({ line }) => line)).toEqual([5001]);
    expect(good).toHaveLength(4899);
  });

  it('shows every bad line of a long list, the faults that read alike drawn together', async () => {
    const rows = Array.from(
      { length: 3000 },
      (_, at) => `Plum jam,${at < 600 ? `${at}x` : 'many'},2026-07-01`,
    );
    const sent = await send('/files/lists', { kind: 'stock' }, `item,units,made\n${rows.join('\n')}\n`);

    const page = await pages.visitor.open(sent.location);

    const words = wordsOf(page.body);
    expect(words).toContain('3,000 rows; 3,000 lines do not fit.');
    expect(words).toMatch(/ 2 units “0x” is not a number above 0 and up to 5,000/);
    expect(words).toContain('And more faults on the lines 102–3001.');
    const list = /href="([^"]+problems\.csv[^"]*)"/.exec(page.body)?.[1]?.replaceAll('&amp;', '&') ?? '';
    const csv = (await pages.visitor.open(list)).body.trim().split('\r\n');
    expect(csv.slice(1).map((line) => Number(line.split(',')[0]))).toEqual(
      Array.from({ length: 3000 }, (_, at) => at + 2),
    );
  });

  it.each([
    [[7], '7'],
    [[2, 3], '2, 3'],
    [[9, 2, 5, 6, 7, 2], '2, 5–7 and 9'],
    [[], ''],
  ])('says the lines %j as “%s”', (lines, words) => {
    expect(linesInWords(lines)).toBe(words);
  });

  it('draws a fault together only with the same one of the same column', () => {
    const fault = (line: number, column: string, message: string) => ({ line, column, message });

    expect(
      faultsOf([
        fault(2, 'units', 'no number'),
        fault(3, 'made', 'no number'),
        fault(4, 'units', 'no number'),
      ]),
    ).toEqual([
      { column: 'units', message: 'no number', lines: [2, 4] },
      { column: 'made', message: 'no number', lines: [3] },
    ]);
  });

  it('counts lines of the file, not rows, when a cell has a line break', () => {
    const parsed = worked(parseList('item,units\n"Plum\njam",3\nOats,2\n'));

    expect(parsed.rows.map(({ line }) => line)).toEqual([3, 4]);
  });
});

describe('names that nobody keeps yet', () => {
  const content =
    'item,units,made,jar\nPeach jam,6,2026-07-01,half-pint\nPlum Jam (old),2,2026-06-01,\npeach jam,1,2026-07-08,pint\nFrozen peas,4,2026-07-01,\n';
  const peachJam: NewListItem = {
    name: 'Peach jam',
    sameAs: null,
    way: 'canned jar',
    family: 'stone-fruit',
    jarKind: 'half-pint/regular' as NonNullable<Extract<NewListItem, { sameAs: null }>['jarKind']>,
    bestQualityDays: 365,
  };
  const peas: NewListItem = {
    name: 'Frozen peas',
    sameAs: null,
    way: 'frozen bag',
    family: 'greens-beans',
    jarKind: null,
    bestQualityDays: 240,
  };
  const oldJam: NewListItem = { name: 'Plum Jam (old)', sameAs: plumJam };

  it('are added with the list, or their rows go to what is kept already', async () => {
    const answer = worked(await bring('stock', content, [peachJam, oldJam, peas]));

    expect(answer).toEqual({ rows: 4, items: 3 });
    // A pint counts as two half-pints.
    expect([await unitsOf('peach-jam'), await unitsOf(plumJam), await unitsOf('frozen-peas')]).toEqual([
      8, 2, 4,
    ]);
    const added = (await itemsOf(pages.db, quinceYard)).filter(
      ({ id }) => id === 'peach-jam' || id === 'frozen-peas',
    );
    expect(added.map(({ keeping, unit, bestQualityDays }) => [keeping, unit, bestQualityDays])).toEqual([
      ['frozen', 'bag', 240],
      ['canned', 'jar', 365],
    ]);
  });

  it.each([
    ['one of them is not spoken of', [peachJam, peas], '“Plum Jam (old)” (line 3). Say below what it is'],
    [
      'a new one has a name that is taken',
      [peachJam, oldJam, peas, { ...peas, name: 'Plum jam' }],
      'You already keep Plum jam',
    ],
  ] as const)('bring nothing in, and add nothing, where %s', async (_, newItems, words) => {
    const before = await logicalState();

    const refusal = refusalOf(await bring('stock', content, newItems as readonly NewListItem[]));

    expect(refusal.message).toContain(words);
    expect(await logicalState()).toBe(before);
  });

  it('are asked about on the page, with a guess from the list, and come in with it', async () => {
    const sent = await send('/files/lists', { kind: 'stock' }, content);
    const page = await pages.visitor.open(sent.location);
    const words = wordsOf(page.body);
    expect(words).toContain('4 rows; 3 names are not kept yet.');
    expect(await htmlProblems(page.body)).toEqual([]);
    expect(words).toContain('Peach jam 2 rows, lines 2 and 4');
    expect(formOf(page.body, `${sent.location}/import`).values).toMatchObject({
      'new-0-name': 'Peach jam',
      'new-0-as': 'canned jar',
      'new-0-family': 'stone-fruit',
      'new-0-jar': 'half-pint/regular',
      'new-0-days': '365',
      'new-1-as': '',
      'new-2-family': 'greens-beans',
    });

    const unsaid = await pages.visitor.submit(page, { form: `${sent.location}/import` });
    expect(unsaid.status).toBe(422);
    expect(wordsOf(unsaid.body)).toContain('Choose a way of keeping: put up in jars');
    const done = await pages.visitor.submit(unsaid, {
      form: `${sent.location}/import`,
      fill: { 'new-1-as': `item ${plumJam}`, 'new-2-as': 'frozen bag', 'new-2-days': '240' },
    });

    expect(done.location).toBe('/files?said=imported&rows=4&added=2');
    expect(wordsOf((await pages.visitor.open(done.location)).body)).toContain(
      '4 rows were brought in, and 2 items were added to what you keep.',
    );
    expect(await unitsOf('frozen-peas')).toBe(4);
  });

  it('show the rows that do not fit the new item, and keep what was said', async () => {
    const sent = await send('/files/lists', { kind: 'stock' }, 'item,units,made\nPeach jam,1.5,2026-07-01\n');
    const page = await pages.visitor.open(sent.location);

    const answer = await pages.visitor.submit(page, {
      form: `${sent.location}/import`,
      fill: { 'new-0-as': 'canned jar', 'new-0-days': '300' },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toMatch(/2 units Peach jam comes by the jar, so/);
    expect(formOf(answer.body, `${sent.location}/import`).values).toMatchObject({
      'new-0-as': 'canned jar',
      'new-0-days': '300',
    });
    expect((await itemsOf(pages.db, quinceYard)).map(({ name }) => name)).not.toContain('Peach jam');
  });

  it('of past use are asked about as well', async () => {
    worked(await bring('past use', 'date,item,eaten\n2026-06-01,Peach jam,2\n', [peachJam]));

    expect(await unitsOf('peach-jam')).toBe(0);
    expect((await ledgerOf(pages.db, quinceYard)).filter(({ kind }) => kind === 'taken')).toHaveLength(1);
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
    const taken = (await ledgerOf(pages.db, quinceYard)).filter(({ kind }) => kind === 'taken');
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
    const request = {
      draftId: id,
      mapping: { day: 0, item: 1, units: 2 },
      dates: 'year first' as const,
      newItems: [],
    };
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
    expect(wordsOf(look.body)).toContain('1 row, and it fits.');
    const done = await pages.visitor.submit(look, { form: `${sent.location}/import` });

    expect(done.location).toBe('/files?said=imported&rows=1&added=0');
    expect(await unitsOf(plumJam)).toBe(12);
  });

  it('shows what does not fit and offers nothing to bring in', async () => {
    const sent = await send('/files/lists', { kind: 'stock' }, 'item,units,made\nPlum jam,many,2026-07-01\n');
    const look = await pages.visitor.open(sent.location);

    expect(wordsOf(look.body)).toMatch(/2 units “many” is not a number above 0 and up to 5,000/);
    expect(look.body).not.toContain('/import"');
  });

  it.each([
    ['', 'this one has less'],
    ['item,units,made\n', 'this one has less'],
    ['item,units\n"Plum', 'This file is not a CSV table'],
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
    expect(wordsOf(unsure.body)).toContain('Tick the box first');
    expect(sure.location).toMatch(/^\/files\?said=restored/);
    expect((await pages.visitor.open('/files/household.json')).body).toBe(body);
  });

  it('takes nothing without the token of its form', async () => {
    const answer = await pages.visitor.upload('/files/household', { key: 'some-upload', sure: 'yes' }, '{}');

    expect(answer.status).toBe(403);
  });
});
