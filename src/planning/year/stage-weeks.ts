import { orNone } from '../lookup.ts';
import type { RecipeInSets } from '../model/sets.ts';
import type { PlannedSession } from '../plan.ts';
import type { PlannedRecipe } from '../planning-year.ts';

/**
 * Stage weeks of a recipe: whole weeks from beginning a batch to its canner load; 0 for what is made in one go. Produce,
 * by-products and supplies are taken in the week in which it is begun; jars, lids and canner in that of the load.
 */
export function stageWeeks({ stages }: Pick<PlannedRecipe, 'stages'>): number {
  return orNone(stages?.weeks);
}

/** What a list by the week of the load holds for batches begun in a week; undefined where their load lies beyond it. */
export function begunInWeek<T>(
  byLoadWeek: readonly T[] | undefined,
  recipe: Pick<PlannedRecipe, 'stages'>,
  week: number,
): T | undefined {
  return byLoadWeek?.[week + stageWeeks(recipe)];
}

/** The same list by the week in which batches are begun, as long as it was; 0 where their load lies beyond it. */
export function byBeginning(byLoadWeek: readonly number[], recipe: Pick<PlannedRecipe, 'stages'>): number[] {
  return byLoadWeek.map((_, week) => orNone(begunInWeek(byLoadWeek, recipe, week)));
}

/** Whether a printed session means this recipe: same jar, and the same batches where they are begun already. */
export function isSessionOf(recipe: RecipeInSets, session: PlannedSession): boolean {
  return (
    session.recipe === recipe.id &&
    (session.jars[0]?.kind ?? null) === recipe.jarKind &&
    session.begun?.id === recipe.begun?.id
  );
}
