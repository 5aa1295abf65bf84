import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { itemById, itemsOf, itemsOnShelf, retiredItems } from '../../../../server/queries/household/items.ts';
import { cannersOf } from '../../../../server/queries/household/kitchen.ts';
import { recipesOf, suppliesOf } from '../../../../server/queries/household/recipes.ts';
import { shelfByItem } from '../../../../server/queries/shelf/shelf.ts';
import { guessesOf } from '../../../../server/queries/year/guesses.ts';
import {
  declaredUsesOf,
  itemGroupsOf,
  plannedPacks,
  shopPacksOf,
} from '../../../../server/queries/year/targets.ts';
import {
  addPreserve,
  addStaple,
  bringBackItem,
  changeItem,
  type ItemChange,
  type PreserveToAdd,
  retireItem,
} from '../../../../server/records/household/items.ts';
import {
  bringBackRecipe,
  changeRecipe,
  keepRecipe,
  retireRecipe,
} from '../../../../server/records/household/recipes.ts';
import { nextSeq } from '../../../../server/records/next-seq.ts';
import { removePack, savePack } from '../../../../server/records/year/packs.ts';
import { setSupply } from '../../../../server/records/year/supplies.ts';
import { supplyGuessFor } from '../../../../server/reference/first-year.ts';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import { loadPlanningYear } from '../../../../server/year/load-year.ts';
import type { JarKind } from '../../../../shared/jar.ts';
import { packForm } from '../../../../shared/schemas/item.ts';
import { inJars } from '../../../../src/household/item.ts';
import { checkPlanningYear } from '../../../../src/planning/year/input-checks.ts';
import { recipeBook } from '../../../../src/preserving/recipes/recipe-book.ts';
import { recipeLife } from '../../../../src/preserving/recipes/recipe-life.ts';
import {
  canningPlace,
  type RecipeToKeep,
  recipeToKeep,
} from '../../../../src/preserving/recipes/recipe-to-keep.ts';
import { refusalOf, worked } from '../../../builders/outcomes.ts';
import {
  type Cast,
  greenBeans,
  oats,
  plumJam,
  quinceYard,
  quinceYardHousehold,
  shelve,
  today,
} from '../../../builders/quince-yard.ts';

const reference = loadReferenceTables();

let cast: Cast;
beforeEach(async () => {
  cast = await quinceYardHousehold();
});
afterEach(() => cast.db.destroy());

const fromBook = async (key: string, jarKind: string, over: object = {}): Promise<RecipeToKeep> => {
  const recipe = recipeBook(reference).find((one) => one.key === key);
  if (!recipe) throw new Error(`no recipe ${key}`);
  const place = canningPlace({ altitudeFt: 1200 }, await cannersOf(cast.db, quinceYard), today);
  return worked(
    recipeToKeep(
      recipe,
      {
        name: recipe.name,
        jarKind: jarKind as JarKind,
        handsOnMinutes: 100,
        minutesGuessed: true,
        lbByCrop: new Map(),
        ...over,
      },
      place,
      reference,
      supplyGuessFor,
    ),
  );
};

const peaches = async (over: Partial<PreserveToAdd> = {}): Promise<PreserveToAdd> => ({
  ...inJars,
  name: 'Peach halves',
  family: 'stone-fruit',
  jarKind: 'pint/regular' as JarKind,
  shelfLifeKey: 'hc_fruit',
  bestQualityDays: 365,
  keepColdDays: 5,
  chanceWanted: 0.8,
  use: { amount: 2, per: 'month' },
  recipe: await fromBook('peaches-pints', 'pint/regular'),
  ...over,
});

