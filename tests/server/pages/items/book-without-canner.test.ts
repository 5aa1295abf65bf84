import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { householdText, restoreHousehold } from '../../../../server/files/household-file.ts';
import { recipesOf } from '../../../../server/queries/household/recipes.ts';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import type { HouseholdId } from '../../../../shared/ids.ts';
import { addDays, asDate, mondayOf } from '../../../../shared/week.ts';
import type { Plan } from '../../../../src/planning/plan.ts';
import { basedOnWay } from '../../../../src/preserving/uncanned/uncanned-ways.ts';
import { HouseholdByPages } from '../../../builders/household-by-pages.ts';
import { worked } from '../../../builders/outcomes.ts';
import { quinceYard, quinceYardHousehold } from '../../../builders/quince-yard.ts';
import { formOf, wordsOf } from '../../../builders/visitor.ts';
import { checkPlan } from '../../../planning/independent-checker.ts';

// One of each kind that the book keeps without a canner, picked from it by a household of no kind in particular: planned,
// bought for, put up, labeled, taken and looked back on.

const page = (way: string) => `/items/new?kind=uncanned&way=${way}`;
/** What of the book is picked, and what the household writes beside it; what it leaves empty the book has filled in. */
const picked: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'green-beans-frozen': { name: 'Beans in bags', amount: '1', per: 'week' },
  'tart-cherries-frozen': { name: 'Cherries in sugar', lb: '6', amount: '1', per: 'month' },
  'strawberry-freezer-jam': { name: 'Jam in the freezer', lb: '1.5', amount: '1', per: 'month' },
  'apple-rings-dried': { name: 'Dried rings', lb: '9', units: '3', amount: '1', per: 'month' },
  'carrots-cellar': { name: 'Carrots in sand', lb: '20', units: '20', amount: '1', per: 'week' },
  'sauerkraut-cold': { name: 'Kraut kept cold', amount: '1', per: 'month' },
  'chicken-frozen': { name: 'Hens for soup', units: '4', bestQualityDays: '120', amount: '1', per: 'month' },
  'stock-frozen': { name: 'Stock of hens', materialLb: '2', units: '3', amount: '1', per: 'month' },
  'herbs-dried': { name: 'Kitchen herbs', units: '2', amount: '2', per: 'year' },
};
const sources = [
  ['Bean row', 'green-bean', 'garden'],
  ['Cherry tree', 'cherry-tart', 'garden'],
  ['Carrot bed', 'carrot', 'garden'],
  ['Cabbages of the market', 'cabbage', 'market'],
] as const;
const own = { family: 'greens-beans', units: '4', amount: '1', per: 'week', bestQualityDays: '36' };
const ownRecipe = '/items/new?kind=own';

