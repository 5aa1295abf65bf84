import type { ItemId, RecipeId } from '../../shared/ids.ts';
import type { PlannedItem, PlannedRecipe, PlannedSource, PlanningYear } from './planning-year.ts';
import { type Stuff, stuffsOf } from './stuffs.ts';

/**
 * What the model ranges over. Every list is sorted by a stable key before anything is built, so that the order in which
 * a household's things were entered never changes its plan.
 */
export interface PlanningSets {
  readonly year: PlanningYear;
  readonly weekCount: number;
  /** 0 … weekCount - 1; week 0 holds `asOf`. */
  readonly weekIndexes: readonly number[];
  readonly items: readonly PlannedItem[];
  readonly recipes: readonly PlannedRecipe[];
  readonly sources: readonly PlannedSource[];
  readonly stuffs: readonly Stuff[];
  readonly itemIndex: ReadonlyMap<ItemId, number>;
  readonly weekIndex: ReadonlyMap<string, number>;
  /** Positions in `recipes`, by position in `items`. */
  readonly recipesByItem: readonly (readonly number[])[];
  /** Positions in `recipes` by recipe id: one for each tested jar size. */
  readonly recipesById: ReadonlyMap<RecipeId, readonly number[]>;
}

export function planningSets(year: PlanningYear): PlanningSets {
  const sorted: PlanningYear = {
    ...year,
    items: sortedBy(year.items, ({ id }) => id),
    recipes: sortedBy(year.recipes, recipeLabel),
    sources: sortedBy(year.sources, ({ id }) => id),
    materials: sortedBy(year.materials, ({ id }) => id),
    canners: sortedBy(year.canners, ({ id }) => id),
    supplies: sortedBy(year.supplies, ({ id }) => id),
    jars: sortedBy(year.jars, ({ kind }) => kind),
    lids: sortedBy(year.lids, ({ mouth }) => mouth),
    groups: sortedBy(year.groups, ({ id }) => id),
    kept: sortedBy(year.kept, ({ recipeId, week, decision }) => `${recipeId} ${week} ${decision}`),
  };
  const { items, recipes, sources, weeks } = sorted;
  const itemIndex = new Map(items.map(({ id }, at) => [id, at]));
  return {
    year: sorted,
    weekCount: weeks.length,
    weekIndexes: weeks.map((_, week) => week),
    items,
    recipes,
    sources,
    stuffs: stuffsOf(sorted),
    itemIndex,
    weekIndex: new Map(weeks.map((week, at) => [week, at])),
    recipesByItem: items.map(({ id }) => positions(recipes, ({ itemId }) => itemId === id)),
    recipesById: new Map(recipes.map(({ id }) => [id, positions(recipes, (recipe) => recipe.id === id)])),
  };
}

/** A recipe in one jar size, as rows and columns name it. */
export function recipeLabel({ id, jarKind }: PlannedRecipe): string {
  return jarKind === null ? id : `${id} in ${jarKind}`;
}

function sortedBy<T>(list: readonly T[], key: (element: T) => string): T[] {
  return [...list].sort((one, other) => {
    const [left, right] = [key(one), key(other)];
    return left < right ? -1 : left > right ? 1 : 0;
  });
}

function positions<T>(list: readonly T[], wanted: (element: T) => boolean): number[] {
  return list.flatMap((element, at) => (wanted(element) ? [at] : []));
}
