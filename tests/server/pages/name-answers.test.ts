import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { householdText, restoreHousehold } from '../../../server/files/household-file.ts';
import { recipesOf } from '../../../server/queries/household/recipes.ts';
import { worked } from '../../builders/outcomes.ts';
import { quinceYard } from '../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../builders/quince-yard-pages.ts';
import { formOf, wordsOf } from '../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

const book = '/items/new?recipe=apple-butter';
const surprise = '/items/pumpkin-surprise';
const question = 'This process was tested for apple butter. Is there pumpkin in it?';
const kept = 'Called “Pumpkin surprise”, with no pumpkin in it: said on';
const words = async (url: string) => wordsOf((await pages.visitor.open(url)).body);
const denials = () => pages.db.selectFrom('name_denial').selectAll().execute();
const add = (fill: Readonly<Record<string, string>>) =>
  pages.visitor.submitOn(book, { form: '/items', fill: { 'lb-apple': '8', ...fill } });

/** Apple butter, kept as Pumpkin surprise after somebody said that there is no pumpkin in it. */
async function answered(): Promise<void> {
  const asked = await add({ name: 'Pumpkin surprise' });
  expect(asked.status).toBe(422);
  expect(wordsOf(asked.body)).toContain(question);
  const answer = await pages.visitor.submit(asked, { form: '/items', fill: { inIt: 'no' } });
  expect([answer.status, answer.location]).toEqual([303, `${surprise}?said=added`]);
}

describe('a name that names another food', () => {
  it('is asked about once; a no is kept with who, when, recipe and name, and shown with the recipe', async () => {
    await answered();

    expect(await denials()).toMatchObject([
      { household_id: quinceYard, name: 'Pumpkin surprise', other_food: 'pumpkin' },
    ]);
    const page = await words(surprise);
    expect(page).toContain(kept);
    expect(page).toContain('Put up here, by a tested process.');
  });

  it('a yes is the refusal, with what is possible instead', async () => {
    const asked = await add({ name: 'Pumpkin surprise' });
    const answer = await pages.visitor.submit(asked, { form: '/items', fill: { inIt: 'yes' } });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('pumpkin is not part of that: it may not be canned by it');
    expect(wordsOf(answer.body)).toContain('keep it frozen or refrigerated');
    expect(await denials()).toEqual([]);
  });

  it('an answer to one name is none to another', async () => {
    const asked = await add({ name: 'Pumpkin surprise' });
    const answer = await pages.visitor.submit(asked, {
      form: '/items',
      fill: { inIt: 'no', name: 'Fig surprise' },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('Is there fig in it?');
    expect(await denials()).toEqual([]);
  });

  it.each(['Pumpkin butter', 'Garlic in oil', 'Pumkin butter', 'Pumpkin butter, no sugar', 'Kürbismus'])(
    'no answer lifts what is refused: %s',
    async (name) => {
      const answer = await add({ name, askedName: name, askedFood: 'pumpkin or butter', inIt: 'no' });

      expect(answer.status).toBe(422);
      expect(formOf(answer.body, '/items').values).not.toHaveProperty('askedName');
      expect(await denials()).toEqual([]);
    },
  );

  it('is taken back by one action, and asked again', async () => {
    await answered();
    const recipe = (await denials())[0]?.recipe_id;
    await pages.visitor.submitOn(surprise, {
      form: `/items/pumpkin-surprise/recipes/${recipe}/name-answer/removal`,
    });

    expect(await words(surprise)).toContain(question);
    expect(await words(surprise)).not.toContain(kept);
    expect(await words(surprise)).toContain('Not planned yet.');

    const again = await pages.visitor.submitOn(surprise, {
      form: `/items/pumpkin-surprise/recipes/${recipe}/name-answer`,
      fill: { inIt: 'no' },
    });
    expect(again.status).toBe(303);
    expect(await words(surprise)).toContain(kept);
  });

  it('is asked about when something is renamed, and the old answer is forgotten', async () => {
    await answered();
    const renamed = await pages.visitor.submitOn(surprise, {
      form: surprise,
      fill: { name: 'Fig surprise' },
    });
    expect(renamed.status).toBe(422);
    expect(wordsOf(renamed.body)).toContain('Is there fig in it?');
    await pages.visitor.submit(renamed, { form: surprise, fill: { inIt: 'no' } });
    expect((await denials()).map(({ name }) => name)).toEqual(['Fig surprise']);

    await pages.visitor.submitOn(surprise, { form: surprise, fill: { name: 'Grandma’s favorite' } });
    expect(await denials()).toEqual([]);
  });

  it.each([
    ['what it is based on', { based_on: 'peaches-pints' }],
    ['its process', { process_style: 'sauce' }],
    ['its name', { name: 'Pumpkin and more' }],
  ])('is forgotten when %s changes', async (_what, change) => {
    await answered();

    await pages.db.updateTable('recipe').set(change).where('name', '=', 'Pumpkin surprise').execute();

    expect(await denials()).toEqual([]);
  });

  it('is asked again when the household was brought in from its own file', async () => {
    await answered();
    const text = await householdText(pages.db, quinceYard);
    expect(JSON.parse(text).tables.name_denial).toMatchObject([{ other_food: 'pumpkin' }]);

    worked(await restoreHousehold(pages.writer(), text));

    expect(await denials()).toEqual([]);
    expect(await words(surprise)).toContain(question);
    expect(
      (await recipesOf(pages.db, quinceYard)).find(({ name }) => name === 'Pumpkin surprise'),
    ).toBeDefined();
  });
});
