import { cell, entry } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import type { PlannedWeek } from '../plan.ts';
import type { PlannedRecipe } from '../planning-year.ts';
import { isSessionOf } from '../year/stage-weeks.ts';

/** Whether the batches of a recipe in a week (by its place in the year) may differ from the plan made before. */
export type MayChange = (recipe: PlannedRecipe, week: number) => boolean;

/** Bounds by column, as a solve takes them. */
export type ColumnBoundsByIndex = ReadonlyMap<number, readonly [lower: number, upper: number]>;

/**
 * Holds the batches of an earlier plan wherever they may not change: what is left open is a small question, answered
 * sooner, and only what has to move moves. Batches begun since have a load to find and are never held. A number that a week could no longer take is held at the nearest it can.
 */
export function heldBatches(
  { sets, columns, model }: BuiltModel,
  earlier: readonly PlannedWeek[],
  mayChange: MayChange,
): ColumnBoundsByIndex {
  const bounds = new Map<number, readonly [number, number]>();
  sets.recipes.forEach((recipe, at) => {
    sets.year.weeks.forEach((key, week) => {
      const column = cell(columns.batches, at, week, 'batches');
      if (column === null || recipe.begun !== undefined || mayChange(recipe, week)) return;
      const planned = earlier
        .filter((one) => one.week === key)
        .flatMap(({ sessions }) => sessions)
        .filter((session) => isSessionOf(recipe, session))
        .reduce((sum, { batches }) => sum + batches, 0);
      const { lower, upper } = entry(model.columns, column, 'columns');
      const held = Math.min(upper, Math.max(lower, planned));
      bounds.set(column, [held, held]);
    });
  });
  return bounds;
}
