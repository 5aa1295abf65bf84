import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { quinceYardPages } from '../../builders/quince-yard-pages.ts';
import { typedCommand } from '../../builders/typed-command.ts';
import { wordsOf } from '../../builders/visitor.ts';

const folder = mkdtempSync(join(tmpdir(), 'glut-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Cells of a table's body in words, column by column, each with the heading of its row. */
function columnsOf(page: string): readonly (readonly string[])[] {
  const table = /<table class="answers[\s\S]*?<\/table>/.exec(page)?.[0] ?? '';
  const titles = [...table.matchAll(/<th scope="col">([\s\S]*?)<\/th>/g)].map(([, title = '']) =>
    wordsOf(title),
  );
  const rows = [...table.matchAll(/<tr>\s*<th scope="row">([\s\S]*?)<\/th>([\s\S]*?)<\/tr>/g)].map(
    ([, words = '', cells = '']) =>
      [...cells.matchAll(/<td>([\s\S]*?)<\/td>/g)].map(
        ([, cell = '']) => `${wordsOf(words)}: ${wordsOf(cell)}`,
      ),
  );
  return titles.map((title, at) => [title, ...rows.map((row) => row[at] ?? '')].map((words) => words.trim()));
}

test('the command prints the answers that the page holds against each other', async () => {
  const file = join(folder, 'quince-yard.sqlite');
  const pages = await quinceYardPages(file);
  const { body } = await pages.visitor.open('/glut?crop=plums&amount=40&unit=lb');
  await pages.close();

  const { exit, printed } = await typedCommand(file)('glut', 'plums', '40', 'lb', '--as-of', '2026-08-17');
  const { printed: asJson } = await typedCommand(file)(
    'glut',
    'plums',
    '40',
    'lb',
    '--as-of',
    '2026-08-17',
    '--json',
  );

  const columns = columnsOf(body);
  expect(exit).toBe(0);
  expect(columns.length).toBeGreaterThan(0);
  for (const [title = '', ...lines] of columns) {
    const from = printed.indexOf(`\n${title}:\n`);
    expect(from, title).toBeGreaterThan(0);
    const own = printed.slice(from + 1).split('\n\n')[0] ?? '';
    expect(own).toContain('  make ');
    for (const line of lines) expect(own).toContain(`  ${line}\n`.trimEnd());
  }
  expect(JSON.parse(asJson).answers).toHaveLength(columns.length);
});

// A bushel of plums weighs 56 lb (USDA Complete Guide 2, p2-21); no weight of a lug of plums is published here.
test.each([
  [['2', 'bushels'], '112 lb of plums'],
  [['2 bushels'], '112 lb of plums'],
  [['half a bushel'], '28 lb of plums'],
  [
    ['2', 'lugs'],
    'We have no published weight for a lug of plums. Write pounds, or count in a bushel (56 lb)',
  ],
  [['2', 'flats'], 'We have no published weight for a flat of plums'],
] as const)('the command reads %j', async (typed, words) => {
  const file = join(folder, `measures-${typed.join('+')}.sqlite`);
  const pages = await quinceYardPages(file);
  await pages.close();

  const { printed, complaint } = await typedCommand(file)('glut', 'plums', ...typed, '--as-of', '2026-08-17');

  expect(`${printed}${complaint}`).toContain(words);
});
