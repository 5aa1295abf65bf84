import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { Item } from '../../household/item.ts';
import type { Recipe } from '../../household/recipe.ts';
import { keepColdDaysOf } from '../../shelf/keep-cold.ts';
import { type FailedSealAdvice, failedSealAdvice } from './seal-check.ts';

const hourMs = 3_600_000;

/** What may be done now with a jar of this food that did not seal. */
export const sealAdviceFor = (
  item: Pick<Item, 'keepColdDays'>,
  recipe: Recipe | null,
  { processTimes }: Pick<ReferenceTables, 'processTimes'>,
  processedAt: number,
  now: number,
): readonly FailedSealAdvice[] =>
  failedSealAdvice({
    hoursSinceProcessed: (now - processedAt) / hourMs,
    hotPackPrinted: processTimes.some((row) => row.foodKey === recipe?.process?.food && row.pack === 'hot'),
    keepColdDays: keepColdDaysOf(item).days,
  });
