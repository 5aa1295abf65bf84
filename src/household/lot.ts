import type { ItemId, LotId, PlaceId, RecipeId } from '../../shared/ids.ts';
import type { JarKind } from '../../shared/jar.ts';
import { inUsualJars, sizeOf } from '../../shared/jar.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { Item } from './item.ts';

/** Left over by sums of parts; less than this is nothing. */
export const smallestAmount = 1e-9;

/** A lot with what is left of it. */
export interface LotOnShelf {
  readonly id: LotId;
  readonly itemId: ItemId;
  readonly batchCode: string;
  readonly jarKind: JarKind | null;
  readonly origin: 'put-up' | 'bought' | 'received';
  readonly madeOn: CalendarDate;
  readonly readyFrom: CalendarDate;
  readonly bestQualityUntil: CalendarDate;
  /** Last day on which the household keeps it, by its own limit or in its refrigerator; then it is thrown away. Null: no limit. */
  readonly keptUntil: CalendarDate | null;
  readonly place: { readonly id: PlaceId; readonly name: string } | null;
  readonly recipeId: RecipeId | null;
  readonly setAside: { readonly at: number; readonly reason: string } | null;
  /** Units put up or bought in all, in jars of this lot's own kind (or bags, lb …). */
  readonly madeUnits: number;
  /** Units left, in jars of this lot's own kind. */
  readonly unitsLeft: number;
}

export interface ItemOnShelf {
  readonly item: Item;
  /** Lots with something left, first-expired first. */
  readonly lots: readonly LotOnShelf[];
  /** Units left in all, in the item's usual jar; lots set aside do not count. */
  readonly units: number;
}

/** What a lot of this jar kind counts for in units of the item. */
export const usualUnits = (item: Item, jarKind: JarKind | null, units: number): number =>
  item.usualJar === null || jarKind === null
    ? units
    : units * inUsualJars(sizeOf(jarKind), sizeOf(item.usualJar));

/** Units of an item that stand and may be eaten, in its usual jar; lots set aside do not count. */
export const unitsStanding = (item: Item, lots: readonly LotOnShelf[]): number =>
  lots
    .filter((lot) => lot.setAside === null)
    .reduce((total, lot) => total + usualUnits(item, lot.jarKind, lot.unitsLeft), 0);
