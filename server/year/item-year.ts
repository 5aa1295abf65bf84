import type { UseForecast } from '../../src/consumption/use-forecast.ts';
import type { YearlyTarget } from '../../src/consumption/yearly-target.ts';
import type { Item } from '../../src/household/item.ts';
import type { LotOnShelf } from '../../src/household/lot.ts';
import type { PlanPath } from '../../src/planning/answer/plan-path.ts';
import type { ItemSupply } from '../../src/planning/year/item-supply.ts';
import type { ShelfProjection } from '../../src/shelf/shelf-projection.ts';
import type { ItemUse } from './item-use.ts';
import type { Missing } from './what-is-missing.ts';

/** One item's whole year. */
export interface ItemYear {
  readonly item: Item;
  /** Lots with something left, first-expired first. */
  readonly lots: readonly LotOnShelf[];
  /** Units on the shelf in the item's usual jar; what is set aside does not count. */
  readonly unitsOnShelf: number;
  readonly use: ItemUse;
  /** Null for what nobody says, or was seen, to eat; so are target and projections. */
  readonly forecast: UseForecast | null;
  readonly target: YearlyTarget | null;
  readonly supply: ItemSupply;
  /** Why nothing more of it can come, and what mends that; null where something can, or nobody eats it. */
  readonly missing: Missing | null;
  /** The shelf as it stands, nothing made or bought. */
  readonly withoutPlan: ShelfProjection | null;
  /** The shelf if the newest plan is carried out; as it stands when there is no plan. */
  readonly projection: ShelfProjection | null;
  /** The newest plan's path of this item; its first entry is the first week of `plan.year.weeks`. */
  readonly path: PlanPath | null;
}
