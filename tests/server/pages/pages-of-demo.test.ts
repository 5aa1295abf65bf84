import { afterAll, beforeAll, expect, test } from 'vitest';
import { pagesBehindLinks, pagesOfDemo } from '../../browser/pages-of-demo.ts';
import { filled, type TwoHouseholds, twoHouseholds } from '../../builders/two-households.ts';
import { Visitor } from '../../builders/visitor.ts';

// The accessibility test, the forms test and the screenshots go by one list of the demo's pages: a page that is not in it is looked at by
// none of them.

let both: TwoHouseholds;
beforeAll(async () => {
  both = await twoHouseholds();
});
afterAll(() => both.close());

/** Pages of a moment the demo is not in as it opens, or of a secret that is sent once. `/assets/` answers files, or that there is none. */
const notInDemo: readonly string[] = [
  '/assets/:name',
  '/canning-day/:week/:day/sheets/:number',
  '/canning-day/:week/:day/results/:recipe',
  '/labels/sheet',
  '/files/lists/:id',
  '/mail-address/:secret',
  '/passphrase/:secret',
  '/households/removal',
];

test('every page the server has is in the list of the demo’s pages', async () => {
  const owner = new Visitor(both.app, { 'sign-in': both.tokenOf.get('medlar-owner') ?? '' });
  const listed = [
    ...pagesOfDemo.map(({ path }) => path.replace(/[?#].*$/, '')),
    ...pagesBehindLinks.map(({ begins }) => `${begins}one`),
  ];
  const missing: string[] = [];
  for (const { method, url } of both.app.servedRoutes) {
    if (method !== 'GET' || notInDemo.includes(url)) continue;
    const { body } = await owner.open(filled(url, (kind) => both.medlar[kind] ?? '1'));
    const pattern = new RegExp(`^${url.replaceAll('.', '\\.').replaceAll(/:[A-Za-z]+/g, '[^/]+')}$`);
    if (body.startsWith('<!doctype html>') && !listed.some((path) => pattern.test(path))) missing.push(url);
  }

  expect(missing).toEqual([]);
});
