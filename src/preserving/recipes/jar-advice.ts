import { asJarKind, type JarSize, jarSizes, mouthOf, nominalMl, sizeOf } from '../../../shared/jar.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { ItemUse } from '../../consumption/items/item-use.ts';
import type { HouseholdFacts } from '../../household/facts.ts';
import type { Item } from '../../household/item.ts';
import { type JarSizeAdvice, jarSizeAdvice } from '../../shelf/jar-size/jar-size-advice.ts';
import { keepColdDaysOf } from '../../shelf/keep-cold.ts';
import { askGate, noonOf } from '../ask-gate.ts';
import { gaugeCheckPlannedOn } from '../canner.ts';

export interface JarAdviceHere {
  readonly advice: JarSizeAdvice;
  /** Servings of one meal, by the wish or by what was declared; null for what is eaten by the spoonful. */
  readonly mealServings: number | null;
  /** Days an opened jar was taken to keep cold, and whether somebody wrote that down. */
  readonly keepColdDays: number;
  readonly keepColdIsKnown: boolean;
}

/** What the advice for an item looks at, on a day. */
export interface JarAdviceAsked {
  readonly facts: Pick<HouseholdFacts, 'household' | 'canners' | 'recipes' | 'jars' | 'lids' | 'jarWishes'>;
  readonly asOf: CalendarDate;
  /** Undefined or without a forecast for what nobody says they eat. */
  readonly use: Pick<ItemUse, 'declared' | 'forecast'> | undefined;
}

/** Why there is no advice: it is not canned here, or something must be said first. */
export type NoJarAdvice = 'not canned' | 'no use' | 'no servings' | 'no meal';

/** Servings up to two tablespoons, in millilitres, are eaten by the spoonful and make no meal. Judged, no source. */
const largestSpoonful = 30;

/**
 * Which jar an item is best put up in here: only sizes that one of its recipes has a published process for, in that recipe's
 * canner at this altitude. One jar is one meal if the household says so, by its wish for jars or by counting its use by the meal.
 */
export function jarAdvice(
  { facts, asOf, use }: JarAdviceAsked,
  item: Item,
  reference: ReferenceTables,
): JarAdviceHere | NoJarAdvice {
  const sizes = testedSizes({ facts, asOf }, item, reference);
  if (item.usualJar === null || sizes === null) return 'not canned';
  if (!use?.forecast) return 'no use';
  const said = use.declared;
  const wish = facts.jarWishes.get(item.id) ?? null;
  const mealInJars = said?.per === 'meal' && said.countedIn === 'units' ? said.amount : null;
  // Without servings a whole jar is the measure; only a meal counted in jars can be told then.
  if (item.servingsPerUnit === null && mealInJars === null) return 'no servings';
  const perJar = item.servingsPerUnit ?? 1;
  const byTheMeal =
    said?.per !== 'meal'
      ? null
      : mealInJars === null
        ? said.amount * (said.people ?? 1)
        : mealInJars * perJar;
  const servingMl = nominalMl[sizeOf(item.usualJar)] / perJar;
  if (wish === null && byTheMeal === null && servingMl > largestSpoonful) return 'no meal';
  const mealServings = wish === null ? byTheMeal : wish.mealServings;
  const servings = mealServings ?? 1;
  const { days, isKnown } = keepColdDaysOf(item);
  return {
    mealServings,
    keepColdDays: days,
    keepColdIsKnown: isKnown,
    advice: jarSizeAdvice({
      item: item.name,
      servingMl,
      mealServings,
      sittings: { perWeek: (use.forecast.perWeek * perJar) / servings, spread: 1, servings },
      keepColdDays: days,
      ownSizes: [
        ...(wish?.gifts ? [{ ...wish.gifts, purpose: 'gifts' }] : []),
        ...(wish?.lunches ? [{ ...wish.lunches, purpose: 'lunches' }] : []),
      ],
      candidates: jarSizes.map((size) => ({
        size,
        hasTestedProcess: sizes.has(size),
        costCents: costOfFilling(facts, size),
      })),
    }),
  };
}

/** Sizes some recipe of the item may be processed in here; null when none of them is canned. Metric jars only where they are held. */
function testedSizes(
  { facts, asOf }: Pick<JarAdviceAsked, 'facts' | 'asOf'>,
  item: Item,
  reference: ReferenceTables,
): ReadonlySet<JarSize> | null {
  const canned = facts.recipes.flatMap((recipe) =>
    recipe.itemId === item.id && recipe.process !== null ? [{ ...recipe, process: recipe.process }] : [],
  );
  if (canned.length === 0) return null;
  const held = new Set(facts.jars.map(({ kind }) => sizeOf(kind)));
  const kitchen = { household: facts.household, canners: facts.canners, reference };
  const checked = gaugeCheckPlannedOn(asOf);
  const asked = { at: noonOf(checked), prepared: 'as-planned', gaugeCheckPlannedOn: checked } as const;
  return new Set(
    jarSizes.filter(
      (size) =>
        (held.has(size) || !/-m?l$/.test(size)) &&
        canned.some(
          ({ process, ...recipe }) =>
            askGate(
              { ...recipe, process: { ...process, jarKind: asJarKind(size, 'regular') } },
              item,
              kitchen,
              asked,
            ).ok,
        ),
    ),
  );
}

/**
 * Cents a filled jar costs beyond its food: a new lid, and the part of a jar that does not come back. The cheaper of the mouths
 * that are held; null for a size of which the household has no jars.
 */
function costOfFilling(facts: JarAdviceAsked['facts'], size: JarSize): number | null {
  const costs = facts.jars
    .filter(({ kind }) => sizeOf(kind) === size)
    .map(({ kind, price, pack, returnShare }) => {
      const lid = facts.lids.find(({ mouth }) => mouth === mouthOf(kind));
      return (lid ? lid.boxPrice / lid.box : 0) + (1 - returnShare) * (price / pack);
    });
  return costs.length === 0 ? null : Math.min(...costs);
}
