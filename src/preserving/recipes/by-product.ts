import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { Recipe } from '../../household/recipe.ts';
import type { Material } from '../../household/supplies.ts';
import { type Citation, citationOf, inWords } from '../citation.ts';
import { wayOf } from '../uncanned/uncanned-ways.ts';
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

/** A by-product as the book names it. */
export interface NamedByProduct {
  /** "apple-pulp" */
  readonly key: string;
  readonly name: string;
  readonly keepsDays: number;
  readonly source: Citation;
}

/** The key of a by-product by its name: "Apple pulp" is "apple-pulp". */
export const byProductKey = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');

/** The household's material that a key means: its id, or the key of its name. */
export const materialOfKey = (
  key: string | undefined,
  materials: readonly Material[],
): Material | undefined => materials.find(({ id, name }) => id === key || byProductKey(name) === key);

/** Every by-product the book names, by name; each keeps the shortest of the days named for it. */
export function byProductsOfBook({
  recipeByProducts,
}: Pick<ReferenceTables, 'recipeByProducts'>): readonly NamedByProduct[] {
  const byName = new Map<string, NamedByProduct>();
  for (const row of recipeByProducts) {
    const before = byName.get(row.material);
    if (before === undefined || row.keepDays < before.keepsDays)
      byName.set(row.material, {
        key: byProductKey(row.material),
        name: row.material,
        keepsDays: row.keepDays,
        source: citationOf(row),
      });
  }
  return [...byName.values()].sort((one, other) => (one.name < other.name ? -1 : 1));
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
  const [first, ...others] = publishedLeft(recipe, reference);
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

/** What the book says is left: of the way a recipe follows, else of every recipe of its tested food. */
function publishedLeft(recipe: Recipe, reference: ReferenceTables) {
  const way = wayOf(recipe, reference);
  if (way !== undefined)
    return reference.recipeByProducts
      .filter(({ recipeKey }) => recipeKey === way.wayKey)
      .map((row) => ({ material: row.material, keepDays: row.keepDays, source: citationOf(row) }));
  return testedRecipes(reference)
    .filter(({ processes }) => processes.some(({ foodKey }) => foodKey === recipe.process?.food))
    .flatMap(({ byProducts }) => byProducts);
}

/**
 * What one batch leaves, by what was weighed: the mean of the batches seen, with the amount that was said, where one was, as one
 * batch more; null where nobody said or weighed any. Nothing is published.
 *
 * Example: said 2 lb, weighed 2.6 and 2.9: 2.5 lb.
 */
export function learntLeft(said: number | null, weighed: readonly number[]): number | null {
  const amounts = said === null ? weighed : [said, ...weighed];
  return amounts.length === 0 ? null : amounts.reduce((sum, one) => sum + one, 0) / amounts.length;
}
