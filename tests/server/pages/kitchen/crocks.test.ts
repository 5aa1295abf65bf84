import { beforeEach, describe, expect, it } from 'vitest';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import { solveInBackground } from '../../../../server/solver/plan-year.ts';
import { loadPlanningYear } from '../../../../server/year/load-year.ts';
import { yearPicture } from '../../../../server/year/year-picture.ts';
import { asCents } from '../../../../shared/money.ts';
import { addDays } from '../../../../shared/week.ts';
import { makePlan } from '../../../../src/planning/make-plan.ts';
import { factsChanged } from '../../../builders/facts-changed.ts';
import { quinceYard, today } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { formOf, wordsOf } from '../../../builders/visitor.ts';

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

  it('is that of the published batch whatever pounds are written, as the form says', async () => {
    const form = await pages.visitor.open('/items/new?recipe=sauerkraut');
    expect(wordsOf(form.body)).toContain(
      'a tested batch is not divided, so its jars, what is bought for it and its crock stay as published, whatever amount you write',
    );

    await pages.visitor.submit(form, { form: '/items', fill: { 'lb-cabbage': '14' } });

    expect((await crockOf('sauerkraut'))?.quarts).toBeCloseTo(20, 9);
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

// USDA Complete Guide 6, 2015: 25 lb of cabbage take 3 tablespoons of salt for each 5 lb and give about 9 quarts (p6-8).
describe('what ferments by a way of the book and is never canned', () => {
  const ways = reference.uncannedWays.filter(({ stagesOf }) => stagesOf !== null);
  const page = (way: string) => `/items/new?kind=uncanned&way=${way}`;
  const ferment = async (way: string, fill: Record<string, string> = {}) => {
    const added = await pages.visitor.submitOn(page(way), { form: '/items', fill });
    expect([added.status, wordsOf(added.body)]).toEqual([303, '']);
    return /^\/items\/([^?]+)/.exec(added.location ?? '')?.[1] ?? '';
  };
  const smallBatch = { lb: '7', units: '2.5', bestQualityDays: '120', amount: '1', per: 'week' };
  const needed = async (id: string) =>
    (await loadPlanningYear(pages.db, quinceYard, today, reference)).year.recipes.find(
      (recipe) => recipe.id === id,
    );

  it.each(ways.map(({ wayKey }) => wayKey))(
    '%s fills a crock by its pounds, and another one when they change',
    async (way) => {
      const id = await ferment(way, smallBatch);

      expect((await needed(id))?.crock).toEqual({ quarts: expect.closeTo(5.6, 9), weeks: 6 });
      const item = await pages.visitor.open(`/items/${id}`);
      expect(wordsOf(item.body)).toContain('Crock 5.6 qt, for up to 42 days');
      const crop = (await needed(id))?.produce[0]?.crop;
      const saved = await pages.visitor.submit(item, {
        form: `/items/${id}/recipes/${id}`,
        fill: { [`lb-${crop}`]: '14', units: '5' },
      });

      expect(saved.status).toBe(303);
      expect((await needed(id))?.crock).toEqual({ quarts: expect.closeTo(11.2, 9), weeks: 6 });
    },
  );

  it.each(ways.map(({ wayKey }) => wayKey))('%s is not added without the pounds of a batch', async (way) => {
    const refused = await pages.visitor.submitOn(page(way), {
      form: '/items',
      fill: { ...smallBatch, crop: '', lb: '' },
    });

    expect(refused.status).toBe(422);
    expect(wordsOf(refused.body)).toContain('how much crock it fills follows from that');
  });

  it('is offered as the whole printed batch, in the crock of the same batch that is canned', async () => {
    const { values } = formOf((await pages.visitor.open(page('sauerkraut-cold'))).body, '/items');
    expect(values).toMatchObject({ lb: '25', units: '9' });
    const id = await ferment('sauerkraut-cold');
    await add('sauerkraut');

    expect((await needed(id))?.crock?.quarts).toBeCloseTo((await crockOf('sauerkraut'))?.quarts ?? 0, 9);
  });

  it('takes salt by its pounds, when it is added and when they change', async () => {
    const salt = async (id: string) => (await needed(id))?.supplies[0]?.quantity;
    const id = await ferment('sauerkraut-cold', { ...smallBatch, lb: '12.5' });
    expect(await salt(id)).toBeCloseTo(0.3, 3);

    await pages.visitor.submitOn(`/items/${id}`, {
      form: `/items/${id}/recipes/${id}`,
      fill: { 'lb-cabbage': '6.25' },
    });

    expect(await salt(id)).toBeCloseTo(0.15, 3);
  });

  it('keeps the crock that came with it in step with its pounds', async () => {
    const id = await ferment('sauerkraut-cold', smallBatch);
    await pages.db
      .updateTable('recipe')
      .set({ crock_quarts: 6, crock_days: 30 })
      .where('id', '=', id)
      .execute();
    await factsChanged(pages.db);

    await pages.visitor.submitOn(`/items/${id}`, {
      form: `/items/${id}/recipes/${id}`,
      fill: { 'lb-cabbage': '3.5', units: '1' },
    });

    expect((await needed(id))?.crock).toEqual({ quarts: expect.closeTo(3, 9), weeks: 5 });
  });

  it('stands in its crock once it is put up', async () => {
    const id = await ferment('sauerkraut-cold', smallBatch);
    await crocksHold('6');
    const put = await pages.visitor.submitOn(`/shelf/put-up?item=${id}`, {
      form: '/shelf/lots',
      fill: { itemId: id, units: '2', madeOn: today, readyFrom: addDays(today, 42) },
    });
    expect([put.status, wordsOf(put.body)]).toEqual([303, '']);

    const { year } = await loadPlanningYear(pages.db, quinceYard, today, reference);

    expect(
      year.storage.crockQuartsTakenByWeek?.slice(0, 7).map((quarts) => Math.round(quarts * 10) / 10),
    ).toEqual([5.6, 5.6, 5.6, 5.6, 5.6, 5.6, 0]);
  });

  it('is planned so that a crock of 6 quarts never has more in it', async () => {
    const fermented = new Set<string>();
    for (const { wayKey } of ways) fermented.add(await ferment(wayKey, smallBatch));
    await grow('cabbage', 'Cabbage bed');
    await grow('cucumber-pickling', 'Cucumber bed');
    await crocksHold('6');
    const { year } = await loadPlanningYear(pages.db, quinceYard, today, reference);

    const answer = await makePlan(
      { ...year, fund: { ...year.fund, opening: asCents(100_000) } },
      solveInBackground,
      { gap: 0.05, secondsLimit: 20 },
    );

    if (answer.outcome !== 'planned') throw new Error(answer.outcome);
    const quartsBegun = answer.plan.weeks.map(({ sessions }) =>
      sessions
        .filter(({ recipe }) => fermented.has(recipe))
        .reduce((sum, { batches }) => sum + batches * 5.6, 0),
    );
    expect(quartsBegun.some((quarts) => quarts > 0)).toBe(true);
    quartsBegun.forEach((_, week) => {
      const standing = quartsBegun
        .slice(Math.max(0, week - 5), week + 1)
        .reduce((sum, quarts) => sum + quarts, 0);
      expect(standing).toBeLessThanOrEqual(6);
    });
  });
});
