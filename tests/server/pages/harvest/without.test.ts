import { afterAll, beforeAll, expect, test } from 'vitest';
import { sourcesOf } from '../../../../server/queries/year/harvest.ts';
import { newestPlan } from '../../../../server/queries/year/plans.ts';
import { askingQuinceYard } from '../../../builders/asking-quince-yard.ts';
import { factsChanged } from '../../../builders/facts-changed.ts';
import { quinceYard } from '../../../builders/quince-yard.ts';
import type { QuinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

/** Planning takes seconds, on a busy machine many. */
const planning = 120_000;

let pages: QuinceYardPages;
beforeAll(async () => {
  pages = await askingQuinceYard();
}, planning);
afterAll(() => pages.close());

const without = (source: string) =>
  pages.visitor.submitOn('/harvest', { form: `/harvest/${source}/without` });

test('a year without the plums has less plum jam, says for how long there would be none, and keeps nothing', {
  timeout: planning,
}, async () => {
  const before = await newestPlan(pages.db, quinceYard);
  const sources = await sourcesOf(pages.db, quinceYard);

  const answer = await without('plum-tree');

  expect(answer.status).toBe(200);
  const words = wordsOf(answer.body);
  expect(words).toContain('If you get nothing from Plum tree in 2026');
  expect(words).toMatch(/1 food would be missing for longer than now/);
  expect(words).toMatch(/Plum jam (none|\d+ half-pints) instead of \d+ half-pints \d+ weeks instead of none/);
  expect((await newestPlan(pages.db, quinceYard))?.id).toBe(before?.id);
  expect(await sourcesOf(pages.db, quinceYard)).toEqual(sources);
});

test('a plan that is out of date is compared with nothing', async () => {
  await factsChanged(pages.db);

  expect(wordsOf((await without('plum-tree')).body)).toContain('There is no plan of today to compare with');
});
