import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { itemById } from '../../../../server/queries/household/items.ts';
import { recipesOf, suppliesOf } from '../../../../server/queries/household/recipes.ts';
import { shopPacksOf } from '../../../../server/queries/year/targets.ts';
import { greenBeans, oats, plumJam, quinceYard, shelve } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { formOf, wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

const words = async (url: string) => wordsOf((await pages.visitor.open(url)).body);
const item = (id: string) => itemById(pages.db, quinceYard, id);

describe('what is kept', () => {
  it('is listed with its recipes, its packs and whether it is planned', async () => {
    const page = await words('/items');

    expect(page).toContain('Plum jam half-pints Plum jam planned');
    expect(page).toContain('Cured pickles quarts no recipe not planned: it has no recipe');
    expect(page).toContain('Rolled oats no pack');
  });

  it('is reached from the targets and the year', async () => {
    expect((await pages.visitor.open('/targets')).body).toContain('href="/items/new"');
    expect((await pages.visitor.open('/year')).body).toContain('href="/items/new"');
    expect((await pages.visitor.open('/targets/plum-jam')).body).toContain('href="/items/plum-jam"');
  });
});

describe('the recipe book', () => {
  it('is looked through by words', async () => {
    const found = (await pages.visitor.open('/items/new?find=peach+jam')).body;

    expect(found).toContain('recipe=peach-jam-powder');
    expect(found).not.toContain('recipe=apple-butter');
    expect(await words('/items/new?find=starfruit')).toContain('The book has no such recipe');
  });

  it('is narrowed to what boiling water, a pressure canner or no canner does', async () => {
    const shown = async (by: string, find: string) =>
      (await pages.visitor.open(`/items/new?by=${by}&find=${find}`)).body;

    expect(await shown('pressure', 'beans')).toContain('recipe=beans-snap');
    expect(await shown('boiling-water', 'beans')).not.toContain('recipe=beans-snap');
    expect(await shown('boiling-water', 'peach')).toContain('recipe=peach-jam-powder');
    expect(await shown('pressure', 'peach')).not.toContain('recipe=peach-jam-powder');
    expect(await shown('none', 'peach')).toContain('way=peaches-frozen');
    expect(await shown('none', 'peach')).not.toContain('recipe=');
    expect(await shown('anything-else', 'beans')).toContain('recipe=beans-snap');
  });

  it('offers only jar sizes that are tested here, with the published pounds', async () => {
    const page = await pages.visitor.open('/items/new?recipe=bread-and-butter-pickles');
    const { values } = formOf(page.body, '/items');

    expect(values).toMatchObject({ jarKind: 'pint/regular', 'lb-cucumber': '6', handsOnMinutes: '90' });
    expect(
      page.body.match(/<option value="[^"]*\/(?:regular|wide)"/g)?.map((tag) => tag.slice(15, -1)),
    ).toEqual([
      'half-pint/regular',
      'half-pint/wide',
      'pint/regular',
      'pint/wide',
      'quart/regular',
      'quart/wide',
    ]);
  });

  it('adds the recipe and what is eaten of it; the new item is planned', async () => {
    const answer = await pages.visitor.submitOn('/items/new?recipe=bread-and-butter-pickles', {
      form: '/items',
      fill: { name: 'Sweet slices', amount: '1', per: 'month', jarKind: 'pint/wide' },
    });

    expect([answer.status, answer.location]).toEqual([303, '/items/sweet-slices?said=added']);
    const page = await words(answer.location);
    expect(page).toContain('Put up here, by a tested process.');
    expect(page).toContain('6 lb pickling cucumbers');
    expect(page).toContain('1 h 30 min (our guess)');
    expect(await words('/targets/sweet-slices')).toContain('You said 1 pint a month');
  });

  it('a recipe that is not tested here yet is kept and says why', async () => {
    await pages.db.updateTable('household').set({ altitude_ft: null }).execute();
    expect(await words('/items/new?recipe=peaches-pints')).toContain(
      'It can be kept, but it is not planned yet: The altitude of the kitchen is not known',
    );

    await pages.visitor.submitOn('/items/new?recipe=peaches-pints', { form: '/items' });

    expect(await words('/items/peaches')).toContain(
      'Not planned yet. The altitude of the kitchen is not known',
    );
  });

  it('is refused with everything typed when something cannot be read', async () => {
    const answer = await pages.visitor.submitOn('/items/new?recipe=peaches-pints', {
      form: '/items',
      fill: { name: 'Golden halves', 'lb-peach': 'some', amount: '-1', handsOnMinutes: '' },
    });

    expect(answer.status).toBe(422);
    const page = wordsOf(answer.body);
    expect(page).toContain('Peaches for one batch cannot be “some”. Write a number from 0.01 to 500 lb');
    expect(page).toContain('How many you eat cannot be “-1”. Write a number from 0 to 1,000.');
    expect(formOf(answer.body, '/items').values).toMatchObject({
      name: 'Golden halves',
      'lb-peach': 'some',
      amount: '-1',
    });
    expect(await item('golden-halves')).toBeNull();
  });

  it('tells recipes of one name apart, and a pinch is no nothing', async () => {
    const jams = await words('/items/new?find=peach+jam');

    expect(jams).toContain('Peach jam 8 half-pints; liquid pectin; MU-SS');
    expect(jams).toContain('Peach jam 6 half-pints; powdered pectin;');
    expect(await words('/items/new?recipe=pickled-beets')).toContain('0.3 oz of canning salt');
  });

  it('an unknown recipe is a page that does not exist', async () => {
    expect((await pages.visitor.open('/items/new?recipe=moon-pie')).status).toBe(404);
  });

  it('gives an item another recipe', async () => {
    const answer = await pages.visitor.submitOn('/items/new?recipe=plum-jelly&item=plum-jam', {
      form: '/items/plum-jam/recipes',
    });

    expect([answer.status, answer.location]).toEqual([303, '/items/plum-jam?said=added#recipes']);
    const own = (await recipesOf(pages.db, quinceYard)).filter(({ itemId }) => itemId === plumJam);
    expect(own.map(({ name }) => name).sort()).toEqual(['Plum jam', 'Plum jelly, no added pectin']);
  });
});

describe('one item', () => {
  it('keeps a changed name, chance, minimum and what is kept for an emergency', async () => {
    const answer = await pages.visitor.submitOn('/items/plum-jam', {
      form: '/items/plum-jam',
      fill: { name: 'Damson jam', yearsInTwenty: '19', familyMinimum: '6', emergencyUnits: '4' },
    });

    expect([answer.status, answer.location]).toEqual([303, '/items/plum-jam?said=saved']);
    expect(await item(plumJam)).toMatchObject({
      name: 'Damson jam',
      chanceWanted: 0.95,
      familyMinimumUnits: 6,
      emergencyUnits: 4,
    });
    expect(await words('/targets/plum-jam')).toContain('emergency shelf');
  });

  it.each(['0', '2.5', '-1', '1001', 'some'])('keeps no “%s” for an emergency', async (typed) => {
    const answer = await pages.visitor.submitOn('/items/plum-jam', {
      form: '/items/plum-jam',
      fill: { emergencyUnits: typed },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(`Kept for an emergency cannot be “${typed}”`);
    expect((await item(plumJam))?.emergencyUnits).toBeNull();
  });

  it('low-acid food keeps its safe limit once opened', async () => {
    const answer = await pages.visitor.submitOn('/items/green-beans', {
      form: '/items/green-beans',
      fill: { keepColdDays: '10' },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('Once opened, this low-acid food keeps 3 days at most');
    expect(formOf(answer.body, '/items/green-beans').values.keepColdDays).toBe('10');
    expect((await item(greenBeans))?.keepColdDays).toBeNull();
  });

  it('is retired when its shelf is empty, and brought back', async () => {
    const retired = await pages.visitor.submitOn('/items/plum-jam', { form: '/items/plum-jam/retirement' });
    expect(retired.location).toBe('/items?said=retired');
    expect(await words(retired.location)).toContain('No longer kept Their history stays.');
    expect(await words('/items/plum-jam')).toContain('you can bring it back as it was');

    const back = await pages.visitor.submitOn('/items', { form: '/items/plum-jam/return' });
    expect(back.location).toBe('/items/plum-jam?said=back');
    expect(await words('/items')).toContain('Plum jam half-pints Plum jam planned');
  });

  it('is retired while jars of it stand there; they stay on the shelf, with words that say so', async () => {
    await shelve(pages.db, {
      id: 'jam',
      itemId: plumJam,
      units: 2,
      madeOn: '2026-06-01',
      bestQualityUntil: '2027-06-01',
    });

    const before = await words('/items/plum-jam');
    const answer = await pages.visitor.submitOn('/items/plum-jam', { form: '/items/plum-jam/retirement' });

    expect(before).toContain('2 half-pints still on the shelf, to be eaten.');
    expect(answer.location).toBe('/items?said=retired');
    expect(await words('/items')).toContain('2 half-pints still to be eaten');
    expect(await words('/shelf')).toContain('No longer kept: what is on the shelf is there to be eaten');
    expect(await words('/shelf/plum-jam')).toContain('Plum jam');
    expect(await words('/year')).not.toContain('Plum jam');
    expect((await pages.visitor.open('/targets/plum-jam')).status).toBe(404);
    expect(await words('/notices')).not.toMatch(/Plum jam.*(runs out|run out)/);
  });

  it('changes canner and minutes of a recipe, stops it and takes it up again', async () => {
    const form = '/items/plum-jam/recipes/plum-jam-batch';
    await pages.visitor.submitOn('/items/plum-jam', { form, fill: { handsOnMinutes: '55' } });
    expect(
      (await recipesOf(pages.db, quinceYard)).find(({ id }) => id === 'plum-jam-batch')?.handsOnMinutes,
    ).toBe(55);

    const wrong = await pages.visitor.submitOn('/items/plum-jam', { form, fill: { handsOnMinutes: 'long' } });
    expect(wrong.status).toBe(422);
    expect(wordsOf(wrong.body)).toContain('cannot be “long”');

    await pages.visitor.submitOn('/items/plum-jam', { form: `${form}/retirement` });
    expect(await words('/items/plum-jam')).toContain('Nothing makes it yet');
    await pages.visitor.submitOn('/items/plum-jam', { form: `${form}/return` });
    expect(await words('/items/plum-jam')).toContain('Put up here, by a tested process.');
  });

  // Salt in vegetables: University of Wisconsin Extension, changes to recipes; the snap beans have no other salt rule.
  it('keeps what is done otherwise, of the changes under which its recipe stays tested', async () => {
    const form = '/items/green-beans/recipes/green-beans-batch/changes';
    const beans = async () =>
      (await recipesOf(pages.db, quinceYard)).find(({ id }) => id === 'green-beans-batch')?.changes;

    const saved = await pages.visitor.submitOn('/items/green-beans', {
      form,
      fill: { 'change-salt': 'yes' },
    });

    expect(saved.status).toBe(303);
    expect(await beans()).toEqual(['salt']);
    expect((await pages.visitor.open('/items/green-beans')).body).toMatch(
      /name="change-salt" value="yes" checked/,
    );
  });

  it.each([
    [{ other: 'twice the onions' }, 'The change "twice the onions" is not one of those'],
    [{ 'change-less-sugar': 'yes' }, 'never in jam or jelly'],
    [{ 'change-dried-spices': 'yes', other: 'flour' }, 'Otherwise refrigerate or freeze what was made.'],
  ])('refuses any other change to a tested jam: %o', async (fill, rule) => {
    const form = '/items/plum-jam/recipes/plum-jam-batch/changes';
    await pages.db
      .updateTable('recipe')
      .set({ based_on: 'strawberry-jam' })
      .where('id', '=', 'plum-jam-batch')
      .execute();
    const page = await pages.visitor.open('/items/plum-jam');

    const answer = await pages.visitor.submit(page, { form, fill });

    expect(page.body).not.toContain('name="change-less-sugar"');
    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(rule);
    expect((await recipesOf(pages.db, quinceYard)).flatMap(({ changes }) => changes)).toEqual([]);
  });

  it('gets packs, whose prices change and which go again but for the last', async () => {
    const packs = async () => (await shopPacksOf(pages.db, quinceYard)).get(oats) ?? [];
    await pages.visitor.submitOn('/items/oats', {
      form: '/items/oats/packs',
      fill: { units: '5', price: '6.49' },
    });
    await pages.visitor.submitOn('/items/oats', {
      form: '/items/oats/packs',
      fill: { units: '1', price: '1.79' },
    });
    expect((await packs()).map(({ units, price }) => [units, price])).toEqual([
      [1, 179],
      [5, 649],
    ]);

    await pages.visitor.submitOn('/items/oats', {
      form: '/items/oats/packs/pack-1',
      fill: { price: '7.25' },
    });
    await pages.visitor.submitOn('/items/oats', { form: '/items/oats/packs/pack-1-2/removal' });
    expect((await packs()).map(({ units, price }) => [units, price])).toEqual([[5, 725]]);

    const wrong = await pages.visitor.submitOn('/items/oats', {
      form: '/items/oats/packs',
      fill: { units: '0', price: '-3' },
    });
    expect(wrong.status).toBe(422);
    expect(wordsOf(wrong.body)).toContain('Write a number from 0.01');
  });

  it('that is none is a page that does not exist', async () => {
    expect((await pages.visitor.open('/items/moon-jam')).status).toBe(404);
    expect((await pages.visitor.open('/items/supplies/gold')).status).toBe(404);
  });
});

describe('staples and supplies', () => {
  it('a staple is added with its pack and is bought', async () => {
    const answer = await pages.visitor.submitOn('/items/new?kind=staple', {
      form: '/items',
      fill: { name: 'Flour', packUnits: '5', packPrice: '3.99', amount: '1', per: 'week' },
    });

    expect(answer.location).toBe('/items/flour?said=added');
    expect(await words('/items')).toContain('Flour 5 lb for $3.99');
  });

  it('what was typed of a staple stays when it is refused', async () => {
    const answer = await pages.visitor.submitOn('/items/new?kind=staple', {
      form: '/items',
      fill: { name: 'Flour', packUnits: 'five', packPrice: '3.99' },
    });

    expect(answer.status).toBe(422);
    expect(formOf(answer.body, '/items').values).toMatchObject({
      kind: 'staple',
      name: 'Flour',
      packUnits: 'five',
    });
  });

  it('a guessed price is marked until the household says its own', async () => {
    await pages.visitor.submitOn('/items/new?recipe=peaches-pints', { form: '/items' });
    expect(await words('/items')).toContain('Sugar 4 lb for $3.99 (a guess)');
    expect(await words('/items')).toContain('We filled in 2 figures for you, and the plan counts on them');

    const saved = await pages.visitor.submitOn('/items/supplies/sugar', {
      form: '/items/supplies/sugar',
      fill: { packQuantity: '10', packPrice: '$8.49', onHand: '2.5' },
    });

    expect(saved.location).toBe('/items?said=saved#supplies');
    expect((await suppliesOf(pages.db, quinceYard))[0]).toMatchObject({
      packQuantity: 10,
      packPrice: 849,
      onHand: 2.5,
    });
    expect(await words('/items')).toContain('Sugar 10 lb for $8.49 2.5 lb');

    const wrong = await pages.visitor.submitOn('/items/supplies/sugar', {
      form: '/items/supplies/sugar',
      fill: { onHand: '-1' },
    });
    expect(wrong.status).toBe(422);
    expect(formOf(wrong.body, '/items/supplies/sugar').values.onHand).toBe('-1');
  });
});

describe('search', () => {
  it('finds items and batches by every word, whatever their case', async () => {
    await shelve(pages.db, {
      id: '260601-a',
      itemId: plumJam,
      units: 4,
      madeOn: '2026-06-01',
      bestQualityUntil: '2027-06-01',
    });

    const found = await words('/search?q=PLUM');
    expect(found).toContain('Plum jam put up here');
    expect(found).toContain('260601-a, Jun 1, 2026');
    expect(found).toContain('4 half-pints');
    expect(await words('/search?q=260601+jam')).toContain('No item is called so.');
    expect(await words('/search?q=260601+beans')).toContain('Nothing kept here has “260601 beans”');
  });

  it('without words it only asks; markup in them stays words', async () => {
    expect(await words('/search')).not.toContain('Nothing kept here');
    const answer = await pages.visitor.open('/search?q=%3Cscript%3Ealert(1)%3C%2Fscript%3E');

    expect(answer.body).not.toContain('<script>alert');
  });

  it('retired items are found and say so', async () => {
    await pages.visitor.submitOn('/items/plum-jam', { form: '/items/plum-jam/retirement' });

    expect(await words('/search?q=plum')).toContain('Plum jam no longer kept');
  });
});

describe('the words of the program', () => {
  it('are explained, and every link among them leads to a page', async () => {
    const page = await pages.visitor.open('/words');
    expect(wordsOf(page.body)).toContain('Best quality until');

    const main = page.body.slice(page.body.indexOf('<main'), page.body.indexOf('</main>'));
    for (const [, href = ''] of main.matchAll(/href="(\/[^"]*)"/g))
      expect((await pages.visitor.open(href)).status, href).toBe(200);
  });
});
