import { counted } from '../../../shared/counting.ts';
import type { Family } from '../../../shared/family.ts';
import type { ItemId, RecipeId } from '../../../shared/ids.ts';
import type { JarKind } from '../../../shared/jar.ts';
import type { CountsAs } from '../../../shared/meal-kinds.ts';
import type { Cents } from '../../../shared/money.ts';
import { found, type Outcome, type Problem, refused } from '../../../shared/problems.ts';
import { addDays } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import type { NameDenial } from '../../../src/household/recipe.ts';
import type { RecipeToKeep } from '../../../src/preserving/recipes/recipe-to-keep.ts';
import type { ItemTable } from '../../database/tables.ts';
import { lotsOf } from '../../queries/shelf/shelf.ts';
import { knownItem } from '../canning/checks.ts';
import { freshId } from '../fresh-id.ts';
import {
  problem,
  problemsIn,
  type Reader,
  type Recorder,
  type Recording,
  type Rules,
  record,
  refuse,
} from '../record.ts';
import { declareUseWithin } from '../year/targets.ts';
import { keepDenialsWithin } from './name-denials.ts';
import { keepRecipeWithin } from './recipes.ts';

/** How much is eaten, as said when the item is added. */
export interface FirstUse {
  readonly amount: number;
  readonly per: 'week' | 'month' | 'year';
}

export interface PreserveToAdd {
  readonly name: string;
  readonly keeping: Exclude<Item['keeping'], 'bought'>;
  readonly family: Family;
  readonly unit: Item['unit'];
  /** Null for what is kept in bags, bins or by the pound. */
  readonly jarKind: JarKind | null;
  readonly shelfLifeKey: string | null;
  readonly bestQualityDays: number;
  readonly keepColdDays: number | null;
  readonly freezerQuarts: number | null;
  /** 0.5 to 0.99 */
  readonly chanceWanted: number;
  readonly use: FirstUse | null;
  readonly recipe: RecipeToKeep;
}

export interface StapleToAdd {
  readonly name: string;
  readonly family: Family;
  readonly unit: 'lb' | 'each' | 'bag' | 'bin';
  readonly bestQualityDays: number;
  readonly chanceWanted: number;
  readonly use: FirstUse | null;
  readonly pack: { readonly units: number; readonly price: Cents };
}

/** Adds something to put up, with its recipe and, where said, how much of it is eaten. */
export const addPreserve = (
  recording: Recording,
  request: PreserveToAdd,
): Promise<Outcome<{ readonly itemId: ItemId }>> =>
  record(recording, 'add preserve', request, async (recorder) => {
    const added = await addItem(recorder, {
      name: request.name,
      kind: 'preserve',
      keeping: request.keeping,
      family: request.family,
      unit: request.unit,
      usual_jar: request.jarKind,
      shelf_life_key: request.shelfLifeKey,
      best_quality_days: request.bestQualityDays,
      keep_cold_days: request.keepColdDays,
      freezer_quarts: request.freezerQuarts,
      chance_wanted: request.chanceWanted,
    });
    if (!added.ok) return added;
    const recipe = await keepRecipeWithin(recorder, added.value, request.recipe);
    if (!recipe.ok) return recipe;
    return sayFirstUse(recorder, added.value, request.use);
  });

/** Adds something that is only bought, with one pack as a shop sells it. */
export const addStaple = (
  recording: Recording,
  request: StapleToAdd,
): Promise<Outcome<{ readonly itemId: ItemId }>> =>
  record(recording, 'add staple', request, async (recorder) => {
    const added = await addItem(recorder, {
      name: request.name,
      kind: 'staple',
      keeping: 'bought',
      family: request.family,
      unit: request.unit,
      usual_jar: null,
      shelf_life_key: null,
      best_quality_days: request.bestQualityDays,
      keep_cold_days: null,
      chance_wanted: request.chanceWanted,
    });
    if (!added.ok) return added;
    await recorder.trx
      .insertInto('shop_pack')
      .values({
        household_id: recorder.householdId,
        item_id: added.value,
        id: 'pack-1',
        units: request.pack.units,
        price_cents: request.pack.price,
      })
      .execute();
    return sayFirstUse(recorder, added.value, request.use);
  });

export type NewItem = Pick<
  ItemTable,
  'name' | 'kind' | 'keeping' | 'family' | 'unit' | 'usual_jar' | 'shelf_life_key' | 'keep_cold_days'
> & {
  readonly best_quality_days: number;
  readonly chance_wanted: number;
  readonly freezer_quarts?: number | null;
};

