import { readFileSync } from 'node:fs';
import { relative } from 'node:path';
import { expect, test } from 'vitest';
import { codeFiles, root } from './code-files.ts';

// “1 jars” and “1 are left” come from plurals made by hand: what is counted is said by `shared/counting.ts` and by the formatters
// alone. Names of places in code (`=== 1 ? a : b` without words) are left alone, and so are messages to programmers.

const ownPlace = 'shared/counting.ts';

const byHand: readonly RegExp[] = [
  // A word chosen by whether there is one.
  /(?:=== '?1'?|!== '?1'?|> 1|< 2)\s*\?\s*['"`](?!.*: '')/,
  /\?\s*''\s*:\s*'e?s'/,
  // An s put behind a value, or a plural behind a number.
  /\$\{[^{}`]+\}(?:s|es)\b/,
  /\$\{(?!counted|oneOrMore|formatQuantity|amountOf)[^{}`]+\} (?:days|weeks|months|hours|minutes|batches|loads|rows|items|things|labels|sheets|sources|kinds|plants|notices|values|figures|times|burners|servings|packs|bags|boxes|recipes|units|canners)\b/,
];

/** Choices that count nothing, keys, and other words for one alone; half an inch is an inch. */
const otherwise: Readonly<Record<string, readonly string[]>> = {
  'src/notices/eating-pace.ts': ["'one a week'"],
  'src/notices/notice-words.ts': ['months.length === 1 ?'],
  'src/notices/rules/best-by-near.ts': ['severalWords('],
  'src/preserving/lookup/display-units.ts': ["? 'inches' : 'inch'"],
  'server/pages/kitchen/kitchen-changes.ts': ['key: '],
  'server/calendar/calendar-entries.ts': ["canning === 1 ? 'canning'"],
  'server/database/restore.ts': ['again === 1 ?'],
  'server/pages/process-time/present-process-times.ts': ["? 'Choose a style'"],
  'views/pages/shelf/open-jars.tsx': ["? 'Finished'"],
};

const withoutComments = (code: string): string =>
  code.replaceAll(/\/\*[\s\S]*?\*\//g, '').replaceAll(/^\s*\/\/.*$/gm, '');

test('nobody makes a plural by hand', () => {
  const found = ['src', 'server', 'views', 'shared'].flatMap((folder) =>
    codeFiles(folder).flatMap((file) => {
      const name = relative(root, file);
      if (name === ownPlace) return [];
      return withoutComments(readFileSync(file, 'utf8'))
        .split('\n')
        .filter((line) => byHand.some((pattern) => pattern.test(line)))
        .filter((line) => !/: expected\b|RangeError/.test(line))
        .filter((line) => !(otherwise[name] ?? []).some((part) => line.includes(part)))
        .map((line) => `${name}: ${line.trim()}`);
    }),
  );

  expect(found).toEqual([]);
});
