import { sizeOf } from '../../shared/jar.ts';
import type { Outcome, Problem } from '../../shared/problems.ts';
import { refused } from '../../shared/problems.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { LocalDateTime } from '../household/begun.ts';
import type { Household } from '../household/household.ts';
import type { Item } from '../household/item.ts';
import type { Canner } from '../household/kitchen.ts';
import type { Recipe } from '../household/recipe.ts';
import type { Canner as CannerFacts, GaugeCheckPlannedOn } from './canner.ts';
import { type ProcessAnswer, processHere } from './process-here.ts';
import { batchProblems } from './recipes/batch-bounds.ts';
import { byProductKey } from './recipes/by-product.ts';
import type { TestedRecipe } from './recipes/recipe-book.ts';
import type { Prepared } from './stages/stage-question.ts';

/** Where it is asked whether a recipe may be processed. */
export interface GateKitchen {
  readonly household: Pick<Household, 'altitudeFt'>;
  readonly canners: readonly Canner[];
  readonly reference: ReferenceTables;
}

/** The gate's answer with the household's own canner. */
export interface GateAnswer extends ProcessAnswer {
  readonly canner: Canner;
}

/** Whether a recipe goes into sealed jars, and so through the gate. */
export const isCanned = (recipe: Pick<Recipe, 'process'>, item: Pick<Item, 'keeping'>): boolean =>
  recipe.process !== null || item.keeping === 'canned';

/** A day asked about without an hour. */
export const noonOf = (on: CalendarDate): LocalDateTime => `${on}T12:00`;

/** What is asked of a day. Only a plan names a day from which the yearly gauge check is counted on. */
export interface AskedOf {
  readonly at: LocalDateTime;
  readonly prepared: Prepared;
  readonly gaugeCheckPlannedOn?: GaugeCheckPlannedOn;
}

/**
 * Asks the gate about a recipe of the household: the one place where the program does. Every page, plan, sheet and command
 * that names a processing time has it from here.
 */
export function askGate(
  recipe: Recipe,
  item: Pick<Item, 'name'>,
  { household, canners, reference }: GateKitchen,
  { at, prepared, gaugeCheckPlannedOn = null }: AskedOf,
): Outcome<GateAnswer> {
  const { process } = recipe;
  if (process === null && recipe.awaitsCanner)
    return refused({
      code: 'canner-not-chosen',
      path: ['canner'],
      message: `No canner of this kitchen has been chosen for ${recipe.name}. Add a canner that fits on the kitchen page, then choose it on the page of ${item.name}.`,
    });
  if (process === null && recipe.processRefused !== null)
    return refused({ code: 'process-refused', path: ['process'], message: recipe.processRefused });
  const canner = canners.find(({ id }) => id === process?.cannerId) ?? null;
  const beyond = batchProblems(recipe, canner === null ? [] : Object.values(canner.holds));
  if (beyond.length > 0) return refused(...beyond);
  const ruling = processHere(reference, {
    basedOn: recipe.basedOn,
    names: [item.name, recipe.name],
    nameDenials: recipe.nameDenials,
    process,
    crops: recipe.produce.map(({ crop }) => crop),
    jar: process === null ? 'pint' : sizeOf(process.jarKind),
    canner: canner && cannerFacts(canner),
    altitudeFt: household.altitudeFt,
    prepared,
    at,
    gaugeCheckPlannedOn,
  });
  if (!ruling.ok) return ruling;
  const foreign = recipe.uses.filter(({ materialId }) => !mayTake(ruling.value.tested, materialId));
  if (foreign.length > 0) return refused(notOfTested(recipe.name));
  if (canner === null) throw new RangeError('askGate: expected a canner where the gate is open');
  return { ok: true, value: { ...ruling.value, canner } };
}

/** Whether what other batches leave, by its key, belongs to a tested recipe: nothing does that the recipe is not made of. */
export const mayTake = (tested: Pick<TestedRecipe, 'material'> | null, materialKey: string): boolean =>
  tested?.material != null && byProductKey(tested.material) === materialKey;

/** A tested recipe is made of what it was tested with. Source: USDA Complete Guide 1, p1-8. */
export const notOfTested = (recipeName: string): Problem => ({
  code: 'by-product-in-tested-recipe',
  path: ['takes'],
  message: `${recipeName} is canned by a tested recipe, and is made of what it was tested with. What another batch leaves goes into something frozen, dried or kept cold. Take it out of this recipe.`,
});

/** The household's canner as the preserving rules know it: what was counted wins over what is published. */
export const cannerFacts = (canner: Canner): CannerFacts => ({
  method: canner.method === 'steam' ? 'atmospheric-steam' : canner.method,
  gauge: canner.gauge,
  uprightQuarts: canner.holds.quarts,
  gaugeCheckedOn: canner.gaugeCheckedOn,
  gaugeOff: canner.gaugeOff,
  volumeQuarts: canner.volumeQuarts,
  counted: {
    quart: canner.holds.quarts,
    pint: canner.holds.pints,
    'half-pint': canner.holds.halfPints,
  },
});
