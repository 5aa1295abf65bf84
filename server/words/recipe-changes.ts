import type { Recipe } from '../../src/household/recipe.ts';
import { listed } from '../../views/words/sentences.ts';

/** `changed here: dried spices and less sugar`, on the canning day; empty when the recipe is followed as printed. */
export const changedWords = ({ changes }: Pick<Recipe, 'changes'>): readonly string[] =>
  changes.length === 0
    ? []
    : [`changed here: ${listed(changes.map((change) => change.replaceAll('-', ' ')))}`];
