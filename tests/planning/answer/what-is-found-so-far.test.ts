import { describe, expect, test } from 'vitest';
import { planSoFar } from '../../../src/planning/answer/plan-so-far.ts';
import { buildModel, canningStage } from '../../../src/planning/model/build-model.ts';
import { batchOf, byWeek, food, pack, pint, shortYear, sourceOf, valuesOf } from '../short-year.ts';

// Jam in pints of which three are handed over; leather in no jar; oats that are bought.
const year = shortYear(3, {
  foods: [
    food('jam', { kind: 'preserve', jarKind: pint, yearEndUnits: 3 }),
    food('leather'),
    food('oats', { packs: [pack('bag', 1, 300)] }),
  ],
  sources: [sourceOf('tree')],
  recipes: [
    batchOf('jam-of-plums', 'jam', {
      yieldLowUnits: 3.4,
      processing: {
        cannerId: 'kettle' as never,
        scheduleKey: 'jam',
        lowAcid: false,
        minutes: 10,
        psi: null,
        jarsPerLoad: 4,
        loadMinutes: 40,
        attendedMinutes: 12,
      },
    }),
    batchOf('leather-of-plums', 'leather', { jarKind: null, handsOnMinutes: 45 }),
  ],
  canners: [{ id: 'kettle' as never, name: 'Kettle', method: 'boiling-water' }],
});
const soFar = (told: Readonly<Record<string, number>>) => {
  const built = buildModel(year, { ...canningStage, joinedWeeks: false });
  return planSoFar(built, valuesOf(built, told));
};

describe('what the best plan so far comes to', () => {
  test('is nothing made and all foods lasting where nothing is planned and nothing missed', () => {
    expect(soFar({})).toEqual({ foods: 3, lasting: 3, jars: 0, minutes: 0, cents: 0 });
  });

  test('is jars of the low yield, whole, and none of what goes into none', () => {
    const told = {
      'batches[jam-of-plums in pint/regular,2027-W01]': 1,
      'batches[jam-of-plums in pint/regular,2027-W03]': 2,
      'batches[leather-of-plums,2027-W02]': 5,
    };

    // Three batches of 3.4; each an hour's part of 30 minutes and 12 at the stove, each of leather 45.
    expect(soFar(told)).toMatchObject({ jars: 10, minutes: 3 * 42 + 5 * 45 });
  });

  test('is set-ups with the minutes of each session', () => {
    expect(soFar(byWeek('sessions[*]', [1, 0, 1])).minutes).toBe(60);
  });

  test('counts money alone, and no wish', () => {
    expect(
      soFar({ ...byWeek('purchases[oats,bag,*]', [1, 0.5, 0]), 'produce[tree,2027-W02]': 5 }).cents,
    ).toBeCloseTo(450 + 500, 9);
    expect(soFar({ 'shortage[oats,2027-W01]': 1 }).cents).toBe(0);
  });

  test('counts as lasting what misses no more than rounding, its year’s end with it', () => {
    expect(soFar({ 'shortage[oats,2027-W01]': 0.05 }).lasting).toBe(3);
    expect(soFar({ 'shortage[oats,2027-W01]': 0.06 }).lasting).toBe(2);
    expect(soFar(byWeek('shortage[oats,*]', [0.03, 0.03, 0])).lasting).toBe(2);
    expect(soFar({ 'year_end_shortage[jam]': 1 }).lasting).toBe(2);
    expect(soFar({ 'year_end_shortage[jam]': 0.04, 'shortage[jam,2027-W01]': 0.04 }).lasting).toBe(2);
  });
});
