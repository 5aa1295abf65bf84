import { rateDoubt, weeksInBlock } from '../consumption/belief/rate-belief.ts';
import type { UseForecast } from '../consumption/use-forecast.ts';
import { drawApart, drawCount, drawGamma, type Random } from './draws.ts';
import type { PredictedUse } from './shelf-projection.ts';

/**
 * A use forecast in the form the projection needs: totals in closed form, and possible courses of the weeks ahead.
 *
 * A course is drawn in three steps: one of the forecast's readings by its share; the household's true weekly rate from a
 * gamma distribution with the reading's mean m and variance m · doubt; then each week's count at that rate with the week's
 * dispersion, dated occasions added. Where four weeks together are steadier than apart, a block of four is drawn and dealt out over its
 * weeks. Mean and variance of every total over weeks from the first on are those of `totalOver`.
 */
export function predictedUse(forecast: UseForecast): PredictedUse {
  const { belief, weeks } = forecast;
  const occasions = Float64Array.from(weeks, (week) => week.occasions);
  const ordinaryWeeks = weeks.map((week) => week.ordinaryWeeks);
  const blocks = Array.from({ length: Math.ceil(weeks.length / weeksInBlock) }, (_, block) =>
    ordinaryWeeks.slice(block * weeksInBlock, (block + 1) * weeksInBlock),
  );
  const dealt: number[] = [];
  const isSteadierTogether = belief.blockDispersion < belief.dispersion * (1 - 1e-9);
  // Thousands of courses are drawn of one use: nothing is made for each of its weeks that all courses share.
  const addApart: AddWeeks = (wanted, first, rate, random) => {
    for (let week = 0; week < wanted.length; week += 1) {
      const ordinary = ordinaryWeeks[first + week] ?? 0;
      if (ordinary > 0)
        wanted[week] = (wanted[week] ?? 0) + drawCount(rate * ordinary, belief.dispersion, random);
    }
  };
  const addTogether: AddWeeks = (wanted, first, rate, random) => {
    for (let begun = 0; begun < wanted.length; begun += weeksInBlock) {
      const block = blocks[(first + begun) / weeksInBlock] ?? [];
      drawApart(rate, block, belief, random, dealt);
      for (let at = 0; at < block.length; at += 1)
        wanted[begun + at] = (wanted[begun + at] ?? 0) + (dealt[at] ?? 0);
    }
  };
  const add = isSteadierTogether ? addTogether : addApart;
  return {
    weeklyMean: forecast.weeklyMean,
    totalOver: forecast.totalOver,
    beginCourse: (random) => {
      const rate = drawRate(forecast, random);
      let drawn = 0;
      return (wanted, random) => {
        for (let week = 0; week < wanted.length; week += 1) wanted[week] = occasions[drawn + week] ?? 0;
        add(wanted, drawn, rate, random);
        drawn += wanted.length;
      };
    },
  };
}

/** Adds what is wanted in the weeks from `first` on at the household's true weekly rate. */
type AddWeeks = (wanted: Float64Array, first: number, rate: number, random: Random) => void;

/** One possible course of all weeks a use is known for, from one stream of numbers. */
export function drawWeeks(use: PredictedUse, random: Random): Float64Array {
  const wanted = new Float64Array(use.weeklyMean.length);
  use.beginCourse(random)(wanted, random);
  return wanted;
}

function drawRate({ belief }: UseForecast, random: Random): number {
  let trust = random() * belief.readings.reduce((sum, reading) => sum + reading.share, 0);
  const reading =
    belief.readings.find((candidate) => {
      trust -= candidate.share;
      return trust < 0;
    }) ?? belief.readings.at(-1);
  if (reading === undefined) return 0;
  const doubt = rateDoubt(belief.blockDispersion, reading.weeksOfEvidence);
  return drawGamma(reading.perWeek / doubt, random) * doubt;
}
