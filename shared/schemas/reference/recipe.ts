import { z } from 'zod';
import { basis, numberCell, optionalNumberCell, sourceKey, tableKey } from './cells.ts';
import { pack } from './process-time.ts';

const optionalText = z.string().transform((text) => (text === '' ? null : text));
const provenance = { source_id: sourceKey, source_locator: z.string().min(1), basis };
const provenanceOf = (row: { source_id: string; source_locator: string; basis: z.output<typeof basis> }) => ({
  sourceId: row.source_id,
  locator: row.source_locator,
  basis: row.basis,
});

export const recipeKind = z.enum([
  'jam',
  'jelly',
  'spread',
  'butter',
  'syrup',
  'fruit',
  'sauce-fruit',
  'juice',
  'pie-filling',
  'tomato',
  'salsa',
  'sauce',
  'ketchup',
  'chutney',
  'relish',
  'pickle',
  'ferment',
  'vegetable',
  'beans',
  'meal',
]);
export type RecipeKind = z.output<typeof recipeKind>;

export const ingredientKind = z.enum([
  'produce',
  'sugar',
  'salt',
  'acid',
  'pectin',
  'thickener',
  'spice',
  'other',
  'own',
]);
export type IngredientKind = z.output<typeof ingredientKind>;

export const buyUnits = ['lb', 'qt', 'cup', 'oz', 'tbsp', 'tsp', 'each', 'package', 'pouch'] as const;
export type BuyUnit = (typeof buyUnits)[number];

/** What an ingredient is, how it is bought and which crop it is. */
export const ingredientRow = z
  .object({
    ingredient: z.string().min(1),
    kind: ingredientKind,
    shop_as: optionalText,
    buy_unit: z.enum(['', ...buyUnits]),
    buy_step: optionalNumberCell,
    crop_key: optionalText,
    cup_measure: optionalText,
    printed_lb: optionalNumberCell,
    ...provenance,
  })
  .transform((row) => ({
    ingredient: row.ingredient,
    kind: row.kind,
    shopAs: row.shop_as,
    buyUnit: row.buy_unit === '' ? null : row.buy_unit,
    buyStep: row.buy_step,
    cropKey: row.crop_key,
    cupMeasure: row.cup_measure,
    printedLb: row.printed_lb,
    ...provenanceOf(row),
  }));
export type IngredientRow = Readonly<z.output<typeof ingredientRow>>;

/** Which printed process belongs to a recipe; one line per style and pack. */
export const recipeProcessRow = z
  .object({
    basis_of_amounts: z.enum(['batch', 'load']),
    recipe_key: tableKey,
    kind: recipeKind,
    food_key: tableKey,
    style: z.string().min(1),
    pack,
    crop_key: optionalText,
    material: optionalText,
    syrup: z.enum(['', 'very_light', 'light', 'medium', 'heavy', 'very_heavy']),
    one_pot: z.enum(['0', '1']),
    ...provenance,
  })
  .transform((row) => ({
    amounts: row.basis_of_amounts,
    recipeKey: row.recipe_key,
    kind: row.kind,
    foodKey: row.food_key,
    style: row.style,
    pack: row.pack,
    cropKey: row.crop_key,
    syrup: row.syrup === '' ? null : row.syrup,
    material: row.material,
    onePot: row.one_pot === '1',
    ...provenanceOf(row),
  }));
export type RecipeProcessRow = Readonly<z.output<typeof recipeProcessRow>>;

/** Where food waits between two positions of a recipe; `jar`: sealed or covered in the jar; `none`: no wait. */
export const stagePlaces = ['crock', 'refrigerator', 'counter', 'freezer', 'pot', 'jar', 'none'] as const;
export type StagePlace = (typeof stagePlaces)[number];

/** What a household has only so much of, taken up while food waits. */
export const stageVessels = ['crock', 'refrigerator', 'pot'] as const;
export type StageVessel = (typeof stageVessels)[number];

/** What is done at a position of a recipe that is not made in one go, and the wait before the next. */
export const recipeStageRow = z
  .object({
    recipe_key: tableKey,
    position: numberCell.refine((at) => Number.isInteger(at) && at >= 1, 'Expected position 1 or later'),
    way: optionalText,
    what: z.string().min(1),
    least_hours: numberCell.refine((hours) => hours >= 0, 'Expected no hours or more'),
    most_hours: optionalNumberCell,
    counted: z.enum(['hours', 'date']),
    place: z.enum(stagePlaces),
    temp_from_f: optionalNumberCell,
    temp_to_f: optionalNumberCell,
    occupies: z.enum([...stageVessels, 'none']),
    ...provenance,
  })
  .refine((row) => row.most_hours === null || row.least_hours <= row.most_hours, {
    message: 'Expected the shorter wait first',
    path: ['most_hours'],
  })
  .refine((row) => row.counted === 'hours' || row.least_hours % 24 === 0, {
    message: 'Expected whole days of 24 hours in a wait that is counted by the date',
    path: ['least_hours'],
  })
  .refine((row) => row.temp_from_f === null || row.temp_to_f === null || row.temp_from_f <= row.temp_to_f, {
    message: 'Expected the lower temperature first',
    path: ['temp_to_f'],
  })
  .transform((row) => ({
    recipeKey: row.recipe_key,
    position: row.position,
    way: row.way,
    what: row.what,
    leastHours: row.least_hours,
    mostHours: row.most_hours,
    counted: row.counted,
    place: row.place,
    tempFromF: row.temp_from_f,
    tempToF: row.temp_to_f,
    occupies: row.occupies === 'none' ? null : row.occupies,
    ...provenanceOf(row),
  }));
export type RecipeStageRow = Readonly<z.output<typeof recipeStageRow>>;

/** How long sealed jars should stand before they are eaten. */
export const recipeCuringRow = z
  .object({ recipe_key: tableKey, days_low: numberCell, days_high: numberCell, ...provenance })
  .refine((row) => row.days_low <= row.days_high, {
    message: 'Expected the shorter time first',
    path: ['days_high'],
  })
  .transform((row) => ({
    recipeKey: row.recipe_key,
    daysLow: row.days_low,
    daysHigh: row.days_high,
    ...provenanceOf(row),
  }));

/** What a recipe leaves over that is the raw material of another. */
export const recipeByProductRow = z
  .object({ recipe_key: tableKey, material: z.string().min(1), keep_days: numberCell, ...provenance })
  .transform((row) => ({
    recipeKey: row.recipe_key,
    material: row.material,
    keepDays: row.keep_days,
    ...provenanceOf(row),
  }));
