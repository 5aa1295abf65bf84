import { type JarSize, nominalMl } from '../../../shared/jar.ts';
import type { CannerFactRow } from '../../../shared/schemas/reference/canner-fact.ts';
import { type Citation, citationOf, factNumber, factOf } from '../citation.ts';

export type AcidulatedFood = 'tomato' | 'fig' | 'asian_pear';
export type Acid = 'bottled_lemon_juice' | 'citric_acid' | 'vinegar_5pct';

/** Amount of one acid for one jar; the person uses one of the printed alternatives. */
export interface AcidAmount {
  readonly acid: Acid;
  readonly quantity: number;
  readonly unit: 'tbsp' | 'tsp';
  readonly source: Citation;
}

/** The acid that goes into each jar before it is closed. */
export interface AcidDose {
  readonly food: AcidulatedFood;
  readonly per: 'pint' | 'quart';
  /** Printed alternatives, the most usual first; exactly one is used. */
  readonly oneOf: readonly AcidAmount[];
}

const acids: readonly Acid[] = ['bottled_lemon_juice', 'citric_acid', 'vinegar_5pct'];

const acidulatedFoods: Readonly<Record<string, AcidulatedFood>> = {
  'tomato-juice': 'tomato',
  'tomato-vegetable-juice': 'tomato',
  'tomatoes-crushed': 'tomato',
  'tomato-sauce': 'tomato',
  'tomatoes-whole-water': 'tomato',
  'tomatoes-whole-juice': 'tomato',
  'tomatoes-whole-no-liquid': 'tomato',
  figs: 'fig',
  'asian-pears': 'asian_pear',
};

/** The kind of acid step a food needs per jar, or `undefined` when its acid is part of the recipe or its own. */
export const acidulatedFoodOf = (foodKey: string): AcidulatedFood | undefined =>
  Object.hasOwn(acidulatedFoods, foodKey) ? acidulatedFoods[foodKey] : undefined;

/**
 * Acid for one jar of tomatoes, figs or Asian pears, in the pressure canner too: a jar up to a pint gets the pint dose,
 * a jar up to a quart the quart dose. `undefined` for a jar larger than a quart, for which no dose is printed.
 *
 * Sources: USDA Complete Guide 3, p3-5 (tomatoes); Guide 2, p2-14 (figs) and p2-20 (Asian pears). Vinegar is printed
 * for a quart of tomatoes only, so a pint is never offered vinegar.
 */
export const acidDoseFor = (
  food: AcidulatedFood,
  jar: JarSize,
  facts: readonly CannerFactRow[],
): AcidDose | undefined => {
  if (nominalMl[jar] > nominalMl.quart) return undefined;
  const per = nominalMl[jar] <= nominalMl.pint ? 'pint' : 'quart';
  const oneOf = acids.flatMap((acid): AcidAmount[] => {
    const key = `acidify.${food}.${per}.${acid}`;
    if (!facts.some((fact) => fact.key === key)) return [];
    const fact = factOf(facts, key);
    const unit = fact.unit === 'tsp' ? 'tsp' : 'tbsp';
    return [{ acid, quantity: factNumber(facts, key), unit, source: citationOf(fact) }];
  });
  return { food, per, oneOf };
};
