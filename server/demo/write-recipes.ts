import { addDays, yearOf } from '../../shared/week.ts';
import { windowOf, yearsAround } from './demo-calendar.ts';
import type { Scene } from './scene.ts';

/** How it is made. */
export async function writeRecipes({ db, data, own }: Scene): Promise<void> {
  await db
    .insertInto('recipe')
    .values(
      data.recipes.map((recipe) => ({
        ...own,
        id: recipe.id,
        item_id: recipe.item,
        name: recipe.name,
        based_on: recipe.based_on,
        process_food: recipe.process_food,
        process_style: recipe.process_style,
        process_pack: recipe.process_pack,
        canner_id: recipe.canner,
        jar_kind: recipe.jar_kind,
        yield_low: recipe.yield_low,
        yield_high: recipe.yield_high,
        hands_on_minutes: recipe.hands_on_minutes,
        ready_after_days: recipe.ready_after_days,
        crock_quarts: recipe.crock_quarts,
        crock_days: recipe.crock_days,
        season_from_month: recipe.season_from_month,
        season_until_month: recipe.season_until_month,
        retired_on: null,
      })),
    )
    .execute();
  await db
    .insertInto('recipe_produce')
    .values(
      data.recipeProduce.map((need) => ({
        ...own,
        recipe_id: need.recipe,
        crop: need.crop,
        lb: need.lb,
        may_be_frozen: need.may_be_frozen,
      })),
    )
    .execute();
  await db
    .insertInto('supply')
    .values(data.supplies.map((supply) => ({ ...own, ...supply })))
    .execute();
  await db
    .insertInto('recipe_supply')
    .values(
      data.recipeSupplies.map((need) => ({
        ...own,
        recipe_id: need.recipe,
        supply_id: need.supply,
        quantity: need.quantity,
      })),
    )
    .execute();
  await db
    .insertInto('material')
    .values(data.byProducts.map((material) => ({ ...own, ...material, keeps_months_frozen: null })))
    .execute();
  await db
    .insertInto('recipe_material')
    .values(
      data.recipeByProducts.map((part) => ({
        ...own,
        recipe_id: part.recipe,
        material_id: part.by_product,
        direction: part.direction,
        quantity: part.quantity,
      })),
    )
    .execute();
  await db
    .insertInto('recipe_stage')
    .values(
      data.household.stages.map((stage, at, stages) => ({
        ...own,
        recipe_id: stage.recipe,
        position: stages.slice(0, at + 1).filter((earlier) => earlier.recipe === stage.recipe).length,
        name: stage.name,
        after_days: stage.afterDays,
        hands_on_minutes: stage.handsOnMinutes,
      })),
    )
    .execute();
}

/** Where its crops come from, and when. */
export async function writeSources({ db, data, tables, asOf, own }: Scene): Promise<void> {
  await db
    .insertInto('source')
    .values(
      data.sources.map((source) => ({
        ...own,
        id: source.id,
        crop: source.crop,
        name: source.name,
        kind: source.kind,
        price_cents_per_lb: source.price_cents_per_lb,
        plants: source.plants,
        lb_per_plant: source.lb_per_plant,
        use_by_days: source.use_by_days,
        poor_year_chance: source.poor_year_chance,
        poor_year_share: source.poor_year_share,
        fall_back: source.fall_back,
        retired_on: null,
      })),
    )
    .execute();
  const [lastYear = yearOf(asOf)] = yearsAround(asOf);
  await db
    .insertInto('harvest_window')
    .values(
      data.sources.flatMap((source) =>
        yearsAround(asOf).map((year) => {
          const window = windowOf(source, tables.harvestWindows, data.household.region, year);
          return {
            ...own,
            source_id: source.id,
            year,
            begins_on: window.begins,
            ends_on: window.ends,
            most_active_from: window.active?.from ?? null,
            most_active_until: window.active?.until ?? null,
            lb_per_week: source.lb_per_week,
            first_picked_on:
              source.last_year_late_days === null || year !== lastYear
                ? null
                : addDays(window.begins, source.last_year_late_days),
          };
        }),
      ),
    )
    .execute();
  await db
    .insertInto('garden_yield')
    .values(
      data.sources.flatMap(({ id, plants, last_year_lb: lb }) =>
        lb === null ? [] : [{ ...own, source_id: id, year: lastYear, lb, plants }],
      ),
    )
    .execute();
}
