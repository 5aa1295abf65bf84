import { folded } from '../../../shared/folded.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { cropBelongs } from '../foods/crop-of-food.ts';
import type { ProcessTables } from '../lookup/process-lookup.ts';
import type { RecipeProcess, RecipeTables, TestedRecipe } from './recipe-book.ts';
import { testedRecipes } from './tested-recipes.ts';

export type BasisTables = ProcessTables & RecipeTables & Pick<ReferenceTables, 'processTimes'>;

/** What a household's recipe is based on, and what therefore belongs to it. */
export interface RecipeBasis {
  /** The tested food in words: "Peaches". */
  readonly name: string;
  /** The recipe of the book; `null` for a food whose process is printed without one there, plum jam. */
  readonly tested: TestedRecipe | null;
  /** Printed processes that belong to it; never empty. */
  readonly processes: readonly RecipeProcess[];
  readonly hasCrop: (crop: string) => boolean;
}

/** Rows that name no food of their own: nothing can be based on them. */
const noFood: ReadonlySet<string> = new Set(['jam-jelly-unsterilised', 'remade-soft-jelly']);

/**
 * What `basedOn` names: a recipe of the book by its key, or a food of the processing table by its key where the household
 * follows the printed process without a recipe of the book (`plum-jam`, `meat-stock`). `undefined` when it names neither;
 * then nothing is tested.
 *
 * Of a food's recipes in the book the one that has the process is meant, so that its stages count: `beans-dried` soaks.
 */
export const recipeBasis = (
  tables: BasisTables,
  basedOn: string,
  process: { readonly style: string; readonly pack: string } | null = null,
): RecipeBasis | undefined => {
  const key = folded(basedOn);
  const book = testedRecipes(tables);
  const tested = book.find((recipe) => recipe.key === key);
  if (tested) return basisOfRecipe(tables, tested);

  const rows = noFood.has(key) ? [] : tables.processTimes.filter(({ foodKey }) => foodKey === key);
  const [first] = rows;
  if (!first) return undefined;
  const ofFood = book.filter(({ processes }) => processes.some(({ foodKey }) => foodKey === key));
  const meant = ofFood.find(({ processes }) => processes.some((one) => isSame(one, process))) ?? ofFood[0];
  return {
    name: first.food,
    tested: meant ?? null,
    processes: distinct(rows.map(({ foodKey, style, pack }) => ({ foodKey, style, pack }))),
    hasCrop: (crop) =>
      cropBelongs(crop, {
        foodKey: key,
        words: rows.flatMap(({ food, style }) => [food, style]),
        produce: ofFood.flatMap(({ produce }) => produce),
      }),
  };
};

const basisOfRecipe = ({ processTimes }: BasisTables, tested: TestedRecipe): RecipeBasis => ({
  name: tested.name,
  tested,
  processes: tested.processes,
  hasCrop: (crop) =>
    tested.processes.some(({ foodKey }) =>
      cropBelongs(crop, {
        foodKey,
        words: [
          tested.name,
          ...processTimes
            .filter((row) => row.foodKey === foodKey)
            .flatMap(({ food, style }) => [food, style]),
        ],
        produce: tested.produce,
      }),
    ),
});

const isSame = (
  printed: RecipeProcess,
  process: { readonly style: string; readonly pack: string } | null,
): boolean =>
  process !== null && folded(printed.style) === folded(process.style) && printed.pack === process.pack;

const distinct = (processes: readonly RecipeProcess[]): RecipeProcess[] => [
  ...new Map(processes.map((one) => [`${one.foodKey}|${one.style}|${one.pack}`, one])).values(),
];

/** The process of a basis that is meant by food, style and pack; `undefined` when it is another food's or none. */
export const processOfBasis = (
  { processes }: RecipeBasis,
  { food, style, pack }: { readonly food: string; readonly style: string; readonly pack: string },
): RecipeProcess | undefined =>
  processes.find(
    (printed) =>
      printed.foodKey === folded(food) && folded(printed.style) === folded(style) && printed.pack === pack,
  );
