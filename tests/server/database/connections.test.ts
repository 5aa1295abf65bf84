import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import { expect, test } from 'vitest';
import { openDatabase } from '../../../server/database/database.ts';

// SQLite's "Write-Ahead Logging", section 2.1, and its page on PRAGMA synchronous: in WAL mode only FULL (2) and above sync the
// log at each commit; NORMAL (1), which the package better-sqlite3 sets for such files, may lose the last commits at a power cut.

const server = new URL('../../../server/', import.meta.url);
const files = readdirSync(server, { recursive: true, encoding: 'utf8' }).filter((name) =>
  name.endsWith('.ts'),
);

/** Every place that opens a file, with what follows up to the next one. */
const openings = files.flatMap((name) =>
  readFileSync(new URL(name, server), 'utf8')
    .split(/new SQLite\(/)
    .slice(1)
    .map((text) => ({ name, options: text.slice(0, text.indexOf(');')), text: text.slice(0, 600) })),
);

test('every connection that can write a household’s file syncs each commit, as it says itself', () => {
  expect(openings.length).toBeGreaterThan(4);
  const writing = openings.filter(({ options }) => !options.includes('readonly: true'));
  const careless = writing.filter(({ text }) => !text.includes("pragma('synchronous = FULL')"));

  // The file that says who serves holds nothing.
  expect(careless.map(({ name }) => name)).toEqual(['database/serving-lock.ts']);
});

test('the settings are in force on a file as it is opened, begun anew or not', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
  for (const _ of ['new', 'there already']) {
    const db = await openDatabase(join(folder, 'pantry.sqlite'));
    const setting = async (name: string) =>
      Object.values((await sql`PRAGMA ${sql.raw(name)}`.execute(db)).rows[0] as object)[0];
    expect(await setting('journal_mode')).toBe('wal');
    expect(await setting('synchronous')).toBe(2);
    expect(await setting('foreign_keys')).toBe(1);
    await db.destroy();
  }
  rmSync(folder, { recursive: true, force: true });
});
