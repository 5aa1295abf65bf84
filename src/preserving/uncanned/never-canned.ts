import { ownWay } from '../../household/recipe.ts';
import { processOfRecipe } from '../process-here.ts';
import type { BasisTables } from '../recipes/recipe-basis.ts';

/** Why a recipe of the household's own is never canned, in the words of the gate: no process was tested for it. */
export const neverCanned = (tables: BasisTables): string => {
  const ruling = processOfRecipe(tables, { basedOn: ownWay, names: [], process: null, crops: [] });
  if (ruling.ok) throw new RangeError('neverCanned: expected the gate to be shut where no process is named');
  return ruling.problems.map(({ message }) => message).join(' ');
};
