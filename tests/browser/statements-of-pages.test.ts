import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { SQLiteStatements } from '../../server/database/sqlite.ts';
import { type Demo, openDemo } from './demo.ts';
import { pagesOfDemo } from './pages-of-demo.ts';

// On a database elsewhere each statement is a journey there and back: a page that is looked at again asks for little, since what the
// household said and did is held until something of it changes.

const most = 12;
/** Pages that ask more, each with how many and what of. */
const asksMore: Readonly<Record<string, { readonly most: number; readonly why: string }>> = {
  week: { most: 13, why: 'what troubles the night, the days that passed, the shelf and how the plan stands' },
  'shelf-item': { most: 14, why: 'its last entries, its open jars and its promises' },
  'shelf-open': { most: 13, why: 'every open jar with what was said of it' },
  item: { most: 18, why: 'recipes that were set aside, with all that belongs to them' },
  'item-staple': { most: 18, why: 'the same' },
};

let demo: Demo;
let asked = 0;
beforeAll(async () => {
  const prepare = SQLiteStatements.prototype.prepare;
  vi.spyOn(SQLiteStatements.prototype, 'prepare').mockImplementation(function (
    this: SQLiteStatements,
    statement: string,
  ) {
    asked += 1;
    return prepare.call(this, statement);
  });
  demo = await openDemo();
});
afterAll(async () => {
  vi.restoreAllMocks();
  await demo.close();
});

test('no page of the demo household asks more than twelve statements when it is looked at again, but for those that are named', async () => {
  const statements: [name: string, asked: number][] = [];
  for (const { name, path } of pagesOfDemo) {
    await demo.app.inject({ url: path });
    asked = 0;
    await demo.app.inject({ url: path });
    statements.push([name, asked]);
  }

  expect(statements.length).toBeGreaterThan(50);
  expect(statements.filter(([name, n]) => n > (asksMore[name]?.most ?? most))).toEqual([]);
  expect(
    Object.keys(asksMore).filter((name) => !statements.some(([one, n]) => one === name && n > most)),
  ).toEqual([]);
});
