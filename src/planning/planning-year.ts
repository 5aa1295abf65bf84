import type { CannerId, CropKey, GroupId, ItemId, LotId, RecipeId, SourceId } from '../../shared/ids.ts';
import type { JarKind, Mouth } from '../../shared/jar.ts';
import type { Cents } from '../../shared/money.ts';
import type { CalendarDate, WeekKey } from '../../shared/week.ts';
import type { BatchDecision } from '../household/decision.ts';
import type { LinePurchase, PurchaseLine } from '../household/purchase.ts';
import { noneBeyond } from './lookup.ts';

/**
 * Everything the planner looks at, as plain data: the household's year as it stands on `asOf`.
 *
 * Shapes: every `…ByWeek` list has one entry per week of `weeks`, oldest first. Units of an item are its usual jar (or bag,
 * lb, bin, each); other jar sizes have been converted by nominal volume. Money is in whole cents, time in minutes,
 * produce in pounds.
 */
export interface PlanningYear {
  readonly asOf: CalendarDate;
  /** Consecutive weeks, the week of `asOf` first; 52 for a household. */
  readonly weeks: readonly WeekKey[];
  readonly items: readonly PlannedItem[];
  readonly recipes: readonly PlannedRecipe[];
  readonly sources: readonly PlannedSource[];
  readonly materials: readonly PlannedMaterial[];
  readonly canners: readonly PlannedCanner[];
  readonly supplies: readonly PlannedSupply[];
  readonly jars: readonly JarHolding[];
  readonly lids: readonly LidHolding[];
  readonly groups: readonly PlannedGroup[];
  readonly time: KitchenTime;
  readonly fund: SeasonFund;
  readonly storage: ColdStorage;
  readonly kept: readonly BatchDecision[];
  /** Lines of the shopping list that were bought or skipped before the planner looked: its plan is without them. */
  readonly purchasesKnown?: readonly LinePurchase['id'][];
  /** Lines not to be bought in their week; left out where there are none. */
  readonly skipped?: readonly Pick<PurchaseLine, 'week' | 'kind' | 'what'>[];
  /** Batches begun days or weeks ago that wait for their canner load; left out where there are none. */
  readonly begun?: readonly BegunBatches[];
  /** Crops that may wait in the freezer; a crop not listed is used fresh only. */
  readonly freezable?: readonly FreezableCrop[];
}

/** A crop frozen at harvest for recipes that allow it. */
export interface FreezableCrop {
  readonly crop: CropKey;
  /** Already in the freezer, lb. */
  readonly openingLb: number;
  readonly keepsMonthsFrozen: number;
  readonly quartsPerLb: number;
}

export interface PlannedItem {
  readonly id: ItemId;
  readonly name: string;
  readonly kind: 'preserve' | 'staple';
  readonly jarKind: JarKind | null;
  readonly openingLots: readonly OpeningLot[];
  /** Expected units used in each week, occasions and gifts included, weeks away at zero. */
  readonly useByWeek: readonly number[];
  /** Units wanted over twelve months, for the page; the model works from use, reserve and year end. */
  readonly yearlyTarget: number;
  /** Units that should still stand when the next supply comes (hungry year and failed crop). */
  readonly reserveUnits: number;
  /**
   * Units of the reserve that are not worked towards: one batch more for them would mostly be left over. Said to be short where they
   * lack, with this for a reason; left out where all of it is worked towards.
   */
  readonly reserveNotWorthABatch?: number;
  /**
   * Units on top that playing the plan against sampled years asked for, so that it lasts as often as wished; left out where none
   * are. Worked towards, but never said to be short: the reserve of the target is `reserveUnits`.
   */
  readonly reserveForAim?: number;
  /** Units the last week hands over: what is needed until the supply after the horizon. */
  readonly yearEndUnits: number;
  /** What follows the year; left out for what is bought, and where no supply is known after it. */
  readonly afterYear?: AfterYear;
  /** Units below which the family minimum is broken over the year; null when none was declared. */
  readonly familyMinimumUnits: number | null;
  /** Units of what stands that are kept for an emergency and in no plan; what is missing of them is to come. Left out where none are. */
  readonly emergencyUnits?: number;
  /** Weeks from making (or buying) until best quality ends. */
  readonly bestQualityWeeks: number;
  /** Set for what is thrown away past its days (what stands in the refrigerator): nothing that is made may be left over by then. */
  readonly neverPastDays?: true;
  /** Ways to buy it; empty for what can only be made. */
  readonly packs: readonly ShopPack[];
  /** Units of `useByWeek` that are given away, jar and all; left out where none are. */
  readonly givenByWeek?: readonly number[];
  /** What keeping one unit for one week costs, cents; left out for a household, where only ties are broken. */
  readonly keepingCentsPerUnitWeek?: number;
  /** Freezer room one unit takes, quarts; left out for what does not live in the freezer. */
  readonly freezerQuartsPerUnit?: number;
}

