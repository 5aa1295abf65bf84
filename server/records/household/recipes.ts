import { type Bound, bounds } from '../../../shared/bounds.ts';
import type { CannerId, ItemId, RecipeId } from '../../../shared/ids.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import type { OwnRecipeRequest } from '../../../shared/schemas/item.ts';
import type { RecipeToKeep, SupplyNeeded } from '../../../src/preserving/recipes/recipe-to-keep.ts';
import { cannersOf } from '../../queries/household/kitchen.ts';
import { suppliesOf } from '../../queries/household/recipes.ts';
import { knownItem } from '../canning/checks.ts';
import { freshId } from '../fresh-id.ts';
import { type Recorder, type Recording, record, refuse } from '../record.ts';
import { noteGuess, settleGuess } from '../year/guesses.ts';
import { materialNamed } from '../year/waiting-material.ts';
import { keepDenialsWithin } from './name-denials.ts';

/** Adds another recipe of the book to an item that is there. */
export const keepRecipe = (
  recording: Recording,
  request: { readonly itemId: string; readonly recipe: RecipeToKeep },
): Promise<Outcome<{ readonly recipeId: RecipeId }>> =>
  record(recording, 'keep recipe', request, async (recorder) => {
    const item = await knownItem(recorder, request.itemId);
    if (!item.ok) return item;
    return keepRecipeWithin(recorder, item.value.id, request.recipe);
  });

export async function keepRecipeWithin(
  recorder: Recorder,
  itemId: ItemId,
  recipe: RecipeToKeep,
): Promise<Outcome<{ readonly recipeId: RecipeId }>> {
  const { trx, householdId } = recorder;
  const taken = await trx
    .selectFrom('recipe')
    .select(['id', 'name', 'item_id', 'based_on', 'jar_kind', 'retired_on', 'process_refused'])
    .where('household_id', '=', householdId)
    .execute();
  const same = taken.find(
    (row) =>
      row.retired_on === null &&
      row.process_refused === null &&
      row.item_id === itemId &&
      row.based_on === recipe.basedOn &&
      (isTested(recipe) || row.name === recipe.name) &&
      row.jar_kind === recipe.jarKind,
  );
  if (same)
    return refuse(
      'recipe-already-kept',
      'recipe',
      `${recipe.name} in this jar is already among its recipes. Choose another jar or recipe.`,
    );
  if (recipe.cannerId !== null) {
    const fits = await knownCanner(recorder, recipe.cannerId);
    if (!fits.ok) return fits;
  }
  const id = freshId(
    recipe.name,
    taken.map((row) => row.id),
  ) as RecipeId;
  await writeRecipe(recorder, id, itemId, recipe);
  await keepDenialsWithin(recorder, id, recipe.nameDenials ?? []);
  for (const needed of recipe.supplies) {
    const supplyId = await supplyFor(recorder, needed);
    await trx
      .insertInto('recipe_supply')
      .values({ household_id: householdId, recipe_id: id, supply_id: supplyId, quantity: needed.quantity })
      .execute();
  }
  for (const { material, quantity } of recipe.uses ?? [])
    await trx
      .insertInto('recipe_material')
      .values({
        household_id: householdId,
        recipe_id: id,
        material_id: await materialNamed(recorder, material),
        direction: 'uses',
        quantity,
      })
      .execute();
  if (recipe.minutesGuessed) await noteGuess(recorder, 'minutes', id);
  return found({ recipeId: id });
}

/** Recipes without a process may stand beside each other by name: two ways of one's own. */
const isTested = ({ process }: RecipeToKeep): boolean => process !== null;

