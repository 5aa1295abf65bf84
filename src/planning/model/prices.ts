import { orNone } from '../lookup.ts';
import type { PlannedRecipe } from '../planning-year.ts';
import type { PlanningRules } from './rules.ts';
import type { PlanningSets } from './sets.ts';

/** What one unit of each wish costs when it gives way, cents; from the lightest wish to the heaviest. */
export interface WishPrices {
  /** The most that one batch with its session, or one pack, can cost: the yardstick of the ladder. */
  readonly dearestStep: number;
  /** One kind missing from a group's variety, one unit over its largest share. */
  readonly variety: number;
  /** One unit missing from a reserve. */
  readonly reserve: number;
  /** One unit of use missed, or missing from what the year's end hands over. */
  readonly use: number;
  /** As much of our own garden's crop lost as would have given one unit the year could use. */
  readonly gardenUnit: number;
  /** One unit missing from the second quarter of what the year wants of the average food; see `firstJars`. */
  readonly firstJars: number;
  /** One unit of what is bought missed in one of the coming weeks; see `coming-weeks.ts`. */
  readonly comingWeeks: number;
  /** One unit missing from a group's total or a family minimum. */
  readonly group: number;
  /** One batch the person pinned and the plan could not keep. */
  readonly pinned: number;
}

/** Each wish outweighs this many units of the next lighter one. */
const wishLadderStep = 3;

/**
 * Prices that keep the order of wishes: cost < variety < reserve < use < garden crop < first jars < coming
 * weeks < groups and minimums < pins.
 *
 * One missing unit of the lightest wish already costs more than the dearest batch with a session of its own, or the
 * dearest pack, could save; each heavier wish outweighs `wishLadderStep` units of the lighter. Judgement, no source.
 */
export function wishPrices(sets: PlanningSets, rules: PlanningRules): WishPrices {
  const batch = Math.max(0, ...sets.recipes.map((recipe) => dearestBatch(sets, recipe)));
  const pack = Math.max(
    0,
    ...sets.items.flatMap(({ packs }) => packs.flatMap(({ priceByWeek }) => priceByWeek)),
  );
  const dearestStep = Math.max(1, Math.ceil(batch + rules.sessionCents), pack);
  const variety = dearestStep;
  const reserve = variety * wishLadderStep;
  const use = reserve * wishLadderStep;
  const gardenUnit = use * wishLadderStep;
  const firstJars = gardenUnit * wishLadderStep;
  const comingWeeks = firstJars * wishLadderStep;
  const group = comingWeeks * wishLadderStep;
  const pinned = group * wishLadderStep;
  return { dearestStep, variety, reserve, use, gardenUnit, firstJars, comingWeeks, group, pinned };
}

/** Cents for one batch if everything in it is bought at its dearest. */
function dearestBatch({ year, sources }: PlanningSets, recipe: PlannedRecipe): number {
  const produce = recipe.produce.reduce((sum, { crop, lb }) => {
    const prices = sources
      .filter((source) => source.crop === crop)
      .flatMap((source) => source.priceCentsPerLbByWeek);
    return sum + lb * Math.max(0, ...prices);
  }, 0);
  const supplies = recipe.supplies.reduce((sum, { supplyId, quantity }) => {
    const supply = year.supplies.find(({ id }) => id === supplyId);
    return sum + (supply === undefined ? 0 : (quantity * supply.packPrice) / supply.packQuantity);
  }, 0);
  const jar = year.jars.find(({ kind }) => kind === recipe.jarKind);
  const lid = year.lids.find(({ mouth }) => recipe.jarKind?.endsWith(`/${mouth}`));
  const perJar =
    (jar === undefined ? 0 : jar.packPrice / jar.pack) + (lid === undefined ? 0 : lid.boxPrice / lid.box);
  const setUp = orNone(recipe.setUp?.cents);
  return produce + supplies + perJar * recipe.yieldHighJars + setUp;
}