describe('a household that keeps one of each kind of the book without a canner', () => {
  let home: HouseholdByPages;
  let plan: Plan;
  const itemOf = new Map<string, string>();
  const add = async (at: string, fill: Readonly<Record<string, string>>) => {
    const { location } = await home.send(at, '/items', fill);
    const item = /^\/items\/([^?]+)/.exec(location ?? '')?.[1] ?? '';
    itemOf.set(fill.name ?? '', item);
    return item;
  };
  const recipes = async () => {
    const { id } = await home.db.selectFrom('household').select('id').executeTakeFirstOrThrow();
    return recipesOf(home.db, id as HouseholdId);
  };
  const items = () => [...itemOf.values()];
  beforeAll(async () => {
    home = await HouseholdByPages.beginning(asDate('2026-03-02'));
    await home.setUp({ town: 'Bangor, ME', altitude: '160' });
    await home.send('/kitchen', '/kitchen/places', { name: 'Chest', kind: 'freezer', capacity: '160' });
    await home.send('/kitchen', '/kitchen/storage', { crocks: '20' });
    for (const [way, fill] of Object.entries(picked)) await add(page(way), fill);
    await add(ownRecipe, { ...own, name: 'Pea soup', keeping: 'frozen', bestQualityDays: '90' });
    await add(ownRecipe, { ...own, name: 'Quick radish slaw', keeping: 'refrigerated' });
    for (const [name, crop, kind] of sources) {
      const { location } = await home.send('/harvest/new', '/harvest', { name, crop, kind });
      const source = location?.split('?')[0] ?? '';
      await home.send(source, `${source}/windows/2026`, { lbPerWeek: '30' });
    }
    const hens = `/items/${itemOf.get('Hens for soup')}`;
    const recipe = (await recipes()).find(({ itemId }) => itemId === itemOf.get('Hens for soup'));
    await home.send(hens, `${hens}/recipes/${recipe?.id}/left-overs`, {
      leaves: 'chicken-or-turkey-bones',
      leavesAmount: '3',
    });
    plan = await home.plan();
  });
  afterAll(() => home.close());

  it('is told by the book what it is to do, from where, and whether that was read', async () => {
    const beans = await home.words(page('green-beans-frozen'));

    expect(beans).toContain('Blanch in boiling water: small pieces 2 minutes, large 3');
    expect(beans).toMatch(/Purdue/i);
    expect(await home.words(page('strawberry-freezer-jam'))).toContain('Uncooked jam is never canned');
    expect(await home.words(page('carrots-cellar'))).toMatch(/32 °F.*90(?:–|-| to )95/);
    expect(await home.words('/items/new')).toContain('Green beans, blanched and frozen');
  });

  it('keeps of each what the book prints: its yield, its life, what it takes from the store', async () => {
    const kept = await recipes();
    const kraut = kept.find(({ itemId }) => itemId === itemOf.get('Kraut kept cold'));
    const jam = kept.find(({ itemId }) => itemId === itemOf.get('Jam in the freezer'));
    const beans = kept.find(({ itemId }) => itemId === itemOf.get('Beans in bags'));

    // USDA guide 6: 25 lb of cabbage give about 9 quarts. Purdue: 3/4 lb of beans a pint, and four bags to a batch.
    expect([kraut?.yieldLow, kraut?.produce]).toMatchObject([9, [{ crop: 'cabbage', lb: 25 }]]);
    expect(beans?.produce).toMatchObject([{ crop: 'green-bean', lb: 3 }]);
    expect(jam?.supplies.length).toBe(2);
  });

  it('plans every one of them, and the plan holds', async () => {
    const { year } = await home.loaded();
    const planned = new Set(plan.weeks.flatMap(({ sessions }) => sessions.map(({ recipe }) => recipe)));

    expect(checkPlan(plan, year)).toEqual([]);
    const without = (await recipes())
      .filter(({ itemId }) => items().includes(itemId))
      .filter(({ id }) => !planned.has(id));
    expect(without.map(({ name }) => name)).toEqual([]);
  });

  it('buys what a way takes from the store', async () => {
    const jam = (await recipes()).find(({ itemId }) => itemId === itemOf.get('Jam in the freezer'));
    const bought = new Set(
      plan.weeks.flatMap(({ purchases }) => purchases.map(({ what }) => what as string)),
    );
    const taken = jam?.supplies.map(({ supplyId }) => supplyId as string) ?? [];

    expect(taken.filter((supply) => bought.has(supply))).toEqual(taken);
  });

  it('says on its day step by step what the book does', async () => {
    const jam = (await recipes()).find(({ itemId }) => itemId === itemOf.get('Jam in the freezer'));
    const week = plan.weeks.find(({ sessions }) => sessions.some(({ recipe }) => recipe === jam?.id))?.week;
    if (week === undefined) throw new Error('expected jam in a week');
    const saturday = addDays(mondayOf(week), 5);
    home.goTo(saturday);

    expect(await home.words(`/canning-day/${week}?day=${saturday}`)).toContain(
      'Wash and cap the berries, crush them and measure 2 cups exactly',
    );
  });

  it('puts each up, prints its label, takes of it and looks back on it', async () => {
    const mine = new Map((await recipes()).map(({ id, itemId }) => [id, itemId] as const));
    const done = new Set<string>();
    for (const { week, sessions } of plan.weeks)
      for (const session of sessions) {
        const item = mine.get(session.recipe) ?? '';
        if (!items().includes(item) || done.has(item)) continue;
        done.add(item);
        await home.writeDown(week, session);
      }
    expect([...items()].filter((item) => !done.has(item))).toEqual([]);

    const { lots } = (await home.year()).loaded.facts;
    const ofMine = lots.filter(({ itemId }) => items().includes(itemId));
    expect(new Set(ofMine.map(({ itemId }) => itemId))).toEqual(new Set(items()));
    const sheet = await home.words(`/labels/sheet?${ofMine.map(({ id }) => `${id}=1`).join('&')}`);
    const unlabeled = [...itemOf.keys()].filter((name) => !sheet.includes(name));
    expect(unlabeled).toEqual([]);

    await home.tick(asDate('2027-02-20'), Object.fromEntries(items().map((item) => [item, 1])));
    const looked = await home.words('/look-back');
    expect([...itemOf.keys()].filter((name) => !looked.includes(name))).toEqual([]);
  });

  it('comes back from its file with all of it', async () => {
    const { id } = await home.db.selectFrom('household').select('id').executeTakeFirstOrThrow();
    const saved = await householdText(home.db, id as HouseholdId);
    const to = await quinceYardHousehold();

    worked(await restoreHousehold(to.writer(), saved));

    expect(saved).toContain('"keeping":"refrigerated"');
    expect(await householdText(to.db, quinceYard)).toBe(saved);
    await to.db.destroy();
  });
});

