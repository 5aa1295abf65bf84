import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { everyCaution } from '../../../../src/preserving/sheet/cautions.ts';
import { planAgain, plannedQuinceYard, settledQuinceYard } from '../../../builders/planned-quince-yard.ts';
import { quinceYard } from '../../../builders/quince-yard.ts';
import type { QuinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

/** Planning takes seconds, on a busy machine many. */
const planning = 120_000;

describe('this week, planned', () => {
  let pages: QuinceYardPages;
  let words = '';
  beforeAll(async () => {
    pages = await plannedQuinceYard();
    words = wordsOf((await pages.visitor.open('/')).body);
  }, planning);
  afterAll(() => pages.close());

  test('names the week and says what it asks for', () => {
    expect(words).toContain('Week of Aug 16');
    expect(words).toMatch(/on Saturday\.|Nothing to put up this week\. Next: /);
  });

  test('says what to eat first, first-expired first, and leaves out what is not ready', () => {
    const eatFirst = words.slice(words.indexOf('Eat first'), words.indexOf('To know'));

    expect(eatFirst).toContain('Plum jam 2 half-pints of the Aug 14, 2026 batch best until Aug 30, 2026');
    expect(eatFirst).not.toContain('Cured pickles');
  });

  test('looks four weeks ahead', () => {
    const ahead = words.slice(words.indexOf('The next four weeks'));

    for (const week of ['Aug 23', 'Aug 30', 'Sep 6', 'Sep 13']) expect(ahead).toContain(`week of ${week}`);
    expect(ahead).not.toContain('week of Sep 20');
  });

  test('shows each planned batch with the one published schedule of its jar, canner and altitude', async () => {
    // USDA Complete Guide 4 (2015), green beans raw pack, pints in a weighted-gauge canner above 1,000 ft: 20 minutes at 15 psi.
    await pages.db
      .insertInto('kept')
      .values({
        household_id: quinceYard,
        recipe_id: 'green-beans-batch',
        week: '2026-W34',
        decision: 'pinned',
        batches: 1,
        decided_at: 0,
      })
      .execute();
    await planAgain(pages);

    const pinned = wordsOf((await pages.visitor.open('/')).body);

    expect(pinned).toContain('Saturday, August 22 In 5 days');
    expect(pinned).toContain('Green beans 9 pints');
    expect(pinned).toContain('20 min at 15 psi, weighted gauge in the pressure canner at 1,200 ft');
    expect(pinned).toMatch(/Source: USDA-G4/);
    for (const { text } of everyCaution) expect(pinned).toContain(text);
    expect(pinned).toMatch(/By Thursday, August 20 9 lb Bean rows Pick in the garden/);
  });

  test('a batch is ruled out for its week, and that is taken back', async () => {
    const decide = (decision: string) =>
      pages.visitor.submitOn('/', {
        form: '/plan/decisions',
        fill: { decision, recipeId: 'green-beans-batch', week: '2026-W34', batches: '1' },
      });
    const ruledOut = await decide('ruled-out');
    const after = wordsOf((await pages.visitor.open('/')).body);

    expect([ruledOut.status, ruledOut.location]).toEqual([303, '/#kitchen-days']);
    expect(after).toContain('You ruled it out for this week.');
    expect(after).toContain('Something has changed since, so it is out of date.');

    await decide('free');
    const again = wordsOf((await pages.visitor.open('/')).body);
    expect(again).not.toContain('You ruled it out');
    expect(again).toContain('Keep in this week');
  });

  test('a decision about a week that is past changes nothing and says so', async () => {
    const answer = await pages.visitor.submitOn('/', {
      form: '/plan/decisions',
      fill: { decision: 'pinned', week: '2026-W20', batches: '1' },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('That week is past.');
  });

  test('gives no minutes once the altitude is not known, and says what to do', async () => {
    await pages.db.updateTable('household').set({ altitude_ft: null }).where('id', '=', quinceYard).execute();

    const unknown = wordsOf((await pages.visitor.open('/')).body);

    expect(unknown).toContain('No time can be given. The altitude of the kitchen is not known');
    expect(unknown).not.toMatch(/\d+ min (?:at \d+ psi|in boiling)/);
  });
});

describe('this week, without a plan', () => {
  test('says so, and offers one', async () => {
    const pages = await settledQuinceYard();

    const words = wordsOf((await pages.visitor.open('/')).body);

    expect(words).toContain('There is no plan yet. Plan the year');
    await pages.close();
  });
});