describe('adding a preserve from the book', () => {
  test('brings its recipe, canner, produce, supplies and what is eaten of it', async () => {
    const { itemId } = worked(await addPreserve(cast.writer(), await peaches()));

    const recipe = (await recipesOf(cast.db, quinceYard)).find((own) => own.itemId === itemId);
    expect(itemId).toBe('peach-halves');
    expect(recipe).toMatchObject({
      basedOn: 'peaches-pints',
      jarKind: 'pint/regular',
      process: { food: 'peaches', style: 'halved or sliced', pack: 'hot', cannerId: 'kettle' },
      yieldLow: 9,
      yieldHigh: 9,
      handsOnMinutes: 100,
      produce: [{ crop: 'peach', lb: 11 }],
      supplies: [{ supplyId: 'sugar' }],
    });
    expect((await declaredUsesOf(cast.db, quinceYard, today)).get(itemId)).toMatchObject({
      amount: 2,
      per: 'month',
    });
    expect(await guessesOf(cast.db, quinceYard)).toEqual([
      { kind: 'minutes', subject: recipe?.id },
      { kind: 'supply', subject: 'sugar' },
    ]);
  });

  test('two identical forms under one key add it once', async () => {
    const request = await peaches();
    const writer = cast.writer({ key: 'pressed twice' });
    const first = worked(await addPreserve(writer, request));
    const second = worked(await addPreserve(writer, request));

    expect(second).toEqual(first);
    expect((await itemsOf(cast.db, quinceYard)).filter(({ name }) => name === 'Peach halves')).toHaveLength(
      1,
    );
  });

  test('a name that is taken is refused, and nothing of the recipe stays behind', async () => {
    const before = await recipesOf(cast.db, quinceYard);
    const refusal = refusalOf(await addPreserve(cast.writer(), await peaches({ name: 'PLUM JAM' })));

    expect(refusal).toMatchObject({ code: 'name-taken', field: 'name' });
    expect(refusal.message).toContain('You already keep Plum jam');
    expect(await recipesOf(cast.db, quinceYard)).toEqual(before);
    expect(await suppliesOf(cast.db, quinceYard)).toEqual([]);
  });

  test('the supply of one name and unit serves every recipe', async () => {
    worked(await addPreserve(cast.writer(), await peaches()));
    worked(
      await addPreserve(
        cast.writer(),
        await peaches({ name: 'Pear halves', recipe: await fromBook('pears-pints', 'pint/regular') }),
      ),
    );

    expect((await suppliesOf(cast.db, quinceYard)).map(({ name, unit }) => [name, unit])).toEqual([
      ['Sugar', 'lb'],
    ]);
  });

  test('another jar or recipe can be added to an item; the same again is refused', async () => {
    const again = { itemId: plumJam, recipe: await fromBook('plum-jelly', 'half-pint/regular') };
    worked(await keepRecipe(cast.writer(), again));

    expect(refusalOf(await keepRecipe(cast.writer(), again)).code).toBe('recipe-already-kept');
    expect(
      (await recipesOf(cast.db, quinceYard))
        .filter(({ itemId }) => itemId === plumJam)
        .map(({ basedOn }) => basedOn),
    ).toEqual(['plum-jam', 'plum-jelly']);
  });

  test('a jar that is not tested for the recipe is refused before anything is written', () => {
    const recipe = recipeBook(reference).find(({ key }) => key === 'peaches-pints');
    if (!recipe) throw new Error('no recipe');
    const refusal = refusalOf(
      recipeToKeep(
        recipe,
        {
          name: 'Peaches',
          jarKind: 'half-gallon/wide' as JarKind,
          handsOnMinutes: 1,
          minutesGuessed: false,
          lbByCrop: new Map(),
        },
        canningPlace({ altitudeFt: 1200 }, [], today),
        reference,
        supplyGuessFor,
      ),
    );

    expect(refusal).toMatchObject({ code: 'jar-not-tested', field: 'jarKind' });
    expect(refusal.message).toContain('half-gallon is none of them');
  });
});