it('adds every way of the book as it is, once the household has written what no guide prints', async () => {
  const home = await HouseholdByPages.beginning(asDate('2026-03-02'));
  await home.setUp({ town: 'Bangor, ME', altitude: '160' });
  await home.send('/kitchen', '/kitchen/places', { name: 'Chest', kind: 'freezer', capacity: '400' });
  const { uncannedWays } = loadReferenceTables();
  const refused: string[] = [];
  for (const { wayKey, cropKey } of uncannedWays) {
    const { values } = formOf((await home.visitor.open(page(wayKey))).body, '/items');
    const own = {
      ...(values.units === '' ? { units: '4' } : {}),
      ...(cropKey !== null && values.lb === '' ? { lb: '5' } : {}),
      ...(values.material === '' ? {} : { materialLb: '2' }),
      amount: '1',
      per: 'month',
    };
    const answer = await home.visitor.submitOn(page(wayKey), { form: '/items', fill: own });
    const again =
      answer.status === 422 && wordsOf(answer.body).includes('No figure is published here')
        ? await home.visitor.submit(answer, { form: '/items', fill: { bestQualityDays: '90' } })
        : answer;
    if (again.status !== 303) refused.push(`${wayKey}: ${wordsOf(again.body).slice(0, 600)}`);
  }

  const { facts, recipes, year } = await home.loaded();
  const plannable = new Set(recipes.planned.map(({ id }) => id));
  const kept = new Set(facts.recipes.filter(({ id }) => plannable.has(id)).map(({ basedOn }) => basedOn));
  expect(refused).toEqual([]);
  expect(
    uncannedWays.map(({ wayKey }) => basedOnWay(wayKey)).filter((basedOn) => !kept.has(basedOn)),
  ).toEqual([]);
  expect(year.items.length).toBeGreaterThanOrEqual(uncannedWays.length);
  await home.close();
});

