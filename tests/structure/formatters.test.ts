import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { expect, test } from 'vitest';

const root = resolve(import.meta.dirname, '../..');

/** Made to be asked one question, never to write: whether a zone is known, which zone or region is meant. */
const asksAlone = /\.resolvedOptions\(\)|new Intl\.Locale\(/;

// A formatter of dates or numbers takes some fifty kilobytes outside of the heap, which lie there until the next sweep: the
// shelf of the demo household, looked at a hundred times, used to hold 250 MB of them.
test('formatters of dates and numbers are made in one place, once', () => {
  const made = ['shared', 'src', 'server', 'views'].flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
      .map((entry) => join(entry.parentPath, entry.name))
      .flatMap((file) =>
        readFileSync(file, 'utf8')
          .split('\n')
          .filter(
            (line) =>
              /Intl\.(\w+Format|Collator|PluralRules)\(|new Intl\./.test(line) && !asksAlone.test(line),
          )
          .map(() => relative(root, file)),
      ),
  );

  expect([...new Set(made)]).toEqual(['shared/formatters.ts']);
});
