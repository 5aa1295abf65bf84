import { beforeEach, describe, expect, it } from 'vitest';
import { itemById } from '../../../../server/queries/household/items.ts';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import { loadPlanningYear } from '../../../../server/year/load-year.ts';
import type { ItemId } from '../../../../shared/ids.ts';
import { quinceYard, today } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { formOf, wordsOf } from '../../../builders/visitor.ts';

// What a household freezes, dries, cellars or ferments its own way, without a canner.

const reference = loadReferenceTables();
let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});

const berries = {
  name: 'Strawberries on a tray',
  keeping: 'frozen',
  family: 'berries',
  crop: 'strawberry',
  lb: '6',
  units: '4',
  unit: 'bag',
  handsOnMinutes: '40',
  freezerQuarts: '1.5',
  amount: '1',
  per: 'week',
};
const send = (fill: Record<string, string>) =>
  pages.visitor.submitOn('/items/new?kind=uncanned', { form: '/items', fill: { ...berries, ...fill } });
const added = async (fill: Record<string, string> = {}) => {
  const answer = await send(fill);
  expect([answer.status, wordsOf(answer.body)]).toEqual([303, '']);
  const id = /^\/items\/([^?]+)/.exec(answer.location ?? '')?.[1] as ItemId;
  const { year, recipes } = await loadPlanningYear(pages.db, quinceYard, today, reference);
  return {
    id,
    item: await itemById(pages.db, quinceYard, id),
    planned: year.items.find((one) => one.id === id),
    recipe: year.recipes.find((one) => one.itemId === id),
    leftOut: recipes.leftOut.find(({ name }) => name === fill.name),
  };
};

describe('something that is put up without a canner', () => {
  // FSIS: strawberries, frozen, 8 to 12 months; the table's line frozen_strawberry (read).
  it('is added the way the household does it, planned in its season and counted in the freezer', async () => {
    const { item, planned, recipe } = await added();

    expect(item).toMatchObject({
      keeping: 'frozen',
      unit: 'bag',
      usualJar: null,
      bestQualityDays: 365,
      shelfLifeKey: 'frozen_strawberry',
      freezerQuarts: 1.5,
    });
    expect(planned).toMatchObject({ freezerQuartsPerUnit: 1.5 });
    expect(recipe).toMatchObject({
      processing: null,
      yieldLowUnits: 4,
      handsOnMinutes: 40,
      produce: [{ crop: 'strawberry', lb: 6 }],
    });
  });

  it.each([
    [
      'dried',
      { keeping: 'dried', name: 'Apple rings', family: 'apples-pears', crop: 'apple', unit: 'bag' },
      365,
    ],
    [
      'in the cellar',
      { keeping: 'cellar', name: 'Potatoes', family: 'roots', crop: 'potato', unit: 'bin' },
      61,
    ],
    [
      'fermented, in jars',
      {
        keeping: 'fermented',
        name: 'Half-sour cucumbers',
        family: 'pickles',
        crop: 'cucumber',
        unit: 'quart/wide',
        readyAfterDays: '10',
        bestQualityDays: '90',
      },
      90,
    ],
    [
      'frozen, of no crop',
      {
        keeping: 'frozen',
        name: 'Beef broth, frozen',
        family: 'meat-stock',
        crop: '',
        lb: '',
        unit: 'pint/wide',
        bestQualityDays: '120',
      },
      120,
    ],
  ])('is kept %s', async (_, fill, days) => {
    const { item, planned, recipe } = await added(fill);

    expect(item).toMatchObject({
      keeping: fill.keeping,
      bestQualityDays: days,
      family: fill.family,
    });
    expect(recipe?.processing).toBeNull();
    expect(recipe?.jarKind).toBe(fill.unit.includes('/') ? fill.unit : null);
    expect(planned).toBeDefined();
  });

  it('takes new amounts on its own page, and says of itself that nothing is canned', async () => {
    const { id } = await added();
    const page = await pages.visitor.open(`/items/${id}`);
    expect(wordsOf(page.body)).toContain('Put up here without a canner.');
    const form = `/items/${id}/recipes/${id}`;
    expect(formOf(page.body, form).values).toMatchObject({ 'lb-strawberry': '6', units: '4' });

    await pages.visitor.submit(page, { form, fill: { 'lb-strawberry': '7.5', units: '5' } });

    const { year } = await loadPlanningYear(pages.db, quinceYard, today, reference);
    expect(year.recipes.find((one) => one.itemId === id)).toMatchObject({
      yieldLowUnits: 5,
      produce: [{ crop: 'strawberry', lb: 7.5 }],
    });
    const wrong = await pages.visitor.submit(page, { form, fill: { 'lb-strawberry': 'lots', units: '-1' } });
    expect(wrong.status).toBe(422);
    expect(wordsOf(wrong.body)).toMatch(/Strawberries for one batch cannot be “lots”/);
    expect(wordsOf(wrong.body)).toMatch(/One batch gives cannot be “-1”/);
  });

  it('has its day in the kitchen, its bags on the shelf and its place in the look back like the rest', async () => {
    const { id } = await added({
      name: 'Apple rings',
      keeping: 'dried',
      family: 'apples-pears',
      crop: 'apple',
    });

    const put = await pages.visitor.submitOn(`/shelf/put-up?item=${id}`, {
      form: '/shelf/lots',
      fill: { itemId: id, units: '4', madeOn: today },
    });

    expect([put.status, wordsOf(put.body).slice(0, 300)]).toEqual([303, '']);
    expect(wordsOf((await pages.visitor.open('/shelf')).body)).toContain('Apple rings');
    for (const page of [`/shelf/${id}`, `/targets/${id}`, '/year', '/labels', '/look-back'])
      expect([page, (await pages.visitor.open(page)).status]).toEqual([page, 200]);
  });

  it('is taken from its batch where it is counted by the pound', async () => {
    const { id } = await added({
      name: 'Carrots in sand',
      keeping: 'cellar',
      family: 'roots',
      crop: 'carrot',
      unit: 'lb',
    });
    await pages.visitor.submitOn(`/shelf/put-up?item=${id}`, {
      form: '/shelf/lots',
      fill: { itemId: id, units: '40', madeOn: today },
    });

    expect(wordsOf((await pages.visitor.open(`/shelf/${id}`)).body)).toContain(
      'Take it from the batch marked',
    );
  });

  it('says everything that is wrong at once, and keeps what was typed', async () => {
    const answer = await send({ name: '', units: 'some', lb: '', handsOnMinutes: '0' });

    expect(answer.status).toBe(422);
    const words = wordsOf(answer.body);
    for (const one of [/What you call it is empty/, /One batch gives cannot be “some”/, /cannot be “0”/])
      expect(words).toMatch(one);
    expect(formOf(answer.body, '/items').values).toMatchObject({ crop: 'strawberry', units: 'some' });
    expect(wordsOf((await send({ lb: '' })).body)).toContain('Write how much one batch takes');
    expect(wordsOf((await send({ crop: '' })).body)).toContain('Choose what that is of');
    expect(wordsOf((await send({ keeping: 'fermented' })).body)).toContain('No figure is published here');
  });
});

