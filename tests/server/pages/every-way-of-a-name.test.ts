import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { householdText } from '../../../server/files/household-file.ts';
import { fieldsOfNew } from '../../../server/files/new-list-items.ts';
import { householdById } from '../../../server/queries/household/household.ts';
import { itemsOf } from '../../../server/queries/household/items.ts';
import { cannersOf } from '../../../server/queries/household/kitchen.ts';
import { recipesOf } from '../../../server/queries/household/recipes.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { askGate } from '../../../src/preserving/ask-gate.ts';
import { nameQuestions } from '../../../src/preserving/foods/name-questions.ts';
import { untestedFoodRules } from '../../../src/preserving/foods/untested-foods.ts';
import { recipeBook } from '../../../src/preserving/recipes/recipe-book.ts';
import { canningPages, dayPath } from '../../builders/canning-pages.ts';
import { quinceYard } from '../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../builders/quince-yard-pages.ts';
import { typedCommand } from '../../builders/typed-command.ts';
import { formOf, wordsOf } from '../../builders/visitor.ts';
import { neverCannedNames } from '../../preserving/foods/never-canned-names.ts';

// Every way the name of something put up can come in. What writes such names is read out of the program itself: a new way
// fails here until it is walked.

const reference = loadReferenceTables();

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

/** Every code file of the server with its text. */
const serverFiles = readdirSync('server', { recursive: true, encoding: 'utf8' })
  .filter((path) => path.endsWith('.ts'))
  .map((path) => ({ path, code: readFileSync(`server/${path}`, 'utf8') }))
  .toSorted((one, other) => (one.path < other.path ? -1 : 1));

