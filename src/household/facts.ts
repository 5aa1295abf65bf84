import type { ItemId } from '../../shared/ids.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type {
  DeclaredUseSetting,
  ItemGroup,
  JarWish,
  OccasionSetting,
  OrdinaryUse,
  ShopPackSetting,
} from './appetite.ts';
import type { Preparations } from './begun.ts';
import type { BatchDecision } from './decision.ts';
import type { SeasonLateness } from './ground.ts';
import type { Household } from './household.ts';
import type { Item } from './item.ts';
import type { Canner, DaysOff, KitchenHours, Place, SeasonFundSetting } from './kitchen.ts';
import type { CountOfItem, JarEvent } from './ledger.ts';
import type { LotOnShelf } from './lot.ts';
import type { FetchedProduce, LinePurchase } from './purchase.ts';
import type { Recipe } from './recipe.ts';
import type { Source } from './source.ts';
import type { JarStock, LidStock, Material, Supply } from './supplies.ts';

/** Everything a household has said and done up to a date, all of it of one version. */
export interface HouseholdFacts {
  /** Number of the version: see `StoredHousehold`. */
  readonly version: number;
  readonly household: Household;
  /** What it keeps, and what is no longer kept but not yet eaten down. */
  readonly items: readonly Item[];
  /** Lots with nothing left as well. */
  readonly lots: readonly LotOnShelf[];
  readonly events: readonly JarEvent[];
  readonly counts: readonly CountOfItem[];
  readonly declaredUses: ReadonlyMap<ItemId, DeclaredUseSetting>;
  /** Twelve multipliers of use, January first. */
  readonly seasonMultipliers: ReadonlyMap<ItemId, readonly number[]>;
  readonly occasions: readonly OccasionSetting[];
  readonly ordinaryUse: ReadonlyMap<ItemId, OrdinaryUse>;
  readonly handTargets: ReadonlyMap<ItemId, { readonly units: number; readonly setOn: CalendarDate }>;
  readonly jarWishes: ReadonlyMap<ItemId, JarWish>;
  readonly groups: readonly ItemGroup[];
  /** Packs the plan may buy. */
  readonly packs: ReadonlyMap<ItemId, readonly ShopPackSetting[]>;
  /** All packs, those too that only say what a store asks for something put up here. */
  readonly storePacks: ReadonlyMap<ItemId, readonly ShopPackSetting[]>;
  readonly recipes: readonly Recipe[];
  readonly supplies: readonly Supply[];
  readonly materials: readonly Material[];
  readonly sources: readonly Source[];
  /** Years that run early or late. */
  readonly lateness: readonly SeasonLateness[];
  readonly canners: readonly Canner[];
  readonly places: readonly Place[];
  readonly hours: KitchenHours;
  readonly daysOff: DaysOff;
  /** Null while no season fund is kept. */
  readonly fund: SeasonFundSetting | null;
  readonly jars: readonly JarStock[];
  readonly lids: readonly LidStock[];
  readonly kept: readonly BatchDecision[];
  /** Lines of the shopping list that were bought or skipped, of the last weeks and those to come. */
  readonly purchases: readonly LinePurchase[];
  /** Produce at hand that still keeps, or came in the week of the date. */
  readonly fetched: readonly FetchedProduce[];
  readonly preparations: Preparations;
}
