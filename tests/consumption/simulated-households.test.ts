import { describe, expect, it } from 'vitest';
import { addDays, addWeeks, asDate, asWeek, type CalendarDate, mondayOf } from '../../shared/week.ts';
import { tappedShare } from '../../src/consumption/recording-habit.ts';
import { type DeclaredUse, forecastUse } from '../../src/consumption/use-forecast.ts';
import { useHistory } from '../../src/consumption/use-history.ts';
import { allYear } from '../../src/consumption/use-pattern.ts';
import type { WeekOfUse } from '../../src/consumption/week-of-use.ts';
import { poissonDraw, seeded } from '../shelf/households-use.ts';

// Invented households with known appetites, drawn with fixed seeds. Each asks: does the forecast find the appetite again?
const firstDay = asDate('2024-01-01');
const dates = Array.from({ length: 130 * 7 }, (_, day) => addDays(firstDay, day));
const dateAt = (day: number): CalendarDate => dates[day] ?? firstDay;
const weekKeys = Array.from({ length: 130 }, (_, week) => addWeeks(asWeek('2024-W01'), week));

const declared = (perWeek: number, weight = 6): DeclaredUse => ({
  perWeek,
  weight,
  pattern: allYear,
  occasions: [],
});
const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

const nothingSpecial = {
  occasions: [],
  away: [],
  unrecorded: [],
  onPaper: [],
  silent: new Set<never>(),
  tappedShare: 1,
} as const;

describe('shelves that are empty a quarter of the time', () => {
  const random = seeded(41);
  const weeks = 104;
  let emptyDays = 0;

  // Every half-year the shelf is filled; what is on it is eaten before the next filling in most years.
  const estimates = Array.from({ length: 500 }, () => {
    const perWeek = 0.75 + 2.25 * random();
    const takings: { on: CalendarDate; units: number }[] = [];
    const movements: { on: CalendarDate; units: number }[] = [];
    let stock = 0;
    for (let day = 0; day < weeks * 7; day += 1) {
      if (day % 182 === 0) {
        const filled = Math.round(26 * perWeek * 0.75);
        stock += filled;
        movements.push({ on: dateAt(day), units: filled });
      }
      if (stock === 0) emptyDays += 1;
      const taken = Math.min(stock, poissonDraw(perWeek / 7, random));
      if (taken > 0) {
        takings.push({ on: dateAt(day), units: taken });
        movements.push({ on: dateAt(day), units: -taken });
        stock -= taken;
      }
    }
    const asOf = dateAt(weeks * 7 - 1);
    const history = useHistory({
      ...nothingSpecial,
      from: firstDay,
      asOf,
      movements,
      takings,
      countings: [],
    });
    const asZeros = history.map((week) => ({ ...week, exposure: 1 }));
    const said = declared(perWeek * (0.7 + 0.6 * random()));
    return {
      censored: forecastUse(history, said, asOf, 1).perWeek / perWeek,
      asZeros: forecastUse(asZeros, said, asOf, 1).perWeek / perWeek,
    };
  });

  it('stand empty on about a quarter of the days', () => {
    expect(Math.abs(emptyDays / (500 * weeks * 7) - 0.25)).toBeLessThan(0.02);
  });

  it('do not hide the appetite: within 4 % on average over 500 households', () => {
    expect(Math.abs(meanOf(estimates.map(({ censored }) => censored)) - 1)).toBeLessThan(0.04);
  });

  it('would hide more than 15 % of it if empty weeks counted as no use', () => {
    expect(1 - meanOf(estimates.map(({ asZeros }) => asZeros))).toBeGreaterThan(0.15);
  });
});

