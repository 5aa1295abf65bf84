import type { JarSize } from '../../../shared/jar.ts';
import type { BatchQuantityRow } from '../../../shared/schemas/reference/batch-quantity.ts';
import type { PrintedRange } from '../../../shared/schemas/reference/cells.ts';
import type { Pack } from '../../../shared/schemas/reference/process-time.ts';
import type { ProduceYieldRow } from '../../../shared/schemas/reference/produce-yield.ts';
import type {
  IngredientKind,
  RecipeKind,
  RecipeProcessRow,
} from '../../../shared/schemas/reference/recipe.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { type Citation, citationOf, factNumber } from '../citation.ts';
import { type RecipeStage, stagesOfKey } from '../stages/recipe-stages.ts';
import { poundsOf } from './ingredient-weight.ts';

export type { RecipeStage } from '../stages/recipe-stages.ts';

export type RecipeUnit = BatchQuantityRow['unit'];

export interface RecipeIngredient {
  readonly ingredient: string;
  readonly kind: IngredientKind;
  /** For one batch; equal ends unless a range is printed. */
  readonly quantity: PrintedRange;
  readonly unit: RecipeUnit;
}

/** Produce for one batch. Pounds are `null` where neither a weight nor a cup weight is published. */
export interface RecipeProduce {
  readonly ingredient: string;
  readonly cropKey: string | null;
  readonly pounds: PrintedRange | null;
  /** Prepared weight leaves out peel, core and pit: pick more. */
  readonly weighed: 'as-picked' | 'prepared';
  readonly source: Citation;
}

export interface RecipeProcess {
  readonly foodKey: string;
  readonly style: string;
  readonly pack: Pack;
}

/** One tested batch, or one canner load of a food that is put up by the load. */
export interface TestedRecipe {
  readonly key: string;
  readonly name: string;
  readonly kind: RecipeKind;
  /** A load is 7 quarts or 9 pints; a batch is what the recipe prints. */
  readonly amounts: 'batch' | 'load';
  readonly ingredients: readonly RecipeIngredient[];
  readonly produce: readonly RecipeProduce[];
  /** Jars of the printed size from one batch. */
  readonly yield: { readonly low: number; readonly high: number; readonly jar: JarSize };
  /** Printed processes that belong to it; empty never happens. */
  readonly processes: readonly RecipeProcess[];
  /** Never multiplied in one pot: n batches are n pots, one after the other. */
  readonly onePot: boolean;
  /** All printed ways, in order; the jars are filled and processed at the last. Empty when it is made in one go. */
  readonly stages: readonly RecipeStage[];
  readonly curing: { readonly daysLow: number; readonly daysHigh: number; readonly source: Citation } | null;
  readonly byProducts: readonly {
    readonly material: string;
    readonly keepDays: number;
    readonly source: Citation;
  }[];
  /** What other recipes leave and a load is made of; null for what is made of none. No amount is published. */
  readonly material: string | null;
  readonly source: Citation;
}

export type RecipeTables = Pick<
  ReferenceTables,
  | 'batchQuantities'
  | 'yields'
  | 'cannerFacts'
  | 'measures'
  | 'ingredients'
  | 'recipeProcesses'
  | 'recipeStages'
  | 'recipeCuring'
  | 'recipeByProducts'
>;

/**
 * Every recipe the tables carry: tested batches in the order of their table, then foods put up by the canner load, once
 * as 7 quarts and once as 9 pints where a load is printed. Hands-on minutes are not published; they belong to the
 * household.
 *
 * Keys: `apple-butter`; `peaches-quarts`, `peaches-pints`; where a food has two printed forms, `tomato-sauce-thick-quarts`.
 */
export const recipeBook = (tables: RecipeTables): readonly TestedRecipe[] => [
  ...batchRecipes(tables),
  ...loadRecipes(tables),
];

const batchRecipes = (tables: RecipeTables): TestedRecipe[] => {
  const keys = [...new Set(tables.batchQuantities.map((row) => row.productKey))];
  return keys.flatMap((key) => {
    const lines = tables.batchQuantities.filter((row) => row.productKey === key);
    const processes = tables.recipeProcesses.filter(
      (row) => row.amounts === 'batch' && row.recipeKey === key,
    );
    const [line] = lines;
    const [process] = processes;
    if (!line || !process) return [];
    return [
      {
        key,
        name: line.product,
        amounts: 'batch' as const,
        ingredients: lines.map((row) => ({
          ingredient: row.ingredient,
          kind: tables.ingredients.find((known) => known.ingredient === row.ingredient)?.kind ?? 'other',
          quantity: row.quantity,
          unit: row.unit,
        })),
        produce: lines.flatMap((row) => batchProduce(row, tables)),
        yield: { low: line.yieldJars.low, high: line.yieldJars.high, jar: line.yieldJar },
        source: citationOf(line),
        ...commonParts(key, process, processes, tables),
      },
    ];
  });
};

const batchProduce = (row: BatchQuantityRow, tables: RecipeTables): RecipeProduce[] => {
  const known = tables.ingredients.find((candidate) => candidate.ingredient === row.ingredient);
  if (known?.kind !== 'produce') return [];
  const weight = poundsOf(row.quantity, row.unit, known, tables.measures);
  return [
    {
      ingredient: row.ingredient,
      cropKey: known.cropKey,
      pounds: weight?.pounds ?? null,
      weighed: weight?.weighed ?? 'prepared',
      source: weight?.weighed === 'prepared' ? citationOf(known) : citationOf(row),
    },
  ];
};