describe('a recipe of the household’s own that no tested process covers', () => {
  let home: HouseholdByPages;
  beforeAll(async () => {
    home = await HouseholdByPages.beginning(asDate('2026-03-02'));
    await home.setUp({ town: 'Bangor, ME', altitude: '160' });
  });
  afterAll(() => home.close());
  const send = (fill: Readonly<Record<string, string>>) =>
    home.visitor.submitOn(ownRecipe, { form: '/items', fill: { ...own, ...fill } });

  it('says what is missing where no freezer is written down', async () => {
    const { location } = await send({ name: 'Stew of roots', keeping: 'frozen', bestQualityDays: '90' });

    expect(await home.words(`/year/${location?.split('?')[0]?.split('/')[2]}`)).toContain(
      'No freezer is written down',
    );
  });

  it('goes to the freezer or the refrigerator and nowhere else; the gate says why', async () => {
    const { body } = await home.visitor.open(ownRecipe);

    expect(wordsOf(body)).toMatch(/tested/);
    expect(formOf(body, '/items').values.keeping).toMatch(/^(?:frozen|refrigerated)$/);
    expect(body).not.toContain('value="cellar"');
    expect(body).not.toContain('value="dried"');
    const cellar = await send({ name: 'Slaw', keeping: 'cellar' });
    expect(cellar.status).not.toBe(500);
  });

  it('is never canned: its page says so and offers no process', async () => {
    const { location } = await send({ name: 'Pumpkin butter of ours', keeping: 'refrigerated' });
    const words = await home.words(`${location?.split('?')[0]}`);

    expect(words).toMatch(/never canned/i);
    const { recipes } = await home.loaded();
    expect(recipes.planned.find(({ name }) => name === 'Pumpkin butter of ours')?.processing).toBeNull();
  });

  // FSIS: soup, stock and cooked meat opened or cooked keep 3 to 4 days in the refrigerator.
  it.each(['Chicken soup', 'Salmon spread', 'Egg salad'])(
    '%s is not planned in the refrigerator',
    async (name) => {
      const cold = await send({ name, keeping: 'refrigerated', bestQualityDays: '4' });
      expect([cold.status, wordsOf(cold.body)]).toEqual([422, expect.stringContaining('3 to 4 days')]);

      expect((await send({ name, keeping: 'frozen', bestQualityDays: '90' })).status).toBe(303);
    },
  );

  it('is not planned where it keeps no week in the refrigerator', async () => {
    const answer = await send({ name: 'Cut melon', keeping: 'refrigerated', bestQualityDays: '5' });
    expect([answer.status, wordsOf(answer.body)]).toEqual([422, expect.stringContaining('less than 8 days')]);

    const { location } = await send({ name: 'Melon pickle', keeping: 'refrigerated', bestQualityDays: '21' });
    const item = location?.split('?')[0] ?? '';
    const changed = await home.visitor.submitOn(item, { form: item, fill: { bestQualityDays: '5' } });
    expect(changed.status).toBe(422);
  });

  it('is planned no further than it is eaten in its days, and is thrown away past them', async () => {
    const fill = { name: 'Beet relish of ours', keeping: 'refrigerated', bestQualityDays: '21', units: '4' };
    const { location } = await send({ ...fill, amount: '3', per: 'week' });
    const id = location?.split('?')[0]?.split('/')[2] ?? '';
    const plan = await home.plan();
    const { year } = await home.loaded();
    const own = year.items.find((item) => item.id === id);

    expect(own).toMatchObject({ bestQualityWeeks: 2, neverPastDays: true });
    const made = (broken: typeof plan) =>
      checkPlan(broken, year).filter((words) => words.includes('past their days'));
    expect(plan.weeks.flatMap(({ sessions }) => sessions).some(({ recipe }) => recipe === id)).toBe(true);
    expect(checkPlan(plan, year)).toEqual([]);
    // Ten times as much of it on one day is more than anybody eats in its days.
    const tenfold = plan.weeks.map((week) => ({
      ...week,
      sessions: week.sessions.map((one) => (one.recipe === id ? { ...one, batches: one.batches * 10 } : one)),
    }));
    expect(made({ ...plan, weeks: tenfold })).not.toEqual([]);

    await home.send(`/shelf/put-up?item=${id}`, '/shelf/lots', {
      itemId: id,
      units: '4',
      madeOn: home.today,
    });
    home.goTo(addDays(home.today, 30));
    expect(await home.words('/shelf')).toContain('kept too long in the refrigerator');
    expect((await home.notices()).map(({ reason }) => reason)).toContainEqual(
      expect.stringMatching(/^Throw away: 4 bags of Beet relish of ours/),
    );
    home.goTo(asDate('2026-03-02'));
  });

  it.each(['Garlic in oil', 'Basil pesto'])('%s is not kept in the refrigerator', async (name) => {
    const answer = await send({ name, keeping: 'refrigerated', bestQualityDays: '4' });

    expect([answer.status, wordsOf(answer.body)]).toEqual([
      422,
      expect.stringContaining('oil can grow botulism bacteria'),
    ]);
  });

  it('is not renamed into what keeps four days only', async () => {
    const { location } = await send({ name: 'Bean dip', keeping: 'refrigerated', bestQualityDays: '14' });
    const item = location?.split('?')[0] ?? '';

    const answer = await home.visitor.submitOn(item, { form: item, fill: { name: 'Chicken dip' } });

    expect([answer.status, wordsOf(answer.body)]).toEqual([422, expect.stringContaining('3 to 4 days')]);
  });
});
