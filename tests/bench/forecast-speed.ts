import { asDate, asWeek, weeksFrom } from '../../shared/week.ts';
import { type DeclaredUse, forecastUse } from '../../src/consumption/use-forecast.ts';
import { allYear } from '../../src/consumption/use-pattern.ts';
import type { WeekOfUse } from '../../src/consumption/week-of-use.ts';
import { poissonDraw, seeded } from '../shelf/households-use.ts';

// npm run -s bench:forecast:speed [-- --json]
// Forecasts 200 items with five years of weekly history in one thread, beside a plain loop that only sums the same counts.
const items = 200;
const historyWeeks = 260;
const rounds = 25;

const random = seeded(2026);
const weeks = weeksFrom(asWeek('2021-W01'), historyWeeks);
const asOf = asDate('2025-12-29');
const households = Array.from({ length: items }, () => {
  const perWeek = 0.1 + 4 * random();
  const history = weeks.map(
    (week): WeekOfUse => ({ week, taken: poissonDraw(perWeek, random), exposure: 1 }),
  );
  const declared: DeclaredUse = { perWeek: 1.5, weight: 6, pattern: allYear, occasions: [] };
  return { history, declared };
});

const median = (values: number[]): number =>
  values.sort((left, right) => left - right)[values.length >> 1] ?? 0;
const timed = (work: () => number): number => {
  const started = performance.now();
  if (!Number.isFinite(work())) throw new Error('forecast-speed: expected finite sums');
  return performance.now() - started;
};

const forecastAll = (): number =>
  households.reduce(
    (sum, { history, declared }) => sum + forecastUse(history, declared, asOf, 52).perWeek,
    0,
  );
const sumAll = (): number => {
  let sum = 0;
  for (const { history } of households) for (const week of history) sum += week.taken;
  return sum;
};

const first = timed(forecastAll);
const roundsTaken = Array.from({ length: rounds }, () => timed(forecastAll));
const forecastMs = median(roundsTaken);
const fastestMs = Math.min(...roundsTaken);
const sumMs = median(Array.from({ length: rounds * 20 }, () => timed(sumAll)));
const result = {
  items,
  historyWeeks,
  firstMilliseconds: first,
  milliseconds: forecastMs,
  // On a busy machine the fastest round is nearest to what the work itself takes.
  fastestMilliseconds: fastestMs,
  itemsPerSecond: (items / forecastMs) * 1000,
  summingMilliseconds: sumMs,
  ratio: forecastMs / sumMs,
};
if (process.argv.includes('--json')) console.log(JSON.stringify(result));
else {
  console.log(
    `${items} items × ${historyWeeks} weeks: ${forecastMs.toFixed(1)} ms (fastest ${fastestMs.toFixed(1)}, first ${first.toFixed(1)}), ${Math.round(result.itemsPerSecond)} items/s`,
  );
  console.log(
    `A loop that only sums the same counts: ${sumMs.toFixed(3)} ms; ratio ${Math.round(result.ratio)}`,
  );
}
