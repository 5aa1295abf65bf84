import { entry } from '../../lookup.ts';
import type { Draft } from '../draft.ts';
import { recipeLabel } from '../sets.ts';
import { terms } from '../terms.ts';

/**
 * How many batches of a recipe the whole year holds. It forbids nothing: deciding how much before deciding when lets the
 * solver prove its bound several times sooner.
 *
 * `total_batches[r] = sum over weeks of batches[r,w]`, batches.
 */
export function yearTotals({ sets, columns, writer }: Draft): void {
  sets.recipes.forEach((recipe, at) => {
    const total = entry(columns.totals, at, 'totals');
    if (total === null) return;
    const inWeeks = terms(entry(columns.batches, at, 'batches'), -1);
    writer.row(`year_totals[${recipeLabel(recipe)}]`, 0, [[total, 1], ...inWeeks], 0);
  });
}
