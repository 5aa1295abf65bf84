import type { CannerFactRow } from '../../../shared/schemas/reference/canner-fact.ts';
import { cannerSizes } from '../../../src/preserving/canner-sizes.ts';
import type { Choice } from '../../../views/parts/form.tsx';

/** "ordinary canning pot: 7 quarts or 9 pints", for one method or for all. */
export const cannerSizeChoices = (
  facts: readonly CannerFactRow[],
  method: 'boiling-water' | 'pressure' | null = null,
): readonly Choice[] =>
  cannerSizes(facts)
    .filter((size) => method === null || size.method === method)
    .map(({ key, method: own, words, holds }) => ({
      value: key,
      words: `${method === null && own === 'pressure' ? 'pressure canner, ' : ''}${words}: ${holds.quarts} quarts or ${holds.pints} pints`,
    }));