const commonParts = (
  key: string,
  process: RecipeProcessRow,
  processes: readonly RecipeProcessRow[],
  tables: RecipeTables,
): Pick<TestedRecipe, 'kind' | 'processes' | 'onePot' | 'stages' | 'curing' | 'byProducts' | 'material'> => {
  const curing = tables.recipeCuring.find((row) => row.recipeKey === key);
  return {
    kind: process.kind,
    processes: processes.map(({ foodKey, style, pack }) => ({ foodKey, style, pack })),
    onePot: process.onePot,
    material: process.material,
    stages: stagesOfKey(tables, key),
    curing: curing
      ? { daysLow: curing.daysLow, daysHigh: curing.daysHigh, source: citationOf(curing) }
      : null,
    byProducts: tables.recipeByProducts
      .filter((row) => row.recipeKey === key)
      .map((row) => ({ material: row.material, keepDays: row.keepDays, source: citationOf(row) })),
  };
};

const loadSizes = [
  { suffix: 'quarts', jar: 'quart', jars: 7, syrupLoad: '7qt_load' },
  { suffix: 'pints', jar: 'pint', jars: 9, syrupLoad: '9pt_load' },
] as const;

const loadRecipes = (tables: RecipeTables): TestedRecipe[] => {
  const foodKeys = [
    ...new Set(tables.recipeProcesses.filter((row) => row.amounts === 'load').map((row) => row.recipeKey)),
  ];
  return foodKeys.flatMap((foodKey) =>
    formsOf(foodKey, tables).flatMap((form) =>
      loadSizes.flatMap((size) => loadRecipe(foodKey, form, size, tables) ?? []),
    ),
  );
};

interface LoadForm {
  readonly suffix: string;
  readonly name: string;
  readonly rows: readonly ProduceYieldRow[];
}

const formWord = /thin|thick/;

// Two rows of one food are two forms when they are two thicknesses of a sauce, and two parts of one mixture otherwise.
const formsOf = (foodKey: string, tables: RecipeTables): LoadForm[] => {
  const rows = tables.yields.filter((row) => row.foodKey === foodKey);
  const [first] = rows;
  if (!first) return [];
  if (rows.every((row) => formWord.test(row.form)) && rows.length > 1) {
    return rows.map((row) => ({
      suffix: `-${formWord.exec(row.form)?.[0] ?? ''}`,
      name: `${row.food}, ${row.form}`,
      rows: [row],
    }));
  }
  const name = rows.length > 1 ? rows.map((row) => row.food).join(' with ') : `${first.food}, ${first.form}`;
  return [{ suffix: '', name, rows }];
};

const loadRecipe = (
  foodKey: string,
  form: LoadForm,
  size: (typeof loadSizes)[number],
  tables: RecipeTables,
): TestedRecipe | undefined => {
  const processes = tables.recipeProcesses.filter(
    (row) => row.amounts === 'load' && row.recipeKey === foodKey,
  );
  const [process] = processes;
  const [first] = form.rows;
  if (!process || !first) return undefined;
  const poundsIn = (row: ProduceYieldRow): PrintedRange | null =>
    size.jar === 'quart' ? row.lbPerSevenQuartLoad : row.lbPerNinePintLoad;
  const isLeftOver = process.material !== null;
  if (!isLeftOver && form.rows.some((row) => poundsIn(row) === null)) return undefined;
  const produce = isLeftOver ? [] : form.rows;
  return {
    key: `${foodKey}${form.suffix}-${size.suffix}`,
    name: `${form.name} (${size.jars} ${size.suffix})`,
    amounts: 'load',
    ingredients: [
      ...produce.map((row) => ({
        ingredient: row.food.toLowerCase(),
        kind: 'produce' as const,
        quantity: poundsIn(row) ?? { low: 0, high: 0 },
        unit: 'lb' as const,
      })),
      ...syrupFor(process, size.syrupLoad, tables),
    ],
    produce: produce.map((row) => ({
      ingredient: row.food.toLowerCase(),
      cropKey: process.cropKey,
      pounds: poundsIn(row),
      weighed: 'as-picked',
      source: citationOf(row),
    })),
    yield: { low: size.jars, high: size.jars, jar: size.jar },
    source: citationOf(first),
    ...commonParts(foodKey, process, processes, tables),
  };
};

const syrupFor = (
  process: RecipeProcessRow,
  load: (typeof loadSizes)[number]['syrupLoad'],
  { cannerFacts }: RecipeTables,
): RecipeIngredient[] => {
  if (process.syrup === null) return [];
  const cups = (what: 'water' | 'sugar'): PrintedRange => {
    const amount = factNumber(cannerFacts, `syrup.${process.syrup}.${load}.${what}`);
    return { low: amount, high: amount };
  };
  return [
    { ingredient: 'water', kind: 'own', quantity: cups('water'), unit: 'cup' },
    { ingredient: 'sugar', kind: 'sugar', quantity: cups('sugar'), unit: 'cup' },
  ];
};
