import { totalUse } from './belief/rate-belief.ts';
import { type CountDistribution, levelTolerance } from './count-distribution.ts';
import type { UseForecast } from './use-forecast.ts';

/** A crop that fails: how likely, how much of it is then lost, and what the household does about it. */
export interface CropRisk {
  /** Chance of a poor year, 0..1. */
  readonly poorYearChance: number;
  /** Share of an ordinary harvest that a poor year still gives, 0..1. */
  readonly poorYearShare: number;
  readonly fallBack: 'buy' | 'substitute' | 'do-without';
}

export interface Reserve {
  /** Units for a year in which more is eaten than expected. */
  readonly hungryYear: number;
  /** Units for a year in which the crop fails. */
  readonly failedCrop: number;
}

/** Share of a missing harvest that the reserve must stand in for, by what the household does when the crop fails. */
const leftOpen: Readonly<Record<CropRisk['fallBack'], number>> = { buy: 0, substitute: 0.5, 'do-without': 1 };

/** Where it keeps that long, a good year puts up 15 to 18 months of a crop that may fail. Common practice, no source. */
const goodYearWeeks = { least: 13, most: 26 } as const;
/** Weeks a target reaches. */
export const yearInWeeks = 52;

/**
 * Stock, in units, that should still stand when the next supply comes.
 *
 * Hungry year: quantile minus mean of the units eaten over the longest gap between supplies, at the household's wished chance of
 * lasting; never below 0. Failed crop: use over the weeks that a poor year's harvest would leave bare × what the fall-back leaves
 * open (buying leaves nothing, a substitute half, doing without all; these shares are ours). Those weeks are put up in full,
 * 13 to 26 of them, where the item keeps its best quality for as long; otherwise only their share of the chance that it fails.
 * `keepsWeeks` is how long a unit is at its best.
 * `longestGapWeeks` counts ordinary weeks; 0 gives no hungry-year part.
 *
 * Example: Poisson use with mean 16.9 over the gap and 9 chances in 10: 22 - 16.9 = 5.1 units.
 */
export function reserveFor(
  forecast: UseForecast,
  longestGapWeeks: number,
  chanceOfLasting: number,
  crop: CropRisk | null,
  keepsWeeks: number,
): Reserve {
  const overGap = totalUse(forecast.belief, longestGapWeeks);
  const hungryYear = longestGapWeeks > 0 ? Math.max(0, overGap.quantile(chanceOfLasting) - overGap.mean) : 0;
  const yearOfUse = forecast.weeks
    .slice(0, yearInWeeks)
    .reduce((sum, week) => sum + week.ordinaryWeeks * forecast.perWeek, 0);
  const failedCrop =
    crop === null
      ? 0
      : (weeksPutUpBeyondTheYear(crop, keepsWeeks) / yearInWeeks) * yearOfUse * leftOpen[crop.fallBack];
  return { hungryYear, failedCrop };
}

function weeksPutUpBeyondTheYear({ poorYearChance, poorYearShare }: CropRisk, keepsWeeks: number): number {
  if (poorYearChance <= 0) return 0;
  const bare = (1 - poorYearShare) * yearInWeeks;
  const { least, most } = goodYearWeeks;
  const keepsBeyond = keepsWeeks - yearInWeeks;
  return keepsBeyond < least ? poorYearChance * bare : Math.min(Math.max(bare, least), most, keepsBeyond);
}

/**
 * Units that a hungry year's reserve may lack, rather than that one more batch is made for it. `overGap`: units eaten in all over the
 * gap that the reserve bridges.
 *
 * A kitchen makes whole batches. One more is worth its work where its units would be eaten before the next supply, on average over
 * them, with a chance above 1 - `chanceOfLasting`: the bound that the wish itself draws for a single unit. So where the reserve
 * (quantile minus mean) lacks no more than this, a batch of `batchUnits` (1 or more) would mostly be left over. Never more than the
 * reserve, and nothing where units come one by one.
 *
 * Example: Poisson use with mean 16.9 and 9 chances in 10 want 22 to stand. With 20, the seven units of another batch would be eaten
 * with chances of 0.19, 0.13, 0.09, … 0.01, 0.08 on average: less than 0.1, so 2 may lack; with 19 it is 0.11, and the batch is made.
 */
export function notWorthABatch(
  overGap: CountDistribution,
  chanceOfLasting: number,
  batchUnits: number,
): number {
  const wanted = overGap.quantile(chanceOfLasting);
  const reserve = Math.max(0, wanted - overGap.mean);
  const units = Math.max(1, Math.round(batchUnits));
  const isWorthIt = (standing: number): boolean => {
    const eaten = Array.from({ length: units }, (_, more) => 1 - overGap.atMost(Math.floor(standing + more)));
    return eaten.reduce((sum, chance) => sum + chance, 0) / units > 1 - chanceOfLasting + levelTolerance;
  };
  if (reserve > 0 && !isWorthIt(overGap.mean)) return reserve;
  let lacking = Math.floor(reserve);
  while (lacking > 0 && isWorthIt(wanted - lacking)) lacking -= 1;
  return lacking;
}
