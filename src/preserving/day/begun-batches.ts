import type { RecipeId } from '../../../shared/ids.ts';
import type { BatchResult } from '../../household/batch-result.ts';
import { batchesBegun } from './load-key.ts';
import type { LoadsOfDay } from './loads-of-day.ts';

/** How many batches of a recipe are begun on a day: ticked, timed, or written down already. */
export const batchesBegunOn = (
  recipeId: RecipeId,
  { tickedByLoad, clockByLoad }: LoadsOfDay,
  results: readonly BatchResult[],
): number =>
  batchesBegun(
    recipeId,
    [...tickedByLoad.keys(), ...clockByLoad.keys()],
    results.filter((result) => result.recipeId === recipeId).reduce((sum, { batches }) => sum + batches, 0),
  );
