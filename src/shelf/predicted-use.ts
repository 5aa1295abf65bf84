import { totalSpread } from '../consumption/rate-belief.ts';
import type { UseForecast } from '../consumption/use-forecast.ts';
import { drawCount, drawGamma, type Random } from './draws.ts';
import type { PredictedUse } from './shelf-projection.ts';

/**
 * A use forecast in the form the projection needs: totals in closed form, and possible courses of the weeks ahead.
 *
 * A course is drawn in three steps: one of the forecast's readings by its share; the household's true weekly rate from a
 * gamma distribution with the reading's mean m and variance m · (spread of a total over one week - dispersion); then each
 * week's count at that rate with the week's dispersion, dated occasions added. Mean and variance of every total over weeks
 * from the first on are those of `totalOver`, because both grow with the weeks as D·H·m + H²·variance of the rate.
 */
export function predictedUse(forecast: UseForecast): PredictedUse {
  const { belief, weeks } = forecast;
  return {
    weeklyMean: forecast.weeklyMean,
    totalOver: forecast.totalOver,
    drawWeeks: (random) => {
      const rate = drawRate(forecast, random);
      const wanted = new Float64Array(weeks.length);
      for (let week = 0; week < weeks.length; week += 1) {
        const ahead = weeks[week];
        if (ahead === undefined) break;
        wanted[week] =
          ahead.occasions +
          (ahead.ordinaryWeeks > 0 ? drawCount(rate * ahead.ordinaryWeeks, belief.dispersion, random) : 0);
      }
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
  const varianceOverMean = totalSpread(belief.dispersion, 1, reading.weeksOfEvidence) - belief.dispersion;
  return drawGamma(reading.perWeek / varianceOverMean, random) * varianceOverMean;
}
