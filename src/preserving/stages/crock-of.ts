import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { CrockNeeded, Recipe } from '../../household/recipe.ts';
import { wayOf } from '../uncanned/uncanned-ways.ts';
import { crockNeeded } from './crock-needed.ts';
import { stagesOfKey } from './recipe-stages.ts';
import { stagesHere } from './stages-here.ts';

/**
 * The crock one batch of a household's recipe occupies: the one written down with it; else what its stages and the pounds of its
 * heaviest crop ask for, quarts and days. What is kept uncanned stands by the stages its way of the book names, no longer than
 * the household says until it is ready. Null for what stands in none.
 *
 * Example: sauerkraut kept cold, of 7 lb, stands up to 42 days in 5.6 quarts (USDA Complete Guide 6, p6-6 and p6-8).
 */
export function crockOf(
  recipe: Pick<Recipe, 'basedOn' | 'process' | 'crock' | 'produce' | 'readyAfterDays'>,
  reference: ReferenceTables,
): CrockNeeded | null {
  if (recipe.crock !== null) return recipe.crock;
  const pounds = Math.max(0, ...recipe.produce.map(({ lb }) => lb));
  if (recipe.process !== null) return crockNeeded(stagesHere(recipe, reference), pounds, reference);
  const stagesOf = wayOf(recipe, reference)?.stagesOf ?? null;
  const crock = stagesOf === null ? null : crockNeeded(stagesOfKey(reference, stagesOf), pounds, reference);
  if (crock === null || recipe.readyAfterDays === 0) return crock;
  return { ...crock, days: Math.min(crock.days, recipe.readyAfterDays) };
}
