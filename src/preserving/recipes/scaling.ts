import { type JarSize, nominalMl } from '../../../shared/jar.ts';
import type { PrintedRange } from '../../../shared/schemas/reference/cells.ts';
import { cite } from '../citation.ts';
import { allowed, forbidden, type Ruling, refusal } from '../refusal.ts';
import type { RecipeIngredient, RecipeProduce, TestedRecipe } from './recipe-book.ts';

/** Whole batches of one recipe in one jar size. */
export interface ScaledBatches {
  readonly recipe: TestedRecipe;
  readonly batches: number;
  readonly jar: JarSize;
  /** Pots to cook one after the other: as many as batches where a batch must not be multiplied, else one. */
  readonly pots: number;
  readonly produce: readonly RecipeProduce[];
  readonly ingredients: readonly RecipeIngredient[];
  /** Full jars to count on: the low yield, rounded down. */
  readonly stockJars: number;
  /** Jars to make ready: the high yield, rounded up, and one more. A new lid for each. */
  readonly jarsToPrepare: number;
  readonly lids: number;
}

/** One jar more than the high yield is made ready, so that a generous batch finds a hot jar. */
const spareJars = 1;
/** Volumes of jars that should divide evenly may miss by a rounding error of the machine. */
const countTolerance = 1e-9;

/**
 * Jars of a size from one batch, by volume: 8 to 9 pints are 16 to 18 half-pints. Not rounded.
 */
export const yieldIn = (recipe: TestedRecipe, jar: JarSize): PrintedRange => {
  const ratio = nominalMl[recipe.yield.jar] / nominalMl[jar];
  return { low: recipe.yield.low * ratio, high: recipe.yield.high * ratio };
};

/**
 * A recipe taken a whole number of times. Amounts grow with the batches; a jam, jelly or spread is cooked one batch a
 * pot. Stock is counted from the low yield, jars and lids from the high yield plus one.
 *
 * Example: 2 batches of apple butter in pints (8 to 9 a batch) need 16 lb of apples, stock 16 and 19 jars ready.
 *
 * Source of the one-batch rule: USDA Complete Guide 1, p1-30.
 */
export const scaleBatches = (
  recipe: TestedRecipe,
  batches: number,
  jar: JarSize = recipe.yield.jar,
): Ruling<ScaledBatches> => {
  if (!Number.isInteger(batches) || batches < 1 || batches > 100) {
    return forbidden(
      refusal(
        'batches-not-whole',
        'batches',
        `A tested batch is not divided: ${batches} is not a whole number from 1 to 100`,
        cite('USDA-G1', 'p1-30'),
        'Make one whole batch, or freeze part of the produce.',
      ),
    );
  }
  const jars = yieldIn(recipe, jar);
  const ready = Math.ceil(jars.high * batches - countTolerance) + spareJars;
  return allowed({
    recipe,
    batches,
    jar,
    pots: recipe.onePot ? batches : 1,
    produce: recipe.produce.map((line) => ({ ...line, pounds: line.pounds && times(line.pounds, batches) })),
    ingredients: recipe.ingredients.map((line) => ({ ...line, quantity: times(line.quantity, batches) })),
    stockJars: Math.floor(jars.low * batches + countTolerance),
    jarsToPrepare: ready,
    lids: ready,
  });
};

const times = (range: PrintedRange, factor: number): PrintedRange => ({
  low: range.low * factor,
  high: range.high * factor,
});
