import { readFileSync } from 'node:fs';
import { relative } from 'node:path';
import { describe, expect, it } from 'vitest';
import { codeFiles, root } from './code-files.ts';

// A field is wired in one place, `views/parts/fields.tsx`: a page names its form and itself, and its value and problem come from the
// form. What stands in a form, kept or typed, is said in one place too, `server/pages/shared/answer-form.ts`. No page draws a field
// by hand, and no route lists the fields of a form to place its problems.

/** Files that draw what a person fills in without the binder, each with why. */
const drawnByHand: Readonly<Record<string, string>> = {
  'views/parts/fields.tsx': 'the binder itself',
  'views/layout/navigation.tsx': 'the search of every page has no label of its own to see',
  'views/pages/search/search-page.tsx': 'a search with its button in one line',
  'views/pages/items/recipe-list-page.tsx': 'a search with its button in one line',
  'views/pages/year/week-card.tsx': 'a slider',
  'views/pages/files/files-page.tsx': 'a file, which no page carries back, and what it holds',
  'views/pages/start/liked-preserves.tsx': 'a list of one line for each, named by its picture and name',
  'views/pages/labels/labels-page.tsx': 'a list of one line for each, named by its batch',
  'views/pages/shelf/tallies-page.tsx': 'a list of one line for each, named by its item',
  'views/pages/shelf/places-page.tsx': 'ticks in a table, many of one name',
  'views/pages/canning-day/sounds.tsx': 'kept by the page script, never sent',
};

/** Files that work out the status of a refusal themselves, each with why. */
const answeredByHand: Readonly<Record<string, string>> = {
  'server/pages/shared/posting.ts': 'says it',
  'server/pages/shared/answer-form.ts': 'the one answer',
  'server/pages/shared/sign-in-page.ts': 'what was tried is noted before it is answered',
  'server/pages/people/sign-in-routes.ts': 'what was tried is noted before it is answered',
  'server/pages/people/own-household-routes.ts': 'what was tried is noted before it is answered',
  'server/pages/people/routes.ts': 'what was tried is noted before it is answered',
  'server/pages/canning-day/load-routes.ts': 'buttons alone, answered by the part with its clocks',
  'server/pages/notices/routes.ts': 'buttons alone, answered by the list',
  'server/pages/files/routes.ts': 'files, which no page carries back',
  'server/pages/glut/routes.ts': 'asked by an address, and a choice of what was found',
  'server/pages/labels/routes.ts': 'asked by an address',
};

const filled = /<(input|select|textarea)\b(?![^>]*type="hidden")/;

const textOf = (file: string): string => readFileSync(file, 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '');

const filesWith = (folders: readonly string[], sign: RegExp): string[] =>
  folders
    .flatMap(codeFiles)
    .filter((file) => sign.test(textOf(file)))
    .map((file) => relative(root, file))
    .toSorted();

describe('a form', () => {
  it('draws every field by the binder, save a few that are named', () => {
    expect(filesWith(['views'], filled)).toEqual(Object.keys(drawnByHand).toSorted());
  });

  it('is answered in the one way, save where that is named', () => {
    const told = filesWith(['server/pages'], /\bstatusOf\(/).filter((file) => !file.includes('/interface/'));
    const says = filesWith(['server/pages'], /\bstatusOf = \(/).filter(
      (file) => !file.includes('/interface/'),
    );

    expect([...new Set([...told, ...says])].toSorted()).toEqual(Object.keys(answeredByHand).toSorted());
  });

  it.each(['<input type="text" name="jars" />', '<select\n  name="jar"\n>', '<textarea name="note">'])(
    'would be caught with %j',
    (line) => {
      expect(filled.test(line)).toBe(true);
    },
  );

  it('says what stands in it in one place, and is never put together by hand', () => {
    const together = /\bformId\b[^;(){}]{0,200}\bvalues\b[^;]{0,200}\bproblems\b/;

    expect(together.test("const form = { formId: 'jar', values: { jars: '' }, problems: {} };")).toBe(true);
    expect(filesWith(['server', 'views'], together)).toEqual([
      'server/pages/shared/answer-form.ts',
      'views/parts/fields.tsx',
    ]);
  });

  it('is sent back by the one answer: no route takes what was typed into a page itself', () => {
    const byHand = /\.\.\.(sentBack\?*\.(values|typed)|typedValues\(request\.body\))[^}]*\}\s*,\s*problems/;

    expect(byHand.test('{ values: { ...kept, ...sentBack?.values }, problems }')).toBe(true);
    expect(filesWith(['server/pages'], byHand)).toEqual([]);
  });
});
