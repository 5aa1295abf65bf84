import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { expect, test } from 'vitest';

// What server/SECURITY.md says of the code as a whole, read out of the code.

const root = resolve(import.meta.dirname, '../..');
const filesIn = (folder: string, ending: RegExp) =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((path) => ending.test(path))
    .map((path) => ({ path: `${folder}/${path}`, code: readFileSync(join(root, folder, path), 'utf8') }));
const code = ['server', 'src', 'shared', 'views'].flatMap((folder) => filesIn(folder, /\.tsx?$/));
const pageScripts = filesIn('views', /\.js$/);
const where = (files: typeof code, found: RegExp) =>
  files.flatMap(({ path, code: text }) => [...text.matchAll(found)].map(([what]) => `${path}: ${what}`));

test('V1.2.9, V1.3.2: nothing typed becomes a pattern or code', () => {
  // Of the patterns that are put together, none holds what somebody typed.
  expect(where(code, /\bnew RegExp\([^)]*\b(?:typed|query|body|request|sent)\b/g)).toEqual([]);
  expect(where([...code, ...pageScripts], /\beval\(|new Function\(|setTimeout\(\s*['"`]/g)).toEqual([]);
});

test('V3.2.2: scripts and pages write text as text', () => {
  expect(pageScripts.length).toBeGreaterThan(0);
  expect(
    where([...pageScripts, ...code], /\.(?:inner|outer)HTML\s*=|insertAdjacentHTML|document\.write/g),
  ).toEqual([]);
});

test('V11.3.2, V11.4.1: hashes are SHA-256, the cipher is AES in GCM, and chance is the system’s', () => {
  const ways = where(code, /create(?:Hash|Hmac|Cipheriv|Decipheriv)\(\s*['"][\w-]+['"]/g).map(
    (one) => /['"]([\w-]+)['"]/.exec(one)?.[1],
  );

  expect(new Set(ways)).toEqual(new Set(['sha256', 'aes-256-gcm']));
  expect(where(code, /\b(?:createCipher|Math\.random)\(/g)).toEqual([]);
});

test('V12.3.2: no certificate goes unchecked', () => {
  expect(where(code, /rejectUnauthorized|NODE_TLS_REJECT|checkServerIdentity/g)).toEqual([]);
});

test('V3.7.2: pages lead to the program’s own paths, or to https as text somebody can read', () => {
  expect(
    where(filesIn('views', /\.tsx$/), /(?:href|action|src)="(?:http:|\/\/|javascript:|data:text)[^"]*"/g),
  ).toEqual([]);
});

test('V6.2.6: passphrases are hidden while typed, and may be pasted and filled in by a manager', () => {
  const fields = where(filesIn('views', /\.tsx$/), /<[A-Z]\w*\s[^>]*name="(?:passphrase|present)"[^>]*>/gs);

  expect(fields.length).toBeGreaterThan(3);
  expect(fields.filter((field) => !/type="password"|Passphrase/.test(field))).toEqual([]);
  expect(where([...code, ...pageScripts], /onpaste|addEventListener\(\s*['"]paste/gi)).toEqual([]);
});