describe('families that do not tap', () => {
  // 40 % of takings are never recorded; the shelf is counted every 28 days; the last count is ten days old.
  const random = seeded(42);
  const days = 52 * 7 + 10;

  const households = Array.from({ length: 500 }, () => {
    const perWeek = 0.5 + 2.5 * random();
    const takings: { on: CalendarDate; units: number }[] = [];
    const movements = [{ on: firstDay, units: 1000 }];
    const countings: { on: CalendarDate; counted: number; takenUnsaid: number }[] = [];
    let unsaid = 0;
    let tapped = 0;
    let standing = 1000;
    const checked = { tapped: 0, takenUnsaid: 0 };
    for (let day = 0; day < days; day += 1) {
      for (let left = poissonDraw(perWeek / 7, random); left > 0; left -= 1) {
        standing -= 1;
        if (random() < 0.4) unsaid += 1;
        else {
          tapped += 1;
          takings.push({ on: dateAt(day), units: 1 });
          movements.push({ on: dateAt(day), units: -1 });
        }
      }
      if ((day + 1) % 28 === 0) {
        countings.push({ on: dateAt(day), counted: standing, takenUnsaid: unsaid });
        movements.push({ on: dateAt(day), units: -unsaid });
        checked.tapped += tapped;
        checked.takenUnsaid += unsaid;
        unsaid = 0;
        tapped = 0;
      }
    }
    return { perWeek, takings, movements, countings, checked };
  });
  const asOf = dateAt(days - 1);
  // A household has one habit of recording and many items; twenty of these items share a household.
  const share = tappedShare(households.slice(0, 20).map(({ checked }) => checked));
  const estimate = (withCounts: boolean): number =>
    meanOf(
      households.map(({ perWeek, takings, movements, countings }) => {
        const history = useHistory({
          ...nothingSpecial,
          from: firstDay,
          asOf,
          movements,
          takings,
          countings: withCounts ? countings : [],
          tappedShare: withCounts ? share : 1,
        });
        return forecastUse(history, declared(perWeek), asOf, 1).perWeek / perWeek;
      }),
    );

  it('are known within 5 % by monthly counts', () => {
    expect(Math.abs(estimate(true) - 1)).toBeLessThan(0.05);
  });

  it('would look a third too modest without them', () => {
    expect(1 - estimate(false)).toBeGreaterThan(0.25);
  });

  it('show how much is never tapped', () => {
    expect(share).toBeCloseTo(0.6, 1);
  });
});

function weeksAt(perWeek: number, from: number, until: number, random: () => number): WeekOfUse[] {
  return weekKeys
    .slice(from, until)
    .map((week) => ({ week, taken: poissonDraw(perWeek, random), exposure: 1 }));
}

const asOfAfter = (weeks: number): CalendarDate =>
  addDays(mondayOf(weekKeys[weeks - 1] ?? asWeek('2024-W01')), 6);

describe('a declared use that is far out', () => {
  it.each([
    { factor: 3, perWeek: 1 },
    { factor: 3, perWeek: 1.5 },
    { factor: 3, perWeek: 3 },
    { factor: 1 / 3, perWeek: 1 },
    { factor: 1 / 3, perWeek: 1.5 },
    { factor: 1 / 3, perWeek: 3 },
  ])('$factor times $perWeek a week is mended to within 25 % after 16 weeks', ({ factor, perWeek }) => {
    const random = seeded(43);
    const ratios = Array.from({ length: 500 }, () => {
      const history = weeksAt(perWeek, 0, 16, random);
      return forecastUse(history, declared(perWeek * factor), asOfAfter(16), 1).perWeek / perWeek;
    });
    expect(Math.abs(meanOf(ratios) - 1)).toBeLessThan(0.25);
  });
});

describe('an appetite that doubles and nobody says so', () => {
  it.each([{ perWeek: 0.75 }, { perWeek: 1.5 }, { perWeek: 3 }])(
    'from $perWeek a week is followed to within 25 % in 10 weeks',
    ({ perWeek }) => {
      const random = seeded(44);
      const ratios = Array.from({ length: 500 }, () => {
        const history = [...weeksAt(perWeek, 0, 52, random), ...weeksAt(2 * perWeek, 52, 62, random)];
        return forecastUse(history, declared(perWeek), asOfAfter(62), 1).perWeek / (2 * perWeek);
      });
      expect(Math.abs(meanOf(ratios) - 1)).toBeLessThan(0.25);
    },
  );

  it('is taken at once when it is said: "from now on twice as much"', () => {
    const random = seeded(45);
    const history = weeksAt(1.5, 0, 52, random);
    const since = addDays(asOfAfter(52), 1);
    const said = forecastUse(history, { ...declared(3), since }, since, 4);
    expect(said.perWeek).toBeCloseTo(3, 12);
    expect(said.evidence.weeksThatCounted).toBe(0);
  });
});

describe('a household steadier than chance', () => {
  // One jar lasts about as long as the next: gaps between openings are gamma with a coefficient of variation of 0.5.
  it('has narrower totals than chance would give', () => {
    const random = seeded(46);
    const exponential = (): number => -Math.log(1 - random());
    const gap = (): number => (exponential() + exponential() + exponential() + exponential()) / 4;
    const steady = Array.from({ length: 50 }, () => {
      const counts = new Array<number>(104).fill(0);
      for (let clock = random(); clock < 104; clock += gap()) {
        counts[Math.floor(clock)] = (counts[Math.floor(clock)] ?? 0) + 1;
      }
      const history = counts.map(
        (taken, week): WeekOfUse => ({ week: weekKeys[week] ?? asWeek('2024-W01'), taken, exposure: 1 }),
      );
      return forecastUse(history, declared(1), asOfAfter(104), 14).dispersion;
    });
    expect(meanOf(steady)).toBeLessThan(0.8);
  });
});
