import { webcrypto } from 'node:crypto';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { Secret, TOTP } from 'otpauth';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import {
  beginSecondFactor,
  confirmSecondFactor,
  isSecondFactor,
  sealSeeds,
} from '../../../server/access/second-factor.ts';
import { passingSeedKeys, readSeedKeys, usualKeyFile } from '../../../server/access/seed-keys.ts';
import { run as backup } from '../../../server/commands/backup.ts';
import { run as rotate } from '../../../server/commands/rotate-key.ts';
import { type Database, openDatabase } from '../../../server/database/database.ts';
import { lockForServing } from '../../../server/database/serving-lock.ts';
import { SQLite } from '../../../server/database/sqlite.ts';
import { readSettings } from '../../../server/settings.ts';
import { worked } from '../../builders/outcomes.ts';
import { quinceYardHousehold } from '../../builders/quince-yard.ts';

// OWASP ASVS 5.0.0, V13.3.1 and V11.3: the seeds of second factors are encrypted under a key that is not in the file.

let folder: string;
let file: string;
let said: string[];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'pantry-'));
  file = join(folder, 'quince-yard.sqlite');
  said = [];
  vi.spyOn(console, 'log').mockImplementation((line: string) => void said.push(line));
  vi.spyOn(console, 'error').mockImplementation((line: string) => void said.push(line));
});
afterEach(() => {
  vi.restoreAllMocks();
  rmSync(folder, { recursive: true, force: true });
});

const now = Date.UTC(2026, 7, 17, 18);
const keysHere = () => readSeedKeys(usualKeyFile(file), { make: true });
const codeOf = (seed: string, at = now) =>
  new TOTP({ secret: Secret.fromBase32(seed) }).generate({ timestamp: at });

async function person(db: Database, id: string): Promise<void> {
  await db
    .insertInto('person')
    .values({ id, name: id, name_key: id, passphrase_hash: '', created_at: 0 })
    .execute();
}

/** Ida with a second factor, in a file of her own; answers its seed. */
async function withFactor(): Promise<string> {
  const { db } = await quinceYardHousehold(file);
  await person(db, 'Ida');
  const store = { db, seedKeys: keysHere() };
  const begun = await beginSecondFactor(store, { id: 'Ida', name: 'Ida' }, now);
  const seed = begun?.seed ?? '';
  expect(await confirmSecondFactor(store, 'Ida', codeOf(seed), { now, steps: 0 })).toHaveLength(10);
  await db.destroy();
  return seed;
}

/** Whether any file of the folder, the key's own aside, holds that text or the bytes it stands for. */
function standsSomewhere(seed: string): boolean {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => join(folder, name))
    .filter((path) => statSync(path).isFile())
    .some((path) => {
      const bytes = readFileSync(path);
      return bytes.includes(seed) || bytes.includes(Buffer.from(Secret.fromBase32(seed).buffer));
    });
}

const opens = async (seed: string, at: number): Promise<boolean> => {
  const db = await openDatabase(file);
  const kind = await isSecondFactor({ db, seedKeys: keysHere() }, 'Ida', codeOf(seed, at), {
    now: at,
    steps: 0,
  });
  await db.destroy();
  return kind === 'code';
};

describe('a sealed seed', () => {
  test('opens for its person alone, and not when one letter of it is another', () => {
    const keys = passingSeedKeys();
    fc.assert(
      fc.property(fc.string({ minLength: 1 }), fc.uuid(), fc.uuid(), fc.nat(), (seed, one, other, at) => {
        fc.pre(one !== other);
        const sealed = keys.seal(seed, one);
        const place = sealed.length - 1 - (at % 40);
        const changed = `${sealed.slice(0, place)}${sealed[place] === 'A' ? 'B' : 'A'}${sealed.slice(place + 1)}`;
        expect(keys.open(sealed, one)).toBe(seed);
        expect(keys.open(sealed, other)).toBeNull();
        // The last sign may carry bits that say nothing.
        if (place < sealed.length - 1) expect(keys.open(changed, one)).toBeNull();
        expect(passingSeedKeys().open(sealed, one)).toBeNull();
      }),
    );
  });

  test('is AES-256-GCM as another implementation reads it: nonce, tag, text; the person’s id beside it', async () => {
    const sealed = keysHere().seal('JBSWY3DPEHPK3PXP', 'Ida');
    const raw = Buffer.from(readFileSync(usualKeyFile(file), 'utf8').trim(), 'base64');
    const whole = Buffer.from(sealed.split('.')[2] ?? '', 'base64url');
    const key = await webcrypto.subtle.importKey('raw', raw, 'AES-GCM', false, ['decrypt']);

    const opened = await webcrypto.subtle.decrypt(
      { name: 'AES-GCM', iv: whole.subarray(0, 12), additionalData: Buffer.from('Ida') },
      key,
      Buffer.concat([whole.subarray(28), whole.subarray(12, 28)]),
    );

    expect(Buffer.from(opened).toString()).toBe('JBSWY3DPEHPK3PXP');
  });
});

