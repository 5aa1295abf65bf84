import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { newestPlan } from '../../../../server/queries/year/plans.ts';
import { askingQuinceYard } from '../../../builders/asking-quince-yard.ts';
import { quinceYard } from '../../../builders/quince-yard.ts';
import type { QuinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

/** Planning takes seconds, on a busy machine many. */
const planning = 120_000;

let pages: QuinceYardPages;
let itemPage: string;
beforeAll(async () => {
  pages = await askingQuinceYard();
  const plan = await newestPlan(pages.db, quinceYard);
  const batch = plan?.plan.weeks.flatMap(({ sessions }) => sessions)[0];
  const recipe = plan?.year.recipes.find(({ id }) => id === batch?.recipe);
  if (recipe === undefined) throw new Error('expected Quince Yard to put something up');
  itemPage = `/year/${recipe.itemId}`;
}, planning);
afterAll(() => pages.close());

describe('why a batch is planned', () => {
  test('stands on the item’s page in words, batch by batch', async () => {
    const { body } = await pages.visitor.open(itemPage);

    const words = wordsOf(body);
    expect(words).toContain('Why then');
    expect(words).toMatch(/Week of \w+ \d+: .+, \d+ batch/);
    expect(words).toContain('What would another week cost?');
  });

  test('a week earlier and a week later are worked out when asked', { timeout: planning }, async () => {
    const page = await pages.visitor.submitOn(itemPage, { form: `${itemPage}/moves` });
    const part = await pages.visitor.submitOn(itemPage, { form: `${itemPage}/moves`, asPart: true });

    expect(page.status).toBe(200);
    for (const words of [wordsOf(page.body), wordsOf(part.body)]) {
      expect(words).toMatch(/A week earlier, week of \w+ \d+: \w+/);
      expect(words).toMatch(/A week later, week of \w+ \d+: \w+/);
      expect(words).not.toContain('could not be worked out');
    }
    expect(part.body).not.toContain('<html');
  });
});

describe('what a little more would be worth', () => {
  test('is worked out when asked, with script and without', { timeout: planning }, async () => {
    const before = await pages.visitor.open('/year');
    const page = await pages.visitor.submit(before, { form: '/year/worth' });
    const part = await pages.visitor.submitOn('/year', { form: '/year/worth', asPart: true });

    expect(wordsOf(before.body)).toContain('What a little more would be worth');
    for (const words of [wordsOf(page.body), wordsOf(part.body)]) {
      expect(words).toMatch(/One more hour in the week of \w+ \d+/);
      expect(words).toContain('$10.00 more a week');
    }
    expect(part.body).not.toContain('<html');
  });
});
