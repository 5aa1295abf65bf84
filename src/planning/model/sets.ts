import { compare } from '../../../shared/compare.ts';
import type { ItemId, RecipeId } from '../../../shared/ids.ts';
import type { BegunBatches, PlannedRecipe, PlannedSource, PlanningYear } from '../planning-year.ts';
import { aboveEmergency, type ItemAboveEmergency } from './emergency-shelf.ts';
import { type RawMaterial, rawMaterialsOf } from './raw-materials.ts';

/**
 * What the model ranges over. Every list is sorted by a stable key before anything is built, so that the order in which
 * a household's things were entered never changes its plan.
 */
export interface PlanningSets {
  readonly year: PlanningYear;
  readonly weekCount: number;
  /** 0 … weekCount - 1; week 0 holds `asOf`. */
  readonly weekIndexes: readonly number[];
  /** Without what of them is kept for an emergency. */
  readonly items: readonly ItemAboveEmergency[];
  /** Ways to make something, and batches begun already, each as a way of its own that has only its load to come. */
  readonly recipes: readonly RecipeInSets[];
  readonly sources: readonly PlannedSource[];
  readonly rawMaterials: readonly RawMaterial[];
  readonly itemIndex: ReadonlyMap<ItemId, number>;
  readonly weekIndex: ReadonlyMap<string, number>;
  /** Positions in `recipes`, by position in `items`. */
  readonly recipesByItem: readonly (readonly number[])[];
  /** Positions in `recipes` by recipe id: one for each tested jar size. */
  readonly recipesById: ReadonlyMap<RecipeId, readonly number[]>;
}

/** A recipe as the model knows it. */
export interface RecipeInSets extends PlannedRecipe {
  /** Set where it stands for batches that are begun already. */
  readonly begun?: BegunBatches;
}

export function planningSets(year: PlanningYear): PlanningSets {
  const sorted: PlanningYear = {
    ...year,
    items: sortedBy(year.items.map(aboveEmergency), ({ id }) => id),
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
  const { sources, weeks } = sorted;
  const items: readonly ItemAboveEmergency[] = sorted.items;
  const recipes = sortedBy([...sorted.recipes, ...begunRecipes(sorted)], recipeLabel);
  const itemIndex = new Map(items.map(({ id }, at) => [id, at]));
  return {
    year: sorted,
    weekCount: weeks.length,
    weekIndexes: weeks.map((_, week) => week),
    items,
    recipes,
    sources,
    rawMaterials: rawMaterialsOf(sorted),
    itemIndex,
    weekIndex: new Map(weeks.map((week, at) => [week, at])),
    recipesByItem: items.map(({ id }) => positions(recipes, ({ itemId }) => itemId === id)),
    recipesById: new Map(recipes.map(({ id }) => [id, positions(recipes, (recipe) => recipe.id === id)])),
  };
}

/** Begun batches: the recipe without what was taken when they were begun, loadable while their stages allow. */
function begunRecipes({ recipes, begun = [] }: PlanningYear): RecipeInSets[] {
  return begun.flatMap((batches): RecipeInSets[] => {
    const recipe = recipes.find(({ id, jarKind }) => id === batches.recipeId && jarKind === batches.jarKind);
    if (recipe === undefined) return [];
    const { stages, ...made } = recipe;
    return [
      {
        ...made,
        produce: [],
        gives: [],
        uses: [],
        supplies: [],
        handsOnMinutes: stages?.handsOnByWeek.at(-1) ?? recipe.handsOnMinutes,
        allowedByWeek: batches.mayLoadByWeek,
        begun: batches,
      },
    ];
  });
}

/** A recipe in one jar size, and which batches where they are begun already, as rows and columns name it. */
export function recipeLabel({ id, jarKind, begun }: RecipeInSets): string {
  const label = jarKind === null ? id : `${id} in ${jarKind}`;
  return begun === undefined ? label : `${label} begun ${begun.id}`;
}

function sortedBy<T>(list: readonly T[], key: (element: T) => string): T[] {
  return list.toSorted((one, other) => compare(key(one), key(other)));
}

function positions<T>(list: readonly T[], wanted: (element: T) => boolean): number[] {
  return list.flatMap((element, at) => (wanted(element) ? [at] : []));
}