/** The weeks after the planned year, as far as what stands at its end has to last: to the next supply that really comes. */
export interface AfterYear {
  /** Expected use in the weeks after the year, the earliest first. */
  readonly useByWeek: readonly number[];
  /** Weeks after the year's end in which a season of making begins, the earliest first; 0 is the first week after it. */
  readonly seasonWeeks: readonly number[];
  /** The first of these seasons runs on from the year: it is neither late nor does it fail. */
  readonly isRunning: boolean;
  /** Chance that a season brings nothing new at all, 0 to 1. */
  readonly failsChance: number;
}

/**
 * Units of reserve a plan works towards: the target's but for what is not worth a batch, and what the wished chance of lasting asks for
 * on top.
 */
export const reserveHeld = ({
  reserveUnits,
  reserveNotWorthABatch = 0,
  reserveForAim = 0,
}: PlannedItem): number => Math.max(0, reserveUnits - reserveNotWorthABatch) + reserveForAim;

export interface OpeningLot {
  readonly lotId: LotId;
  readonly units: number;
  readonly jars: number;
  readonly jarKind: JarKind | null;
  readonly readyFrom: WeekKey;
  readonly bestQualityUntil: WeekKey;
}

export interface ShopPack {
  readonly id: string;
  readonly units: number;
  /** Price of one pack, week by week (known sales included). */
  readonly priceByWeek: readonly Cents[];
}

/** One way to make one batch. A recipe with several tested jar sizes is several of these, one per jar kind. */
export interface PlannedRecipe {
  readonly id: RecipeId;
  readonly name: string;
  readonly itemId: ItemId;
  readonly jarKind: JarKind | null;
  /** Units of the item from one batch: low published yield, used for stock. */
  readonly yieldLowUnits: number;
  /** Jars from one batch: high published yield, used for jars, lids and canner loads. */
  readonly yieldHighJars: number;
  readonly produce: readonly { readonly crop: CropKey; readonly lb: number; readonly mayBeFrozen: boolean }[];
  readonly gives: readonly { readonly materialId: string; readonly quantity: number }[];
  readonly uses: readonly { readonly materialId: string; readonly quantity: number }[];
  readonly supplies: readonly { readonly supplyId: string; readonly quantity: number }[];
  readonly handsOnMinutes: number;
  /** What is done of a batch on the days before its canner load; left out for what is made in one go. */
  readonly stages?: PlannedStages;
  /** Canner and tested schedule here; null for what is not canned (dried, frozen, cellar, crock). */
  readonly processing: PlannedProcessing | null;
  /** Weeks from filling the jars until the first may be taken (cured pickles); of what is not canned, from making it. */
  readonly readyAfterWeeks: number;
  /** Weeks from the one in which a batch is begun. */
  readonly crock: { readonly quarts: number; readonly weeks: number } | null;
  /** Weeks in which it may be made, apart from its produce; null means any. */
  readonly allowedByWeek: readonly boolean[] | null;
  /**
   * A set-up paid once in each week with any production, after which any amount may be made (`batches` need not be
   * whole). Left out for a household; published lot-sizing instances are stated so.
   */
  readonly setUp?: { readonly minutes: number; readonly cents: number };
}

/** The days before a batch's canner load, by the week. A batch stands in the plan in the week of its load. */
export interface PlannedStages {
  /** Stage weeks: whole weeks from the week in which a batch is begun to the week of its load; 0 within one week. */
  readonly weeks: number;
  /** Days from the Monday of that first week to the day on which it is begun for a load on the household's usual day: -1 for a Sunday that begins its week, else 0 to 6. */
  readonly daysFromMonday: number;
  /** Hands-on minutes of one batch in each of its weeks, the first the week in which it is begun: `weeks + 1` of them. */
  readonly handsOnByWeek: readonly number[];
  /**
   * By the week of the load: its stages may be done then, begun not before today and nobody away on their days. Null
   * where all weeks may.
   */
  readonly possibleByWeek: readonly boolean[] | null;
}

/** Batches that were begun and are neither filled into jars nor thrown away: their produce is used, their load is to come. */
export interface BegunBatches {
  readonly id: string;
  readonly recipeId: RecipeId;
  readonly jarKind: JarKind | null;
  readonly batches: number;
  readonly begunOn: CalendarDate;
  /** Weeks in which their jars may be filled: not before their stages are done, and not once one has lasted too long. */
  readonly mayLoadByWeek: readonly boolean[];
}

