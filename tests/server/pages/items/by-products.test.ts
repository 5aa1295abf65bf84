import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { recipesOf } from '../../../../server/queries/household/recipes.ts';
import { waitingMaterialsOf } from '../../../../server/queries/year/waiting-material.ts';
import { nextSeq } from '../../../../server/records/next-seq.ts';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import type { HouseholdId } from '../../../../shared/ids.ts';
import { addDays, asDate, mondayOf } from '../../../../shared/week.ts';
import { byProductsOfBook, learntLeft } from '../../../../src/preserving/recipes/by-product.ts';
import { recipeBook } from '../../../../src/preserving/recipes/recipe-book.ts';
import { materialsOfWay } from '../../../../src/preserving/uncanned/uncanned-ways.ts';
import { HouseholdByPages } from '../../../builders/household-by-pages.ts';
import { formOf, wordsOf } from '../../../builders/visitor.ts';
import { checkPlan } from '../../../planning/independent-checker.ts';

// What one batch leaves is what another is made of: said, planned, weighed, used up and taken back, all through the pages.

const reference = loadReferenceTables();

describe('the book', () => {
  const left = new Map(byProductsOfBook(reference).map(({ name }) => [name, [] as string[]]));
  for (const { recipeKey, material } of reference.recipeByProducts) left.get(material)?.push(recipeKey);
  const taken = [
    ...reference.uncannedWays.flatMap((way) =>
      materialsOfWay(way).map((material) => ({ material, by: way.wayKey, basis: way.basis })),
    ),
    ...recipeBook(reference).flatMap(({ key, material, source }) =>
      material === null ? [] : [{ material, by: key, basis: source.basis }],
    ),
  ];

  it('has at least six pairs whose taking was read in a guide, and every material taken is left by somebody', () => {
    const pairs = taken.filter(
      ({ material, basis }) => basis === 'read' && (left.get(material) ?? []).length > 0,
    );

    expect(new Set(pairs.map(({ material }) => material)).size).toBeGreaterThanOrEqual(6);
    expect(taken.filter(({ material }) => !left.has(material))).toEqual([]);
  });

  it('invents no amount: none is printed of what is left, and none is filled in', () => {
    expect(
      recipeBook(reference).filter(({ byProducts }) => byProducts.some((one) => 'quantity' in one)),
    ).toEqual([]);
  });

  it('says of homemade vinegar that it is for no pickle and no jar', () => {
    const vinegar = reference.uncannedWays.find(({ wayKey }) => wayKey === 'apple-scrap-vinegar');

    expect(vinegar?.note).toMatch(/never for pickling or canning/);
    expect(vinegar?.basis).toBe('memory');
  });

  it('cans nothing of what jelly leaves', () => {
    const pulp = taken.filter(({ material }) => material.endsWith('pulp'));

    expect(pulp.length).toBeGreaterThan(0);
    expect(pulp.filter(({ by }) => recipeBook(reference).some(({ key }) => key === by))).toEqual([]);
  });
});

it.each([
  [null, [], null],
  [2, [], 2],
  [null, [2.6, 2.9, 2.9], 2.8],
  [2, [2.6, 2.9], 2.5],
])('of %s lb said and %j weighed the plan counts on %s', (said, weighed, counted) => {
  const learnt = learntLeft(said, weighed);
  if (counted === null) expect(learnt).toBeNull();
  else expect(learnt).toBeCloseTo(counted, 9);
});

