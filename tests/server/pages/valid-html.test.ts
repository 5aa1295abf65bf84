import { HtmlValidate } from 'html-validate';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { plannedQuinceYard } from '../../builders/planned-quince-yard.ts';
import type { QuinceYardPages } from '../../builders/quince-yard-pages.ts';
import { filled, twoHouseholds } from '../../builders/two-households.ts';
import { Visitor } from '../../builders/visitor.ts';

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

const against = async (body: string, path: string): Promise<readonly string[]> => {
  const { results } = await validator.validateString(body, path);
  return results.flatMap(({ messages }) =>
    messages.map(({ ruleId, message, selector }) => `${path} ${ruleId}: ${message} ${selector}`),
  );
};

test('every page the server has follows the standard, for a household that has one of everything', async () => {
  const both = await twoHouseholds();
  const owner = new Visitor(both.app, { 'sign-in': both.tokenOf.get('medlar-owner') ?? '' });
  const wrong: string[] = [];
  let read = 0;
  for (const { method, url, needs } of both.app.servedRoutes) {
    if (method !== 'GET' || (needs !== 'read' && needs !== 'own' && needs !== 'person')) continue;
    const path = filled(url, (kind) => both.medlar[kind] ?? '1');
    const { status, body } = await owner.open(path);
    if (!body.startsWith('<!doctype html>')) continue;
    read += 1;
    if (status >= 500) wrong.push(`${path} is ${status}`);
    wrong.push(...(await against(body, path)));
  }
  await both.close();

  expect(read).toBeGreaterThan(40);
  expect(wrong).toEqual([]);
});

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

      expect(await against(body, path)).toEqual([]);
    });
});