export interface PlannedProcessing {
  readonly cannerId: CannerId;
  /** Key of the published row (food, style, pack, jar, method, gauge, altitude band). */
  readonly scheduleKey: string;
  readonly lowAcid: boolean;
  readonly minutes: number;
  readonly psi: number | null;
  readonly jarsPerLoad: number;
  /** One load from a warm canner to the next: heat, vent, process, cool, unload. */
  readonly loadMinutes: number;
  /** Minutes of a load for which a person has to stay at the stove. */
  readonly attendedMinutes: number;
}

export interface PlannedSource {
  readonly id: SourceId;
  readonly name: string;
  readonly crop: CropKey;
  readonly kind: 'garden' | 'pick-your-own' | 'market';
  readonly lbByWeek: readonly number[];
  readonly priceCentsPerLbByWeek: readonly Cents[];
  /** Days the picked produce keeps before it must be used. */
  readonly useByDays: number;
  /**
   * By the week in which it is fetched: the last week whose canning day it can wait for, counted in days; the week before where it
   * cannot wait for that week's own. Left out where days are not known: then it waits for the whole weeks of `useByDays`.
   */
  readonly lastUseWeekByWeek?: readonly number[];
  readonly poorYearChance: number;
  /** Share of the usual crop in a poor year, 0 to 1. */
  readonly poorYearShare: number;
  readonly fallBack: 'buy' | 'substitute' | 'do-without';
  /** Fetched already: it costs nothing more, and no list asks for it. Left out for a source that gives something to come. */
  readonly isAtHand?: true;
}

export interface PlannedMaterial {
  readonly id: string;
  readonly name: string;
  readonly unit: string;
  readonly opening: number;
  /**
   * Of what is there, how much may still be used for how many weeks after the first; 0 for the first alone. Left out where it keeps
   * as long as what comes in then.
   */
  readonly openingLasts?: readonly { readonly quantity: number; readonly weeks: number }[];
  readonly keepsDaysCold: number;
  readonly keepsMonthsFrozen: number | null;
  readonly quartsPerUnit: number;
}

export interface PlannedCanner {
  readonly id: CannerId;
  readonly name: string;
  readonly method: 'boiling-water' | 'steam' | 'pressure';
}

export interface PlannedSupply {
  readonly id: string;
  readonly name: string;
  readonly unit: string;
  readonly onHand: number;
  readonly packQuantity: number;
  readonly packPrice: Cents;
  /** Days it stands fresh; left out for what keeps. It is bought in the week in which its batch is begun, and none of it is left for another. */
  readonly freshDays?: number;
}

export interface JarHolding {
  readonly kind: JarKind;
  readonly owned: number;
  readonly empty: number;
  readonly pack: number;
  readonly packPrice: Cents;
  /** Share of jars given away that come back. */
  readonly returnShare: number;
}

export interface LidHolding {
  readonly mouth: Mouth;
  readonly onHand: number;
  readonly box: number;
  readonly boxPrice: Cents;
}

export interface PlannedGroup {
  readonly id: GroupId;
  readonly name: string;
  readonly members: readonly { readonly itemId: ItemId; readonly groupUnitsPerUnit: number }[];
  readonly totalUnits: number;
  readonly leastKinds: number;
  readonly largestShare: number;
}

export interface KitchenTime {
  /** Weeks in which nobody is at home on any day: nothing is bought in them. Left out where there are none. */
  readonly awayByWeek?: readonly boolean[];
  readonly maxSessionsByWeek: readonly number[];
  /** Mean of the week's sessions. */
  readonly hoursPerSessionByWeek: readonly number[];
  /** The longest of the week's sessions, which bounds what one batch may take; left out where all are of one length. */
  readonly longestSessionByWeek?: readonly number[];
  /** Pairs of hands that a minute of the week's sessions counts for, at least 1; left out where it is one all year. */
  readonly handsByWeek?: readonly number[];
  readonly setUpMinutes: number;
}

export interface SeasonFund {
  readonly opening: Cents;
  readonly setAsideByWeek: readonly Cents[];
  /**
   * Cents that canning leaves in the fund by each week, since what it is planned to need in any amount is bought in whole packs (`keptForPacks`);
   * none when left out.
   */
  readonly keptForPacksByWeek?: readonly number[];
}

export interface ColdStorage {
  readonly freezerQuarts: number;
  readonly freezerQuartsPerDay: number;
  readonly crockQuarts: number;
  /** Quarts of them that ferments put up before still take; none when left out. */
  readonly crockQuartsTakenByWeek?: readonly number[];
}

/** Quarts of crock that are free for new batches in a week, its place in the year. */
export const crockQuartsFree = (
  { crockQuarts, crockQuartsTakenByWeek = [] }: ColdStorage,
  week: number,
): number => Math.max(0, crockQuarts - noneBeyond(crockQuartsTakenByWeek, week));
