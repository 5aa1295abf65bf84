import type { CropKey } from '../../../shared/ids.ts';
import { mouthOf } from '../../../shared/jar.ts';
import { asCents, type Cents } from '../../../shared/money.ts';
import { entry, orNone } from '../lookup.ts';
import { lidsPerBatch } from '../model/constraints/lids.ts';
import type { PlannedRecipe, PlanningYear } from '../planning-year.ts';

/** Batches of a recipe begun in a week, by its place in the year. */
interface Batches {
  readonly recipe: PlannedRecipe;
  readonly week: number;
  readonly batches: number;
}

/** What has to be bought for batches, in whole packs, and what it comes to. */
export interface ToBuyFor {
  readonly cost: Cents;
  /** Crops beside the glut's own that no source gives in that week: without a price. */
  readonly withoutPrice: readonly CropKey[];
}

/**
 * What batches ask for beyond what is on hand: sugar and the like, jars and lids in whole packs, other crops by the pound
 * at the cheapest source of the week. The glut itself costs nothing.
 */
export function toBuyFor(year: PlanningYear, crop: CropKey, made: readonly Batches[]): ToBuyFor {
  const needs = {
    supplies: new Map<string, number>(),
    jars: new Map<string, number>(),
    lids: new Map<string, number>(),
  };
  const add = (map: Map<string, number>, key: string, amount: number) =>
    map.set(key, orNone(map.get(key)) + amount);
  const withoutPrice = new Set<CropKey>();
  let cents = 0;
  for (const { recipe, week, batches } of made) {
    for (const { supplyId, quantity } of recipe.supplies) add(needs.supplies, supplyId, batches * quantity);
    if (recipe.jarKind !== null) {
      add(needs.jars, recipe.jarKind, batches * recipe.yieldHighJars);
      add(needs.lids, mouthOf(recipe.jarKind), batches * lidsPerBatch(recipe.yieldHighJars));
    }
    for (const need of recipe.produce) {
      if (need.crop === crop) continue;
      const prices = year.sources
        .filter((source) => source.crop === need.crop && orNone(source.lbByWeek[week]) > 0)
        .map((source) => entry(source.priceCentsPerLbByWeek, week, 'priceCentsPerLbByWeek'));
      if (prices.length === 0) withoutPrice.add(need.crop);
      else cents += Math.min(...prices) * need.lb * batches;
    }
  }
  const packs = (needed: number, onHand: number, pack: number): number =>
    pack > 0 ? Math.max(0, Math.ceil((needed - onHand) / pack - 1e-9)) : 0;
  for (const [id, needed] of needs.supplies) {
    const supply = year.supplies.find((one) => one.id === id);
    if (supply) cents += packs(needed, supply.onHand, supply.packQuantity) * supply.packPrice;
  }
  for (const [kind, needed] of needs.jars) {
    const holding = year.jars.find((one) => one.kind === kind);
    if (holding) cents += packs(needed, holding.empty, holding.pack) * holding.packPrice;
  }
  for (const [mouth, needed] of needs.lids) {
    const holding = year.lids.find((one) => one.mouth === mouth);
    if (holding) cents += packs(needed, holding.onHand, holding.box) * holding.boxPrice;
  }
  return { cost: asCents(Math.round(cents)), withoutPrice: [...withoutPrice] };
}
