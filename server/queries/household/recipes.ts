import { groupedBy } from '../../../shared/grouped-by.ts';
import type { CannerId, CropKey, HouseholdId, ItemId, RecipeId } from '../../../shared/ids.ts';
import type { JarKind } from '../../../shared/jar.ts';
import type { Cents } from '../../../shared/money.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { BatchResult } from '../../../src/household/batch-result.ts';
import { smallestAmount } from '../../../src/household/lot.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import type { Material, Supply } from '../../../src/household/supplies.ts';
import { learntLeft } from '../../../src/preserving/recipes/by-product.ts';
import { learntMinutes } from '../../../src/preserving/recipes/learnt-minutes.ts';
import { learntYield } from '../../../src/preserving/recipes/learnt-yield.ts';
import type { Database } from '../../database/database.ts';
import type { RecipeTable } from '../../database/tables.ts';
import { batchResultsOf } from '../canning/batch-results.ts';
import type { Row } from '../row.ts';
import { waitingByDay } from '../year/waiting-material.ts';
import { fittingRows } from './fitting.ts';

/** Every recipe in use, by id; without what a canning day taught, as they stood when it was begun. */
export async function recipesOf(
  db: Database,
  householdId: HouseholdId,
  { untaughtBy = null }: { readonly untaughtBy?: CalendarDate | null } = {},
): Promise<readonly Recipe[]> {
  const [rows, produce, supplied, materials, stages, denials, ways, results, left] = await Promise.all([
    db
      .selectFrom('recipe')
      .selectAll()
      .where('household_id', '=', householdId)
      .where('retired_on', 'is', null)
      .orderBy('id')
      .execute(),
    db
      .selectFrom('recipe_produce')
      .selectAll()
      .where('household_id', '=', householdId)
      .orderBy('crop')
      .execute(),
    db
      .selectFrom('recipe_supply')
      .selectAll()
      .where('household_id', '=', householdId)
      .orderBy('supply_id')
      .execute(),
    db
      .selectFrom('recipe_material')
      .selectAll()
      .where('household_id', '=', householdId)
      .orderBy('material_id')
      .execute(),
    db
      .selectFrom('recipe_stage')
      .selectAll()
      .where('household_id', '=', householdId)
      .orderBy('position')
      .execute(),
    db
      .selectFrom('name_denial')
      .selectAll()
      .where('household_id', '=', householdId)
      .orderBy('name')
      .execute(),
    db.selectFrom('recipe_way').selectAll().where('household_id', '=', householdId).orderBy('seq').execute(),
    batchResultsOf(db, householdId),
    leftOverByResult(db, householdId),
  ]);
  const produceOf = groupedBy(fittingRows('recipe_produce', produce), (row) => row.recipe_id);
  const suppliedTo = groupedBy(fittingRows('recipe_supply', supplied), (row) => row.recipe_id);
  const materialsOf = groupedBy(fittingRows('recipe_material', materials), (row) => row.recipe_id);
  const stagesOf = groupedBy(fittingRows('recipe_stage', stages), (row) => row.recipe_id);
  const denialsOf = groupedBy(fittingRows('name_denial', denials), (row) => row.recipe_id);
  const wayOf = new Map(
    ways.map((row) => [row.recipe_id, { way: row.way, by: row.chosen_by, at: row.chosen_at }]),
  );
  const resultsOf = groupedBy<BatchResult, string>(
    results.filter(({ sessionOn }) => sessionOn !== untaughtBy),
    ({ recipeId }) => recipeId,
  );
  return fittingRows('recipe', rows).map((row) => {
    const moved = (direction: 'gives' | 'uses') =>
      (materialsOf.get(row.id) ?? [])
        .filter((material) => material.direction === direction)
        .map((material) => ({ materialId: material.material_id, quantity: material.quantity }));
    const seen = resultsOf.get(row.id) ?? [];
    return {
      id: row.id as RecipeId,
      itemId: row.item_id as ItemId,
      name: row.name,
      basedOn: row.based_on,
      changes: JSON.parse(row.changes_json) as readonly string[],
      jarKind: row.jar_kind as JarKind | null,
      process:
        row.canner_id === null ||
        row.process_food === null ||
        row.process_style === null ||
        row.process_pack === null ||
        row.jar_kind === null
          ? null
          : {
              food: row.process_food,
              style: row.process_style,
              pack: row.process_pack,
              cannerId: row.canner_id as CannerId,
              jarKind: row.jar_kind as JarKind,
            },
      processRefused: row.process_refused,
      nameDenials: (denialsOf.get(row.id) ?? []).map((denial) => ({
        name: denial.name,
        otherFood: denial.other_food,
        by: denial.denied_by,
        at: denial.denied_at,
      })),
      awaitsCanner: row.process_food !== null && row.canner_id === null,
      ...learnt(row, seen),
      readyAfterDays: row.ready_after_days,
      crock:
        row.crock_quarts === null || row.crock_days === null
          ? null
          : { quarts: row.crock_quarts, days: row.crock_days },
      season:
        row.season_from_month === null || row.season_until_month === null
          ? null
          : { fromMonth: row.season_from_month, untilMonth: row.season_until_month },
      produce: (produceOf.get(row.id) ?? []).map((part) => ({
        crop: part.crop as CropKey,
        lb: part.lb,
        mayBeFrozen: part.may_be_frozen === 1,
      })),
      supplies: (suppliedTo.get(row.id) ?? []).map((part) => ({
        supplyId: part.supply_id,
        quantity: part.quantity,
      })),
      gives: givenNow(moved('gives'), seen, left),
      uses: moved('uses'),
      stages: (stagesOf.get(row.id) ?? []).map((stage) => ({
        name: stage.name,
        afterDays: stage.after_days,
        handsOnMinutes: stage.hands_on_minutes,
      })),
      way: wayOf.get(row.id) ?? null,
    };
  });
}

