import { plantsFor } from '../consumption/plants-for-produce.ts';
import type { HouseholdFacts } from '../household/facts.ts';
import type { GardenYield } from '../household/garden-yield.ts';
import { produceTaken } from '../household/produce-taken.ts';
import type { ItemYear } from '../planning/year/item-year.ts';
import { lbPerPlantBySource } from './through-years.ts';

/** Plants that the coming year's targets ask of one garden source. */
export interface PlantsToGrow {
  readonly sourceName: string;
  readonly crop: string;
  readonly lbWanted: number;
  /** What a plant is counted on for, pounds: as the source says, moved towards what its own years gave. */
  readonly lbPerPlant: number;
  /** Null where nobody said how many plants there are. */
  readonly plantsNow: number | null;
  readonly plantsWanted: number;
}

/** Plants by garden source: what the targets need of its crop, pounds, over what a plant of it gives. */
export function plantsToGrow(
  facts: HouseholdFacts,
  items: readonly ItemYear[],
  yields: readonly GardenYield[],
): readonly PlantsToGrow[] {
  const walks = new Map(items.map(({ item, walk }) => [item.id, walk]));
  const lbByCrop = produceTaken((item) => walks.get(item)?.need ?? 0, facts);
  const lbPerPlantOf = lbPerPlantBySource(facts.sources, yields);
  return facts.sources.flatMap((source) => {
    const lbWanted = lbByCrop.get(source.crop) ?? 0;
    const lbPerPlant = lbPerPlantOf.get(source.id);
    if (lbPerPlant === undefined || lbWanted === 0) return [];
    return [
      {
        sourceName: source.name,
        crop: source.crop,
        lbWanted,
        lbPerPlant,
        plantsNow: source.plants,
        plantsWanted: plantsFor(lbWanted, lbPerPlant),
      },
    ];
  });
}
