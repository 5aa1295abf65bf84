import { type JarKind, sizeOf } from '../../../shared/jar.ts';
import type { Cents } from '../../../shared/money.ts';
import { found, type Outcome, type Problem, refused } from '../../../shared/problems.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Household } from '../../household/household.ts';
import type { Canner } from '../../household/kitchen.ts';
import type { CrockNeeded, NameDenial } from '../../household/recipe.ts';
import { cannerFacts } from '../ask-gate.ts';
import { processOfRecipe } from '../process-here.ts';
import { keptRecipe } from './kept-recipe.ts';
import type { TestedRecipe } from './recipe-book.ts';
import { type CanningPlace, testedWays } from './tested-ways.ts';

/** A recipe of the book with everything a household's own copy of it needs. */
export interface RecipeToKeep {
  readonly name: string;
  /** Key in the recipe book. */
  readonly basedOn: string;
  /** Null for what is kept in bags, bins or by the pound. */
  readonly jarKind: JarKind | null;
  readonly process: { readonly food: string; readonly style: string; readonly pack: string } | null;
  /** Null while no canner of the kitchen fits: the recipe is kept, not planned. */
  readonly cannerId: string | null;
  readonly yieldLow: number;
  readonly yieldHigh: number;
  readonly handsOnMinutes: number;
  /** True while the minutes are the program's guess. */
  readonly minutesGuessed: boolean;
  readonly readyAfterDays: number;
  readonly crock: CrockNeeded | null;
  readonly stages: readonly { readonly name: string; readonly afterDays: number }[];
  readonly produce: readonly { readonly crop: string; readonly lb: number }[];
  readonly supplies: readonly SupplyNeeded[];
  /** What other batches leave that one batch of it takes. */
  readonly uses?: readonly { readonly material: MaterialToKeep; readonly quantity: number }[];
  /** Foods said not to be in it, though its name or its item's seems to say so. */
  readonly nameDenials?: readonly NameDenial[];
}

/** A by-product as a household begins to keep it. */
export interface MaterialToKeep {
  readonly name: string;
  readonly keepsDays: number;
}

export interface SupplyNeeded {
  readonly name: string;
  readonly unit: string;
  readonly quantity: number;
  /** Pack and price to begin with where the household has no such supply yet. */
  readonly pack: number;
  readonly packPrice: Cents;
}

/** Pack and price a supply is begun with, by its name and unit, where nobody has said any. */
export type GuessSupply = (name: string, unit: string) => { readonly pack: number; readonly price: Cents };

/** The household's kitchen as the preserving rules ask for it. */
export const canningPlace = (
  { altitudeFt }: Pick<Household, 'altitudeFt'>,
  canners: readonly Canner[],
  on: CalendarDate,
): CanningPlace => ({
  altitudeFt,
  canners: canners.map((canner) => ({ ...cannerFacts(canner), id: canner.id })),
  on,
});

export interface OwnChoice {
  readonly name: string;
  readonly jarKind: JarKind;
  readonly handsOnMinutes: number;
  readonly minutesGuessed: boolean;
  /** Pounds of a crop for one batch, by crop with hyphens, where the household says them. */
  readonly lbByCrop: ReadonlyMap<string, number>;
  /** What the item is called that it makes; its name is held against the recipe as well. */
  readonly itemName?: string;
  readonly nameDenials?: readonly NameDenial[];
}

/**
 * A recipe of the book as a household takes it into its own. Where no schedule exists here yet it is kept without being
 * planned: with the canner that fits if there is one, without any otherwise.
 */
export function recipeToKeep(
  recipe: TestedRecipe,
  choice: OwnChoice,
  place: CanningPlace,
  reference: ReferenceTables,
  guessSupply: GuessSupply,
): Outcome<RecipeToKeep> {
  const jar = sizeOf(choice.jarKind);
  const ways = testedWays(reference, recipe, place);
  if (ways.printed.length > 0 && !ways.printed.includes(jar))
    return refused({
      code: 'jar-not-tested',
      path: ['jarKind'],
      message: `${recipe.name} is tested for these jars: ${ways.printed.join(', ')}; ${jar} is none of them. Choose one.`,
    });
  const way = ways.here.find((one) => one.jar === jar) ?? ways.waiting.find((one) => one.jar === jar) ?? null;
  const kept = keptRecipe(recipe, jar, reference);
  const produce = kept.produce.map(({ cropKey, name, lb }) => {
    const crop = cropKey.replaceAll('_', '-');
    return { crop, name, lb: choice.lbByCrop.get(crop) ?? lb };
  });
  const unknown = produce.filter(({ lb }) => lb === null);
  if (unknown.length > 0)
    return refused(
      ...unknown.map(
        ({ crop, name }): Problem => ({
          code: 'pounds-unknown',
          path: [`lb-${crop}`],
          message: `No weight of ${name} is published for a batch. Weigh it once, or write your own guess.`,
        }),
      ),
    );
  const process = way?.process ?? recipe.processes[0] ?? null;
  const belongs = processOfRecipe(reference, {
    basedOn: recipe.key,
    names: [choice.name, ...(choice.itemName === undefined ? [] : [choice.itemName])],
    nameDenials: choice.nameDenials ?? [],
    process: process && { food: process.foodKey, style: process.style, pack: process.pack },
    crops: produce.map(({ crop }) => crop),
  });
  if (!belongs.ok) return belongs;
  return found({
    name: choice.name,
    nameDenials: choice.nameDenials ?? [],
    basedOn: recipe.key,
    jarKind: choice.jarKind,
    process: process && { food: process.foodKey, style: process.style, pack: process.pack },
    cannerId: way?.cannerId ?? null,
    yieldLow: kept.yieldLow,
    yieldHigh: kept.yieldHigh,
    handsOnMinutes: choice.handsOnMinutes,
    minutesGuessed: choice.minutesGuessed,
    readyAfterDays: kept.readyAfterDays,
    crock: kept.crock,
    stages: kept.stages,
    produce: produce.flatMap(({ crop, lb }) => (lb === null ? [] : [{ crop, lb }])),
    supplies: kept.supplies.map((supply) => {
      const { pack, price } = guessSupply(supply.name, supply.unit);
      return { ...supply, pack, packPrice: price };
    }),
  });
}
