import { createCipheriv, createDecipheriv, createHash, randomBytes } from 'node:crypto';
import { closeSync, fsyncSync, openSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { ShelfwardError } from '../../shared/problems.ts';
import { makeFolder } from '../database/folder.ts';
import { isAddress } from '../database/place.ts';
import { toDisk } from '../database/to-disk.ts';

// The seed of a second factor has to be read again, so it is kept encrypted, under a key that is not in the household's file:
// AES-256-GCM (NIST SP 800-38D) with 96 random bits for each seal, and the person's id as associated data, so that a seed put
// into another person's row opens nothing.

const keyBytes = 32;
const nonceBytes = 12;
const tagBytes = 16;
const form = /^v1\.([0-9a-f]{8})\.([\w-]+)$/;

/** Keys in the order of their file: the first seals, each opens what it sealed. */
export interface SeedKeys {
  seal(seed: string, personId: string): string;
  /** The seed; null when it was sealed for somebody else, with a key that is not there, or was changed. */
  open(sealed: string, personId: string): string | null;
  /** Whether it is sealed with the first key. */
  isOfToday(sealed: string): boolean;
}

function seedKeys(keys: readonly Buffer[]): SeedKeys {
  const [first] = keys;
  if (first === undefined) throw new ShelfwardError('key-missing', 'seedKeys: expected one key at least');
  const byName = new Map(keys.map((key) => [nameOf(key), key]));
  return {
    seal: (seed, personId) => {
      const nonce = randomBytes(nonceBytes);
      const cipher = createCipheriv('aes-256-gcm', first, nonce).setAAD(Buffer.from(personId));
      const hidden = Buffer.concat([cipher.update(seed, 'utf8'), cipher.final()]);
      const whole = Buffer.concat([nonce, cipher.getAuthTag(), hidden]);
      return `v1.${nameOf(first)}.${whole.toString('base64url')}`;
    },
    open: (sealed, personId) => {
      const [, name = '', text = ''] = form.exec(sealed) ?? [];
      const key = byName.get(name);
      const whole = Buffer.from(text, 'base64url');
      if (key === undefined || whole.length <= nonceBytes + tagBytes) return null;
      try {
        const decipher = createDecipheriv('aes-256-gcm', key, whole.subarray(0, nonceBytes), {
          authTagLength: tagBytes,
        })
          .setAAD(Buffer.from(personId))
          .setAuthTag(whole.subarray(nonceBytes, nonceBytes + tagBytes));
        const seed = Buffer.concat([
          decipher.update(whole.subarray(nonceBytes + tagBytes)),
          decipher.final(),
        ]);
        return seed.toString('utf8');
      } catch {
        return null;
      }
    },
    isOfToday: (sealed) => form.exec(sealed)?.[1] === nameOf(first),
  };
}

/** Whether that is a sealed seed, of whichever key. */
export const isSealed = (kept: string): boolean => form.test(kept);

/** For a file in memory, and for tests: gone with the process. */
export const passingSeedKeys = (): SeedKeys => seedKeys([randomBytes(keyBytes)]);

/** Tells keys apart; says nothing of the key. */
const nameOf = (key: Buffer): string => createHash('sha256').update(key).digest('hex').slice(0, 8);

/** Where the key stands when nobody names another place: beside the file, or for a PostgreSQL database under the current folder. */
export const usualKeyFile = (database: string): string =>
  isAddress(database) ? join('.shelfward', 'shelfward-key') : `${database}-key`;

/** The keys of a file, one a line; with `make`, a file that is not there is made with a new key, for its owner's eyes only. */
export function readSeedKeys(file: string, { make }: { readonly make: boolean }): SeedKeys {
  return seedKeys(keysIn(file, make));
}

function keysIn(file: string, make: boolean): readonly Buffer[] {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (cause) {
    const missing = cause instanceof Error && 'code' in cause && cause.code === 'ENOENT';
    if (missing && make) return makeKeyFile(file);
    throw new ShelfwardError(
      'key-unreadable',
      `The key of second factors in ${file} could not be read. Look at its name and who may read it, and start again.`,
      { cause },
    );
  }
  const keys = text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .map((line) => Buffer.from(line, 'base64'));
  if (keys.length === 0 || keys.some(({ length }) => length !== keyBytes))
    throw new ShelfwardError(
      'key-unfit',
      `${file} does not hold keys of ${keyBytes} bytes in base64, one a line. Put the key back from where it is kept; without it, move the file away: a new key is made, and second factors are then reset with the command passphrase-reset.`,
    );
  return keys;
}

function makeKeyFile(file: string): readonly Buffer[] {
  const key = randomBytes(keyBytes);
  makeFolder(dirname(resolve(file)));
  try {
    writeKeys(file, [key], 'wx');
  } catch (cause) {
    // Another process that began at the same moment was first: its key stands.
    if (cause instanceof Error && 'code' in cause && cause.code === 'EEXIST') return keysIn(file, false);
    throw cause;
  }
  toDisk(dirname(resolve(file)));
  return [key];
}

/** Written whole and on the disk before anything is sealed with it. */
function writeKeys(file: string, keys: readonly Buffer[], flag: 'wx' | 'w'): void {
  const open = openSync(file, flag, 0o600);
  try {
    writeFileSync(open, keys.map((key) => `${key.toString('base64')}\n`).join(''));
    fsyncSync(open);
  } finally {
    closeSync(open);
  }
}

function replaceKeys(file: string, keys: readonly Buffer[]): void {
  const fresh = `${file}.new`;
  rmSync(fresh, { force: true });
  writeKeys(fresh, keys, 'wx');
  renameSync(fresh, file);
  toDisk(dirname(resolve(file)));
}

/** A new key before the others, which still open what they sealed: seeds that are not sealed anew yet, and backups. */
export function addSeedKey(file: string): SeedKeys {
  const keys = [randomBytes(keyBytes), ...keysIn(file, false)];
  replaceKeys(file, keys);
  return seedKeys(keys);
}

/** Leaves the first key alone in the file; what others sealed cannot be opened any more. */
export function forgetOldSeedKeys(file: string): void {
  replaceKeys(file, keysIn(file, false).slice(0, 1));
}
