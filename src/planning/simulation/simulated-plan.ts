import type { ItemId } from '../../../shared/ids.ts';
import type { Random } from '../../shelf/draws.ts';

/** What varies from year to year beside use. Judgement, no published source, unless the household says otherwise. */
export interface YearSpread {
  /** Standard deviation of a usual year's harvest as a share of its mean; poor years come on top. */
  readonly harvest: number;
  /** Standard deviation of how many weeks earlier or later a crop ripens. */
  readonly windowWeeks: number;
  /** Standard deviation of a year's appetite as a share of its mean, where no distribution of use is given. */
  readonly use: number;
}

export const usualSpread: YearSpread = { harvest: 0.15, windowWeeks: 0.7, use: 0.12 };

/** Draws one possible course of the weeks ahead, units wanted by week. */
export type DrawUse = (random: Random) => ArrayLike<number>;

export interface SimulationOptions {
  /** Sampled years, 1,000 or more for a page. */
  readonly years: number;
  readonly seed: number;
  readonly spread?: YearSpread;
  /** Predicted use by item; an item not in it varies around its expected use. */
  readonly drawUse?: ReadonlyMap<ItemId, DrawUse>;
}

/** A figure estimated from sampled years and the standard error of that estimate. */
export interface Estimate {
  readonly value: number;
  readonly standardError: number;
}

export interface SimulatedItem {
  readonly item: ItemId;
  /** Share of years in which nothing wanted is missing from when the item can first be made or bought again to the first supply after the year. */
  readonly lasts: Estimate;
  /** Units wanted and not there from the one to the other. */
  readonly missedUnits: Estimate;
  /** Units past best quality at the year's end. */
  readonly olderAtEnd: Estimate;
  /** Units that would have had to stand by in the aimed share of years, to miss nothing: the quantile of what was missed. */
  readonly missedQuantile: (share: number) => number;
  /** Units missing when everything comes as expected: no crop, no hours or no money for them; more in reserve brings none of them. */
  readonly missedAsPlanned: number;
}

export interface SimulatedPlan {
  readonly years: number;
  readonly seed: number;
  readonly items: readonly SimulatedItem[];
  /** Cents spent in a year: the plan's, and what a poor crop makes the household buy. */
  readonly spend: Estimate;
  /** Share of years in which some crop failed and some planned batch could not be made. */
  readonly batchesLost: Estimate;
}
