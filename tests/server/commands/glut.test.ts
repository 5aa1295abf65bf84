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
