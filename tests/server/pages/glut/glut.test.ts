import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { savePlace } from '../../../../server/records/shelf/places.ts';
import { everyCaution } from '../../../../src/preserving/sheet/cautions.ts';
import { askingQuinceYard } from '../../../builders/asking-quince-yard.ts';
import { worked } from '../../../builders/outcomes.ts';
import { quinceYard } from '../../../builders/quince-yard.ts';
import type { QuinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { type Visitor, wordsOf } from '../../../builders/visitor.ts';

/** Planning takes seconds, on a busy machine many. */
const planning = 120_000;

let pages: QuinceYardPages;
let visitor: Visitor;
beforeAll(async () => {
  pages = await askingQuinceYard();
  visitor = pages.visitor;
}, planning);
afterAll(() => pages.close());

describe('a glut', () => {
  test('asks for the crop first, and names those something can be made of', async () => {
    const { status, body } = await visitor.open('/glut');

    expect(status).toBe(200);
    expect(wordsOf(body)).toContain('Plums');
    expect(body).not.toContain('id="ways"');
  });

  test('says at once what it can become and all that is needed for it', async () => {
    const { status, body } = await visitor.open('/glut?crop=plums&amount=40&unit=lb');

    expect(status).toBe(200);
    const words = wordsOf(body);
    for (const part of [
      '40 lb of plums, about ¾ of a bushel, can become',
      'Plum jam',
      'New lids',
      'Processing time',
      'Hands-on time',
    ])
      expect(words).toContain(part);
    for (const { text } of everyCaution) expect(words).toContain(text);
  });

  test('a kilogram is more than two pounds', async () => {
    const { body } = await visitor.open('/glut?crop=plum&amount=10&unit=kg');

    expect(wordsOf(body)).toContain('22 lb of plums can become');
  });

  // A bushel of plums 56 lb: USDA Complete Guide 2 (2015), p2-21 (read).
  test('is counted in bushels and pecks where their weight is published, and refused where it is not', async () => {
    const bushels = await visitor.open('/glut?crop=plum&amount=1.5&unit=bushel');
    const lugs = await visitor.open('/glut?crop=plum&amount=2&unit=lug');

    expect(wordsOf(bushels.body)).toContain('84 lb of plums, about 1½ bushels, can become');
    expect(lugs.status).toBe(422);
    expect(wordsOf(lugs.body)).toContain('We have no published weight for a lug of plums.');
  });

  test('of a crop without a recipe is refused with those that have one', async () => {
    const { status, body } = await visitor.open('/glut?crop=durian&amount=4&unit=lb');

    expect(status).toBe(422);
    expect(wordsOf(body)).toContain('Nothing here is made of “durian”');
    expect(wordsOf(body)).toContain('Choose one of these: ');
  });

  test('of a crop only the recipe book knows shows its recipes and no plan', async () => {
    const { status, body } = await visitor.open('/glut?crop=peaches&amount=40&unit=lb');

    expect(status).toBe(200);
    expect(wordsOf(body)).toContain('From the recipe book');
    expect(wordsOf(body)).toContain('the plan has no place for it');
  });

  test('stands side by side: what each answer makes, asks and leaves, the first the one to choose', async () => {
    const { body } = await visitor.open('/glut?crop=plums&amount=40&unit=lb');

    const words = wordsOf(body);
    for (const part of [
      'What the year lacks',
      'Hours in the kitchen',
      'Jars to have ready',
      'To buy for it',
      'The year still lacks',
      'Left over',
      'Use this plan',
    ])
      expect(words).toContain(part);
    expect(body).toContain('class="jar-row"');
  });
});

describe('an answer to a glut', () => {
  const address = '/glut?crop=plums&amount=40&unit=lb';
  const plans = () => pages.db.selectFrom('plan').select(['id', 'facts_version']).orderBy('seq').execute();
  const resultsKept = async () =>
    (await pages.db.selectFrom('plan').select('result_json').orderBy('seq').execute()).map(
      ({ result_json: text }) => text,
    );
  const kept = () => pages.db.selectFrom('kept').selectAll().orderBy('recipe_id').orderBy('week').execute();
  const version = async () =>
    (await pages.db.selectFrom('household').select('facts_version').executeTakeFirstOrThrow()).facts_version;
  const settled = () => pages.app.planJob?.settled(quinceYard);

  test('is used with one tap: its produce lies at hand, its batches are kept in their weeks, the year is planned with it', {
    timeout: planning,
  }, async () => {
    const before = { plans: await plans(), kept: await kept() };

    const used = await visitor.submitOn(address, { form: '/glut/use', fill: {} });
    await settled();

    expect(used.status).toBe(303);
    expect(used.location).toBe('/glut#glut-plan');
    const words = wordsOf((await visitor.open('/glut')).body);
    for (const part of ['In the plan: 40 lb of plums', 'Plum jam', 'What it displaces', 'Undo'])
      expect(words).toContain(part);
    expect((await plans()).length).toBe(before.plans.length + 1);
    const pinned = (await kept()).filter(({ decision }) => decision === 'pinned');
    expect(pinned.length).toBeGreaterThan(before.kept.filter(({ decision }) => decision === 'pinned').length);
    const week = wordsOf((await visitor.open('/')).body);
    expect(week).toContain('Plum jam');
  });

  test('is undone with one tap: batches, produce and plan are as they were, and nothing is out of date', {
    timeout: planning,
  }, async () => {
    const before = await plans();

    const undone = await visitor.submitOn('/glut', { form: '/glut/undone', fill: {} });

    expect(undone.status).toBe(303);
    expect(undone.location).toBe('/glut?undone=back');
    expect((await plans()).at(-1)?.facts_version).toBe(await version());
    const texts = await resultsKept();
    expect(texts.at(-1)).toBe(texts[before.length - 2]);
    expect((await kept()).filter(({ decision }) => decision === 'pinned')).toEqual([]);
    const page = wordsOf((await visitor.open('/glut')).body);
    expect(page).not.toContain('In the plan: ');
    const again = await visitor.open(undone.location ?? '');
    expect(wordsOf(again.body)).toContain('The plan is the one from before.');
  });

  test('that is not among them any more changes nothing, and the answers as they are now stand there', async () => {
    const before = { plans: await plans(), version: await version() };

    const gone = await visitor.submitOn(address, {
      form: '/glut/use',
      fill: { answer: 'plum-jam 2020-W01 9' },
    });

    expect(gone.status).toBe(422);
    expect(wordsOf(gone.body)).toContain('Choose from the answers as they are now');
    expect({ plans: await plans(), version: await version() }).toEqual(before);
  });

  test('leaves what was pinned before as it was once it is undone', { timeout: planning }, async () => {
    const found = await visitor.open(address);
    const answer = /name="answer" value="([^"]+)"/.exec(found.body)?.[1] ?? '';
    const [recipe = '', week = ''] = answer.split(' ');
    await pages.db
      .insertInto('kept')
      .values({
        household_id: quinceYard,
        recipe_id: recipe,
        week,
        decision: 'pinned',
        batches: 1,
        decided_at: 1,
      })
      .execute();
    const before = (await kept()).map(({ decided_at: _, ...row }) => row);

    const used = await visitor.submitOn(address, { form: '/glut/use', fill: {} });
    await settled();
    const grown = await kept();
    await visitor.submitOn('/glut', { form: '/glut/undone', fill: {} });
    await settled();

    expect(used.status).toBe(303);
    expect(grown.map(({ decided_at: _, ...row }) => row)).not.toEqual(before);
    expect((await kept()).map(({ decided_at: _, ...row }) => row)).toEqual(before);
  });
});

