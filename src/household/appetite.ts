import type { GroupId, ItemId } from '../../shared/ids.ts';
import type { JarKind, JarSize } from '../../shared/jar.ts';
import type { Cents } from '../../shared/money.ts';
import type { CalendarDate, WeekKey } from '../../shared/week.ts';

/** How much the household says it eats, in its own words. */
export interface DeclaredUseSetting {
  readonly itemId: ItemId;
  readonly sinceOn: CalendarDate;
  readonly amount: number;
  readonly per: 'week' | 'month' | 'year' | 'meal' | 'school-week';
  readonly countedIn: 'units' | 'servings';
  readonly people: number | null;
  readonly mealsPerWeek: number | null;
  /** "From now on": what was seen before no longer counts. */
  readonly restartsFilter: boolean;
}

/** What a household called ordinary when it was asked. */
export interface OrdinaryUse {
  /** Full weeks that were no occasion. */
  readonly weeks: ReadonlySet<WeekKey>;
  /** It is eaten all year alike, whatever the months looked like. */
  readonly isAllYearAlike: boolean;
}

export interface OccasionSetting {
  readonly id: string;
  readonly itemId: ItemId;
  readonly kind: 'occasion' | 'gift' | 'promised';
  readonly on: CalendarDate;
  readonly units: number;
  readonly note: string;
  readonly isYearly: boolean;
}

export interface ItemGroup {
  readonly id: GroupId;
  readonly name: string;
  readonly totalUnits: number;
  readonly unitJar: JarKind | null;
  readonly leastKinds: number;
  readonly largestShare: number;
  readonly members: readonly ItemId[];
}

/** A pack as a store sells it. */
export interface ShopPackSetting {
  readonly itemId: ItemId;
  readonly id: string;
  readonly units: number;
  readonly price: Cents;
  readonly buyAtOrBelow: Cents | null;
  /** Months in which it is on sale, 1..12, the last included; may run over the year's end. */
  readonly sale: {
    readonly fromMonth: number;
    readonly untilMonth: number;
    readonly price: Cents;
  } | null;
  /** The plan may buy it; otherwise it only says what a store asks for something that is put up here. */
  readonly isPlanned: boolean;
}

/** What the household wants of the jars of an item. */
export interface JarWish {
  readonly itemId: ItemId;
  /** Servings of one meal, when one jar is to be one meal; null for what is eaten by the spoonful. */
  readonly mealServings: number | null;
  /** Jars a year in a size of their own. */
  readonly gifts: { readonly size: JarSize; readonly jars: number } | null;
  readonly lunches: { readonly size: JarSize; readonly jars: number } | null;
}
