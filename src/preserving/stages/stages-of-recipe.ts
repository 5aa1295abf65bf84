import { folded } from '../../../shared/folded.ts';
import { type BasisTables, recipeBasis } from '../recipes/recipe-basis.ts';
import { type RecipeStage, stagesOfFood } from './recipe-stages.ts';

/**
 * The stages that what a household's recipe is based on has in the book; where it follows no recipe of the book, those
 * its process was tested with. Empty for what is made in one go.
 */
export const stagesOfRecipe = (
  tables: BasisTables,
  basedOn: string,
  process: { readonly food: string; readonly style: string; readonly pack: string } | null,
): readonly RecipeStage[] => {
  const tested = recipeBasis(tables, basedOn, process)?.tested ?? null;
  if (tested !== null && (tested.stages.length > 0 || tested.key === folded(basedOn))) return tested.stages;
  return process === null ? [] : stagesOfFood(tables, process.food);
};
