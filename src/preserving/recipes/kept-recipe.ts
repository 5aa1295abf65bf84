import type { JarSize } from '../../../shared/jar.ts';
import type { BuyUnit } from '../../../shared/schemas/reference/recipe.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { CrockNeeded } from '../../household/recipe.ts';
import { acidDoseFor, acidulatedFoodOf } from '../lookup/acid-dose.ts';
import { crockNeeded } from '../stages/crock-needed.ts';
import { daysFor, stagesOfWay, startsOf } from '../stages/recipe-stages.ts';
import type { RecipeProduce, TestedRecipe } from './recipe-book.ts';
import { scaleBatches, yieldIn } from './scaling.ts';
import { shoppingList } from './shopping-list.ts';

/** A crop one batch is made of. Pounds are null where neither a weight nor a cup weight is published. */
export interface KeptProduce {
  readonly cropKey: string;
  /** "sour cherries" */
  readonly name: string;
  readonly lb: number | null;
  /** Prepared weight leaves out peel, core and pit. */
  readonly weighed: RecipeProduce['weighed'];
}

/** Something one batch uses up that comes from the shop. */
export interface KeptSupply {
  readonly name: string;
  readonly unit: BuyUnit;
  readonly quantity: number;
}

/** A recipe of the book as a household takes it into its own, for one jar size. */
export interface KeptRecipe {
  /** Jars of that size: the low yield rounded down, the high one up. */
  readonly yieldLow: number;
  readonly yieldHigh: number;
  readonly produce: readonly KeptProduce[];
  readonly supplies: readonly KeptSupply[];
  /** From filling the jars to the first good one: curing. What stands or ferments before is counted by its stages. */
  readonly readyAfterDays: number;
  readonly crock: CrockNeeded | null;
  readonly stages: readonly { readonly name: string; readonly afterDays: number }[];
}

/** A crop below this share of the heaviest one is bought with the onions and the vinegar, not waited for at harvest. */
const harvestShare = 0.5;

/**
 * What a batch needs and gives. The crops that make up the most of it are waited for at harvest; the rest, with sugar,
 * vinegar, pectin and the acid that goes into each jar, comes from the shop in the units of the shopping list. A range
 * counts at its high end.
 *
 * Example: chile salsa waits for 5 lb of tomatoes; its 2 lb of chiles, 1 lb of onions, vinegar and salt are bought.
 */
export const keptRecipe = (recipe: TestedRecipe, jar: JarSize, tables: ReferenceTables): KeptRecipe => {
  const jars = yieldIn(recipe, jar);
  const yieldHigh = Math.ceil(jars.high - 1e-9);
  const waitedFor = cropsWaitedFor(recipe.produce);
  return {
    yieldLow: Math.max(1, Math.floor(jars.low + 1e-9)),
    yieldHigh,
    produce: waitedFor.map((line) => ({
      cropKey: line.cropKey ?? '',
      name:
        tables.ingredients.find((known) => known.ingredient === line.ingredient)?.shopAs ?? line.ingredient,
      lb: line.pounds === null ? null : Math.ceil(line.pounds.high * 2 - 1e-9) / 2,
      weighed: line.weighed,
    })),
    supplies: suppliesOf(
      recipe,
      jar,
      yieldHigh,
      new Set(waitedFor.map(({ ingredient }) => ingredient)),
      tables,
    ),
    readyAfterDays: recipe.curing?.daysLow ?? 0,
    crock: crockNeeded(
      recipe.stages,
      Math.max(0, ...recipe.produce.map((line) => line.pounds?.high ?? 0)),
      tables,
    ),
    stages: startsOf(stagesOfWay(recipe.stages))
      .filter(({ stage }, at, all) => stage.leastHours > 0 || at === all.length - 1)
      .map(({ stage, leastHours }) => ({ name: stage.what, afterDays: daysFor(leastHours) })),
  };
};

/** Two lines of one crop count as one. What is made first of something no crop of the tables (mangoes) is all bought. */
const cropsWaitedFor = (produce: readonly RecipeProduce[]): readonly RecipeProduce[] => {
  const [first] = produce;
  if (!first || first.cropKey === null) return [];
  const byCrop = new Map<string, RecipeProduce>();
  for (const line of produce) {
    if (line.cropKey === null) continue;
    const before = byCrop.get(line.cropKey);
    byCrop.set(line.cropKey, before ? together(before, line) : line);
  }
  const lines = [...byCrop.values()];
  const heaviest = Math.max(0, ...lines.map((line) => line.pounds?.high ?? 0));
  if (heaviest === 0) return lines.filter(({ cropKey }) => cropKey === first.cropKey);
  return lines.filter((line) => (line.pounds?.high ?? 0) >= heaviest * harvestShare);
};

const together = (one: RecipeProduce, other: RecipeProduce): RecipeProduce => ({
  ...one,
  pounds:
    one.pounds === null || other.pounds === null
      ? (one.pounds ?? other.pounds)
      : { low: one.pounds.low + other.pounds.low, high: one.pounds.high + other.pounds.high },
});

const suppliesOf = (
  recipe: TestedRecipe,
  jar: JarSize,
  jars: number,
  waitedFor: ReadonlySet<string>,
  tables: ReferenceTables,
): readonly KeptSupply[] => {
  const crops = new Set(
    recipe.produce.filter((line) => waitedFor.has(line.ingredient)).map(({ cropKey }) => cropKey),
  );
  const harvested = new Set(
    recipe.produce
      .filter(({ cropKey }) => cropKey !== null && crops.has(cropKey))
      .map((line) => line.ingredient),
  );
  const bought = {
    ...recipe,
    ingredients: recipe.ingredients.filter(({ ingredient }) => !harvested.has(ingredient)),
  };
  const batch = scaleBatches(bought, 1, jar);
  if (!batch.ok) return [];
  return shoppingList([batch.value], tables, acidOf(recipe, jar, jars, tables))
    .filter(({ needed }) => needed > 0)
    .map(({ name, unit, needed }) => ({ name, unit, quantity: needed }));
};

const acidOf = (recipe: TestedRecipe, jar: JarSize, jars: number, tables: ReferenceTables) => {
  const food = acidulatedFoodOf(recipe.processes[0]?.foodKey ?? '');
  const amount = food && acidDoseFor(food, jar, tables.cannerFacts)?.oneOf[0];
  return amount ? [{ recipeName: recipe.name, amount, jars }] : [];
};
