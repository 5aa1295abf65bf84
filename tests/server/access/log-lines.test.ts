import { createInterface } from 'node:readline';
import { Readable } from 'node:stream';
import { stripVTControlCharacters } from 'node:util';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { buildApp } from '../../../server/app.ts';
import { type Database, openDatabase } from '../../../server/database/database.ts';
import { serverLog } from '../../../server/log.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';

// The log is read by programs that are not ours: a reader of lines, one of JSON and a terminal. Each line is read here by
// Node's own of all three, whatever a stranger sends and whatever the message of a fault holds.

/** Ends of lines and of JSON, and what moves or colors a terminal: in seven and in eight bits, and what turns writing around. */
const trap =
  'a\r\n{"level":60,"security":{"kind":"signed-in"}}\n\u0085\u2028\u2029\u001b[2J\u009b31m\u001b]0;title\u0007"}\\u000a\u202e\u2066\ufeff\u0000';

let db: Database;
let app: Awaited<ReturnType<typeof buildApp>>;
let written: string[];
beforeEach(async () => {
  written = [];
  db = await openDatabase(':memory:');
  app = await buildApp({
    db,
    reference: loadReferenceTables(),
    now: () => Date.parse('2026-12-14T12:00:00Z'),
    logger: {
      ...(serverLog as object),
      level: 'trace',
      stream: { write: (line: string) => void written.push(line) },
    },
  });
});
afterEach(async () => {
  await app.close();
  await db.destroy().catch(() => undefined);
});

async function linesOf(text: string): Promise<readonly string[]> {
  const lines: string[] = [];
  for await (const line of createInterface({ input: Readable.from([text]) })) lines.push(line);
  return lines;
}

/** Each write is one line, one value of JSON, and nothing to a terminal. */
async function readByStrangers(): Promise<readonly Record<string, unknown>[]> {
  expect(await linesOf(written.join(''))).toHaveLength(written.length);
  return written.map((line) => {
    expect(stripVTControlCharacters(line)).toBe(line);
    expect(line.trimEnd()).not.toMatch(/[\p{Cc}\p{Cf}\u2028\u2029]/u);
    return JSON.parse(line) as Record<string, unknown>;
  });
}

describe('a line of the log', () => {
  it('stays one line with the message of a fault whole in it', async () => {
    for (const sign of [trap, ...trap])
      app.log.error({ err: new Error(sign) }, 'work in the background failed');

    const read = await readByStrangers();

    expect(read.map(({ err }) => (err as Error).message)).toEqual([trap, ...trap]);
  });

  it.each([
    ['an address', { method: 'GET', url: `/items/${encodeURIComponent(trap)}?${encodeURIComponent(trap)}` }],
    [
      'the name of a person and of a device',
      {
        method: 'POST',
        url: '/sign-in',
        headers: { 'content-type': 'application/x-www-form-urlencoded', 'user-agent': trap },
        payload: `name=${encodeURIComponent(trap)}&passphrase=${encodeURIComponent(trap)}`,
      },
    ],
    [
      'a body that is none',
      { method: 'POST', url: '/items', headers: { 'content-type': trap }, payload: trap },
    ],
    ['cookies', { method: 'GET', url: '/', headers: { cookie: `sign-in=${trap}; form=${trap}` } }],
  ] as const)('holds nothing of %s', async (_, request) => {
    await app.inject({ ...request });
    await db.destroy();
    await app.inject({ ...request });

    const read = await readByStrangers();

    expect(read.length).toBeGreaterThan(1);
    expect(read.filter((line) => /title|signed-in/.test(JSON.stringify(line)))).toEqual([]);
  });
});