/** What was left of each result and of which material, in its unit; what was taken back is not in it. */
async function leftOverByResult(
  db: Database,
  householdId: HouseholdId,
): Promise<ReadonlyMap<string, ReadonlyMap<string, number>>> {
  const rows = await db
    .selectFrom('material_event')
    .select(['result_id', 'subject', (row) => row.fn.sum<number>('quantity').as('quantity')])
    .where('household_id', '=', householdId)
    .where('kind', '=', 'left-over')
    .where('result_id', 'is not', null)
    .groupBy(['result_id', 'subject'])
    .orderBy('subject')
    .execute();
  const byResult = new Map<string, Map<string, number>>();
  for (const { result_id: result, subject, quantity } of rows) {
    if (result === null || quantity <= smallestAmount) continue;
    const of = byResult.get(result) ?? new Map<string, number>();
    byResult.set(result, of.set(subject, quantity));
  }
  return byResult;
}

/** What one batch leaves: as said, drawn towards what was weighed here; a batch of which nothing was weighed says nothing. */
function givenNow(
  said: Recipe['gives'],
  results: readonly BatchResult[],
  left: ReadonlyMap<string, ReadonlyMap<string, number>>,
): Recipe['gives'] {
  const weighed = new Map<string, number[]>();
  for (const { id, batches } of results)
    for (const [materialId, quantity] of batches > 0 ? (left.get(id) ?? []) : [])
      weighed.set(materialId, [
        ...(weighed.get(materialId) ?? []),
        ...Array.from({ length: batches }, () => quantity / batches),
      ]);
  const ids = [...new Set([...said.map(({ materialId }) => materialId), ...weighed.keys()])];
  return ids.flatMap((materialId) => {
    const typed = said.find((one) => one.materialId === materialId)?.quantity ?? null;
    const quantity = learntLeft(typed, weighed.get(materialId) ?? []);
    return quantity === null ? [] : [{ materialId, quantity: Math.round(quantity * 1000) / 1000 }];
  });
}

/** What a recipe was said to give and to use of other batches' left-overs, before anything was weighed. */
export async function saidLeftOversOf(
  db: Database,
  householdId: HouseholdId,
): Promise<
  readonly {
    readonly recipeId: string;
    readonly materialId: string;
    readonly direction: 'gives' | 'uses';
    readonly quantity: number;
  }[]
> {
  const rows = await db
    .selectFrom('recipe_material')
    .selectAll()
    .where('household_id', '=', householdId)
    .orderBy('material_id')
    .execute();
  return fittingRows('recipe_material', rows).map((row) => ({
    recipeId: row.recipe_id,
    materialId: row.material_id,
    direction: row.direction,
    quantity: row.quantity,
  }));
}

