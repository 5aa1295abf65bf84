import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { CrockNeeded } from '../../household/recipe.ts';
import { factNumber } from '../citation.ts';
import { daysFor, mostHoursBefore, type RecipeStage, stagesOfWay, waysOf } from './recipe-stages.ts';

const quartsPerGallon = 4;
/** What stands a day or less waits in any bowl that is large enough; longer, it needs a vessel of its own. Judged, no source. */
const bowlHours = 24;

/**
 * The crock a batch of so many pounds occupies while its stages run; null for what stands in
 * none or no longer than a day, in one of its printed ways at least.
 * A gallon for each 5 lb (USDA Complete Guide 6, p6-6, printed for ferments and taken for all that stands under brine
 * or syrup).
 *
 * Example: 4 lb of cucumbers stand 13 days for 14-day pickles in 3.2 quarts; sauerkraut of 25 lb needs 20 quarts.
 */
export function crockNeeded(
  stages: readonly RecipeStage[],
  pounds: number,
  { cannerFacts }: Pick<ReferenceTables, 'cannerFacts'>,
): CrockNeeded | null {
  if (pounds <= 0 || !stands(stages)) return null;
  const gallons = (pounds / 5) * factNumber(cannerFacts, 'ferment.container_per_5_lb');
  return { quarts: gallons * quartsPerGallon, days: daysFor(mostHoursBefore(stages)) };
}

const stands = (stages: readonly RecipeStage[]): boolean =>
  waysOf(stages).every(
    (way) =>
      stagesOfWay(stages, way)
        .filter(({ occupies }) => occupies === 'crock')
        .reduce((hours, { leastHours, mostHours }) => hours + (mostHours ?? leastHours), 0) > bowlHours,
  );
