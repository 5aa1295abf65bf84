import type { ItemId } from '../../shared/ids.ts';
import type { UseForecast } from '../../src/consumption/use-forecast.ts';
import type { Item } from '../../src/household/item.ts';
import type { Recipe } from '../../src/household/recipe.ts';
import type { HouseholdYear } from '../../src/planning/year/household-year.ts';
import type { Missing, MissingCause } from '../../src/planning/year/item-year.ts';
import { cropsAhead, gatheredLb } from '../../src/planning/year/supply-weeks.ts';
import type { ItemSupply } from '../../src/planning/year/year-supply.ts';
import { listed } from '../../views/words/sentences.ts';
import { cropGuessFor } from '../reference/first-year.ts';

/** Below half a unit nobody says that something is there. */
export const leastUnit = 0.5;

/**
 * What is missing for an item that is wanted and that nothing can bring: neither a recipe that may be canned here and whose
 * crops come, nor a pack to buy. Null where something can come, or nobody eats it.
 */
export const whatIsMissing = (
  loaded: HouseholdYear,
  {
    item,
    supply,
    forecast,
  }: { readonly item: Item; readonly supply: ItemSupply; readonly forecast: UseForecast | null },
): Missing | null => {
  const isWanted = forecast?.weeklyMean.some((units) => units > 0) ?? false;
  if (!isWanted || supply.by === 'bought') return null;
  const own = loaded.facts.recipes.filter(({ itemId }) => itemId === item.id);
  if (own.length === 0) return item.kind === 'staple' ? packMissing(item.id) : recipeMissing(item.id);
  if (supply.nextSupplyWeek === null) return least(own.map((recipe) => missingFor(loaded, recipe)));
  // Something could be made, were there anything to fill.
  const ways = own.filter(({ id }) => loaded.recipes.planned.some((planned) => planned.id === id));
  const lacking = ways.map(
    (recipe) =>
      vesselMissing(loaded, recipe) ??
      crockMissing(loaded, recipe) ??
      freezerMissing(loaded, item, recipe) ??
      materialMissing(loaded, recipe),
  );
  return lacking.length > 0 && lacking.every((missing) => missing !== null) ? least(lacking) : null;
};

/** Of several ways to make an item, what the way needs that lacks the least: a source is sooner found than a canner. */
const soonestMended: readonly MissingCause[] = [
  'altitude',
  'gauge',
  'jars',
  'lids',
  'crock',
  'freezer',
  'harvest',
  'source',
  'time',
  'by-product',
  'pack',
  'canner',
  'process',
  'recipe',
];

const least = (all: readonly (Missing | null)[]): Missing | null =>
  all
    .flatMap((missing) => (missing === null ? [] : [missing]))
    .toSorted((one, other) => soonestMended.indexOf(one.cause) - soonestMended.indexOf(other.cause))[0] ??
  null;

const packMissing = (id: ItemId): Missing => ({
  cause: 'pack',
  words: 'no pack to buy is written down',
  step: { words: 'Add a pack and its price', href: `/items/${id}#packs` },
});

const recipeMissing = (id: ItemId): Missing => ({
  cause: 'recipe',
  words: 'no recipe of it is kept',
  step: { words: 'Choose a recipe', href: `/items/${id}#recipes` },
});

function missingFor(loaded: HouseholdYear, recipe: Recipe): Missing | null {
  const leftOut = loaded.recipes.leftOut.find(({ recipeId }) => recipeId === recipe.id);
  if (leftOut !== undefined) return refusedBecause(leftOut.reasons[0]?.code ?? '', recipe);
  return (
    cropMissing(loaded, recipe) ??
    materialMissing(loaded, recipe) ??
    crockMissing(loaded, recipe) ??
    timeMissing()
  );
}

const refusedBecause = (code: string, { itemId }: Recipe): Missing => {
  switch (code) {
    case 'altitude-unknown':
      return {
        cause: 'altitude',
        words: 'the altitude of the kitchen is not known',
        step: { words: 'Enter the altitude', href: '/kitchen#altitude' },
      };
    case 'dial-gauge-unchecked':
      return {
        cause: 'gauge',
        words: 'no check of the canner’s dial gauge is recorded',
        step: { words: 'Record the gauge check', href: '/kitchen#canners' },
      };
    case 'gauge-figures-missing':
      return {
        cause: 'gauge',
        words: 'what the gauge check found is not written down',
        step: { words: 'Write down its figures', href: '/kitchen#canners' },
      };
    case 'dial-gauge-off':
    case 'dial-gauge-reads-high':
      return {
        cause: 'gauge',
        words: 'the canner’s dial gauge was found wrong',
        step: { words: 'Have it set or replaced, and record it', href: '/kitchen#canners' },
      };
    case 'gauge-not-stated':
      return {
        cause: 'gauge',
        words: 'the kind of gauge on the canner is not known',
        step: { words: 'Say which gauge it has', href: '/kitchen#canners' },
      };
    case 'canner-not-chosen':
    case 'canner-gone':
    case 'canner-too-small':
    case 'jar-does-not-fit':
    case 'jars-per-load-unknown':
    case 'smoked-fish-canner':
      return {
        cause: 'canner',
        words: 'no canner of this kitchen fits its recipe',
        step: { words: 'Add or mend a canner', href: '/kitchen#canners' },
      };
    default:
      return {
        cause: 'process',
        words: 'its recipe has no tested process here',
        step: { words: 'See why, and choose another recipe', href: `/items/${itemId}#recipes` },
      };
  }
};

