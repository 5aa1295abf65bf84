import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { SQLiteStatements } from '../../server/database/sqlite.ts';
import { type Demo, openDemo } from './demo.ts';
import { pagesOfDemo } from './pages-of-demo.ts';

// On a database elsewhere each statement is a journey there and back: a page that is looked at again asks for little, since what the
// household said and did is held until something of it changes.

const most = 12;

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

test('no page of the demo household asks more than twelve statements when it is looked at again', async () => {
  const statements: [name: string, asked: number][] = [];
  for (const { name, path } of pagesOfDemo) {
    await demo.app.inject({ url: path });
    asked = 0;
    await demo.app.inject({ url: path });
    statements.push([name, asked]);
  }

  expect(statements.length).toBeGreaterThan(50);
  expect(statements.filter(([, n]) => n > most)).toEqual([]);
});
