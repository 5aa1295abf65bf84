import { describe, expect, it } from 'vitest';
import { addDays, addWeeks, asDate, mondayOf, weekOf } from '../../shared/week.ts';
import { poisson } from '../../src/consumption/count-distribution.ts';
import { drawCount } from '../../src/shelf/draws.ts';
import { projectShelf } from '../../src/shelf/projection.ts';
import type { PredictedUse, ShelfAhead } from '../../src/shelf/shelf-projection.ts';

const asOf = asDate('2026-11-30');
const week = (weeksAhead: number) => addWeeks(weekOf(asOf), weeksAhead);

/** A jar a week on average, Poisson. */
const aJarAWeek: PredictedUse = {
  weeklyMean: Array.from({ length: 104 }, () => 1),
  totalOver: (weeks) => poisson(weeks),
  beginCourse: () => (wanted, random) =>
    wanted.forEach((_, week) => {
      wanted[week] = drawCount(1, 1, random);
    }),
};
const shelf = (units: number, change: Partial<ShelfAhead> = {}): ShelfAhead => ({
  asOf,
  weeks: 70,
  lots: [{ lotId: 'all', units, readyFrom: asOf, bestQualityUntil: addDays(asOf, 700) }],
  incoming: [],
  use: aJarAWeek,
  nextSupplyWeek: week(34),
  supplyTimes: [
    { weeksLater: -1, chance: 0.2 },
    { weeksLater: 0, chance: 0.5 },
    { weeksLater: 2, chance: 0.2 },
    { weeksLater: 30, chance: 0.1 },
  ],
  ...change,
});
/** The sum by hand: each week the supply may come in, by its chance. */
const byHand = (units: number) =>
  0.2 * poisson(33).atMost(units) +
  0.5 * poisson(34).atMost(units) +
  0.2 * poisson(36).atMost(units) +
  0.1 * poisson(64).atMost(units);

const comes = (weeksAhead: number, units: number) => ({
  week: week(weeksAhead),
  units,
  readyFrom: mondayOf(week(weeksAhead)),
  bestQualityUntil: addDays(asOf, 700),
});

describe('lasting to a supply that is early, late or fails', () => {
  it.each([30, 36, 45, 70])('%d jars: each week it may come in counts by its chance', (units) => {
    expect(projectShelf(shelf(units)).chanceOfLasting).toBeCloseTo(byHand(units), 9);
  });

  it('what the supply itself would bring is not there until it comes', () => {
    const counted = projectShelf(shelf(36, { incoming: [comes(34, 40), comes(40, 40)] }));

    expect(counted.chanceOfLasting).toBeCloseTo(byHand(36), 9);
  });

  it('what comes before is, within the error of a simulation', () => {
    const before = projectShelf(shelf(30, { incoming: [comes(2, 8)] }));

    // Thirty jars last two weeks of one a week in all but one case in millions, so the total tells.
    expect(Math.abs(before.chanceOfLasting - byHand(38))).toBeLessThan(0.03);
  });

  it('a supply beyond the weeks looked at asks for all of them', () => {
    const late = shelf(60, { supplyTimes: [{ weeksLater: 60, chance: 1 }] });

    expect(projectShelf(late).chanceOfLasting).toBeCloseTo(poisson(70).atMost(60), 9);
  });

  it('without doubt is as before', () => {
    const { supplyTimes: _, ...sure } = shelf(36);

    expect(projectShelf(sure).chanceOfLasting).toBeCloseTo(poisson(34).atMost(36), 9);
  });
});
