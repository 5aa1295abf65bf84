import { afterEach, beforeEach, expect, test } from 'vitest';
import { recipesOf } from '../../../../server/queries/household/recipes.ts';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import { mayBeFrozenFirst } from '../../../../src/preserving/recipes/frozen-first.ts';
import { recipeBook } from '../../../../src/preserving/recipes/recipe-book.ts';
import { quinceYard } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

// Fruit that is frozen when it is ripe and put up in a quieter week.

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

const add = async (recipe: string): Promise<string> => {
  const url = `/items/new?recipe=${recipe}`;
  const { location } = await pages.visitor.submitOn(url, { form: '/items', fill: { amount: '1' } });
  return location.split('?')[0]?.split('#')[0] ?? '';
};
const recipeOf = async (page: string) => {
  const made = (await recipesOf(pages.db, quinceYard)).find(({ itemId }) => page.endsWith(`/${itemId}`));
  if (made === undefined) throw new Error(`expected a recipe at ${page}`);
  return made;
};
const send = async (page: string, madeOf: string) => {
  const form = `${page}/recipes/${(await recipeOf(page)).id}`;
  return pages.visitor.submitOn(page, { form, fill: { madeOf } });
};

test('a jam is said to be made of frozen fruit too, and of fresh alone again', async () => {
  const jam = await add('peach-jam-powder');
  expect(wordsOf((await pages.visitor.open(jam)).body)).toContain('Made of produce that is');

  await send(jam, 'frozen-too');
  expect((await recipeOf(jam)).produce).toMatchObject([{ crop: 'peach', mayBeFrozen: true }]);
  expect((await pages.visitor.open(jam)).body).toMatch(/<option value="frozen-too" selected/);

  await send(jam, 'fresh');
  expect((await recipeOf(jam)).produce).toMatchObject([{ mayBeFrozen: false }]);
});

test('a pickle is not asked, and refuses it with what to do', async () => {
  const pickles = await add('bread-and-butter-pickles');
  expect(wordsOf((await pages.visitor.open(pickles)).body)).not.toContain('Made of produce that is');

  const refused = await send(pickles, 'frozen-too');

  expect(refused.status).toBe(422);
  expect(wordsOf(refused.body)).toContain('Make it while the produce is fresh.');
  expect((await recipeOf(pickles)).produce.every(({ mayBeFrozen }) => !mayBeFrozen)).toBe(true);
});

test('no recipe of the book that is put up by pressure, or holds vegetables in vinegar, waits in the freezer', () => {
  const reference = loadReferenceTables();
  const waiting = recipeBook(reference).filter(({ kind }) => mayBeFrozenFirst(kind, false));

  expect(waiting.length).toBeGreaterThan(10);
  expect([...new Set(waiting.map(({ kind }) => kind))].toSorted()).toEqual(['jam', 'jelly', 'syrup']);
  expect(mayBeFrozenFirst(null, false)).toBe(false);
});
