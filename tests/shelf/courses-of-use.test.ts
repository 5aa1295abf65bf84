import { describe, expect, test } from 'vitest';
import { addDays, addWeeks, asDate, weekOf } from '../../shared/week.ts';
import { poisson } from '../../src/consumption/count-distribution.ts';
import { drawCount } from '../../src/shelf/draws.ts';
import { projectShelf } from '../../src/shelf/projection.ts';
import type { PredictedUse, ShelfAhead } from '../../src/shelf/shelf-projection.ts';

const asOf = asDate('2026-11-30');

/** A jar a week on average, Poisson; counts how many weeks of courses were drawn of it. */
function aJarAWeek(): { readonly use: PredictedUse; readonly weeksDrawn: () => number } {
  let drawn = 0;
  return {
    use: {
      weeklyMean: Array.from({ length: 104 }, () => 1),
      totalOver: (weeks) => poisson(weeks),
      beginCourse: () => (wanted, random) => {
        drawn += wanted.length;
        for (let week = 0; week < wanted.length; week += 1) wanted[week] = drawCount(1, 1, random);
      },
    },
    weeksDrawn: () => drawn,
  };
}

/** Twenty jars, and twenty more after ten weeks: what comes has to be played. */
const shelf = (use: PredictedUse, weeks: number): ShelfAhead => ({
  asOf,
  weeks,
  lots: [{ lotId: 'all', units: 20, readyFrom: asOf, bestQualityUntil: addDays(asOf, 900) }],
  incoming: [10, 60]
    .map((after) => ({
      week: addWeeks(weekOf(asOf), after),
      units: 20,
      readyFrom: addDays(asOf, 7 * after),
      bestQualityUntil: addDays(asOf, 900),
    }))
    .filter((_, at) => weeks > 60 || at === 0),
  use,
  nextSupplyWeek: null,
});
const simulation = { paths: 400, seed: 5 };
const firstYear = (use: PredictedUse, weeks: number) =>
  projectShelf(shelf(use, weeks), simulation).weeks.slice(0, 52);

describe('possible courses of use', () => {
  test('are the same in the first year however far they are followed, whichever was asked first', () => {
    const near = firstYear(aJarAWeek().use, 52);
    const { use } = aJarAWeek();
    const farFirst = firstYear(use, 90);

    expect(farFirst).toEqual(near);
    expect(firstYear(use, 52)).toEqual(near);
    expect(firstYear(use, 90)).toEqual(farFirst);
  });

  test('go on alike, asked at once or later', () => {
    const atOnce = projectShelf(shelf(aJarAWeek().use, 104), simulation);
    const { use } = aJarAWeek();
    projectShelf(shelf(use, 30), simulation);

    expect(projectShelf(shelf(use, 104), simulation)).toEqual(atOnce);
  });

  test('are drawn no further than the year that is looked at, and once', () => {
    const { use, weeksDrawn } = aJarAWeek();
    projectShelf(shelf(use, 40), simulation);
    projectShelf(shelf(use, 52), simulation);
    expect(weeksDrawn()).toBe(simulation.paths * 52);

    projectShelf(shelf(use, 53), simulation);
    expect(weeksDrawn()).toBe(simulation.paths * 104);
  });

  test('eat of the second year as of the first, and not the same jars in the same weeks', () => {
    const plenty = { ...shelf(aJarAWeek().use, 104), incoming: [], lots: [] };
    const unmet = projectShelf(
      {
        ...plenty,
        incoming: [
          {
            week: addWeeks(weekOf(asOf), 103),
            units: 1,
            readyFrom: addDays(asOf, 721),
            bestQualityUntil: addDays(asOf, 900),
          },
        ],
      },
      { paths: 4000, seed: 5 },
    ).weeks.map((week) => week.unmet);

    const yearly = (from: number) => unmet.slice(from, from + 51).reduce((sum, units) => sum + units, 0);
    // Poisson: a year's mean of 4,000 paths has a standard error of sqrt(51 / 4000) = 0.11.
    expect(Math.abs(yearly(0) - 51)).toBeLessThan(0.5);
    expect(Math.abs(yearly(52) - 51)).toBeLessThan(0.5);
    expect(unmet.slice(52, 103)).not.toEqual(unmet.slice(0, 51));
  });
});
