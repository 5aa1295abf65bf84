import type { CalendarDate, WeekKey } from '../../shared/week.ts';
import type { LocalDateTime } from '../household/begun.ts';
import type { GaveWayRung } from '../planning/plan.ts';
import type { BatchState, StageDay } from '../preserving/stages/batch-calendar.ts';
import type { UpkeepLine } from '../preserving/upkeep.ts';
import type { NoticeReader } from './marks.ts';

/** Everything the rules look at, as plain data: the household's pantry and plan as they stand on `asOf`. */
export interface NoticePicture {
  readonly asOf: CalendarDate;
  /** The day with which the household begins its weeks; notices name weeks by it. */
  readonly weekStartsOn: 'monday' | 'sunday';
  /** How the household reads days and amounts; missing: pounds, and the month first. */
  readonly reader?: NoticeReader;
  readonly lots: readonly NoticeLot[];
  readonly items: readonly NoticeItem[];
  readonly windows: readonly NoticeWindow[];
  /** Planned canning sessions, any order. */
  readonly sessions: readonly NoticeSession[];
  /** Raw meat and the like that sessions need, each on the days on which it is bought. */
  readonly fresh: readonly NoticeFresh[];
  /** Batches with something to do before their canner load, any order; missing: none. */
  readonly batches?: readonly NoticeBatch[];
  /** What is on hand of what the sessions need, by name of the need. */
  readonly onHand: Readonly<Record<string, number>>;
  readonly gaveWay: readonly NoticeGaveWay[];
  readonly canners: readonly NoticeCanner[];
  /** Upkeep of canners and other devices; missing where none was looked at. */
  readonly upkeep?: readonly UpkeepLine[];
  /** Altitude of the kitchen, feet; null when it was never entered. */
  readonly altitudeFt: number | null;
  /** The machine's clock had been ahead until a day and went back on another; missing or null while it never did. */
  readonly clockJump?: {
    readonly jumpId: string;
    readonly wentBackOn: CalendarDate;
    readonly aheadUntil: CalendarDate;
  } | null;
}

/** A word for one and for several: jar, jars. */
export interface UnitWord {
  readonly one: string;
  readonly many: string;
}

export interface NoticeLot {
  readonly lotId: string;
  readonly itemName: string;
  /** Whole jars (bags, lb …) left, as a person counts them; lots at 0 get no notice. */
  readonly left: number;
  readonly unit: UnitWord;
  readonly came: 'put up' | 'bought' | 'received';
  /** Day it was put up, bought or received. */
  readonly madeOn: CalendarDate;
  readonly readyFrom: CalendarDate;
  /** Last day of best quality. */
  readonly bestQualityUntil: CalendarDate;
  /** Set for what stands in the refrigerator: past its days it is thrown away, not eaten first. */
  readonly neverPastDays?: true;
  /** Last day on which the household keeps it by its own limit, after which it is thrown away; null where there is no such limit. */
  readonly keptUntil?: CalendarDate | null;
  /** Where it is, as the household calls the place. */
  readonly place: string | null;
  /** Not to be eaten until released: why, and since when. */
  readonly setAside: { readonly reason: string; readonly on: CalendarDate } | null;
}

export interface NoticeItem {
  readonly itemId: string;
  readonly itemName: string;
  readonly unit: UnitWord;
  /** Something of it was put up, bought, received or counted at some time. */
  readonly isOnRecord: boolean;
  /** Units on the shelf that may be eaten. */
  readonly onShelf: number;
  /** Expected units wanted in an ordinary week. */
  readonly usePerWeek: number;
  /** Week in which it likely runs out (`itemGaps`); null where it lasts. */
  readonly runsOutIn: WeekKey | null;
  /** Week in which it can be made or bought again; null when none is known. */
  readonly nextSupplyWeek: WeekKey | null;
  readonly nextSupplyBy: 'made' | 'bought';
  /** Why nothing more can come: `no source of carrots`; null where something can, missing where that was not looked at. */
  readonly missing?: string | null;
  /** What it seems to be eaten at now, though nobody said so, units an ordinary week; null while nothing speaks for a change. */
  readonly suspectedHabit: {
    readonly perWeekBefore: number;
    readonly perWeek: number;
    readonly weeks: number;
  } | null;
  /** A week fuller than any before, that may have been an occasion, in units; null or missing while there is none. */
  readonly suspectedOccasion?: { readonly week: WeekKey; readonly taken: number } | null;
  /** Neighboring months (1 is January) in which most was eaten; null or missing while nothing speaks for a season. */
  readonly suspectedSeason?: { readonly months: readonly number[] } | null;
}

