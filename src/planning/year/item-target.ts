import type { SourceId } from '../../../shared/ids.ts';
import type { ItemUse } from '../../consumption/items/item-use.ts';
import type { CropRisk } from '../../consumption/reserve.ts';
import { type YearlyTarget, yearlyTarget } from '../../consumption/yearly-target.ts';
import type { HouseholdFacts } from '../../household/facts.ts';
import type { Item } from '../../household/item.ts';
import type { RecipesHere } from './planned-recipes.ts';
import { gapToBridge } from './supply-gap.ts';
import type { ItemSupply } from './year-supply.ts';

interface Growing {
  readonly recipes: RecipesHere;
  readonly lbBySource: ReadonlyMap<SourceId, readonly number[]>;
}

/** The yearly target of an item and its parts; null for what nobody says, or was seen, to eat. */
export function itemTarget(
  facts: HouseholdFacts,
  item: Item,
  use: ItemUse,
  supply: ItemSupply,
  growing: Growing,
): YearlyTarget | null {
  const { forecast } = use;
  if (forecast === null) return null;
  const isBought = supply.by === 'bought';
  const gap = gapToBridge(supply.canArrive, isBought);
  return yearlyTarget(forecast, {
    dated: use.dated,
    chanceOfLasting: item.chanceWanted,
    longestGapWeeks: forecast.weeks
      .slice(gap.first, gap.first + gap.weeks)
      .reduce((sum, week) => sum + week.ordinaryWeeks, 0),
    crop: isBought ? null : riskOf(facts, item, growing),
    keepsWeeks: Math.floor(item.bestQualityDays / 7),
    discardAfterWeeks: isBought ? null : Math.floor((facts.household.discardCeilingMonths * 52) / 12),
    byHand: facts.handTargets.get(item.id)?.units ?? null,
  });
}

/** The risk of the source that gives most of the crops an item is made from. */
function riskOf(facts: HouseholdFacts, item: Item, { recipes, lbBySource }: Growing): CropRisk | null {
  const crops = new Set(
    recipes.planned
      .filter((recipe) => recipe.itemId === item.id)
      .flatMap((recipe) => recipe.produce.map(({ crop }) => crop)),
  );
  const poundsOf = (id: SourceId) => (lbBySource.get(id) ?? []).reduce((sum, lb) => sum + lb, 0);
  const [main] = facts.sources
    .filter((source) => crops.has(source.crop))
    .sort((one, other) => poundsOf(other.id) - poundsOf(one.id));
  return main ?? null;
}
