import { mondayOf } from '../../shared/week.ts';
import type { CountDistribution } from './count-distribution.ts';
import { calibrationHistogram } from './forecast-scores.ts';
import { type HouseholdCalendar, ordinaryCalendar } from './household-calendar.ts';
import { type DeclaredUse, forecastUse } from './use-forecast.ts';
import type { WeekOfUse } from './week-of-use.ts';

/** A forecast as it would have been made then, and what was eaten after it. */
export interface PastForecast {
  readonly forecast: CountDistribution;
  /** Units eaten in the weeks it was about. */
  readonly observed: number;
}

export interface ForecastRecord {
  /** Forecasts that could be held against what was eaten. */
  readonly cases: number;
  /** Shares of the cases, 0 to 1, that fell below, within and above the range meant to hold 8 in 10. */
  readonly below: number;
  readonly within: number;
  readonly above: number;
  /** Units expected in all, and units eaten. */
  readonly expected: number;
  readonly eaten: number;
  /** Share of the cases in each tenth of its forecast, lowest first; a tenth each when forecasts are as sure as they say. */
  readonly tenths: readonly number[];
}

/** Weeks a past forecast looks ahead, and weeks between two of them, so that no week is judged twice. */
const weeksJudged = 4;

/** A forecast is judged only on weeks in which a unit could nearly always have been taken. */
const leastExposure = 0.9;

/**
 * Forecasts of one item made again at four-week steps, each from the weeks before it alone, with what was eaten in the four
 * weeks after (rolling-origin evaluation, https://otexts.com/fpp3/tscv.html).
 *
 * History: weeks oldest first. `judgedFrom` is the first week that may be judged; weeks before it only train. Four weeks with
 * too little exposure are left out. What was eaten is rounded to whole units, because counts of the shelf spread theirs.
 */
export function pastForecasts(
  history: readonly WeekOfUse[],
  declared: DeclaredUse,
  judgedFrom: WeekOfUse['week'],
  calendar: HouseholdCalendar = ordinaryCalendar,
): readonly PastForecast[] {
  const first = history.findIndex(({ week }) => week >= judgedFrom);
  if (first < 0) return [];
  const cases: PastForecast[] = [];
  for (let at = first; at + weeksJudged <= history.length; at += weeksJudged) {
    const judged = history.slice(at, at + weeksJudged);
    const [opening] = judged;
    if (opening === undefined || judged.some(({ exposure }) => exposure < leastExposure)) continue;
    const forecast = forecastUse(
      history.slice(0, at),
      declared,
      mondayOf(opening.week),
      weeksJudged,
      calendar,
    ).totalOver(weeksJudged);
    cases.push({ forecast, observed: Math.round(judged.reduce((sum, { taken }) => sum + taken, 0)) });
  }
  return cases;
}

/**
 * How sure forecasts were against how sure they had reason to be. Shares are counted without rounding up: a count that lies
 * on the edge of its range belongs to the range by the part of its probability that does (see `calibrationHistogram`).
 * Without cases every figure is 0.
 */
export function forecastRecord(cases: readonly PastForecast[]): ForecastRecord {
  const tenths = cases.length === 0 ? new Array<number>(10).fill(0) : calibrationHistogram(cases);
  const below = tenths[0] ?? 0;
  const above = tenths.at(-1) ?? 0;
  return {
    cases: cases.length,
    below,
    above,
    within: cases.length === 0 ? 0 : 1 - below - above,
    expected: cases.reduce((sum, { forecast }) => sum + forecast.mean, 0),
    eaten: cases.reduce((sum, { observed }) => sum + observed, 0),
    tenths,
  };
}