describe('the household’s file', () => {
  test('never holds the plain seed, nor does its log or a backup; the key is its owner’s alone to read', async () => {
    const seed = await withFactor();

    expect(await backup([join(folder, 'copy.sqlite'), '--database', file])).toBe(0);

    expect(standsSomewhere(seed)).toBe(false);
    expect(statSync(usualKeyFile(file)).mode & 0o777).toBe(0o600);
    expect(said.join(' ')).toContain(`with the key in ${usualKeyFile(file)}. Keep a copy of it too`);
    expect(await opens(seed, now + 60_000)).toBe(true);
  });

  test('from before there were keys has its seeds sealed at the first start, and nothing of them stays behind', async () => {
    const seed = await withFactor();
    const sqlite = new SQLite(file);
    sqlite.prepare('UPDATE second_factor SET seed = ?').run(seed);
    sqlite.close();
    expect(standsSomewhere(seed)).toBe(true);
    const db = await openDatabase(file);

    expect(await sealSeeds({ db, seedKeys: keysHere() })).toEqual({ sealed: 1, lost: [] });
    expect(standsSomewhere(seed)).toBe(false);
    expect(await sealSeeds({ db, seedKeys: keysHere() })).toEqual({ sealed: 0, lost: [] });

    await db.destroy();
    expect(await opens(seed, now + 60_000)).toBe(true);
  });

  test('opens without its key all the same: whose factor is lost is said, and recovery codes still work', async () => {
    const seed = await withFactor();
    rmSync(usualKeyFile(file));
    const db = await openDatabase(file);

    expect(await sealSeeds({ db, seedKeys: keysHere() })).toEqual({ sealed: 0, lost: ['Ida'] });

    await db.destroy();
    expect(await opens(seed, now + 60_000)).toBe(false);
  });
});

describe('another key', () => {
  test('seals all anew; the old one stays for backups until it is told to go', async () => {
    const seed = await withFactor();
    const before = readFileSync(usualKeyFile(file), 'utf8');

    expect(await rotate(['--database', file])).toBe(0);
    const both = readFileSync(usualKeyFile(file), 'utf8');
    expect(both.endsWith(before) && both.length > before.length).toBe(true);
    expect(await opens(seed, now + 60_000)).toBe(true);

    expect(await rotate(['--forget-old', '--database', file])).toBe(0);
    expect(readFileSync(usualKeyFile(file), 'utf8').trim().split('\n')).toHaveLength(1);
    expect(statSync(usualKeyFile(file)).mode & 0o777).toBe(0o600);
    expect(await opens(seed, now + 120_000)).toBe(true);
    expect(said.join(' ')).toContain('1 second factor is sealed with a new key');
  });

  test('is not made while a server runs, which knows the old one only', async () => {
    await withFactor();
    const before = readFileSync(usualKeyFile(file), 'utf8');
    const lock = worked(lockForServing(file));

    expect(await rotate(['--database', file])).toBe(1);

    lock.release();
    expect(readFileSync(usualKeyFile(file), 'utf8')).toBe(before);
  });
});

describe('a key file', () => {
  test('that holds something else, or is named and not there, is refused; nothing is written over it', () => {
    const named = join(folder, 'named');
    writeFileSync(named, 'not a key\n');

    expect(() => readSeedKeys(named, { make: true })).toThrow('does not hold keys of 32 bytes in base64');
    expect(readFileSync(named, 'utf8')).toBe('not a key\n');
    expect(() => readSeedKeys(join(folder, 'none'), { make: false })).toThrow('could not be read');
    expect(existsSync(join(folder, 'none'))).toBe(false);
  });

  test('is named by the operator or handed over by the service manager; otherwise it stands beside the file', () => {
    writeFileSync(join(folder, 'shelfward-key'), '');
    const from = (given: Record<string, string>) => worked(readSettings(given, '/srv')).keyFile;

    expect(from({})).toBe('');
    expect(from({ CREDENTIALS_DIRECTORY: folder })).toBe(join(folder, 'shelfward-key'));
    expect(from({ SHELFWARD_KEY_FILE: '/etc/key', CREDENTIALS_DIRECTORY: folder })).toBe('/etc/key');
  });
});
