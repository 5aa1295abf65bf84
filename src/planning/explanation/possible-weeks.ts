import { entry } from '../lookup.ts';
import type { PlanningParameters } from '../model/parameters.ts';

/** Weeks in which the load of a recipe, by its place in the sets, could be made at all; the earliest first. */
export const possibleWeeks = ({ mostBatches }: PlanningParameters, recipe: number): number[] =>
  entry(mostBatches, recipe, 'mostBatches').flatMap((most, week) => (most > 0 ? [week] : []));
