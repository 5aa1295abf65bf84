import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { isPermitted, licensesText, type PackageLock, productionPackages } from './licenses.ts';
import { signatureVerdict } from './signatures.ts';

const root = resolve(import.meta.dirname, '../..');
const fileText = (name: string) => readFileSync(resolve(root, name), 'utf8');
const lock: PackageLock = JSON.parse(fileText('package-lock.json'));

describe('licenses', () => {
  test('the list is the one the lock file gives; `npm run licenses` writes it anew', () => {
    expect(fileText('LICENSES.md')).toBe(licensesText(lock));
    expect(productionPackages(lock).length).toBeGreaterThan(50);
  });

  test('only permitted licenses run in production', () => {
    expect(productionPackages(lock).filter(({ license }) => !isPermitted(license))).toEqual([]);
  });

  test.each([
    ['MIT', true],
    ['(MIT OR WTFPL)', true],
    ['MIT AND GPL-3.0-only', false],
    ['GPL-3.0-only', false],
    ['not said', false],
  ])('%s: %s', (license, permitted) => {
    expect(isPermitted(license)).toBe(permitted);
  });

  test('the project’s own stands beside it and is the one its package names', () => {
    expect(fileText('LICENSE')).toContain('the Shelfward authors');
    expect(JSON.parse(fileText('package.json')).license).toBe('MIT');
  });
});

describe('Node', () => {
  // npm leaves an optional package out, without a word, where it asks for another Node than the one that is there.
  test('no package of production asks for a newer Node than 20, but for what is left out there', () => {
    const asks = Object.entries(lock.packages)
      .filter(([path, { dev, optional }]) => path !== '' && dev !== true && optional !== true)
      .filter(([, { engines }]) => /^\s*(?:>=|\^)?\s*2[1-9]\b[^|]*$/.test(engines?.node ?? ''));

    expect(asks.map(([path, { engines }]) => `${path}: ${engines?.node}`)).toEqual([]);
  });
});

describe('signatures', () => {
  test('an invalid one fails and is named', () => {
    const verdict = signatureVerdict('{"invalid":[{"name":"left","version":"1.0.0"}],"missing":[]}');

    expect(verdict.fails).toBe(true);
    expect(verdict.words).toContain('left@1.0.0');
  });

  test.each(['', 'npm error', 'null', '{"error":{"code":"ENOTFOUND"}}'])(
    'no answer (%j) is said and fails nothing',
    (answer) => {
      expect(signatureVerdict(answer)).toMatchObject({
        fails: false,
        words: expect.stringContaining('not checked'),
      });
    },
  );

  test('all in order', () => {
    expect(signatureVerdict('{"invalid":[],"missing":[]}').fails).toBe(false);
  });
});
