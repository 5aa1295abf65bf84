import { afterAll, beforeAll, expect, test } from 'vitest';
import { type PageName, pageNames } from '../../../views/words/page-names.ts';
import { attribute, plainText } from '../../builders/html-text.ts';
import { type QuinceYardPages, quinceYardPages } from '../../builders/quince-yard-pages.ts';

// A page is called one thing: in its title, in its heading, and by whatever leads to it.

const addresses: Readonly<Record<PageName, string>> = {
  week: '/',
  year: '/year',
  shelf: '/shelf',
  harvest: '/harvest',
  buying: '/buying',
  canning: '/canning-day',
  kitchen: '/kitchen',
  search: '/search',
  targets: '/targets',
  items: '/items',
  stages: '/stages',
  safety: '/safety',
  notices: '/notices',
  'look-back': '/look-back',
  print: '/print',
  labels: '/labels',
  calendar: '/calendar',
  files: '/files',
  people: '/people',
  jobs: '/jobs',
  words: '/words',
};

/** Its heading says which week it is. */
const headedByTheDay: readonly string[] = ['week'];

let pages: QuinceYardPages;
beforeAll(async () => {
  pages = await quinceYardPages();
});
afterAll(() => pages.close());

test.each(Object.entries(addresses))('%s is called by its name', async (name, address) => {
  const called = pageNames[name as PageName];
  const { body } = await pages.visitor.open(address);

  expect(plainText(/<title>(.*?)<\/title>/s.exec(body)?.[1] ?? '')).toBe(`${called} · Shelfward`);
  if (!headedByTheDay.includes(name))
    expect(plainText(/<h1[^>]*>(.*?)<\/h1>/s.exec(body)?.[1] ?? '')).toBe(called);
});

test('the navigation has at most seven places, and every link of it carries the name of its page', async () => {
  const { body } = await pages.visitor.open('/');
  const [, shown = ''] = /<nav class="site-places"[^>]*>(.*?)<\/nav>/s.exec(body) ?? [];
  const [, all = ''] = /<nav id="all-places"[^>]*>(.*?)<\/nav>/s.exec(body) ?? [];
  const linksOf = (html: string) =>
    [...html.matchAll(/(<a [^>]*>)(.*?)<\/a>/gs)].map(([, tag = '', words = '']) => ({
      href: attribute(tag, 'href'),
      words: plainText(words),
    }));

  expect(linksOf(shown).length).toBeLessThanOrEqual(7);
  const names = new Map(
    Object.entries(addresses).map(([name, address]) => [address, pageNames[name as PageName]]),
  );
  for (const { href, words } of linksOf(all)) expect(words).toBe(names.get(href ?? ''));
});