const writesNames =
  /(?:insertInto|updateTable|replaceInto)\(\s*'(?:item|recipe)'|(?:insert into|update) "?(?:item|recipe)"?\s/i;

describe('the ways a name can come in', () => {
  it('are written by these parts alone', () => {
    expect(serverFiles.filter(({ code }) => writesNames.test(code)).map(({ path }) => path)).toEqual([
      'demo/write-items.ts', // the demo's own data
      'demo/write-recipes.ts',
      'files/recipes-at-the-gate.ts', // takes processes away, names nothing
      'records/household/items.ts', // adding, renaming, bringing back
      'records/household/recipe-changes.ts', // changes of the closed list alone
      'records/household/recipes.ts', // adding, changing, bringing back
      'records/household/waiting-recipes.ts', // the canner alone
      'records/year/jar-wishes.ts', // the jar alone
    ]);
  });

  it('are reached by these pages and by no command', () => {
    const writers =
      /import (?!type)\{([^}]*)\} from '[./]*(?:records\/(?:household|year)\/(?:items|recipes|start-household|recipe-changes|waiting-recipes|jar-wishes)|files\/(?:household-file|keep-list))\.ts'/g;
    const reached = serverFiles
      .filter(({ path }) => /^(pages|commands|jobs|plugins)\//.test(path))
      .flatMap(({ path, code }) =>
        [...code.matchAll(writers)].flatMap(([, names = '']) =>
          names
            .split(',')
            .map((name) => name.trim())
            .filter((name) => name !== '' && !/^type |Rules$/.test(name))
            .map((name) => `${path} ${name}`),
        ),
      );
    expect(reached.toSorted()).toEqual([
      'pages/files/routes.ts householdText',
      'pages/files/routes.ts importDraft',
      'pages/files/routes.ts importList',
      'pages/files/routes.ts keepDraft',
      'pages/files/routes.ts restoreHousehold',
      'pages/items/new-item-routes.ts addPreserve',
      'pages/items/new-item-routes.ts addStaple',
      'pages/items/new-item-routes.ts keepRecipe',
      'pages/items/new-uncanned.ts addPreserve', // walked
      'pages/items/new-uncanned.ts keepRecipe', // walked: one more way of what is not canned
      'pages/items/routes.ts bringBackItem',
      'pages/items/routes.ts bringBackRecipe',
      'pages/items/routes.ts changeItem',
      'pages/items/routes.ts changeRecipe',
      'pages/items/routes.ts retireItem',
      'pages/items/routes.ts retireRecipe',
      'pages/items/routes.ts saveRecipeChanges',
      'pages/kitchen/kitchen-changes.ts giveWaitingRecipesCanners',
      'pages/start/routes.ts startHousehold',
      'pages/targets/routes.ts wishForJars',
    ]);
  });

  it('are sent to these addresses', () => {
    const sent = pages.app.servedRoutes
      .filter(({ method, url }) => method === 'POST' && /^\/(items|start|files)\b/.test(url))
      .map(({ url }) => url)
      .toSorted();
    expect(sent).toEqual([
      '/files/household', // walked
      '/files/lists', // kept until it is brought in
      '/files/lists/:id/import', // walked
      '/items', // walked
      '/items/:item', // walked
      '/items/:item/packs',
      '/items/:item/packs/:pack',
      '/items/:item/packs/:pack/removal',
      '/items/:item/recipes', // walked
      '/items/:item/recipes/:recipe', // bears no name, see below
      '/items/:item/recipes/:recipe/changes',
      '/items/:item/recipes/:recipe/left-overs', // bears no name
      '/items/:item/recipes/:recipe/name-answer',
      '/items/:item/recipes/:recipe/name-answer/removal',
      '/items/:item/recipes/:recipe/retirement',
      '/items/:item/recipes/:recipe/return', // walked
      '/items/:item/retirement',
      '/items/:item/return', // walked
      '/items/:item/ways', // walked
      '/items/supplies/:supply',
      '/start', // names the household and its owner only, see below
      '/start/demo',
      '/start/households/:household',
    ]);
  });

  it('the first hour and a recipe’s own form name nothing that is put up', async () => {
    const fields = async (url: string, form: string) =>
      Object.keys(formOf((await pages.visitor.open(url)).body, form).values).filter((field) =>
        /name|title|called|based/i.test(field),
      );
    expect(await fields('/start', '/start')).toEqual(['name']);
    expect(await fields('/items/plum-jam', '/items/plum-jam/recipes/plum-jam-batch')).toEqual([]);

    const form = { form: '/items/plum-jam/recipes/plum-jam-batch' };
    await pages.visitor.submitOn('/items/plum-jam', {
      ...form,
      fill: { name: 'Pumpkin butter', basedOn: 'peaches-pints', based_on: 'peaches-pints' },
    });
    const [jam] = (await recipesOf(pages.db, quinceYard)).filter(({ id }) => id === 'plum-jam-batch');
    expect(jam).toMatchObject({ name: 'Plum jam', basedOn: 'plum-jam' });
  });
});

const spellings: readonly ((name: string) => string)[] = [
  (name) => name.toUpperCase(),
  (name) => name.replace(/[aeou]/gi, '$&\u0301'),
  (name) => [...name].join('\u200b'),
  (name) => `\u202e${name}\u202c`,
  (name) => name.replace(/[aeo]/g, (letter) => ({ a: 'а', e: 'е', o: 'о' })[letter] ?? letter),
  (name) =>
    name
      .split(' ')
      .map((word) => [...word].join('🎃'))
      .join(' '),
  (name) => name.replace(/[a-z]/gi, (letter) => String.fromCodePoint((letter.codePointAt(0) ?? 0) + 0xfee0)),
];
const disguised = ['Pumpkin butter', 'Garlic in oil', 'White peaches', 'Elderberry jelly', 'Banana butter'];
const badNames: readonly string[] = [
  ...new Set([
    ...neverCannedNames,
    ...untestedFoodRules.map(({ name }) => name),
    ...disguised.flatMap((name) => spellings.map((spell) => spell(name))),
  ]),
];
/** Every so many-th of them, another set for each way. */
const sampled = (every: number, from: number) => badNames.filter((_, at) => at % every === from);

const book = '/items/new?recipe=apple-butter';
const addApples = (name: string) =>
  pages.visitor.submitOn(book, { form: '/items', fill: { name, 'lb-apple': '8' } });

/** What is kept and would be canned, by the gate's own word: the names over every sheet. */
async function cannedUnder(): Promise<readonly string[]> {
  const [household, canners, items, ways] = await Promise.all([
    householdById(pages.db, quinceYard),
    cannersOf(pages.db, quinceYard),
    itemsOf(pages.db, quinceYard),
    recipesOf(pages.db, quinceYard),
  ]);
  return ways.flatMap((recipe) => {
    const item = items.find(({ id }) => id === recipe.itemId);
    if (item === undefined) return [];
    const gate = askGate(
      recipe,
      item,
      { household, canners, reference },
      { at: '2026-08-17T12:00', prepared: 'as-planned' },
    );
    return gate.ok ? [item.name, recipe.name] : [];
  });
}

const appleButter = {
  household_id: quinceYard,
  based_on: 'apple-butter',
  process_food: 'apple-butter',
  process_style: 'butter',
  process_pack: 'hot',
  canner_id: 'kettle',
  jar_kind: 'pint/regular',
  yield_low: 8,
  yield_high: 9,
  hands_on_minutes: 70,
} as const;
const inJars = {
  household_id: quinceYard,
  kind: 'preserve',
  keeping: 'canned',
  family: 'apples-pears',
  unit: 'jar',
  usual_jar: 'pint/regular',
  best_quality_days: 365,
} as const;

/** Written past every form, as an older or a changed file would have it. */
async function stored(names: readonly string[], retired = false, db = pages.db): Promise<void> {
  const retired_on = retired ? '2026-08-01' : null;
  for (const [at, name] of names.entries()) {
    await db
      .insertInto('item')
      .values({ ...inJars, id: `kept-${at}`, name, retired_on })
      .execute();
    await db
      .insertInto('recipe')
      .values({ ...appleButter, id: `way-${at}`, item_id: `kept-${at}`, name, retired_on })
      .execute();
    await db
      .insertInto('recipe_produce')
      .values({ household_id: quinceYard, recipe_id: `way-${at}`, crop: 'apple', lb: 8 })
      .execute();
  }
}

const tested = 'Put up here, by a tested process.';
/** The names among these that would be canned, or that a page says are. */
async function believed(names: readonly string[]): Promise<readonly string[]> {
  const canned = await cannedUnder();
  // What is called rightly is canned all the while.
  expect(canned).toContain('Plum jam');
  return names.filter((name) => canned.includes(name));
}

describe('a name of a food no process covers is refused or asked about, and heads no sheet', () => {
  it('when something is added from the book', async () => {
    const names = sampled(2, 0);
    const taken: string[] = [];
    for (const name of names) if ((await addApples(name)).status !== 422) taken.push(name);

    expect(taken).toEqual([]);
    expect(names.length).toBeGreaterThan(60);
  });

  it('when something is renamed, with recipes or kept another way', async () => {
    await addApples('Grandma’s favorite');
    await pages.db
      .insertInto('item')
      .values({ ...inJars, id: 'bag', name: 'From the freezer', keeping: 'frozen' })
      .execute();
    await pages.db
      .insertInto('recipe')
      .values({ ...appleButter, id: 'bag-way', item_id: 'bag', name: 'From the freezer' })
      .execute();
    const taken: string[] = [];
    const [own] = (await itemsOf(pages.db, quinceYard)).filter(({ name }) => name === 'Grandma’s favorite');
    for (const id of [own?.id ?? '', 'bag'])
      for (const name of sampled(id === 'bag' ? 12 : 3, 1)) {
        const form = `/items/${id}`;
        const answer = await pages.visitor.submitOn(form, { form, fill: { name } });
        if (answer.status !== 422) taken.push(`${id}: ${name}`);
      }

    expect(taken).toEqual([]);
  });

  it('when a tested recipe is added to something already called so', async () => {
    const names = sampled(5, 2);
    const taken: string[] = [];
    for (const [at, name] of names.entries()) {
      await pages.db
        .insertInto('item')
        .values({ ...inJars, id: `held-${at}`, name })
        .execute();
      const answer = await pages.visitor.submitOn(`${book}&item=held-${at}`, {
        form: `/items/held-${at}/recipes`,
        fill: { 'lb-apple': '8' },
      });
      if (answer.status !== 422) taken.push(name);
    }

    expect(taken).toEqual([]);
    expect(await believed(names)).toEqual([]);
  });

  it('when it is kept frozen under that name: it is never canned, and no tested recipe is added to it', async () => {
    const names = sampled(12, 5);
    const kept: string[] = [];
    const taken: string[] = [];
    for (const name of names) {
      const frozen = await pages.visitor.submitOn('/items/new?kind=uncanned', {
        form: '/items',
        fill: { name, keeping: 'frozen', units: '4', bestQualityDays: '180' },
      });
      // A name with a hidden sign in it is no name at all.
      if (frozen.status === 422) continue;
      kept.push(name);
      const id = /^\/items\/([^?]+)/.exec(frozen.location ?? '')?.[1] ?? '';
      const form = `/items/${id}/recipes`;
      const canned = await pages.visitor.submitOn(`${book}&item=${id}`, { form, fill: { 'lb-apple': '8' } });
      if (canned.status !== 422) taken.push(name);
    }

    expect(taken).toEqual([]);
    expect(await believed(names)).toEqual([]);
    expect(kept.length).toBeGreaterThan(10);
  });

  it('when it was stored, restored or brought back: it is kept and not canned', async () => {
    const names = [...new Set(badNames)];
    await stored(names);
    expect(await believed(names)).toEqual([]);
    for (const at of [0, 40, 80, 120])
      expect(wordsOf((await pages.visitor.open(`/items/kept-${at}`)).body)).not.toContain(tested);
  });

  it('when a day with all of them is begun and its sheet printed, on paper and by the command', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
    const file = join(folder, 'pantry.sqlite');
    const names = sampled(5, 0);
    const work = ['plum-jam-batch', ...names.keys()].map((at) => ({
      recipe: typeof at === 'number' ? `way-${at}` : at,
      batches: 1,
    }));
    const day = await canningPages(work, file);
    await stored(names, false, day.db);

    const ahead = await day.visitor.open('/canning-day');
    await day.begin();
    const sheet = await day.visitor.submitOn('/canning-day', { form: `${dayPath}/sheets` });
    const printed = await day.visitor.open(`${dayPath}/sheets/1`);
    await day.close();
    const typed = await typedCommand(file)('canning-day', '--week', '2026-W34', '--as-of', '2026-08-17');
    rmSync(folder, { recursive: true, force: true });

    expect([sheet.status, printed.status, typed.exit]).toEqual([303, 200, 0]);
    // What is called rightly is on all of them, with its minutes.
    expect(wordsOf(printed.body)).toContain('Plum jam');
    expect(typed.printed).toMatch(/Plum jam, 1 batch: \d+ MINUTES/);
    // Elsewhere each is named once, as something for which no time can be given.
    const paper = wordsOf(printed.body).replace(
      /\S[^:]*: not on this sheet, because no time can be given[^.]*\./g,
      '',
    );
    const typedOut = typed.printed.replace(/^.*: NO TIME$(?:\n {6}.*)*/gm, '');
    const named = (text: string) => names.filter((name) => text.toLowerCase().includes(name.toLowerCase()));
    expect([named(paper), named(typedOut)]).toEqual([[], []]);
    expect(wordsOf(printed.body).match(/not on this sheet/g)).toHaveLength(names.length);
    expect(typed.printed.match(/: NO TIME$/gm)).toHaveLength(names.length);
    expect(typed.printed.match(/ MINUTES /g)).toHaveLength(1);
    // The page ahead shows each of them, and a time for the plum jam alone: on its card and beside its load.
    expect(wordsOf(ahead.body).match(/\d+ minutes (?:at \d+ psi )?in the /g)).toHaveLength(2);
    expect(names.length).toBeGreaterThan(25);
  });

  it('when it is brought back after it was retired', async () => {
    const names = sampled(20, 3);
    await stored(names, true);
    for (const at of names.keys()) {
      await pages.visitor.submitOn('/items', { form: `/items/kept-${at}/return` });
      const page = await pages.visitor.open(`/items/kept-${at}`);
      if (page.body.includes(`/items/kept-${at}/recipes/way-${at}/return`))
        await pages.visitor.submit(page, { form: `/items/kept-${at}/recipes/way-${at}/return` });
      expect(wordsOf((await pages.visitor.open(`/items/kept-${at}`)).body)).not.toContain(tested);
    }
    expect(await believed(names)).toEqual([]);
    expect((await itemsOf(pages.db, quinceYard)).map(({ name }) => name)).toEqual(
      expect.arrayContaining([...names]),
    );
  });

  it('when a saved household is brought in', async () => {
    // A file holds what a form would take: nothing unseen between the letters.
    const names = badNames.filter((name) => !/\p{Cf}/u.test(name));
    await stored(names);
    const text = await householdText(pages.db, quinceYard);
    const page = await pages.visitor.open('/files');
    const csrf = /name="_csrf" value="([^"]+)"/.exec(page.body)?.[1] ?? '';
    const sent = await pages.visitor.upload(
      '/files/household',
      { _csrf: csrf, key: 'brought-in', sure: 'yes' },
      text,
    );

    expect([sent.status, sent.location]).toEqual([303, expect.stringContaining('said=restored')]);
    expect(await believed(names)).toEqual([]);
    expect((await itemsOf(pages.db, quinceYard)).length).toBeGreaterThan(names.length);
  });

  it('when a list names it', async () => {
    const names = sampled(6, 4).filter((name) => !/[",\p{Cf}]/u.test(name));
    const page = await pages.visitor.open('/files');
    const csrf = /name="_csrf" value="([^"]+)"/.exec(page.body)?.[1] ?? '';
    const taken: string[] = [];
    for (const [at, name] of names.entries()) {
      const list = await pages.visitor.upload(
        '/files/lists',
        { _csrf: csrf, key: `list-${at}`, kind: 'stock' },
        `item,units,date,jar\n"${name}",4,2026-08-01,pint\n`,
      );
      const { as, family, jar, days } = fieldsOfNew(0);
      const answer = await pages.visitor.submitOn(list.location, {
        form: `${list.location}/import`,
        fill: { [as]: 'canned jar', [family]: 'apples-pears', [jar]: 'pint/regular', [days]: '365' },
      });
      if (answer.status !== 422) taken.push(name);
    }

    expect(taken).toEqual([]);
    expect(names.length).toBeGreaterThan(10);
  });
});