const cropWords = (crop: string): string => cropGuessFor(crop).plural.toLowerCase();

/** A crop nobody gives, or that gives too little at a time for one batch. */
function cropMissing({ facts, year, recipes }: HouseholdYear, { id, produce }: Recipe): Missing | null {
  const without = produce.filter(({ crop }) => !facts.sources.some((source) => source.crop === crop));
  const [first] = without;
  if (first !== undefined)
    return {
      cause: 'source',
      words: `no source of ${listed(without.map(({ crop }) => cropWords(crop)))}`,
      step: {
        words: `Say where ${cropWords(first.crop)} come from`,
        href: `/harvest/new?crop=${encodeURIComponent(first.crop)}`,
      },
    };
  for (const { crop, lb } of produce) {
    // What is frozen is gathered over a season.
    if (year.freezable?.some((freezable) => freezable.crop === crop) === true) continue;
    const sources = year.sources.filter((source) => source.crop === crop);
    const ahead = cropsAhead(sources).get(crop);
    const most = Math.max(0, ...year.weeks.map((_, week) => gatheredLb(ahead, week)));
    if (most >= lb - 1e-9) continue;
    const [source] = sources;
    return {
      cause: 'harvest',
      words:
        most > 0
          ? `too few ${cropWords(crop)} at a time for one batch`
          : `no harvest of ${cropWords(crop)} is ahead`,
      step: {
        words: `Mend the dates and amounts of ${source?.name ?? cropWords(crop)}`,
        href: `/harvest/${source?.id ?? ''}`,
      },
    };
  }
  const planned = recipes.planned.find((one) => one.id === id);
  if (planned?.allowedByWeek?.every((allowed) => !allowed) === true) return timeMissing();
  return null;
}

/** A by-product of which nothing is there and that no recipe here gives. */
function materialMissing({ facts, recipes }: HouseholdYear, { itemId, uses }: Recipe): Missing | null {
  const lacking = uses.flatMap(({ materialId }) => {
    const material = facts.materials.find(({ id }) => id === materialId);
    const isGiven = recipes.planned.some(({ gives }) => gives.some((one) => one.materialId === materialId));
    return material === undefined || material.waiting > 0 || isGiven ? [] : [material.name.toLowerCase()];
  });
  return lacking.length === 0
    ? null
    : {
        cause: 'by-product',
        words: `nothing gives the ${listed(lacking)} it is made of`,
        step: { words: 'See its recipe', href: `/items/${itemId}#recipes` },
      };
}

const timeMissing = (): Missing => ({
  cause: 'time',
  words: 'there is no kitchen time while its crops are ripe',
  step: { words: 'Change the kitchen time', href: '/kitchen#time' },
});

/** No jar of its kind is owned, or no lid of its mouth, and the fund cannot pay for a box the whole year. */
function vesselMissing({ facts, year }: HouseholdYear, { jarKind, yieldHigh }: Recipe): Missing | null {
  if (jarKind === null) return null;
  const jars = facts.jars.find(({ kind }) => kind === jarKind);
  const lids = facts.lids.find(({ mouth }) => jarKind.endsWith(`/${mouth}`));
  const money = year.fund.opening + year.fund.setAsideByWeek.reduce((sum, cents) => sum + cents, 0);
  if (jars !== undefined && jars.owned < yieldHigh && jars.price > money)
    return {
      cause: 'jars',
      words: 'too few jars for one batch, and no money for more',
      step: { words: 'See the jars', href: '/kitchen#jars' },
    };
  if (lids !== undefined && lids.onHand < yieldHigh && lids.boxPrice > money)
    return {
      cause: 'lids',
      words: 'too few new lids for one batch, and no money for more',
      step: { words: 'See the lids', href: '/kitchen#jars' },
    };
  return null;
}

/** One batch fills more than all crocks of the household hold. */
function crockMissing({ year, recipes }: HouseholdYear, { id }: Recipe): Missing | null {
  const crock = recipes.planned.find((one) => one.id === id)?.crock ?? null;
  if (crock === null || crock.quarts <= year.storage.crockQuarts + 1e-9) return null;
  return {
    cause: 'crock',
    words:
      year.storage.crockQuarts > 0
        ? 'the crocks hold less than one batch of it'
        : 'no crock for it is written down',
    step: { words: 'Say what your crocks hold', href: '/kitchen#storage' },
  };
}

/** One batch takes up more than all freezers of the household hold. */
function freezerMissing(
  { year }: HouseholdYear,
  { keeping, freezerQuarts }: Item,
  recipe: Recipe,
): Missing | null {
  if (keeping !== 'frozen' || freezerQuarts === null) return null;
  if (freezerQuarts * recipe.yieldLow <= year.storage.freezerQuarts + 1e-9) return null;
  return {
    cause: 'freezer',
    words:
      year.storage.freezerQuarts > 0
        ? 'the freezer holds less than one batch of it'
        : 'no freezer is written down, or not how much it holds',
    step: { words: 'Say what your freezer holds', href: '/kitchen#places' },
  };
}