// Last: it adds a freezer and a food.
test('says what of the rest the freezer holds by a published way, and mixes it in once that is kept', {
  timeout: planning,
}, async () => {
  const many = '/glut?crop=plums&amount=120&unit=lb';
  expect(wordsOf((await visitor.open(many)).body)).not.toContain('to freeze');
  worked(
    await savePlace(pages.writer(), {
      placeId: null,
      name: 'Chest freezer',
      kind: 'freezer',
      capacityQuarts: 60,
    }),
  );
  const before = await visitor.open(many);
  expect(wordsOf(before.body)).toMatch(/Of that, to freeze up to \d+ bags of plums, frozen/);
  const link = /href="(\/items\/new\?kind=uncanned&amp;way=plums-frozen)"/.exec(before.body)?.[1];
  if (link === undefined) throw new Error('expected a link to the way plums are frozen');

  const form = link.replace('&amp;', '&');
  const { status, location } = await visitor.submitOn(form, {
    form: '/items',
    fill: { amount: '1', units: '10', 'lb-plum': '12' },
  });
  expect([status, location]).toEqual([303, expect.stringContaining('said=added')]);

  const after = await visitor.open(many);
  expect(after.body).not.toContain('way=plums-frozen');
  expect(wordsOf(after.body)).toMatch(/\d+ bags? Plums[^0-9]*frozen/);
});