const whose = [
  'Aunt Odile’s',
  'Grandma’s',
  'Our',
  'The best',
  'Monday’s',
  'Grandpa’s',
  'Old-fashioned',
  'Plain',
  'Extra smooth',
  'Small-batch',
  'Winter',
  'Late',
  'Uncle Bertil’s',
  'Number 7',
  'Sunday',
];
const what = [
  'apple butter',
  'spread',
  'favorite',
  'breakfast jar',
  'toast topping',
  'apple spread',
  'kettle batch',
  'orchard jar',
  'spiced apple butter',
  'pantry treat',
];
const ordinary = whose.flatMap((one) => what.map((other) => `${one} ${other}`));

describe('an ordinary name raises no alarm', () => {
  it('when something is added or renamed', async () => {
    const asked: string[] = [];
    const butter = recipeBook(reference).find(({ key }) => key === 'apple-butter') ?? null;
    expect(butter).not.toBeNull();
    await addApples('Apple butter');
    const [kept] = (await itemsOf(pages.db, quinceYard)).filter(({ name }) => name === 'Apple butter');
    const form = `/items/${kept?.id}`;
    for (const [at, name] of ordinary.entries()) {
      const questions = nameQuestions([name], butter);
      if (!questions.ok || questions.value.length > 0) asked.push(`${name} by the rule`);
      // Over the pages a part of them, each way: both ask the same rule.
      if (at % 8 === 0 && (await addApples(name)).status !== 303) asked.push(`${name} when added`);
      if (at % 8 === 1 && (await pages.visitor.submitOn(form, { form, fill: { name } })).status !== 303)
        asked.push(`${name} when renamed`);
    }
    expect(ordinary.length).toBe(150);
    expect(asked).toEqual([]);
  });

  it('when a recipe of the book keeps its own name, or is somebody’s', () => {
    const asked = recipeBook(reference).flatMap((recipe) =>
      [recipe.name, `Aunt Odile’s ${recipe.name.toLowerCase()}`].filter((name) => {
        const questions = nameQuestions([name], recipe);
        return !questions.ok || questions.value.length > 0;
      }),
    );
    expect(asked).toEqual([]);
  });
});
