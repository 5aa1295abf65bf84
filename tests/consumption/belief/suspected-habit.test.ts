import { describe, expect, it } from 'vitest';
import { addWeeks, asDate, asWeek } from '../../../shared/week.ts';
import {
  sayableRate,
  suspectedHabit,
  trustToMention,
} from '../../../src/consumption/belief/suspected-habit.ts';
import { trainedBelief } from '../../../src/consumption/belief/trained-belief.ts';
import { declareUse } from '../../../src/consumption/declared-use.ts';
import { assumedUse, forecastUse } from '../../../src/consumption/use-forecast.ts';
import { poissonDraw, seeded } from '../../shelf/households-use.ts';

const change = { share: 0.9, weeks: 10, perWeek: 3, perWeekBefore: 1.5 };

describe('a change of habit to ask about', () => {
  it('is a likely and a large one, up or down', () => {
    expect(suspectedHabit(change)).toEqual({ perWeekBefore: 1.5, perWeek: 3, weeks: 10 });
    expect(suspectedHabit({ ...change, perWeek: 0.5 })?.perWeek).toBe(0.5);
    expect(suspectedHabit({ ...change, share: 0.5 })).toBeNull();
    expect(suspectedHabit({ ...change, share: 0.5 }, trustToMention)?.perWeek).toBe(3);
    expect(suspectedHabit({ ...change, perWeek: 1.8 })).toBeNull();
    expect(suspectedHabit({ ...change, perWeek: 1.2 })).toBeNull();
    expect(suspectedHabit(undefined)).toBeNull();
  });

  it('is asked of hardly any steady household, and of many that doubled ten weeks ago', () => {
    const random = seeded(2026);
    const households = 300;
    const weeksAt = (rate: number, weeks: number) =>
      Array.from({ length: weeks }, () => ({ taken: poissonDraw(rate, random), ordinaryWeeks: 1 }));
    const isAsked = (weeks: ReturnType<typeof weeksAt>) =>
      suspectedHabit(trainedBelief({ perWeek: 2, weight: 5, isDeclared: true }, weeks).suspectedChange) !==
      null;
    let forNothing = 0;
    let rightly = 0;
    for (let household = 0; household < households; household += 1) {
      const steady = weeksAt(2, 52);
      if (isAsked(steady)) forNothing += 1;
      if (isAsked([...steady, ...weeksAt(4, 10)])) rightly += 1;
    }
    expect(forNothing / households).toBeLessThan(0.02);
    expect(rightly / households).toBeGreaterThan(0.25);
  });

  it('said in words with a new start is surer than what is said at first, and counts from its day', () => {
    const asOf = asDate('2026-03-02');
    const said = (more: object) =>
      declareUse(
        {
          words: { amount: 3, per: 'week', countedIn: 'units', people: null, mealsPerWeek: null },
          servingsPerUnit: null,
          byMonth: null,
          occasions: [],
          ...more,
        },
        asOf,
      );
    const atFirst = said({});
    const anew = said({ firmness: 'sure', since: asOf });
    if (!atFirst.ok || !anew.ok) throw new Error('expected two declarations');

    expect(anew.value).toEqual({ ...atFirst.value, weight: expect.any(Number), since: asOf });
    expect(anew.value.weight).toBeGreaterThan(atFirst.value.weight);
  });

  it('is said in two figures and never as nothing', () => {
    expect([2.94, 0.137, 12.6, 0].map(sayableRate)).toEqual([2.9, 0.14, 13, 0.01]);
  });
});

describe('a forecast of what nobody declared', () => {
  const history = (taken: number, weeks: number) =>
    Array.from({ length: weeks }, (_, at) => ({
      week: addWeeks(asWeek('2026-W01'), at),
      taken,
      exposure: 1,
    }));

  it('starts from what items are like and gives way to what is seen', () => {
    const monday = asDate('2026-05-25');
    const forecast = forecastUse(history(4, 20), assumedUse(), monday, 52);

    expect(forecastUse([], assumedUse(), monday, 52).perWeek).toBeCloseTo(1.5, 10);
    // By hand: (4 + 80) / (4 / 1.5 + 20) = 3.71 without forgetting; forgetting only brings it nearer to 4.
    expect(forecast.perWeek).toBeGreaterThan(3.7);
    expect(forecast.perWeek).toBeLessThan(4);
    expect(forecast.evidence.declaredPerWeek).toBe(0);
  });
});
