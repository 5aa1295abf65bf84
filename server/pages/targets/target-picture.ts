import type { HarvestWindowRow } from '../../../shared/schemas/reference/harvest-window.ts';
import type { ItemUse } from '../../../src/consumption/items/item-use.ts';
import type { Item } from '../../../src/household/item.ts';
import type { HouseholdYear } from '../../../src/planning/year/household-year.ts';
import type { YearWalk } from '../../../src/planning/year/year-walk.ts';
import type { JarAdviceHere, NoJarAdvice } from '../../../src/preserving/recipes/jar-advice.ts';
import type { Reading } from '../../../views/words/reading.ts';

/** One item with everything its target is made from. */
export interface TargetPicture {
  readonly item: Item;
  readonly loaded: HouseholdYear;
  readonly published: readonly HarvestWindowRow[];
  readonly reading: Reading;
  readonly jars: JarAdviceHere | NoJarAdvice;
  readonly walk: YearWalk | null;
  readonly hasPlan: boolean;
}

/** How much of the item is eaten, as far as anybody knows. */
export const useOf = ({ loaded, item }: TargetPicture): ItemUse | undefined => loaded.useByItem.get(item.id);
