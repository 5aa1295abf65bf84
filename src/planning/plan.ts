import type { CannerId, ItemId, RecipeId, SourceId } from '../../shared/ids.ts';
import type { JarKind } from '../../shared/jar.ts';
import type { Cents } from '../../shared/money.ts';
import type { CalendarDate, WeekKey } from '../../shared/week.ts';
import type { PurchaseKind } from '../household/purchase.ts';
import type { ServedRung } from './solving/rungs.ts';

/** What the planner answers; also, printed as it is, the JSON of `shelfward plan --json`. Fields are added, never renamed. */
export interface Plan {
  readonly asOf: CalendarDate;
  readonly horizonWeeks: number;
  /** Cents by named term of the objective; `total` is their sum. */
  readonly objective: Readonly<Record<string, number>>;
  /** Proven lower bound on `objective.total` of the canning stage, cents. */
  readonly bound: number;
  /** (canning stage objective - bound) / canning stage objective, 0 to 1. */
  readonly gap: number;
  readonly solveSeconds: number;
  /**
   * What whole packs cost over the canning stage, and the gap of that rounding. Where the search for packs ended without any,
   * `isRoundedUp` is set: packs are rounded up, and the gap says what they cost over any amount.
   */
  readonly packRounding: { readonly cost: Cents; readonly gap: number; readonly isRoundedUp?: true };
  /** What is missed on each rung of the order of wishes, and the least any plan could miss there; heaviest first. */
  readonly rungs: readonly ServedRung[];
  readonly weeks: readonly PlannedWeek[];
  readonly items: readonly PlannedItemYear[];
  readonly gaveWay: readonly GaveWay[];
}

export interface PlannedWeek {
  readonly week: WeekKey;
  /** Of the plan's first week: the first day on which anything of it could be done. */
  readonly from?: CalendarDate;
  readonly sessions: readonly PlannedSession[];
  /** Left out where nothing is on its way to a later week's load. */
  readonly stageWork?: readonly PlannedStageWork[];
  readonly purchases: readonly PlannedPurchase[];
  /** Raw material that is frozen, thawed, kept waiting or lost in the week. */
  readonly materials: readonly PlannedMaterialMove[];
  /** What our own garden gives and nobody could eat in time if it were put up: to give away, freeze, sell or compost. Left out where nothing is. */
  readonly leftOver?: readonly PlannedLeftOver[];
  /** Sessions held in the week, each with its own set-up; 0 when nothing is put up. */
  readonly kitchenSessions: number;
  /** Set-ups, hands-on work and attended canner time of the week. */
  readonly kitchenMinutes: number;
  readonly spend: Cents;
  /** What the season fund holds at the week's end. */
  readonly fundAfter: Cents;
}

export interface PlannedSession {
  readonly recipe: RecipeId;
  readonly batches: number;
  /** Jars to have ready, from the high published yield; empty for what is not put up in jars. */
  readonly jars: readonly { readonly kind: JarKind; readonly count: number }[];
  /** Units of the item the plan counts on, from the low published yield. */
  readonly units: number;
  /** In this week: hands-on work of the batches and the attended time of their canner loads; set-up is the week's. */
  readonly handsOnMinutes: number;
  readonly canner: CannerId | null;
  readonly loads: number;
  /** Jars of these batches that alone would need another load: kept cold and eaten first, or not filled. Left out where there are none. */
  readonly jarsAside?: number;
  /** When batches of several days are begun for this load, worked out for the usual day; left out for what is made in one go. */
  readonly begin?: { readonly week: WeekKey; readonly on: CalendarDate };
  /** Set where these batches are begun already: which they are, and since when. */
  readonly begun?: { readonly id: string; readonly on: CalendarDate };
  /** Set where it takes what another batch leaves, or leaves what one of its week takes: they stand on its usual day together. */
  readonly sharesByProduct?: true;
}

/** Hands-on work in a week on batches whose canner load stands in a later one. */
export interface PlannedStageWork {
  readonly recipe: RecipeId;
  readonly batches: number;
  readonly loadWeek: WeekKey;
  readonly minutes: number;
}

/** One crop or by-product in one week, lb or the material's unit. */
export interface PlannedMaterialMove {
  /** Crop or by-product. */
  readonly what: string;
  readonly unit: string;
  readonly freeze: number;
  readonly thaw: number;
  /** Unfrozen at the week's end, for the next week. */
  readonly waiting: number;
  /** In the freezer at the week's end. */
  readonly frozen: number;
  readonly lost: number;
}

/** Crop of our own garden that a week gives and the plan does not take, lb. */
export interface PlannedLeftOver {
  readonly source: SourceId;
  readonly lb: number;
}

export interface PlannedPurchase {
  /** Item, supply, source, jar kind or lid mouth that is bought. */
  readonly what: string;
  readonly kind: PurchaseKind;
  readonly quantity: number;
  readonly unit: string;
  /** The pack and how many of it; null for what is bought loose (produce). */
  readonly packs: { readonly id: string; readonly count: number } | null;
  readonly cost: Cents;
}

export interface PlannedItemYear {
  readonly item: ItemId;
  readonly yearlyTarget: number;
  readonly openingStock: number;
  readonly runOutWeek: {
    readonly p10: WeekKey | null;
    readonly p50: WeekKey | null;
    readonly p90: WeekKey | null;
  };
  readonly chanceOfLasting: number;
}

/** What may give way, the least willing first: the order in which a plan and its pages tell it. */
export const gaveWayRungs = [
  'cash and hours',
  'family minimum',
  'group',
  'garden crop',
  'use',
  'reserve',
  'variety',
  'freshness',
] as const;
export type GaveWayRung = (typeof gaveWayRungs)[number];

/** A wish that could not be met: its rung in the order of wishes, what, and by how much. */
export interface GaveWay {
  readonly rung: GaveWayRung;
  readonly what: string;
  readonly amount: number;
  readonly unit: string;
  /** Of batches that were pinned or begun: which, and for when; missing in plans kept before it was said. */
  readonly batches?: {
    readonly recipe: RecipeId;
    readonly pinnedIn: WeekKey | null;
    readonly begunOn: CalendarDate | null;
  };
}
