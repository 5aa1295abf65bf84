import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { codeFiles, root } from './code-files.ts';

/** Comments show what a sum may look like; code may not write a sign. */
const withoutComments = (code: string): string =>
  code.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '$1');

describe('one currency per household', () => {
  test('no code of a page, a word or the core writes a dollar sign or a currency of its own', () => {
    const own = ['server', 'src', 'views', 'shared'].flatMap(codeFiles).flatMap((file) => {
      const code = withoutComments(readFileSync(file, 'utf8'));
      // A dollar sign that begins neither a placeholder of a template nor ends a pattern nor counts a group.
      const signs = code.match(/(["'`>(\s])\$(?=[\s"'`<]|\d+\.\d)/g) ?? [];
      const codes = file.endsWith('shared/currency.ts')
        ? []
        : (code.match(/\b(?:USD|dollars?)\b(?!Bounds)/g) ?? []);
      return [...signs, ...codes].map((found) => `${file.slice(root.length + 1)}: ${found.trim()}`);
    });

    expect(own).toEqual([]);
  });
});
