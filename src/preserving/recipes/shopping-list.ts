import type { MeasureRow } from '../../../shared/schemas/reference/measure.ts';
import type { BuyUnit, IngredientKind, IngredientRow } from '../../../shared/schemas/reference/recipe.ts';
import type { Acid, AcidAmount } from '../lookup/acid-dose.ts';
import { cupsPer, poundsOf } from './ingredient-weight.ts';
import type { RecipeIngredient } from './recipe-book.ts';
import type { ScaledBatches } from './scaling.ts';

export interface ShoppingLine {
  readonly name: string;
  readonly kind: IngredientKind;
  /** What the recipes ask for in all, in `unit`, not rounded. */
  readonly needed: number;
  /** Rounded up to what can be bought or weighed. */
  readonly buy: number;
  readonly unit: BuyUnit;
  /** Prepared weight: pick or buy more, for peel, core and pit. */
  readonly prepared: boolean;
  readonly forRecipes: readonly string[];
}

/** Acid per jar for so many jars of one recipe. */
export interface AcidForJars {
  readonly recipeName: string;
  readonly amount: AcidAmount;
  readonly jars: number;
}

export type ShoppingTables = {
  readonly ingredients: readonly IngredientRow[];
  readonly measures: readonly MeasureRow[];
};

/** USDA Complete Guide 7: a box of powdered pectin is printed as 1.75 oz (p7-9); a pouch of liquid holds 3 oz (p7-10). */
const ouncesPerPack: Partial<Readonly<Record<BuyUnit, number>>> = { package: 1.75, pouch: 3 };
/** Sums of thirds and quarters may miss a whole step by a rounding error. */
const stepTolerance = 1e-6;

const acidNames: Readonly<
  Record<Acid, { readonly name: string; readonly unit: BuyUnit; readonly step: number }>
> = {
  bottled_lemon_juice: { name: 'bottled lemon juice', unit: 'cup', step: 1 },
  citric_acid: { name: 'citric acid', unit: 'tsp', step: 1 },
  vinegar_5pct: { name: 'vinegar 5%', unit: 'qt', step: 1 },
};

/**
 * Everything a session needs, summed over its recipes under the name it is bought by, and rounded up to shopping units.
 * Ranges count at their high end. Amounts that cannot be turned into the shopping unit keep a line of their own in the
 * recipe's unit, so nothing is dropped. Own water and own juice are left out.
 */
export const shoppingList = (
  session: readonly ScaledBatches[],
  tables: ShoppingTables,
  acids: readonly AcidForJars[] = [],
): readonly ShoppingLine[] => {
  const lines = new Map<string, ShoppingLine & { readonly step: number }>();
  const add = (line: Omit<ShoppingLine, 'buy'> & { readonly step: number }): void => {
    const key = `${line.name}|${line.unit}|${line.prepared}`;
    const before = lines.get(key);
    const needed = (before?.needed ?? 0) + line.needed;
    const forRecipes = [...new Set([...(before?.forRecipes ?? []), ...line.forRecipes])];
    lines.set(key, { ...line, needed, buy: roundedUp(needed, line.step), forRecipes });
  };
  for (const batches of session) {
    for (const ingredient of batches.ingredients) {
      const bought = boughtAs(ingredient, batches, tables);
      if (bought) add({ ...bought, forRecipes: [batches.recipe.name] });
    }
  }
  for (const { recipeName, amount, jars } of acids) {
    const { name, unit, step } = acidNames[amount.acid];
    const cups = (amount.quantity * jars * (cupsPer[amount.unit] ?? 0)) / (cupsPer[unit] ?? 1);
    add({ name, kind: 'acid', needed: cups, unit, step, prepared: false, forRecipes: [recipeName] });
  }
  return [...lines.values()].map(({ step: _, ...line }) => line);
};

const roundedUp = (needed: number, step: number): number => Math.ceil(needed / step - stepTolerance) * step;

const boughtAs = (
  ingredient: RecipeIngredient,
  { recipe, batches }: ScaledBatches,
  { ingredients, measures }: ShoppingTables,
): (Omit<ShoppingLine, 'buy' | 'forRecipes'> & { readonly step: number }) | undefined => {
  const known = ingredients.find((row) => row.ingredient === ingredient.ingredient);
  const asIs = {
    name: known?.shopAs ?? ingredient.ingredient,
    kind: ingredient.kind,
    ...asListed(ingredient),
    step: ingredient.unit === 'lb' ? 0.5 : 1,
    prepared: false,
  };
  if (ingredient.kind === 'own') return undefined;
  if (!known?.buyUnit) return asIs;
  const step = known.buyStep ?? 1;
  if (known.buyUnit === 'lb') {
    const perBatch = { low: ingredient.quantity.low / batches, high: ingredient.quantity.high / batches };
    const weight = poundsOf(perBatch, ingredient.unit, known, measures);
    if (!weight) return asIs;
    const prepared = weight.weighed === 'prepared' && known.kind === 'produce' && recipe.amounts === 'batch';
    return { ...asIs, needed: weight.pounds.high * batches, unit: 'lb', step, prepared };
  }
  const inPacks = ouncesPerPack[known.buyUnit];
  if (inPacks !== undefined && ingredient.unit === 'oz') {
    return { ...asIs, needed: ingredient.quantity.high / inPacks, unit: known.buyUnit, step };
  }
  const from = cupsPer[ingredient.unit];
  const to = cupsPer[known.buyUnit];
  if (from !== undefined && to !== undefined) {
    return { ...asIs, needed: (ingredient.quantity.high * from) / to, unit: known.buyUnit, step };
  }
  return { ...asIs, step: ingredient.unit === known.buyUnit ? step : asIs.step };
};

// A recipe's pint is two cups on a shopping list.
const asListed = ({
  quantity,
  unit,
}: RecipeIngredient): { readonly needed: number; readonly unit: BuyUnit } =>
  unit === 'pint' ? { needed: quantity.high * 2, unit: 'cup' } : { needed: quantity.high, unit };