/** This year's harvest of one crop from one source, the year's shift already in its dates. */
export interface NoticeWindow {
  readonly sourceId: string;
  readonly sourceName: string;
  readonly cropName: string;
  readonly year: number;
  readonly beginsOn: CalendarDate;
  /** First day on which there is no more. */
  readonly endsOn: CalendarDate;
  /** Days later than usual this year; negative when earlier; 0 when as usual or not known. */
  readonly shiftDays: number;
  /** Names of what the plan still wants to make from it; a harvest nobody wants gets no notice. */
  readonly wantedFor: readonly string[];
}

export interface NoticeSession {
  readonly week: WeekKey;
  /** The first day on which anything of it is used, the shopping day before, and its last canning day (`neededFor`). */
  readonly on: CalendarDate;
  readonly buyBy: CalendarDate;
  readonly lastDay: CalendarDate;
  /** Something of it is begun before its canning day. */
  readonly isBegunBefore: boolean;
  /** What is to be made: names of the recipes. */
  readonly makes: readonly string[];
  /** Jars, lids, sugar, vinegar …: what the session takes in all, whether on hand or not. */
  readonly needs: readonly SessionNeed[];
}

/** Something a session needs that stands a day or two only. */
export interface NoticeFresh {
  readonly week: WeekKey;
  readonly need: SessionNeed;
  readonly notBefore: CalendarDate;
  readonly by: CalendarDate;
  /** The day its batch is made. */
  readonly forDay: CalendarDate;
  readonly keepsDays: number;
  readonly makes: readonly string[];
}

/** Batches that wait, or will, before their canner load. */
export interface NoticeBatch {
  readonly batchKey: string;
  /** Name of the recipe. */
  readonly name: string;
  readonly isBegun: boolean;
  readonly state: BatchState;
  readonly plannedOn: CalendarDate | null;
  /** The day on which its jars may be filled, nearest to the planned one. */
  readonly loadOn: CalendarDate | null;
  readonly fillFrom: LocalDateTime | null;
  readonly fillUntil: LocalDateTime | null;
  /** What was done and what is to be done, in order. */
  readonly days: readonly {
    readonly position: number;
    readonly what: string;
    readonly on: CalendarDate;
    readonly state: StageDay['state'];
    /** It is followed by a wait. */
    readonly waits: boolean;
  }[];
}

export interface SessionNeed {
  /** "sugar", "half-pint jars". */
  readonly name: string;
  readonly quantity: number;
  /** Null when it is counted by its own name: 24 half-pint jars. */
  readonly unit: UnitWord | null;
  /** What of the session takes it, by name; missing: all of it does. */
  readonly takenBy?: readonly string[];
  /** What one pack of it holds; missing: it is bought singly. */
  readonly pack?: number;
  /** What the plan buys of it for the week, as the shopping list says it; missing: the list has none of it then. */
  readonly onList?: ListedNeed;
}

/** What the shopping list has of a need. */
export interface ListedNeed {
  readonly quantity: number;
  readonly packs: number | null;
  /** The day by which the list has it fetched in a week before (`fetchDays`); missing: it is fetched for the canning of its own week. */
  readonly by?: CalendarDate;
}

/** A wish that could not be met, with the name a person knows it by. */
export interface NoticeGaveWay {
  readonly rung: GaveWayRung;
  /** Stable key: an item, group or source id. */
  readonly key: string;
  readonly name: string;
  /** The household makes it itself; missing for what is no item. */
  readonly isPreserve?: boolean;
  /** Of what is to be eaten there are likely weeks without any (`itemGaps`), though the year's sum may suffice. */
  readonly isBare?: true;
  /** How much, in what it is counted in; of money in cents. */
  readonly amount: number;
  readonly isMoney?: true;
  /** The amount as it is said: `4 pints`, `$12.50`. */
  readonly words: string;
}

export interface NoticeCanner {
  readonly cannerId: string;
  readonly name: string;
  readonly gauge: 'dial' | 'weighted' | null;
  readonly gaugeCheckedOn: CalendarDate | null;
  /** The first planned canning day on which no check on record counts any more, and what is canned then; missing or null: none. */
  readonly checkNeededFor?: { readonly on: CalendarDate; readonly makes: readonly string[] } | null;
}
