import type { CropKey, SourceId } from '../../shared/ids.ts';
import type { Cents } from '../../shared/money.ts';
import type { CalendarDate, WeekKey } from '../../shared/week.ts';

export const purchaseKinds = ['item', 'produce', 'supply', 'jars', 'lids'] as const;
export type PurchaseKind = (typeof purchaseKinds)[number];

/** What makes a line of a shopping list the same line in every plan: its week, what it is, and in which pack. */
export interface PurchaseLine {
  readonly week: WeekKey;
  readonly kind: PurchaseKind;
  /** Item, source, supply, jar kind or lid mouth. */
  readonly what: string;
  /** Null for what is bought loose. */
  readonly pack: string | null;
}

/** A line of the shopping list of which somebody said that it was bought, or that it is not to be bought. */
export interface LinePurchase extends PurchaseLine {
  readonly id: string;
  readonly decision: 'bought' | 'skipped';
  /** In the unit of the line; 0 of what was skipped. */
  readonly quantity: number;
  readonly cost: Cents;
  readonly on: CalendarDate;
  /** Nothing more of the line is asked for, whatever was bought of it; else the rest of it still is. */
  readonly settles: boolean;
  /** The price of a pack, a box or a pound that plans count with since, from what was paid; left out where it taught none. */
  readonly newPrice?: Cents;
}

/** Produce that was fetched for batches to come: what came, and what of it no batch has taken. */
export interface FetchedProduce {
  readonly sourceId: SourceId;
  readonly crop: CropKey;
  readonly on: CalendarDate;
  /** Last day on which it may be used. */
  readonly useBy: CalendarDate;
  readonly lb: number;
  readonly lbLeft: number;
}

export const isSameLine = (one: PurchaseLine, other: PurchaseLine): boolean =>
  one.week === other.week && one.kind === other.kind && one.what === other.what && one.pack === other.pack;
