import type { TestedRecipe } from '../recipes/recipe-book.ts';
import { daysFor, mostHoursBefore } from './recipe-stages.ts';

/**
 * Days from filling the jars to the first good one, out of a figure that may count from the first work on a batch: without
 * the days of its stages, and never less than what the source lets it cure. What counts from filling already stays.
 *
 * Example: 14-day pickles said to be ready after 41 days, 13 of them in the crock, are ready 28 days after filling.
 */
export const daysFromFilling = (
  { stages, curing }: Pick<TestedRecipe, 'stages' | 'curing'>,
  readyAfterDays: number,
): number =>
  Math.min(readyAfterDays, Math.max(readyAfterDays - daysFor(mostHoursBefore(stages)), curing?.daysLow ?? 0));
