import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import { type CountSeries, originsFor, readSeries, type Scores, score, tuned } from './forecast-protocol.ts';
import { meanWithSpread, smoothedWithSpread } from './reference-methods.ts';
import { undeclaredForecast } from './undeclared-forecast.ts';

// npm run -s bench:forecast -- --series FILE.csv [--json]
// Scores the production forecast beside the negative binomial around the mean and around exponential smoothing.
const usage = 'Use: npm run -s bench:forecast -- --series FILE.csv [--json]';
const smoothingTried = [0.02, 0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5];

const options = {
  series: { type: 'string', multiple: true },
  json: { type: 'boolean', default: false },
} as const;

try {
  const { values } = parseArgs({ options });
  if (!values.series?.length) throw new Error('Expected a file of series; none was named.');
  const results = values.series.map((file) => ({ series: basename(file), ...compare(read(file)) }));
  if (values.json) {
    console.log(JSON.stringify(results.length === 1 ? results[0] : results));
  } else {
    for (const result of results) print(result);
  }
} catch (error) {
  console.error(`${error instanceof Error ? error.message : error}\n${usage}`);
  process.exitCode = 1;
}

function read(file: string): CountSeries[] {
  const series = readSeries(readFileSync(file, 'utf8'));
  if (series.length === 0) throw new Error(`${file}: expected at least one series, found none.`);
  return series;
}

function compare(series: readonly CountSeries[]) {
  const smoothing = tuned(smoothedWithSpread, smoothingTried, series);
  const methods = [
    { model: 'shelfward', forecast: undeclaredForecast },
    { model: 'mean+NB', forecast: meanWithSpread },
    { model: 'SES+NB', forecast: smoothedWithSpread(smoothing) },
  ];
  return {
    count: series.length,
    origins: originsFor(series[0]?.counts.length ?? 0),
    smoothing,
    models: methods.map(({ model, forecast }) => ({ model, ...score(forecast, series) })),
  };
}

function print(result: ReturnType<typeof compare> & { series: string }): void {
  console.log(
    `${result.series}: ${result.count} series, origins ${result.origins.join(', ')}, 13 steps; smoothing ${result.smoothing}\n`,
  );
  const columns: readonly [string, (scores: Scores) => string][] = [
    ['weekly CRPS', (scores) => scores.weeklyCrps.toFixed(4)],
    ['weekly pinball', (scores) => scores.weeklyPinball.toFixed(4)],
    ['total CRPS', (scores) => scores.totalCrps.toFixed(4)],
    ['total pinball', (scores) => scores.totalPinball.toFixed(4)],
    ['cover .90', (scores) => scores.coverage90.toFixed(3)],
    ['cover .95', (scores) => scores.coverage95.toFixed(3)],
    ['total .5', (scores) => scores.totalCoverage['0.5'].toFixed(3)],
    ['total .8', (scores) => scores.totalCoverage['0.8'].toFixed(3)],
    ['total .9', (scores) => scores.totalCoverage['0.9'].toFixed(3)],
    ['seconds', (scores) => scores.seconds.toFixed(2)],
  ];
  console.log(`${'model'.padEnd(12)}${columns.map(([title]) => title.padStart(15)).join('')}`);
  for (const model of result.models) {
    console.log(`${model.model.padEnd(12)}${columns.map(([, show]) => show(model).padStart(15)).join('')}`);
  }
  console.log('\nWhere the 13-step totals fell, by tenth of the forecast (calibrated: .100 each)');
  for (const model of result.models) {
    const shares = model.totalCalibration.map((share) => share.toFixed(3)).join(' ');
    console.log(
      `${model.model.padEnd(12)} ${shares}   largest deviation ${model.largestBinDeviation.toFixed(3)}`,
    );
  }
  console.log('');
}
