import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { everyCaution } from '../../../../src/preserving/sheet/cautions.ts';
import { askingQuinceYard } from '../../../builders/asking-quince-yard.ts';
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
    for (const part of ['40 lb of plums can become', 'Plum jam', 'New lids', 'Process here', 'Your hands'])
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

    expect(wordsOf(bushels.body)).toContain('84 lb of plums can become');
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

  test('is planned with when asked, without script and with, and keeps no plan', {
    timeout: planning,
  }, async () => {
    const plans = () => pages.db.selectFrom('plan').select('id').execute();
    const before = await plans();
    const address = '/glut?crop=plums&amount=40&unit=lb';

    const page = await visitor.submitOn(address, { form: '/glut/plan', fill: {} });
    const part = await visitor.submit(await visitor.open(address), { form: '/glut/plan', asPart: true });

    expect(page.status).toBe(200);
    expect(wordsOf(page.body)).toContain('What it displaces');
    expect(wordsOf(page.body)).toContain('can become');
    expect(part.body).toContain('id="glut-plan"');
    expect(part.body).not.toContain('<html');
    expect(wordsOf(part.body)).toContain('To make of it now');
    expect(await plans()).toEqual(before);
  });
});
