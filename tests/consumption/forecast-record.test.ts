import { describe, expect, it } from 'vitest';
import { asDate, asWeek, weeksFrom } from '../../shared/week.ts';
import { exactly, poisson } from '../../src/consumption/count-distribution.ts';
import { declareUse } from '../../src/consumption/declared-use.ts';
import { forecastRecord, pastForecasts } from '../../src/consumption/forecast-record.ts';
import { ordinaryCalendar } from '../../src/consumption/household-calendar.ts';

const declared = (() => {
  const said = declareUse(
    {
      words: { amount: 2, per: 'week', countedIn: 'units', people: null, mealsPerWeek: null },
      servingsPerUnit: null,
      byMonth: null,
      occasions: [],
    },
    asDate('2026-01-05'),
    ordinaryCalendar,
  );
  if (!said.ok) throw new Error('two a week must be a use');
  return said.value;
})();

const weeks = weeksFrom(asWeek('2026-W01'), 24);

describe('past forecasts', () => {
  it('are made from the weeks before them alone, four weeks at a time', () => {
    const steady = weeks.map((week) => ({ week, taken: 2, exposure: 1 }));
    const doubled = steady.map((week, at) => (at < 12 ? week : { ...week, taken: 4 }));

    const one = pastForecasts(steady, declared, asWeek('2026-W05'));
    const other = pastForecasts(doubled, declared, asWeek('2026-W05'));

    expect(one.map(({ observed }) => observed)).toEqual([8, 8, 8, 8, 8]);
    // What happens later cannot be known earlier.
    expect(other.slice(0, 3).map(({ forecast }) => forecast.mean)).toEqual(
      one.slice(0, 3).map(({ forecast }) => forecast.mean),
    );
    expect(other[2]?.observed).toBe(16);
    expect(other[3]?.forecast.mean).toBeGreaterThan(one[3]?.forecast.mean ?? 0);
  });

  it('leave out weeks in which none could have been taken', () => {
    const history = weeks.map((week, at) => ({ week, taken: 2, exposure: at === 9 ? 0 : 1 }));

    expect(pastForecasts(history, declared, asWeek('2026-W05'))).toHaveLength(4);
  });

  it('are none without a history', () => {
    expect(pastForecasts([], declared, asWeek('2026-W05'))).toEqual([]);
  });
});

describe('the record of forecasts', () => {
  it('holds a tenth in each tenth when what was eaten follows the forecast exactly', () => {
    const forecast = poisson(4);
    // Every count as often as the forecast says, to a thousandth.
    const cases = Array.from({ length: 16 }, (_, observed) => observed).flatMap((observed) => {
      const share = forecast.atMost(observed) - (observed > 0 ? forecast.atMost(observed - 1) : 0);
      return Array.from({ length: Math.round(share * 1000) }, () => ({ forecast, observed }));
    });

    const record = forecastRecord(cases);

    for (const share of record.tenths) expect(share).toBeCloseTo(0.1, 2);
    expect(record.within).toBeCloseTo(0.8, 2);
    expect(record.eaten).toBeCloseTo(record.expected, -1);
  });

  it('says on which side forecasts missed', () => {
    const record = forecastRecord([
      { forecast: poisson(4), observed: 20 },
      { forecast: poisson(4), observed: 25 },
    ]);

    expect(record).toMatchObject({ cases: 2, eaten: 45, expected: 8 });
    expect(record.above).toBeCloseTo(1, 6);
    expect(record.below).toBeCloseTo(0, 6);
  });

  it('is empty without cases, and bears certainty', () => {
    expect(forecastRecord([])).toMatchObject({ cases: 0, within: 0, below: 0, above: 0 });
    expect(forecastRecord([{ forecast: exactly(3), observed: 3 }]).within).toBeCloseTo(0.8, 6);
  });
});
