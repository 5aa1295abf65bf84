import { totalUse, undeclaredUse } from '../../src/consumption/belief/rate-belief.ts';
import { trainedBelief } from '../../src/consumption/belief/trained-belief.ts';
import type { ForecastMethod } from './reference-methods.ts';

/**
 * The production forecast of an item of which the household said nothing: every count is one ordinary week. What the
 * benchmark scores; `forecastUse` is the same filter with a declared start, a calendar and partial weeks.
 */
export const undeclaredForecast: ForecastMethod = (counts) => {
  const belief = trainedBelief(
    undeclaredUse,
    counts.map((taken) => ({ taken, ordinaryWeeks: 1 })),
  );
  return { next: totalUse(belief, 1), total: (periods) => totalUse(belief, periods) };
};
