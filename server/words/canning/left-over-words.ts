import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import type { Material } from '../../../src/household/supplies.ts';
import { byProductKey, byProductsOfBook } from '../../../src/preserving/recipes/by-product.ts';
import { testedRecipes } from '../../../src/preserving/recipes/tested-recipes.ts';
import { waysMadeOf } from '../../../src/preserving/uncanned/uncanned-ways.ts';
import type { Choice } from '../../../views/parts/form.tsx';
import { formatQuantity } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { listed, sentenceCase } from '../../../views/words/sentences.ts';

/** Every by-product a household can name: its own and those of the book, by name; `none` says what no choice means. */
export function byProductChoices(
  materials: readonly Material[],
  reference: ReferenceTables,
  none: string,
): readonly Choice[] {
  const named = new Map(byProductsOfBook(reference).map(({ key, name }) => [key, name]));
  for (const { id, name } of materials)
    if (!named.has(byProductKey(name))) named.set(byProductKey(id), name.toLowerCase());
  return [
    { value: '', words: none },
    ...[...named]
      .map(([value, words]) => ({ value, words }))
      .sort((one, other) => (one.words < other.words ? -1 : 1)),
  ];
}

/** The key by which a material of the household stands among the choices. */
export const choiceOfMaterial = (
  materialId: string,
  materials: readonly Material[],
  reference: ReferenceTables,
): string => {
  const material = materials.find(({ id }) => id === materialId);
  const key = material === undefined ? '' : byProductKey(material.name);
  return byProductsOfBook(reference).some((one) => one.key === key) ? key : byProductKey(materialId);
};

/** `2.5 lb of apple pulp and 1 lb of skins`; null for nothing. */
export function leftOverWords(
  parts: Recipe['gives'],
  materials: readonly Material[],
  reading: Reading,
): string | null {
  const words = parts.flatMap(({ materialId, quantity }) => {
    const material = materials.find(({ id }) => id === materialId);
    return material === undefined
      ? []
      : [
          `${formatQuantity(Math.round(quantity * 10) / 10, material.unit, reading)} of ${material.name.toLowerCase()}`,
        ];
  });
  return words.length === 0 ? null : listed(words);
}

/** What the book makes of a by-product, with the address at which it is added. */
export const madeOfByProduct = (
  name: string,
  reference: ReferenceTables,
): readonly { readonly name: string; readonly href: string }[] => [
  ...waysMadeOf(name, reference).map((way) => ({
    name: way.name,
    href: `/items/new?kind=uncanned&way=${way.wayKey}`,
  })),
  ...testedRecipes(reference)
    .filter(({ material }) => material === name.toLowerCase())
    .map((recipe) => ({ name: sentenceCase(recipe.name), href: `/items/new?recipe=${recipe.key}` })),
];
