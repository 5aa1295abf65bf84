import type { CropKey, RecipeId } from '../../../shared/ids.ts';
import { entry, orNone } from '../lookup.ts';
import { type PlanningParameters, planningParameters } from '../model/parameters.ts';
import { type PlanningSets, planningSets } from '../model/sets.ts';
import type { PlannedRecipe, PlanningYear } from '../planning-year.ts';
import { minutesAtStove } from '../year/recipe-time.ts';
import { stageWeeks } from '../year/stage-weeks.ts';
import type { YearWalk } from '../year/year-walk.ts';
import type { WalkOf } from './glut.ts';

/** The household's year as a glut finds it. */
export interface GlutKitchen {
  readonly year: PlanningYear;
  readonly sets: PlanningSets;
  readonly parameters: PlanningParameters;
  /** Weeks in which a batch may be begun. */
  readonly weeks: number;
  readonly freezerQuarts: number;
}

/** A recipe of the crop in one jar kind, with what one batch asks. */
export interface MixWay {
  /** Its place among the recipes of the sets. */
  readonly at: number;
  readonly recipe: PlannedRecipe;
  readonly lb: number;
  readonly minutes: number;
  /** By the week of beginning: most batches. */
  readonly most: readonly number[];
  readonly walk: YearWalk | null;
  readonly quarts: number;
}

/** The year with its sets and parameters, and the room left in its freezer. */
export function kitchenFor(year: PlanningYear, weeks: number): GlutKitchen {
  const sets = planningSets(year);
  return {
    year: sets.year,
    sets,
    parameters: planningParameters(sets),
    weeks: Math.min(weeks, year.weeks.length),
    freezerQuarts: freezerRoom(year),
  };
}

/** Quarts of the freezer that nothing stands in today. */
export function freezerRoom({ items, storage }: PlanningYear): number {
  const taken = items.reduce(
    (sum, { freezerQuartsPerUnit, openingLots }) =>
      sum + orNone(freezerQuartsPerUnit) * openingLots.reduce((units, lot) => units + lot.units, 0),
    0,
  );
  return Math.max(0, storage.freezerQuarts - taken);
}

/** Each recipe of the crop once: in the jars that are there, its item's own first. */
export function waysOf(kitchen: GlutKitchen, crop: CropKey, walkOf: WalkOf): readonly MixWay[] {
  const { year, sets, parameters, weeks } = kitchen;
  const best = new Map<RecipeId, MixWay & { readonly rank: readonly [number, number] }>();
  sets.recipes.forEach((recipe, at) => {
    const lb = recipe.produce.filter((need) => need.crop === crop).reduce((sum, need) => sum + need.lb, 0);
    // What is begun has taken its produce already; what takes what another batch leaves waits for that, which is not at hand.
    if (lb <= 0 || recipe.uses.length > 0) return;
    const byLoad = entry(parameters.mostBatches, at, 'mostBatches');
    const most = Array.from({ length: weeks }, (_, week) => orNone(byLoad[week + stageWeeks(recipe)]));
    if (most.every((batches) => batches < 1)) return;
    const item = year.items.find(({ id }) => id === recipe.itemId);
    const empty = year.jars.find(({ kind }) => kind === recipe.jarKind)?.empty;
    const way = {
      at,
      recipe,
      lb,
      minutes: minutesAtStove(recipe),
      most,
      walk: walkOf(recipe.itemId),
      quarts: orNone(item?.freezerQuartsPerUnit) * recipe.yieldLowUnits,
      rank: [
        recipe.jarKind === null ? 0 : Math.max(0, recipe.yieldHighJars - orNone(empty)),
        recipe.jarKind === item?.jarKind ? 0 : 1,
      ] as const,
    };
    const known = best.get(recipe.id);
    const isBetter =
      known === undefined ||
      way.rank[0] < known.rank[0] ||
      (way.rank[0] === known.rank[0] && way.rank[1] < known.rank[1]);
    if (isBetter) best.set(recipe.id, way);
  });
  return [...best.values()];
}

/** What units of an item are worth to the year: their share of what it wants, what nothing is planned for twice. */
export function worthOf(walk: YearWalk | null, units: number): number {
  if (walk === null) return 0;
  const year = walk.need + walk.carryOver;
  return year <= 0 ? 0 : (Math.min(units, walk.toCome) + Math.min(units, walk.missing)) / year;
}