async function writeRecipe(
  { trx, householdId }: Recorder,
  id: RecipeId,
  itemId: ItemId,
  recipe: RecipeToKeep,
): Promise<void> {
  await trx
    .insertInto('recipe')
    .values({
      household_id: householdId,
      id,
      item_id: itemId,
      name: recipe.name,
      based_on: recipe.basedOn,
      process_food: recipe.process?.food ?? null,
      process_style: recipe.process?.style ?? null,
      process_pack: recipe.process?.pack ?? null,
      canner_id: recipe.process === null ? null : recipe.cannerId,
      jar_kind: recipe.jarKind,
      yield_low: recipe.yieldLow,
      yield_high: recipe.yieldHigh,
      hands_on_minutes: recipe.handsOnMinutes,
      ready_after_days: recipe.readyAfterDays,
      crock_quarts: recipe.crock?.quarts ?? null,
      crock_days: recipe.crock?.days ?? null,
      season_from_month: null,
      season_until_month: null,
      retired_on: null,
    })
    .execute();
  for (const { crop, lb } of recipe.produce)
    await trx
      .insertInto('recipe_produce')
      .values({ household_id: householdId, recipe_id: id, crop, lb, may_be_frozen: 0 })
      .execute();
  const minutes = evenShares(recipe.handsOnMinutes, recipe.stages.length);
  for (const [at, stage] of recipe.stages.length > 1 ? recipe.stages.entries() : [])
    await trx
      .insertInto('recipe_stage')
      .values({
        household_id: householdId,
        recipe_id: id,
        position: at + 1,
        name: stage.name,
        after_days: stage.afterDays,
        hands_on_minutes: minutes[at] ?? 0,
      })
      .execute();
}

/** Whole minutes that add up again; the days of a recipe are not told apart until the household does. */
const evenShares = (total: number, parts: number): readonly number[] =>
  Array.from(
    { length: parts },
    (_, at) => Math.floor((total * (at + 1)) / parts) - Math.floor((total * at) / parts),
  );

/** The supply of that name and unit; a new one with a guessed price where there is none. */
async function supplyFor(recorder: Recorder, needed: SupplyNeeded): Promise<string> {
  const { trx, householdId } = recorder;
  const supplies = await suppliesOf(trx, householdId);
  const same = supplies.find(
    ({ name, unit }) => name.toLowerCase() === needed.name.toLowerCase() && unit === needed.unit,
  );
  if (same) return same.id;
  const id = freshId(
    needed.name,
    supplies.map((supply) => supply.id),
  );
  await trx
    .insertInto('supply')
    .values({
      household_id: householdId,
      id,
      name: needed.name.charAt(0).toUpperCase() + needed.name.slice(1),
      unit: needed.unit,
      pack_quantity: needed.pack,
      pack_price_cents: needed.packPrice,
      on_hand: 0,
    })
    .execute();
  await noteGuess(recorder, 'supply', id);
  return id;
}

async function knownCanner(recorder: Recorder, cannerId: string): Promise<Outcome<CannerId>> {
  const canners = await cannersOf(recorder.trx, recorder.householdId);
  const canner = canners.find(({ id }) => id === cannerId);
  return canner
    ? found(canner.id)
    : refuse('canner-unknown', 'cannerId', 'Choose a canner, or add it on the kitchen page.');
}

/** What one batch of a household's own way takes and gives. */
export interface OwnAmounts {
  readonly units: number;
  readonly lbByCrop: ReadonlyMap<string, number>;
}

/**
 * How the recipe is done here: in which canner, and how much work a batch is. Its tested amounts stay as they are; those of
 * one's own way are changed with it.
 */
export const changeRecipe = (
  recording: Recording,
  {
    amounts = null,
    madeOf = null,
    ...request
  }: Omit<OwnRecipeRequest, 'madeOf'> & {
    readonly madeOf?: OwnRecipeRequest['madeOf'];
    readonly amounts?: OwnAmounts | null;
  },
): Promise<Outcome<{ readonly recipeId: string }>> =>
  record(
    recording,
    'change recipe',
    { ...request, madeOf, amounts: plainAmounts(amounts) },
    async (recorder) => {
      const known = await knownRecipe(recorder, request.recipeId);
      if (!known.ok) return known;
      if (request.cannerId !== null) {
        const canner = await knownCanner(recorder, request.cannerId);
        if (!canner.ok) return canner;
      }
      if (amounts !== null) await scaleWithBatch(recorder, request.recipeId, amounts);
      await recorder.trx
        .updateTable('recipe')
        .set({
          hands_on_minutes: request.handsOnMinutes,
          ...(known.value.isCanned ? { canner_id: request.cannerId } : {}),
          ...(amounts === null ? {} : { yield_low: amounts.units, yield_high: Math.ceil(amounts.units) }),
        })
        .where('household_id', '=', recorder.householdId)
        .where('id', '=', request.recipeId)
        .execute();
      if (madeOf !== null)
        await recorder.trx
          .updateTable('recipe_produce')
          .set({ may_be_frozen: madeOf === 'frozen-too' ? 1 : 0 })
          .where('household_id', '=', recorder.householdId)
          .where('recipe_id', '=', request.recipeId)
          .execute();
      for (const [crop, lb] of amounts?.lbByCrop ?? [])
        await recorder.trx
          .updateTable('recipe_produce')
          .set({ lb })
          .where('household_id', '=', recorder.householdId)
          .where('recipe_id', '=', request.recipeId)
          .where('crop', '=', crop)
          .execute();
      await settleGuess(recorder, 'minutes', request.recipeId);
      return found({ recipeId: request.recipeId });
    },
  );