/** Each batch that was made counts once, at the average of those written down with it. */
function learnt(
  row: Pick<Row<RecipeTable>, 'yield_low' | 'yield_high' | 'hands_on_minutes'>,
  results: readonly BatchResult[],
): Pick<Recipe, 'yieldLow' | 'yieldHigh' | 'handsOnMinutes' | 'atFirst'> {
  const made = results.filter(({ batches }) => batches > 0);
  const perBatch = (seen: (result: BatchResult) => number | null) =>
    made.flatMap((result) => {
      const total = seen(result);
      return total === null ? [] : Array.from({ length: result.batches }, () => total / result.batches);
    });
  const jars = perBatch((result) => result.jars);
  const seen = learntYield({ low: row.yield_low, high: row.yield_high }, jars);
  return {
    yieldLow: Math.round(seen.low * 100) / 100,
    yieldHigh: jars.length === 0 ? row.yield_high : Math.max(1, Math.ceil(seen.high - 1e-9)),
    handsOnMinutes: Math.round(
      learntMinutes(
        row.hands_on_minutes,
        perBatch((result) => result.minutesTaken),
      ),
    ),
    atFirst: {
      yieldLow: row.yield_low,
      yieldHigh: row.yield_high,
      handsOnMinutes: row.hands_on_minutes,
      batchesSeen: jars.length,
    },
  };
}

/** Names of the recipes in use whose process was not believed when they were brought in. */
export async function recipesNotBelieved(db: Database, householdId: HouseholdId): Promise<readonly string[]> {
  const rows = await db
    .selectFrom('recipe')
    .select('name')
    .where('household_id', '=', householdId)
    .where('retired_on', 'is', null)
    .where('process_refused', 'is not', null)
    .orderBy('name')
    .execute();
  return rows.map(({ name }) => name);
}

/** Recipes that are no longer made. */
export async function retiredRecipes(
  db: Database,
  householdId: HouseholdId,
): Promise<readonly { readonly id: RecipeId; readonly itemId: ItemId; readonly name: string }[]> {
  const rows = await db
    .selectFrom('recipe')
    .select(['id', 'item_id', 'name'])
    .where('household_id', '=', householdId)
    .where('retired_on', 'is not', null)
    .orderBy('name')
    .execute();
  return rows.map((row) => ({ id: row.id as RecipeId, itemId: row.item_id as ItemId, name: row.name }));
}

/** Sugar, vinegar, pectin, acid: what batches need besides produce and jars. */
export async function suppliesOf(db: Database, householdId: HouseholdId): Promise<readonly Supply[]> {
  const rows = await db
    .selectFrom('supply')
    .selectAll()
    .where('household_id', '=', householdId)
    .orderBy('id')
    .execute();
  return fittingRows('supply', rows).map((row) => ({
    id: row.id,
    name: row.name,
    unit: row.unit,
    packQuantity: row.pack_quantity,
    packPrice: row.pack_price_cents as Cents,
    onHand: row.on_hand,
  }));
}

/** By-products and other material that waits to be used. */
export async function materialsOf(db: Database, householdId: HouseholdId): Promise<readonly Material[]> {
  const rows = await db
    .selectFrom('material')
    .leftJoin('material_event as event', (join) =>
      join
        .onRef('event.household_id', '=', 'material.household_id')
        .onRef('event.subject', '=', 'material.id'),
    )
    .where('material.household_id', '=', householdId)
    .groupBy(['material.household_id', 'material.id'])
    .orderBy('material.id')
    .select((row) => [
      'material.id',
      'material.name',
      'material.unit',
      'material.keeps_days_cold',
      'material.keeps_months_frozen',
      'material.quarts_per_unit',
      row.fn.coalesce(row.fn.sum<number>('event.quantity'), row.lit(0)).as('waiting'),
    ])
    .execute();
  const waitingBy = await waitingByDay(db, householdId);
  return fittingRows('material', rows).map((row) => ({
    id: row.id,
    name: row.name,
    unit: row.unit,
    keepsDaysCold: row.keeps_days_cold,
    keepsMonthsFrozen: row.keeps_months_frozen,
    quartsPerUnit: row.quarts_per_unit,
    waiting: Math.max(0, row.waiting),
    waitingBy: waitingBy.get(row.id) ?? [],
  }));
}
