import { totalUse } from './belief/rate-belief.ts';
import { type CropRisk, notWorthABatch, reserveFor, yearInWeeks } from './reserve.ts';
import type { Occasion, UseForecast } from './use-forecast.ts';

export type DatedKind = 'occasion' | 'gift' | 'promised';

export interface DatedUnits extends Occasion {
  readonly kind: DatedKind;
}

export interface TargetWishes {
  /** Dated units; those within twelve months of the forecast's date count. */
  readonly dated: readonly DatedUnits[];
  /** Chance wished that the item lasts to its next supply, 0.5..0.99. */
  readonly chanceOfLasting: number;
  /** Ordinary weeks of the longest stretch without a supply; 52 for what comes once a year. */
  readonly longestGapWeeks: number;
  readonly crop: CropRisk | null;
  /** Weeks a unit is at its best, counted from putting up. */
  readonly keepsWeeks: number;
  /** Weeks after which the household throws a unit away, counted from putting up; null when it never does. */
  readonly discardAfterWeeks: number | null;
  /** Units that the smallest batch of it gives at least; left out for what is bought. */
  readonly batchUnits?: number;
  /** Units set by hand; null follows the forecast. */
  readonly byHand: number | null;
}

/** What a yearly target is made of, in units of the item. */
export interface TargetParts {
  readonly use: number;
  readonly occasions: number;
  readonly gifts: number;
  readonly promised: number;
  readonly hungryYear: number;
  readonly failedCrop: number;
}

export interface YearlyTarget {
  /** Units wanted for twelve months: by hand if one was set, else the sum of the parts, rounded up to whole units. */
  readonly units: number;
  readonly parts: TargetParts;
  /** Sum of the parts, before rounding. */
  readonly fromForecast: number;
  /**
   * Of these, the units nobody will have eaten when the household throws them away, on average: what the wish to last costs. Not taken
   * off, for in a hungry year they are eaten.
   */
  readonly expectedWaste: number;
  /** Of the hungry year's reserve, the units that are let go rather than that a batch more is made for them. */
  readonly notWorthABatch: number;
  /** What the hand-set target does that the forecast would not; null when none is set. */
  readonly byHand: HandComparison | null;
}

export interface HandComparison {
  readonly units: number;
  /** By hand minus forecast. */
  readonly difference: number;
  /** Chance that the hand-set units cover everything eaten, given and promised in the year, 0..1. */
  readonly chanceOfCovering: number;
}

/**
 * The yearly target of an item and what it is made of.
 *
 * units = use + occasions + gifts + promised + hungry-year reserve + failed-crop reserve. Use is the forecast of
 * ordinary weeks over the 52 weeks from its date; the forecast's horizon must reach that far (RangeError). No reserve is kept
 * longer than the household keeps a unit. A target by hand wins; the parts stay, to compare.
 */
export function yearlyTarget(forecast: UseForecast, wishes: TargetWishes): YearlyTarget {
  if (forecast.weeks.length < yearInWeeks) {
    throw new RangeError(
      `yearlyTarget: expected a forecast of at least 52 weeks, got ${forecast.weeks.length}`,
    );
  }
  const year = forecast.weeks.slice(0, yearInWeeks);
  const ordinaryWeeks = year.reduce((sum, week) => sum + week.ordinaryWeeks, 0);
  const use = ordinaryWeeks * forecast.perWeek;
  const dated = datedWithinYear(forecast, wishes.dated);
  const gapWeeks = Math.min(wishes.longestGapWeeks, ordinaryWeeks);
  const reserve = reserveFor(
    forecast,
    gapWeeks,
    wishes.chanceOfLasting,
    wishes.crop,
    Math.min(wishes.keepsWeeks, wishes.discardAfterWeeks ?? wishes.keepsWeeks),
  );
  const certain = dated.occasions + dated.gifts + dated.promised;
  const fromForecast = use + certain + reserve.hungryYear + reserve.failedCrop;
  const expectedWaste =
    wishes.discardAfterWeeks === null
      ? 0
      : expectedUneaten(
          forecast,
          fromForecast - certain,
          (ordinaryWeeks / yearInWeeks) * wishes.discardAfterWeeks,
        );
  const eaten = totalUse(forecast.belief, ordinaryWeeks);
  return {
    units: wishes.byHand ?? Math.ceil(fromForecast - 1e-6),
    parts: { use, ...dated, ...reserve },
    fromForecast,
    expectedWaste,
    notWorthABatch:
      wishes.batchUnits === undefined
        ? 0
        : notWorthABatch(totalUse(forecast.belief, gapWeeks), wishes.chanceOfLasting, wishes.batchUnits),
    byHand:
      wishes.byHand === null
        ? null
        : {
            units: wishes.byHand,
            difference: wishes.byHand - fromForecast,
            chanceOfCovering: eaten.atMost(wishes.byHand - certain),
          },
  };
}

function datedWithinYear(
  forecast: UseForecast,
  dated: readonly DatedUnits[],
): Pick<TargetParts, 'occasions' | 'gifts' | 'promised'> {
  const after = forecast.asOf;
  const until = `${Number(after.slice(0, 4)) + 1}${after.slice(4)}`;
  const sum = (kind: DatedKind): number =>
    dated
      .filter((units) => units.kind === kind && units.on >= after && units.on < until)
      .reduce((total, { units }) => total + units, 0);
  return { occasions: sum('occasion'), gifts: sum('gift'), promised: sum('promised') };
}

/**
 * Units of `stock` still standing after that many ordinary weeks, on average: `sum over k < stock of P(eaten <= k)`.
 * Example: 3 units and exactly 2 eaten leave 1.
 */
export function expectedUneaten(forecast: UseForecast, stock: number, ordinaryWeeks: number): number {
  if (!(stock > 0)) return 0;
  const eaten = totalUse(forecast.belief, ordinaryWeeks);
  const whole = Math.floor(stock);
  let left = (stock - whole) * eaten.atMost(whole);
  for (let units = 0; units < whole; units += 1) left += eaten.atMost(units);
  return left;
}
