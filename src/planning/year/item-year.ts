import type { ItemUse } from '../../consumption/items/item-use.ts';
import type { UseForecast } from '../../consumption/use-forecast.ts';
import type { YearlyTarget } from '../../consumption/yearly-target.ts';
import type { Item } from '../../household/item.ts';
import type { LotOnShelf } from '../../household/lot.ts';
import type { Gap } from '../../shelf/likely-gaps.ts';
import type { RunOutWeek, ShelfProjection } from '../../shelf/shelf-projection.ts';
import type { PlanPath } from '../answer/plan-path.ts';
import type { ItemSupply } from './year-supply.ts';
import type { YearWalk } from './year-walk.ts';

/** One item's whole year. */
export interface ItemYear {
  readonly item: Item;
  /** Lots with something left, first-expired first. */
  readonly lots: readonly LotOnShelf[];
  /** Units on the shelf in the item's usual jar; what is set aside does not count. */
  readonly unitsOnShelf: number;
  /** Of these, units that are not kept for an emergency. */
  readonly unitsToEat: number;
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
  /** When it likely has none, places in the weeks of `projection`; empty for what is no longer kept. */
  readonly gaps: readonly Gap[];
  /** By when what stands now is gone (`goneBy`); null where `withoutPlan` is. */
  readonly runOut: RunOutWeek | null;
  /** The newest plan's path of this item; its first entry is the first week of `plan.year.weeks`. */
  readonly path: PlanPath | null;
  /** From what a year needs to what is still missing; null for what is no longer kept. Every page quotes it. */
  readonly walk: YearWalk | null;
}

/** Why nothing more of an item can come, and the one step that mends it. */
export interface Missing {
  readonly cause: MissingCause;
  /** To follow a name: `no source of carrots`. */
  readonly words: string;
  readonly step: { readonly words: string; readonly href: string };
}

export type MissingCause =
  | 'recipe'
  | 'process'
  | 'altitude'
  | 'canner'
  | 'gauge'
  | 'source'
  | 'harvest'
  | 'by-product'
  | 'time'
  | 'freezer'
  | 'jars'
  | 'lids'
  | 'crock'
  | 'pack';
