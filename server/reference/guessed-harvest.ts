import type { SourceRequest } from '../../shared/schemas/harvest.ts';
import type { Recipe } from '../../src/household/recipe.ts';
import { cropGuessFor } from './first-year.ts';

/**
 * What a source is guessed to give a week. A garden is guessed to give at least one batch of whatever asks for most in the time
 * the crop keeps: who says that beans from the garden are put up grows enough of them at a time to do so.
 */
export const guessedLbPerWeek = (
  crop: string,
  kind: SourceRequest['kind'],
  book: readonly Pick<Recipe, 'produce'>[],
): number => {
  const { gardenLbPerWeek, boughtLbPerWeek, useByDays } = cropGuessFor(crop);
  if (kind !== 'garden') return boughtLbPerWeek;
  const forOneBatch = Math.max(
    0,
    ...book.flatMap(({ produce }) => produce.filter((need) => need.crop === crop).map(({ lb }) => lb)),
  );
  const weeksTogether = 1 + Math.floor(useByDays / 7);
  return Math.max(gardenLbPerWeek, Math.ceil(forOneBatch / weeksTogether));
};
