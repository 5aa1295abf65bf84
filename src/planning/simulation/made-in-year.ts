import type { Random } from '../../shelf/draws.ts';
import type { ShelfCohort } from '../answer/play-shelf.ts';
import { found } from '../lookup.ts';
import type { Plan } from '../plan.ts';
import type { PlannedItem, PlannedRecipe, PlanningYear } from '../planning-year.ts';
import { stageWeeks } from '../year/stage-weeks.ts';
import type { HarvestYear } from './harvest-year.ts';

export interface MadeInYear {
  /** What comes to each item's shelf, in the order of the plan. */
  readonly cohorts: ReadonlyMap<string, readonly ShelfCohort[]>;
  /** By item: whole weeks by which its first batch comes later than planned, 0 or more. */
  readonly weeksLate: ReadonlyMap<string, number>;
  /** Batches that could not be made, each part of one counted whole. */
  readonly lost: number;
}

/** What the plan brings to the shelf when its crops do as drawn: batches as far as the produce reaches, and purchases. */
export function madeInYear(
  year: PlanningYear,
  plan: Plan,
  harvest: Pick<HarvestYear, 'shareOf' | 'weeksLater'>,
  random: Random,
): MadeInYear {
  const cohorts = new Map<string, ShelfCohort[]>();
  const add = (itemId: string, cohort: ShelfCohort) => {
    cohorts.set(itemId, [...(cohorts.get(itemId) ?? []), cohort]);
  };
  const items = new Map(year.items.map((item) => [item.id as string, item]));
  const weeksLate = new Map<string, number>();
  let lost = 0;
  plan.weeks.forEach(({ sessions, purchases }, week) => {
    for (const session of sessions) {
      const recipe = recipeOf(year, session.recipe, session.jars[0]?.kind ?? null);
      if (recipe === undefined) continue;
      // What is begun has its produce already; the rest takes it in the week in which it will be.
      const crops = session.begun === undefined ? recipe.produce.map(({ crop }) => crop) : [];
      const begunIn = week - stageWeeks(recipe);
      const share = Math.min(1, ...crops.map((crop) => harvest.shareOf(crop, begunIn)));
      const batches = session.batches * share;
      lost += Math.ceil(session.batches - batches - 1e-6);
      const later = crops.map((crop) => harvest.weeksLater(crop));
      const madeIn = Math.max(0, week + Math.max(0, ...later) + Math.min(0, ...later));
      if (!weeksLate.has(recipe.itemId)) weeksLate.set(recipe.itemId, Math.max(0, madeIn - week));
      const item = found(items, recipe.itemId, 'items');
      const most = Math.max(recipe.yieldLowUnits, highUnits(item, recipe));
      const units = batches * (recipe.yieldLowUnits + random() * (most - recipe.yieldLowUnits));
      add(recipe.itemId, {
        units,
        readyWeek: madeIn + recipe.readyAfterWeeks,
        olderFromWeek: madeIn + item.bestQualityWeeks,
      });
    }
    for (const line of purchases)
      if (line.kind === 'item')
        add(line.what, {
          units: line.quantity,
          readyWeek: week,
          olderFromWeek: week + found(items, line.what, 'items').bestQualityWeeks,
        });
  });
  return { cohorts, weeksLate, lost };
}

/** What the plan brings when every crop comes in full and in its week, and yields are the low ones planned from. */
export const madeAsPlanned = (year: PlanningYear, plan: Plan): MadeInYear =>
  madeInYear(year, plan, { shareOf: () => 1, weeksLater: () => 0 }, () => 0);

/** High yield in units where a jar of the recipe is a unit of the item; elsewhere only the low yield is known in units. */
const highUnits = (item: PlannedItem, { jarKind, yieldHighJars, yieldLowUnits }: PlannedRecipe): number =>
  jarKind !== null && item.jarKind === jarKind ? yieldHighJars : yieldLowUnits;

function recipeOf(year: PlanningYear, id: string, jarKind: string | null): PlannedRecipe | undefined {
  return year.recipes.find((recipe) => recipe.id === id && recipe.jarKind === jarKind);
}