describe('adding a staple', () => {
  const flour = {
    name: 'Flour',
    family: 'dry-goods',
    unit: 'lb',
    bestQualityDays: 240,
    chanceWanted: 0.9,
    use: { amount: 1, per: 'week' },
    pack: { units: 5, price: 399 },
  } as const;

  test('brings a pack with its price', async () => {
    const { itemId } = worked(await addStaple(cast.writer(), flour as never));

    expect((await shopPacksOf(cast.db, quinceYard)).get(itemId)).toMatchObject([{ units: 5, price: 399 }]);
    expect(await itemById(cast.db, quinceYard, itemId)).toMatchObject({
      kind: 'staple',
      keeping: 'bought',
      unit: 'lb',
    });
  });

  test('called like a page it still gets an address of its own', async () => {
    expect(worked(await addStaple(cast.writer(), { ...flour, name: 'New' } as never)).itemId).toBe('new-2');
  });

  test('packs are added and changed; the last one stays', async () => {
    const { itemId } = worked(await addStaple(cast.writer(), flour as never));
    const sale = packForm.parse({
      itemId,
      packId: '',
      units: '25',
      price: '15.99',
      saleFromMonth: '11',
      saleUntilMonth: '12',
      salePrice: '12.49',
    });
    const { packId } = worked(await savePack(cast.writer(), sale));
    worked(await savePack(cast.writer(), { ...sale, packId, price: 1_499 as never }));

    const packs = (await shopPacksOf(cast.db, quinceYard)).get(itemId);
    expect(packs?.map(({ units, price, sale: own }) => [units, price, own?.price])).toEqual([
      [5, 399, undefined],
      [25, 1499, 1249],
    ]);

    worked(await removePack(cast.writer(), { itemId, packId }));
    expect(refusalOf(await removePack(cast.writer(), { itemId, packId: 'pack-1' })).code).toBe('last-pack');
  });

  test('of what is put up here says what a store asks; the plan buys it only where it may, and it may go', async () => {
    const store = packForm.parse({ itemId: plumJam, units: '1', price: '3.19' });
    const { packId } = worked(await savePack(cast.writer(), store));
    const packs = async () =>
      (await shopPacksOf(cast.db, quinceYard)).get(plumJam)?.map(({ isPlanned }) => isPlanned);

    expect(await packs()).toEqual([false]);
    expect(plannedPacks(await shopPacksOf(cast.db, quinceYard)).has(plumJam)).toBe(false);

    worked(await savePack(cast.writer(), { ...store, packId, mayBuy: true }));
    expect(await packs()).toEqual([true]);

    worked(await removePack(cast.writer(), { itemId: plumJam, packId }));
    expect(await packs()).toBeUndefined();
  });

  test('a sale needs its months and its price together', () => {
    const half = packForm.safeParse({ itemId: 'flour', units: '5', price: '4', salePrice: '3' });

    expect(half.success).toBe(false);
    expect(half.error?.issues[0]?.message).toContain('some of them are empty');
  });
});

describe('changing an item', () => {
  const change = (over: Partial<ItemChange>) =>
    changeItem(cast.writer(), {
      itemId: greenBeans,
      name: 'Snap beans',
      family: 'greens-beans',
      chanceWanted: 0.95,
      familyMinimumUnits: 24,
      emergencyUnits: 6,
      servingsPerUnit: null,
      countsAs: null,
      bestQualityDays: 300,
      keepColdDays: 3,
      longest: { bestQualityDays: 365, keepColdDays: 3 },
      ...over,
    });

  test('name, family, chance, minimum and limits are as said', async () => {
    worked(await change({}));

    expect(await itemById(cast.db, quinceYard, greenBeans)).toMatchObject({
      name: 'Snap beans',
      chanceWanted: 0.95,
      familyMinimumUnits: 24,
      emergencyUnits: 6,
      servingsPerUnit: null,
      countsAs: null,
      bestQualityDays: 300,
      keepColdDays: 3,
    });
  });

  test.each([
    ['a longer best quality than published', { bestQualityDays: 366 }, 'best-quality-too-long', '365 days'],
    [
      'low-acid food kept open longer than is safe',
      { keepColdDays: 4 },
      'keep-cold-too-long',
      'about safety',
    ],
    ['low-acid food without a limit', { keepColdDays: null }, 'keep-cold-too-long', 'you wrote nothing'],
    ['the name of another item', { name: 'plum jam' }, 'name-taken', 'You already keep Plum jam'],
    ['an item that is none', { itemId: 'moon-jam' }, 'item-unknown', '“moon-jam”'],
  ])('%s is refused', async (_, over, code, words) => {
    const refusal = refusalOf(await change(over));

    expect(refusal.code).toBe(code);
    expect(refusal.message).toContain(words);
  });
});

