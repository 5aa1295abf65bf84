import type { SourceId } from '../../../shared/ids.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import type { ItemUse } from '../../consumption/items/item-use.ts';
import type { CropRisk } from '../../consumption/reserve.ts';
import { type YearlyTarget, yearlyTarget } from '../../consumption/yearly-target.ts';
import type { HouseholdFacts } from '../../household/facts.ts';
import type { Item } from '../../household/item.ts';
import { found } from '../lookup.ts';
import type { RecipesHere } from './planned-recipes.ts';
import { gapToBridge } from './supply-gap.ts';
import type { ItemSupply } from './year-supply.ts';

/** What the yearly target of an item is worked out from. */
export interface TargetAsked {
  readonly item: Item;
  readonly use: ItemUse;
  readonly supply: ItemSupply;
  readonly recipes: RecipesHere;
  readonly lbBySource: ReadonlyMap<SourceId, readonly number[]>;
  readonly sources: HouseholdFacts['sources'];
  readonly discardCeilingMonths: number;
  /** Units that somebody said instead; null where nobody did. */
  readonly byHand: number | null;
}

/** The yearly target of an item and its parts; null for what nobody says, or was seen, to eat. */
export const itemTarget = whileTheSame('use', (asked: TargetAsked): YearlyTarget | null => {
  const { item, use, supply, byHand } = asked;
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
    crop: isBought ? null : riskOf(asked),
    keepsWeeks: Math.floor(item.bestQualityDays / 7),
    discardAfterWeeks: isBought ? null : Math.floor((asked.discardCeilingMonths * 52) / 12),
    ...smallestBatch(asked),
    byHand,
  });
});

/** Units that the smallest batch of an item gives at least; nothing for what is bought, or cannot be made here. */
function smallestBatch({ item, supply, recipes }: TargetAsked): { readonly batchUnits?: number } {
  const yields = recipes.planned
    .filter(({ itemId }) => itemId === item.id)
    .map(({ yieldLowUnits }) => yieldLowUnits);
  return supply.by === 'bought' || yields.length === 0 ? {} : { batchUnits: Math.min(...yields) };
}

/** The risk of the source that gives most of the crops an item is made from. */
function riskOf({ item, recipes, lbBySource, sources }: TargetAsked): CropRisk | null {
  const crops = new Set(
    recipes.planned
      .filter((recipe) => recipe.itemId === item.id)
      .flatMap((recipe) => recipe.produce.map(({ crop }) => crop)),
  );
  const poundsOf = (id: SourceId) => found(lbBySource, id, 'lbBySource').reduce((sum, lb) => sum + lb, 0);
  const [main] = sources
    .filter((source) => crops.has(source.crop))
    .sort((one, other) => poundsOf(other.id) - poundsOf(one.id));
  return main ?? null;
}