describe('a household that makes vinegar of what applesauce leaves', () => {
  let home: HouseholdByPages;
  let id: HouseholdId;
  const sauce = '/items/applesauce';
  const vinegarPage = '/items/new?kind=uncanned&way=apple-scrap-vinegar';
  beforeEach(async () => {
    home = await HouseholdByPages.beginning(asDate('2026-03-02'));
    await home.setUp({ town: 'Lansing, MI', altitude: '860' });
    id = (await home.db.selectFrom('household').select('id').executeTakeFirstOrThrow()).id as HouseholdId;
  });
  afterEach(() => home.close());

  const recipeOf = async (item: string) => {
    const recipe = (await recipesOf(home.db, id)).find(({ itemId }) => itemId === item);
    if (recipe === undefined) throw new Error(`expected a recipe of ${item}`);
    return recipe;
  };
  const addVinegar = (fill: Record<string, string> = {}) =>
    home.visitor.submitOn(vinegarPage, {
      form: '/items',
      fill: { name: 'Scrap vinegar', units: '2', materialLb: '4', amount: '6', per: 'year', ...fill },
    });
  const saysItLeaves = async (leavesAmount: string) => {
    const recipe = await recipeOf('applesauce');
    await home.send(sauce, `${sauce}/recipes/${recipe.id}/left-overs`, {
      leaves: 'apple-peels-and-cores',
      leavesAmount,
    });
  };

  it('hears from the book what becomes of it, and fills in the way', async () => {
    const page = await home.visitor.open(sauce);
    expect(wordsOf(page.body)).toContain('Vinegar from apple peels and cores');

    const { values } = formOf((await home.visitor.open(vinegarPage)).body, '/items');
    expect(values).toMatchObject({ material: 'apple-peels-and-cores', materialLb: '', keeping: 'fermented' });
    expect(await home.words(vinegarPage)).toMatch(/never for pickling or canning/);
    const without = await addVinegar({ materialLb: '' });
    expect([without.status, wordsOf(without.body)]).toEqual([
      422,
      expect.stringContaining('Write how much of it one batch takes'),
    ]);
  });

  it('is weighed as its household reads: said, taken and written down in kilograms', async () => {
    await home.send('/kitchen', '/kitchen/household', { units: 'metric' });
    await saysItLeaves('2');
    expect(await home.words(sauce)).toContain('2 kg of apple peels and cores');
    const { values } = formOf((await home.visitor.open(vinegarPage)).body, '/items');
    expect(values.materialLb).toBe('2');

    expect((await addVinegar({ materialLb: '1.5' })).status).toBe(303);
    const [uses] = (await recipeOf('scrap-vinegar')).uses;
    expect(uses?.quantity).toBeCloseTo(1.5 * 2.20462262185, 2);
    const recipe = await recipeOf('scrap-vinegar');
    const form = `/items/scrap-vinegar/recipes/${recipe.id}/left-overs`;
    expect(formOf((await home.visitor.open('/items/scrap-vinegar')).body, form).values).toMatchObject({
      takesAmount: '1.5',
    });
    await home.send('/items/scrap-vinegar', form);
    expect((await recipeOf('scrap-vinegar')).uses[0]?.quantity).toBe(uses?.quantity);
    await home.send('/items/scrap-vinegar', form, { takesAmount: '2 lb' });
    expect((await recipeOf('scrap-vinegar')).uses[0]?.quantity).toBe(2);

    const page = (await home.visitor.open('/items/scrap-vinegar')).body;
    expect(wordsOf(page)).toMatch(/Taken for one batch [^.]*\. kg/);
  });

  it('plans no vinegar while nobody knows how much is left, and says why', async () => {
    expect((await addVinegar()).status).toBe(303);

    const plan = await home.plan();

    expect(
      plan.weeks.flatMap(({ sessions }) => sessions).filter(({ recipe }) => recipe === 'scrap-vinegar'),
    ).toEqual([]);
    const words = await home.words('/year/scrap-vinegar');
    expect(words).toContain('Nothing gives the apple peels and cores it is made of');
    expect(words).not.toContain('Made again in');
  });

  it('plans it on the days of applesauce, no more than is left, and every week closes', async () => {
    await saysItLeaves('4.5');
    await addVinegar();

    const plan = await home.plan();
    const { year } = await home.loaded();

    const weeks = plan.weeks.filter(({ sessions }) =>
      sessions.some(({ recipe }) => recipe === 'scrap-vinegar'),
    );
    expect(weeks.length).toBeGreaterThan(0);
    for (const { week, sessions } of weeks) {
      const batches = (recipe: string) =>
        sessions.filter((one) => one.recipe === recipe).reduce((sum, one) => sum + one.batches, 0);
      const sauceRecipe = await recipeOf('applesauce');
      expect(4 * batches('scrap-vinegar'), week).toBeLessThanOrEqual(4.5 * batches(sauceRecipe.id));
    }
    expect(checkPlan(plan, year)).toEqual([]);
  });

  it('weighs what is left, and the plan counts on what was weighed; it is used up, and waits again when that is undone', async () => {
    await saysItLeaves('4');
    await addVinegar();
    const plan = await home.plan();
    const recipe = await recipeOf('applesauce');
    const week = plan.weeks.find(({ sessions }) => sessions.some((one) => one.recipe === 'scrap-vinegar'));
    const session = week?.sessions.find((one) => one.recipe === recipe.id);
    if (week === undefined || session === undefined)
      throw new Error('expected applesauce and vinegar in a week');
    const saturday = addDays(mondayOf(week.week), 5);
    home.goTo(saturday);
    const path = `/canning-day/${week.week}/${saturday}`;
    expect(await home.words(`/canning-day/${week.week}?day=${saturday}`)).toMatch(
      /Apple peels and cores from applesauce: about [\d.]+ lb; keep it cold and use it by .*It goes into scrap vinegar/,
    );
    const form = `${path}/results/${recipe.id}`;
    await home.send(form, form, {
      batches: '1',
      units: '9',
      minutesRun: /(\d+) minutes (?:at|in) /.exec(await home.words(form))?.[1] ?? '',
      doneBy: 'whoever cooked',
      byProduct: '5',
    });

    expect((await recipeOf('applesauce')).gives).toMatchObject([{ quantity: 4.5 }]);
    expect(await home.words(sauce)).toContain('What you weighed comes to 4.5 lb a batch');
    const waits = async () =>
      (await waitingMaterialsOf(home.db, id)).map(({ quantity, useBy }) => [quantity, useBy]);
    expect(await waits()).toEqual([[5, addDays(saturday, 3)]]);

    const made = `${path}/results/scrap-vinegar`;
    expect(await home.words(made)).toContain('Its batches take');
    await home.send(made, made, { batches: '1', units: '2' });
    expect(await waits()).toEqual([[1, addDays(saturday, 3)]]);

    const entry = await home.db
      .selectFrom('batch_result')
      .select('id')
      .where('recipe_id', '=', 'scrap-vinegar')
      .executeTakeFirstOrThrow();
    const shelf = await home.visitor.open('/shelf');
    await home.visitor.post(shelf, '/shelf/reversals', { entry: entry.id });
    expect(await waits()).toEqual([[5, addDays(saturday, 3)]]);
  });

  it('plans with none of what waits past its day', async () => {
    await saysItLeaves('4');
    const { materials } = (await home.loaded()).facts;
    const [peels] = materials;
    await home.db
      .insertInto('material_event')
      .values({
        household_id: id,
        seq: nextSeq('material_event', id),
        subject: peels?.id ?? '',
        kind: 'left-over',
        quantity: 7,
        unit: 'lb',
        use_by: asDate('2026-03-03'),
        occurred_on: asDate('2026-02-28'),
        recorded_at: 1,
        result_id: null,
      })
      .execute();

    // The next canning day is Saturday; the peels keep until Tuesday.
    expect((await home.loaded()).year.materials).toMatchObject([{ opening: 0 }]);
  });

  it('takes nothing into a tested recipe, and says so beside the field', async () => {
    const recipe = await recipeOf('applesauce');
    const form = `${sauce}/recipes/${recipe.id}/left-overs`;
    expect(formOf((await home.visitor.open(sauce)).body, form).values).not.toHaveProperty('takes');

    const answer = await home.visitor.submitOn(sauce, {
      form,
      fill: { takes: 'grape-pulp', takesAmount: '2' },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('is made of what it was tested with');
    expect((await recipeOf('applesauce')).uses).toEqual([]);
  });

  it('is not canned where a file says it takes what it was not tested with', async () => {
    await saysItLeaves('4');
    const { materials } = (await home.loaded()).facts;
    await home.db
      .insertInto('recipe_material')
      .values({
        household_id: id,
        recipe_id: (await recipeOf('applesauce')).id,
        material_id: materials[0]?.id ?? '',
        direction: 'uses',
        quantity: 1,
      })
      .execute();

    const { recipes } = await home.loaded();

    expect(recipes.planned.some(({ itemId }) => itemId === 'applesauce')).toBe(false);
    expect(recipes.leftOut.flatMap(({ reasons }) => reasons.map(({ code }) => code))).toContain(
      'by-product-in-tested-recipe',
    );
  });

  it('makes the same of whole apples as well, by one more way', async () => {
    await saysItLeaves('4');
    await addVinegar();
    const page = '/items/new?kind=uncanned&item=scrap-vinegar';
    await home.send(page, '/items/scrap-vinegar/ways', {
      name: 'Vinegar of whole apples',
      crop: 'apple',
      lb: '6',
      units: '2',
      handsOnMinutes: '40',
    });

    const own = (await recipesOf(home.db, id)).filter(({ itemId }) => itemId === 'scrap-vinegar');
    expect(own.map(({ name, produce, uses }) => [name, produce.length, uses.length])).toEqual([
      ['Scrap vinegar', 0, 1],
      ['Vinegar of whole apples', 1, 0],
    ]);
    const plan = await home.plan();
    expect(checkPlan(plan, (await home.loaded()).year)).toEqual([]);
    const oil = await home.visitor.submitOn(page, {
      form: '/items/scrap-vinegar/ways',
      fill: { name: 'Garlic in oil', units: '2' },
    });
    expect([oil.status, wordsOf(oil.body)]).toEqual([422, expect.stringContaining('botulism')]);
  });

  it('adds stock of bones by its tested process, made of what another batch leaves', async () => {
    const page = '/items/new?recipe=meat-stock-quarts';
    const form = { form: '/items', fill: { name: 'Turkey stock', jarKind: 'quart/regular' } };
    const empty = await home.visitor.submitOn(page, form);
    expect([empty.status, wordsOf(empty.body)]).toEqual([
      422,
      expect.stringContaining('Chicken or turkey bones for one batch is empty'),
    ]);

    const answer = await home.visitor.submitOn(page, { ...form, fill: { ...form.fill, materialLb: '8' } });

    expect(answer.status).toBe(303);
    const stock = await recipeOf('turkey-stock');
    expect([
      stock.process?.food ?? null,
      stock.awaitsCanner,
      stock.uses.map(({ quantity }) => quantity),
    ]).toEqual([stock.awaitsCanner ? null : 'meat-stock', stock.awaitsCanner, [8]]);
  });
});
