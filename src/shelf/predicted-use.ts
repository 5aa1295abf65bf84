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
  return {
    weeklyMean: forecast.weeklyMean,
    totalOver: forecast.totalOver,
    drawWeeks: (random) => {
      const rate = drawRate(forecast, random);
      const wanted = new Float64Array(weeks.length);
      const isSteadierTogether = belief.blockDispersion < belief.dispersion * (1 - 1e-9);
      for (let first = 0; first < weeks.length; first += weeksInBlock) {
        const block = weeks.slice(first, first + weeksInBlock);
        const dealt = isSteadierTogether
          ? drawApart(
              rate,
              block.map((ahead) => ahead.ordinaryWeeks),
              belief,
              random,
            )
          : block.map(({ ordinaryWeeks }) =>
              ordinaryWeeks > 0 ? drawCount(rate * ordinaryWeeks, belief.dispersion, random) : 0,
            );
        block.forEach(({ occasions }, at) => {
          wanted[first + at] = occasions + (dealt[at] ?? 0);
        });
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
  const doubt = rateDoubt(belief.blockDispersion, reading.weeksOfEvidence);
  return drawGamma(reading.perWeek / doubt, random) * doubt;
}
