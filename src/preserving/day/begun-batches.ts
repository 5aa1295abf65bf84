import type { RecipeId } from '../../../shared/ids.ts';
import type { BatchResult } from '../../household/batch-result.ts';
import type { SessionWork } from '../../household/session.ts';
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
    batchesWrittenDown(recipeId, results),
  );

/** Batches of a recipe among what came out of one canning day; what was processed again is written down with none. */
export const batchesWrittenDown = (recipeId: RecipeId, results: readonly BatchResult[]): number =>
  results.filter((result) => result.recipeId === recipeId).reduce((sum, { batches }) => sum + batches, 0);

/** Whether everything made of a recipe on a day is written down among what came out of it. */
export const isWrittenDown = (
  { recipeId, batches }: Pick<SessionWork, 'recipeId' | 'batches'>,
  results: readonly BatchResult[],
): boolean => batchesWrittenDown(recipeId, results) >= batches;
