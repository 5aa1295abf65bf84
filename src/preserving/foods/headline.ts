import { whileTheSame } from '../../../shared/remembering.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { Item } from '../../household/item.ts';
import type { Recipe } from '../../household/recipe.ts';
import { nameRefusals, nameWithTestedFood } from './food-names.ts';
import { testedFoodOf } from './name-questions.ts';

/**
 * What a batch that is canned is headed with on every page, paper, letter and in the command: the household's own name, and
 * the food its process was tested for beside it. Only the name where nothing is canned, or the name stands in the way.
 */
export const headlineOf = (
  { name }: Pick<Item, 'name'>,
  recipe: CannedRecipe,
  reference: ReferenceTables,
): string => headed({ name, recipe, reference });

type CannedRecipe = Pick<Recipe, 'basedOn' | 'process' | 'nameDenials'>;
interface Headed extends Pick<Item, 'name'> {
  readonly recipe: CannedRecipe;
  readonly reference: ReferenceTables;
}

const headed = whileTheSame('recipe', ({ name, recipe, reference }: Headed): string => {
  const { basedOn, process, nameDenials } = recipe;
  const food = process === null ? null : testedFoodOf(reference, basedOn, process);
  return food === null || nameRefusals(name, food, nameDenials).length > 0
    ? name
    : nameWithTestedFood(name, food);
});