describe('retiring', () => {
  test('what still stands is eaten down: on the shelf and takeable, planned no more, gone once it is eaten', async () => {
    await shelve(cast.db, {
      id: 'jam',
      itemId: plumJam,
      units: 3,
      madeOn: '2026-06-01',
      bestQualityUntil: '2027-06-01',
    });

    worked(await retireItem(cast.writer(), plumJam));
    const onShelf = (await shelfByItem(cast.db, quinceYard)).find(({ item }) => item.id === plumJam);
    const loaded = await loadPlanningYear(cast.db, quinceYard, today, reference);
    await cast.db
      .insertInto('jar_event')
      .values({
        household_id: quinceYard,
        seq: nextSeq('jar_event', quinceYard),
        entry_id: 'the rest',
        lot_id: 'jam',
        kind: 'given away',
        units: -3,
        occurred_on: today,
        recorded_at: 1,
      })
      .execute();

    expect(onShelf).toMatchObject({ units: 3, item: { retiredOn: today } });
    expect(loaded.year.items.map(({ id }) => id)).not.toContain(plumJam);
    expect(loaded.year.recipes.map(({ itemId }) => itemId)).not.toContain(plumJam);
    expect((await itemsOnShelf(cast.db, quinceYard)).map(({ id }) => id)).not.toContain(plumJam);
  });

  test('an empty item leaves the shelf and its groups, and comes back as it was', async () => {
    await cast.db
      .insertInto('item_group')
      .values({ household_id: quinceYard, id: 'sweets', name: 'Sweets', total_units: 10 })
      .execute();
    await cast.db
      .insertInto('item_group_member')
      .values({ household_id: quinceYard, group_id: 'sweets', item_id: plumJam })
      .execute();
    const before = await itemById(cast.db, quinceYard, plumJam);

    worked(await retireItem(cast.writer(), plumJam));
    expect((await itemsOf(cast.db, quinceYard)).map(({ id }) => id)).not.toContain(plumJam);
    expect(await retiredItems(cast.db, quinceYard)).toMatchObject([
      { item: { id: plumJam }, retiredOn: today },
    ]);
    expect((await itemGroupsOf(cast.db, quinceYard))[0]?.members).toEqual([]);

    worked(await bringBackItem(cast.writer(), plumJam));
    expect(await itemById(cast.db, quinceYard, plumJam)).toEqual(before);
    expect((await itemGroupsOf(cast.db, quinceYard))[0]?.members).toEqual([plumJam]);
  });

  test('the year can be planned without it, whatever was pinned', async () => {
    const week = '2026-W35';
    await cast.db
      .insertInto('kept')
      .values({
        household_id: quinceYard,
        recipe_id: 'plum-jam-batch',
        week,
        decision: 'pinned',
        batches: 2,
        decided_at: 0,
      })
      .execute();
    const year = async () => (await loadPlanningYear(cast.db, quinceYard, today, reference)).year;
    expect((await year()).kept).toMatchObject([{ recipeId: 'plum-jam-batch', week }]);

    worked(await retireItem(cast.writer(), plumJam));

    expect((await year()).kept).toEqual([]);
    expect((await year()).recipes.map(({ id }) => id)).toEqual(['green-beans-batch']);
    expect(checkPlanningYear(await year())).toEqual([]);
  });

  test('a recipe is no longer made, then made again', async () => {
    worked(await retireRecipe(cast.writer(), 'plum-jam-batch'));
    expect((await recipesOf(cast.db, quinceYard)).map(({ id }) => id)).not.toContain('plum-jam-batch');

    worked(await bringBackRecipe(cast.writer(), 'plum-jam-batch'));
    expect((await recipesOf(cast.db, quinceYard)).map(({ id }) => id)).toContain('plum-jam-batch');
  });
});

describe('a recipe as it is done here', () => {
  test('minutes and canner change; the tested amounts do not', async () => {
    const before = (await recipesOf(cast.db, quinceYard)).find(({ id }) => id === 'plum-jam-batch');
    worked(
      await changeRecipe(cast.writer(), {
        recipeId: 'plum-jam-batch',
        cannerId: 'pressure-pot',
        handsOnMinutes: 55,
      }),
    );

    const after = (await recipesOf(cast.db, quinceYard)).find(({ id }) => id === 'plum-jam-batch');
    expect(after).toMatchObject({ handsOnMinutes: 55, process: { cannerId: 'pressure-pot' } });
    expect(after?.produce).toEqual(before?.produce);
    expect(after?.yieldLow).toBe(before?.yieldLow);
  });

  test('a canner that is none is refused by name', async () => {
    const request = { recipeId: 'plum-jam-batch', cannerId: 'bathtub', handsOnMinutes: 55 };
    const refusal = refusalOf(await changeRecipe(cast.writer(), request));

    expect(refusal).toMatchObject({ code: 'canner-unknown', field: 'cannerId' });
    expect(refusal.message).toContain('Choose a canner');
  });
});

