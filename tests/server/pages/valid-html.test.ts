import { HtmlValidate } from 'html-validate';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { plannedQuinceYard } from '../../builders/planned-quince-yard.ts';
import type { QuinceYardPages } from '../../builders/quince-yard-pages.ts';

// The rules of the HTML standard as html-validate knows them, offline.
const validator = new HtmlValidate({
  extends: ['html-validate:recommended'],
  rules: {
    // Taste, not validity: the renderer writes `<!doctype html>` and closes void elements, both allowed by the standard.
    'doctype-style': 'off',
    'void-style': 'off',
    // Tick boxes of one list share a name; the standard sends each that is ticked.
    'form-dup-name': ['error', { shared: ['radio', 'checkbox', 'submit', 'button', 'reset'] }],
    // A picture with links in it is named by its title; the standard allows it on any element that can have a name.
    'aria-label-misuse': ['error', { allowAnyNamable: true }],
  },
});

/** Planning takes seconds, on a busy machine many. */
const planning = 120_000;

let pages: QuinceYardPages;
beforeAll(async () => {
  pages = await plannedQuinceYard();
}, planning);
afterAll(() => pages.close());

describe('valid HTML', () => {
  for (const path of [
    '/',
    '/year',
    '/year/plum-jam',
    '/buying',
    '/notices',
    '/shelf',
    '/shelf/plum-jam',
    '/shelf/count',
    '/shelf/count?item=plum-jam',
    '/shelf/put-up',
    '/targets',
    '/targets/plum-jam',
    '/harvest',
    '/harvest/new',
    '/harvest/plum-tree',
    '/glut?crop=plums&amount=40&unit=lb',
    '/kitchen',
    '/look-back',
    '/look-back/years',
    '/calendar',
    '/labels',
    '/files',
    '/shelf/sheet',
    '/shelf/tallies',
    '/notices/settings',
    '/attic',
    '/year/sheet',
    '/items',
    '/items/plum-jam',
    '/items/oats',
    '/items/new',
    '/items/new?recipe=pickled-beets',
    '/items/new?kind=staple',
    '/items/new?kind=uncanned',
    '/items/new?kind=uncanned&way=strawberry-freezer-jam',
    '/items/new?kind=own',
    '/search?q=jam',
    '/search?q=nothing-like-it',
    '/words',
    '/start',
    '/shelf/places',
    '/shelf/open',
    '/shelf?find=nothing-like-it',
    '/kitchen?saved=time',
    '/process-times',
    '/power-cut',
    '/set-aside',
    '/found-unsealed',
    '/people',
    '/jobs',
  ])
    test(`${path} follows the standard`, async () => {
      const { body } = await pages.visitor.open(path);

      const { results } = await validator.validateString(body, path);

      expect(
        results.flatMap(({ messages }) =>
          messages.map(({ ruleId, message, selector }) => `${ruleId}: ${message} ${selector}`),
        ),
      ).toEqual([]);
    });
});
