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
  const isSteadierTogether = belief.blockDispersion < belief.dispersion * (1 - 1e-9);
  // Thousands of courses are drawn of one use: nothing is made for each of its weeks that all courses share.
  const addApart = (wanted: Float64Array, rate: number, random: Random): void => {
    for (let week = 0; week < wanted.length; week += 1) {
      const ordinary = ordinaryWeeks[week] ?? 0;
      if (ordinary > 0)
        wanted[week] = (wanted[week] ?? 0) + drawCount(rate * ordinary, belief.dispersion, random);
    }
  };
  const addTogether = (wanted: Float64Array, rate: number, random: Random): void => {
    let first = 0;
    for (const block of blocks) {
      const dealt = drawApart(rate, block, belief, random);
      for (let at = 0; at < block.length; at += 1)
        wanted[first + at] = (wanted[first + at] ?? 0) + (dealt[at] ?? 0);
      first += block.length;
    }
  };
  return {
    weeklyMean: forecast.weeklyMean,
    totalOver: forecast.totalOver,
    drawWeeks: (random) => {
      const rate = drawRate(forecast, random);
      const wanted = occasions.slice();
      if (isSteadierTogether) addTogether(wanted, rate, random);
      else addApart(wanted, rate, random);
      return wanted;
    },
  };
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