describe('supplies', () => {
  test('the household’s own price settles the guess', async () => {
    worked(await addPreserve(cast.writer(), await peaches()));
    worked(
      await setSupply(cast.writer(), {
        supplyId: 'sugar',
        packQuantity: 10,
        packPrice: 849 as never,
        onHand: 3.5,
      }),
    );

    expect(await suppliesOf(cast.db, quinceYard)).toMatchObject([
      { id: 'sugar', packQuantity: 10, packPrice: 849, onHand: 3.5 },
    ]);
    expect((await guessesOf(cast.db, quinceYard)).map(({ kind }) => kind)).toEqual(['minutes']);
    expect(
      refusalOf(
        await setSupply(cast.writer(), {
          supplyId: 'gold',
          packQuantity: 1,
          packPrice: 1 as never,
          onHand: 0,
        }),
      ).code,
    ).toBe('supply-unknown');
  });
});

test('one household’s things are not another’s', async () => {
  await cast.db
    .insertInto('household')
    .values({ id: 'next-door', name: 'Next door', time_zone: 'UTC', created_at: 1 })
    .execute();
  const nextDoor = { ...cast.writer(), householdId: 'next-door' as never };

  expect(refusalOf(await retireItem(nextDoor, oats)).code).toBe('item-unknown');
  expect(
    refusalOf(await changeRecipe(nextDoor, { recipeId: 'plum-jam-batch', cannerId: null, handsOnMinutes: 5 }))
      .code,
  ).toBe('recipe-unknown');
  expect((await itemsOf(cast.db, quinceYard)).map(({ id }) => id)).toContain(oats);
});

describe('how long it is at its best', () => {
  test('a sauce of September is not past its best in June by the shorter figure; the household’s own choice moves what stands', async () => {
    const salsa = await fromBook('chile-salsa', 'pint/regular');
    const life = recipeLife(
      recipeBook(reference).find(({ key }) => key === 'chile-salsa') as Parameters<typeof recipeLife>[0],
      reference.shelfLives,
    );
    const { itemId } = worked(
      await addPreserve(cast.writer(), {
        ...inJars,
        name: 'Chile salsa',
        family: 'tomatoes',
        jarKind: 'pint/regular' as JarKind,
        shelfLifeKey: life.shelfLifeKey,
        bestQualityDays: life.bestQualityDays,
        keepColdDays: 7,
        chanceWanted: 0.8,
        use: null,
        recipe: salsa,
      }),
    );
    for (const [id, bestQualityUntil] of [
      ['usual', '2026-09-15'],
      ['printed', '2026-03-01'],
    ] as const)
      await shelve(cast.db, {
        id,
        itemId,
        units: 9,
        jarKind: 'pint/regular',
        madeOn: '2025-09-15',
        bestQualityUntil,
      });
    const standing = async () =>
      (await shelfByItem(cast.db, quinceYard))
        .find(({ item }) => item.id === itemId)
        ?.lots.map((lot) => [lot.id, lot.bestQualityUntil]);
    const choose = async (bestQualityDays: number) =>
      changeItem(cast.writer(), {
        itemId,
        name: 'Chile salsa',
        family: 'tomatoes',
        chanceWanted: 0.8,
        familyMinimumUnits: null,
        emergencyUnits: null,
        servingsPerUnit: null,
        countsAs: null,
        bestQualityDays,
        keepColdDays: 7,
        longest: { bestQualityDays: life.published.most, keepColdDays: null },
      });

    expect(life).toMatchObject({ bestQualityDays: 365, published: { least: 274, most: 365 } });
    worked(await choose(300));
    expect(await standing()).toEqual([
      ['printed', '2026-03-01'],
      ['usual', '2026-07-12'],
    ]);
    expect(refusalOf(await choose(400)).code).toBe('best-quality-too-long');
  });
});
