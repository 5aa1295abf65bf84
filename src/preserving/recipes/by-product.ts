import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { Recipe } from '../../household/recipe.ts';
import type { Material } from '../../household/supplies.ts';
import { inWords } from '../citation.ts';
import { testedRecipes } from './tested-recipes.ts';

/** What is left of a batch and can be the raw material of another. */
export interface ByProduct {
  /** Null for what the household has never written down. */
  readonly materialId: string | null;
  readonly name: string;
  readonly unit: string;
  readonly keepsDays: number;
  /** Where the keeping time stands; null for the household's own. */
  readonly source: string | null;
}

/** The by-product of a recipe: as the household named it, else as the published recipes of its food agree. */
export function byProductOf(
  recipe: Recipe,
  materials: readonly Material[],
  reference: ReferenceTables,
): ByProduct | null {
  const [gives] = recipe.gives;
  const own = materials.find(({ id }) => id === gives?.materialId);
  if (own)
    return { materialId: own.id, name: own.name, unit: own.unit, keepsDays: own.keepsDaysCold, source: null };
  const published = testedRecipes(reference)
    .filter(({ processes }) => processes.some(({ foodKey }) => foodKey === recipe.process?.food))
    .flatMap(({ byProducts }) => byProducts);
  const [first, ...others] = published;
  if (first === undefined || others.some(({ material }) => material !== first.material)) return null;
  const known = materials.find(({ name }) => name.toLowerCase() === first.material.toLowerCase());
  return {
    materialId: known?.id ?? null,
    name: known?.name ?? first.material,
    unit: known?.unit ?? 'lb',
    keepsDays: first.keepDays,
    source: inWords(first.source),
  };
}