/** Adds an item within a running write; its name has to be free. */
export async function addItem(recorder: Recorder, item: NewItem): Promise<Outcome<ItemId>> {
  const { trx, householdId } = recorder;
  const free = await nameIsFree(recorder, item.name, null);
  if (!free.ok) return free;
  const taken = await trx.selectFrom('item').select('id').where('household_id', '=', householdId).execute();
  const id = freshId(item.name, [...taken.map((row) => row.id), ...namesOfPages]) as ItemId;
  await trx
    .insertInto('item')
    .values({ household_id: householdId, id, servings_per_unit: null, ...item })
    .execute();
  return found(id);
}

/** Words the addresses of pages use where an item's id stands; an item called so gets another id. */
const namesOfPages = [
  'new',
  'supplies',
  'count',
  'put-up',
  'groups',
  'takes',
  'open',
  'places',
  'sheet',
  'waiting',
];

async function sayFirstUse(
  recorder: Recorder,
  itemId: ItemId,
  use: FirstUse | null,
): Promise<Outcome<{ readonly itemId: ItemId }>> {
  if (use === null) return found({ itemId });
  const said = await declareUseWithin(recorder, {
    itemId,
    amount: use.amount,
    per: use.per,
    countedIn: 'units',
    people: null,
    mealsPerWeek: null,
    sinceOn: null,
    restartsFilter: false,
  });
  return said.ok ? found({ itemId }) : said;
}

/** Two things of one name could not be told apart on any page. */
async function nameIsFree(reader: Reader, name: string, own: string | null): Promise<Outcome<true>> {
  const rows = await reader.trx
    .selectFrom('item')
    .select(['id', 'name', 'retired_on'])
    .where('household_id', '=', reader.householdId)
    .execute();
  const same = rows.find((row) => row.id !== own && row.name.toLowerCase() === name.toLowerCase());
  if (!same) return found(true);
  return refuse(
    'name-taken',
    'name',
    same.retired_on === null
      ? `You already keep ${same.name}. Choose another name, or add the recipe on its page.`
      : `You kept ${same.name} before and retired it. Bring it back, or choose another name.`,
  );
}

/** Jars that stand with the item's usual keeping time take the new one; a date that was printed or chosen for a batch stays. */
async function dateAnew({ trx, householdId }: Recorder, item: Item, bestQualityDays: number): Promise<void> {
  if (bestQualityDays === item.bestQualityDays) return;
  const lots = await lotsOf(trx, householdId, { itemId: item.id });
  for (const lot of lots.filter(
    ({ madeOn, bestQualityUntil }) => bestQualityUntil === addDays(madeOn, item.bestQualityDays),
  ))
    await trx
      .updateTable('lot')
      .set({ best_quality_until: addDays(lot.madeOn, bestQualityDays) })
      .where('household_id', '=', householdId)
      .where('id', '=', lot.id)
      .execute();
}

export interface ItemChange {
  readonly itemId: string;
  readonly name: string;
  /** Foods said not to be in what goes by the new name, recipe by recipe. */
  readonly nameDenials?: ReadonlyMap<RecipeId, readonly NameDenial[]>;
  readonly family: Family;
  readonly chanceWanted: number;
  readonly familyMinimumUnits: number | null;
  readonly emergencyUnits: number | null;
  readonly servingsPerUnit: number | null;
  readonly countsAs: CountsAs | null;
  readonly bestQualityDays: number;
  readonly keepColdDays: number | null;
  /** Longest the published tables allow this item; null where none is published. */
  readonly longest: { readonly bestQualityDays: number | null; readonly keepColdDays: number | null };
}

/** A name of its own, and no longer than the published tables allow. */
export const itemRules =
  (
    longest: ItemChange['longest'],
  ): Rules<Pick<ItemChange, 'itemId' | 'name' | 'bestQualityDays' | 'keepColdDays'>> =>
  async (reader, { itemId = null, name, bestQualityDays, keepColdDays }) => {
    const tooLong =
      longest.bestQualityDays !== null &&
      bestQualityDays !== undefined &&
      bestQualityDays > longest.bestQualityDays;
    const tooLongCold =
      longest.keepColdDays !== null &&
      keepColdDays !== undefined &&
      (keepColdDays ?? Number.POSITIVE_INFINITY) > longest.keepColdDays;
    return [
      ...(name === undefined ? [] : problemsIn(await nameIsFree(reader, name, itemId))),
      ...(tooLong
        ? [
            problem(
              'best-quality-too-long',
              'bestQualityDays',
              `${counted(longest.bestQualityDays ?? 0, 'day')} is the published best quality of home-canned food; you wrote ${bestQualityDays}. Write that or fewer.`,
            ),
          ]
        : []),
      ...(tooLongCold
        ? [
            problem(
              'keep-cold-too-long',
              'keepColdDays',
              `Once opened, this low-acid food keeps ${counted(longest.keepColdDays ?? 0, 'day')} at most, and that limit is about safety; you wrote ${keepColdDays ?? 'nothing'}. Write ${longest.keepColdDays} or fewer.`,
            ),
          ]
        : []),
    ];
  };

