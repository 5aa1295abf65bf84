import { beforeEach, describe, expect, it } from 'vitest';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import { loadPlanningYear } from '../../../../server/year/load-year.ts';
import { yearPicture } from '../../../../server/year/year-picture.ts';
import { addDays } from '../../../../shared/week.ts';
import { quinceYard, today } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

// What stands for days before it is canned occupies a crock, ferment or not: a gallon for each 5 lb (USDA Complete Guide 6,
// 2015, p6-6). Pounds of a batch: 14-day pickles p6-12, gherkins p6-14 and sauerkraut p6-8.

const reference = loadReferenceTables();
let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});

const add = async (recipe: string) => {
  const added = await pages.visitor.submitOn(`/items/new?recipe=${recipe}`, { form: '/items' });
  expect(added.status).toBe(303);
};
const eat = async (item: string) =>
  pages.visitor.submitOn(`/targets/${item}`, {
    form: `/targets/${item}/declared-use`,
    fill: { amount: '1', per: 'week', intent: 'save' },
  });
async function grow(crop: string, name: string) {
  const added = await pages.visitor.submitOn('/harvest/new', {
    form: '/harvest',
    fill: { name, crop, kind: 'garden' },
  });
  const saved = await pages.visitor.submitOn(added.location ?? '', {
    form: `${added.location}/windows/2026`,
    fill: {
      beginsOn: addDays(today, 7),
      lastOn: addDays(today, 60),
      mostActiveFrom: '',
      mostActiveLastOn: '',
      lbPerWeek: '30',
    },
  });
  expect([saved.status, wordsOf(saved.body)]).toEqual([303, '']);
}
const crocksHold = async (quarts: string) =>
  pages.visitor.submitOn('/kitchen', { form: '/kitchen/storage', fill: { crocks: quarts } });
const crockOf = async (recipe: string) =>
  (await loadPlanningYear(pages.db, quinceYard, today, reference)).year.recipes.find(
    ({ id }) => id === recipe,
  )?.crock;
const missing = async (item: string) =>
  (await yearPicture(pages.db, quinceYard, today, reference)).items.find((one) => one.item.id === item)
    ?.missing;

describe('the crock of a recipe', () => {
  it.each([
    ['sauerkraut', 20],
    ['14-day-sweet-pickles', 3.2],
    ['sweet-gherkin-pickles', 5.6],
  ])('%s, of the book, fills %d quarts until its jars are filled', async (recipe, quarts) => {
    await add(recipe);

    const crock = await crockOf(recipe);

    expect(crock?.quarts).toBeCloseTo(quarts, 9);
    expect(crock?.weeks).toBeGreaterThan(0);
    expect(wordsOf((await pages.visitor.open(`/items/${recipe}`)).body)).toContain(
      `Crock ${quarts} qt, for up to`,
    );
  });

  it('pickles that stand no longer than a day wait in any bowl', async () => {
    await add('bread-and-butter-pickles');

    expect(await crockOf('bread-and-butter-pickles')).toBeNull();
  });

  it('is known of what was added before it was written down', async () => {
    await add('14-day-sweet-pickles');
    await pages.db.updateTable('recipe').set({ crock_quarts: null, crock_days: null }).execute();

    expect((await crockOf('14-day-sweet-pickles'))?.quarts).toBeCloseTo(3.2, 9);
  });
});

describe('a household whose crocks hold too little', () => {
  beforeEach(async () => {
    await add('14-day-sweet-pickles');
    await eat('14-day-sweet-pickles');
    await grow('cucumber', 'Cucumber bed');
  });

  it('is told that a crock is missing, on the year as among the items, and mends it with one step', async () => {
    expect(await missing('14-day-sweet-pickles')).toMatchObject({
      cause: 'crock',
      words: 'no crock for it is written down',
      step: { href: '/kitchen#storage' },
    });
    expect(wordsOf((await pages.visitor.open('/targets/14-day-sweet-pickles')).body)).toContain(
      'no crock for it is written down',
    );

    await crocksHold('3');
    expect((await missing('14-day-sweet-pickles'))?.words).toBe('the crocks hold less than one batch of it');

    await crocksHold('4');
    expect(await missing('14-day-sweet-pickles')).toBeNull();
  });
});