/**
 * What is bought for a batch, and the crock that was written down with it, grow and shrink with its pounds; with what it gives where it is
 * made of no crop.
 */
async function scaleWithBatch(
  { trx, householdId }: Recorder,
  recipeId: string,
  { units, lbByCrop }: OwnAmounts,
): Promise<void> {
  const recipe = await trx
    .selectFrom('recipe')
    .select(['yield_low', 'crock_quarts'])
    .where('household_id', '=', householdId)
    .where('id', '=', recipeId)
    .executeTakeFirstOrThrow();
  const produce = await trx
    .selectFrom('recipe_produce')
    .select(['crop', 'lb'])
    .where('household_id', '=', householdId)
    .where('recipe_id', '=', recipeId)
    .execute();
  const before = Math.max(0, ...produce.map(({ lb }) => lb));
  const after = Math.max(0, ...produce.map(({ crop, lb }) => lbByCrop.get(crop) ?? lb));
  const times = before > 0 ? after / before : units / recipe.yield_low;
  if (times === 1) return;
  if (recipe.crock_quarts !== null)
    await trx
      .updateTable('recipe')
      .set({ crock_quarts: inBounds(recipe.crock_quarts * times, bounds.crockFilledQuarts) })
      .where('household_id', '=', householdId)
      .where('id', '=', recipeId)
      .execute();
  const supplies = await trx
    .selectFrom('recipe_supply')
    .select(['supply_id', 'quantity'])
    .where('household_id', '=', householdId)
    .where('recipe_id', '=', recipeId)
    .execute();
  for (const { supply_id, quantity } of supplies)
    await trx
      .updateTable('recipe_supply')
      .set({ quantity: inBounds(quantity * times, bounds.supplyQuantity) })
      .where('household_id', '=', householdId)
      .where('recipe_id', '=', recipeId)
      .where('supply_id', '=', supply_id)
      .execute();
}

const inBounds = (value: number, { from, to }: Bound): number => Math.min(to, Math.max(from, value));

const plainAmounts = (amounts: OwnAmounts | null) =>
  amounts === null ? null : { units: amounts.units, lbByCrop: [...amounts.lbByCrop] };

/** A recipe that is no longer made; batches made by it stay in the history. */
export const retireRecipe = (
  recording: Recording,
  recipeId: string,
): Promise<Outcome<{ readonly recipeId: string }>> => setRetired(recording, 'retire recipe', recipeId, true);

/** A retired recipe is used again. */
export const bringBackRecipe = (
  recording: Recording,
  recipeId: string,
): Promise<Outcome<{ readonly recipeId: string }>> =>
  setRetired(recording, 'bring back recipe', recipeId, false);

const setRetired = (recording: Recording, verb: string, recipeId: string, isRetired: boolean) =>
  record(recording, verb, { recipeId }, async (recorder) => {
    const known = await knownRecipe(recorder, recipeId);
    if (!known.ok) return known;
    await recorder.trx
      .updateTable('recipe')
      .set({ retired_on: isRetired ? recorder.today : null })
      .where('household_id', '=', recorder.householdId)
      .where('id', '=', recipeId)
      .execute();
    return found({ recipeId });
  });

async function knownRecipe(
  { trx, householdId }: Recorder,
  recipeId: string,
): Promise<Outcome<{ readonly isCanned: boolean }>> {
  const row = await trx
    .selectFrom('recipe')
    .select('process_food')
    .where('household_id', '=', householdId)
    .where('id', '=', recipeId)
    .executeTakeFirst();
  return row
    ? found({ isCanned: row.process_food !== null })
    : refuse('recipe-unknown', 'recipeId', 'Choose a recipe from its item’s page.');
}