/** What is added has a name of its own. */
export const newItemRules: Rules<{ readonly name: string }> = async (reader, { name }) =>
  name === undefined ? [] : problemsIn(await nameIsFree(reader, name, null));

/** Servings by which the household says how much it eats cannot be taken back. */
async function servingsNeeded(
  { trx, householdId }: Pick<Recorder, 'trx' | 'householdId'>,
  item: Item,
  servingsPerUnit: number | null,
): Promise<readonly Problem[]> {
  if (servingsPerUnit !== null || item.servingsPerUnit === null) return [];
  const inServings = await trx
    .selectFrom('declared_use')
    .select('item_id')
    .where('household_id', '=', householdId)
    .where('item_id', '=', item.id)
    .where('counted_in', '=', 'servings')
    .executeTakeFirst();
  return inServings === undefined
    ? []
    : [
        problem(
          'servings-needed',
          'servingsPerUnit',
          `You said in servings how much you eat of ${item.name}, so we need to know how many are in one. Write a number.`,
        ),
      ];
}

/** Changes what an item is called, where it stands and how well it is to be kept; published limits are only shortened. */
export const changeItem = (
  recording: Recording,
  request: ItemChange,
): Promise<Outcome<{ readonly itemId: ItemId }>> =>
  record(
    recording,
    'change item',
    { ...request, nameDenials: [...(request.nameDenials ?? [])] },
    async (recorder) => {
      const item = await knownItem(recorder, request.itemId);
      if (!item.ok) return item;
      const wrong = [
        ...(await itemRules(request.longest)(recorder, request)),
        ...(await servingsNeeded(recorder, item.value, request.servingsPerUnit)),
      ];
      if (wrong.length > 0) return refused(...wrong);
      await recorder.trx
        .updateTable('item')
        .set({
          name: request.name,
          family: request.family,
          chance_wanted: request.chanceWanted,
          family_minimum_units: request.familyMinimumUnits,
          emergency_units: request.emergencyUnits,
          servings_per_unit: request.servingsPerUnit,
          counts_as: request.countsAs,
          best_quality_days: request.bestQualityDays,
          keep_cold_days: request.keepColdDays,
        })
        .where('household_id', '=', recorder.householdId)
        .where('id', '=', request.itemId)
        .execute();
      await dateAnew(recorder, item.value, request.bestQualityDays);
      // A recipe that bears its item's name goes on bearing it.
      if (request.name !== item.value.name)
        await recorder.trx
          .updateTable('recipe')
          .set({ name: request.name })
          .where('household_id', '=', recorder.householdId)
          .where('item_id', '=', request.itemId)
          .where('name', '=', item.value.name)
          .execute();
      for (const [recipeId, denials] of request.nameDenials ?? [])
        await keepDenialsWithin(recorder, recipeId, denials);
      return found({ itemId: item.value.id });
    },
  );

export interface Retired {
  readonly itemId: ItemId;
  readonly name: string;
}

/** No longer kept: nothing more of it is planned, made or bought; what is on the shelf is eaten down. */
export const retireItem = (recording: Recording, itemId: string): Promise<Outcome<Retired>> =>
  record(recording, 'retire item', { itemId }, async (recorder) => {
    const item = await knownItem(recorder, itemId);
    if (!item.ok) return item;
    await recorder.trx
      .updateTable('item')
      .set({ retired_on: recorder.today })
      .where('household_id', '=', recorder.householdId)
      .where('id', '=', itemId)
      .execute();
    return found({ itemId: item.value.id, name: item.value.name });
  });

/** A retired item is kept again, with its recipes, its history and what was said about it. */
export const bringBackItem = (recording: Recording, itemId: string): Promise<Outcome<Retired>> =>
  record(recording, 'bring back item', { itemId }, async (recorder) => {
    const item = await knownItem(recorder, itemId);
    if (!item.ok) return item;
    await recorder.trx
      .updateTable('item')
      .set({ retired_on: null })
      .where('household_id', '=', recorder.householdId)
      .where('id', '=', itemId)
      .execute();
    return found({ itemId: item.value.id, name: item.value.name });
  });
