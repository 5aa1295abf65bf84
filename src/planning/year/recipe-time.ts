import { loadsOfBatch } from '../../preserving/day/load-time.ts';
import { noneBeyond, orNone } from '../lookup.ts';
import type { PlannedRecipe } from '../planning-year.ts';
import { stageWeeks } from './stage-weeks.ts';

/**
 * Whole canner loads of one batch by its high yield, but for a jar that alone would need another (`loadsOfBatch`). A batch has
 * its loads to itself; batches of the same recipe are never counted as sharing one. 0 for what is not canned.
 */
export function loadsPerBatch({ processing, yieldHighJars }: PlannedRecipe): number {
  return processing === null ? 0 : loadsOfBatch(yieldHighJars, processing.jarsPerLoad).loads;
}

/** Jars of one batch that are set aside because alone they would need another load. */
export function jarsAsidePerBatch({ processing, yieldHighJars }: PlannedRecipe): number {
  return processing === null ? 0 : loadsOfBatch(yieldHighJars, processing.jarsPerLoad).jarsAside;
}

/** Minutes of one batch at table and stove: hands-on work and the part of its loads that must be attended. */
export function minutesAtStove(recipe: PlannedRecipe): number {
  return recipe.handsOnMinutes + minutesAttended(recipe);
}

/** Of these, the minutes so many weeks before the week of its canner load; 0 is that week, the attended loads with it. */
export function minutesInWeek(recipe: PlannedRecipe, weeksBefore: number): number {
  const { stages } = recipe;
  if (stages === undefined) return weeksBefore === 0 ? minutesAtStove(recipe) : 0;
  const handsOn = noneBeyond(stages.handsOnByWeek, stageWeeks(recipe) - weeksBefore);
  return weeksBefore === 0 ? handsOn + minutesAttended(recipe) : handsOn;
}

function minutesAttended(recipe: PlannedRecipe): number {
  return loadsPerBatch(recipe) * orNone(recipe.processing?.attendedMinutes);
}

/** Minutes one batch keeps its canner busy. */
export function minutesInCanner(recipe: PlannedRecipe): number {
  return loadsPerBatch(recipe) * orNone(recipe.processing?.loadMinutes);
}