it('a new name is held against the same rules', async () => {
  const { id } = await added({
    name: 'Dried tomatoes',
    keeping: 'dried',
    family: 'tomatoes',
    crop: 'tomato',
  });

  const answer = await pages.visitor.submitOn(`/items/${id}`, {
    form: `/items/${id}`,
    fill: { name: 'Dried tomatoes in oil' },
  });

  expect(answer.status).toBe(422);
  expect(wordsOf(answer.body)).toMatch(/oil can grow botulism bacteria/);
});

describe('a name that is dangerous without a canner too', () => {
  // Food in oil: Penn State Extension, column of Sep 19, 2020 (read).
  it.each([
    ['Garlic in oil', 'fermented'],
    ['Dried tomatoes in olive oil', 'dried'],
    ['Basil pesto', 'cellar'],
    ['Ajo en aceite', 'fermented'],
  ])('%s is not kept %s', async (name, keeping) => {
    const answer = await send({ name, keeping, bestQualityDays: '30' });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toMatch(/oil can grow botulism bacteria/);
  });

  it.each([
    ['Beef jerky', 'dried'],
    ['Salmon', 'fermented'],
  ])('%s is not kept %s: its rules are not in the program', async (name, keeping) => {
    const answer = await send({ name, keeping, bestQualityDays: '30' });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toMatch(/rules of their own/);
  });

  it.each(['Pumpkin butter', 'Basil pesto', 'Chicken broth', 'Grandmother’s salsa'])(
    '%s may be frozen, and is never canned',
    async (name) => {
      const { recipe, item } = await added({ name, crop: '', lb: '', bestQualityDays: '180' });

      expect(recipe?.processing).toBeNull();
      expect(item?.keeping).toBe('frozen');
    },
  );
});
