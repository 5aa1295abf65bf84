import { whileTheSame } from '../../../shared/remembering.ts';
import type { HarvestWindowRow } from '../../../shared/schemas/reference/harvest-window.ts';
import { cropName } from '../../../src/harvest/crop-name.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import type { Choice } from '../../../views/parts/form.tsx';

/** Crops that recipes use and crops with a published season, by name; `none` says what no choice means. */
export const cropChoices = (
  recipes: readonly Recipe[],
  published: readonly HarvestWindowRow[],
  own: string,
  none: string,
): readonly Choice[] => choicesOf({ recipes, published, own, none });

interface CropsAsked {
  readonly recipes: readonly Recipe[];
  readonly published: readonly HarvestWindowRow[];
  readonly own: string;
  readonly none: string;
}

const choicesOf = whileTheSame(
  'recipes',
  ({ recipes, published, own, none }: CropsAsked): readonly Choice[] => {
    const keys = new Set([
      ...recipes.flatMap((recipe) => recipe.produce.map((part) => part.crop)),
      ...published.map((row) => row.cropKey.replaceAll('_', '-')),
      ...(own === '' ? [] : [own]),
    ]);
    const named = [...keys].map((key) => ({ value: key, words: cropName(published, key) }));
    return [{ value: '', words: none }, ...named.sort((one, other) => (one.words < other.words ? -1 : 1))];
  },
);
