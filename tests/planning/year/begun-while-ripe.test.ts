import { describe, expect, test } from 'vitest';
import { asDate, weeksFrom } from '../../../shared/week.ts';
import type { SourceYear } from '../../../src/harvest/source-years.ts';
import type { PlannedRecipe } from '../../../src/planning/planning-year.ts';
import { alsoFromHand, begunWhileRipe } from '../../../src/planning/year/begun-while-ripe.ts';
import type { WaitingDays } from '../../../src/planning/year/fruit-waits.ts';
import { fetchedOf, sourceOf } from './orchard-street.ts';

// Crab apples stand a night in their syrup: canned on Saturdays, begun on Fridays; or begun on a Sunday for a Monday.
const weeks = weeksFrom('2026-W36' as never, 6);
const crab = sourceOf('tree', 'crab-apple', [], { useByDays: 3 });
const ripe = (plannedFrom: string, plannedTo: string): SourceYear =>
  ({ season: { plannedFrom: asDate(plannedFrom), plannedTo: asDate(plannedTo) } }) as SourceYear;
const recipeOf = (change: object = {}): PlannedRecipe =>
  ({
    id: 'rings',
    produce: [{ crop: 'crab-apple', lb: 5, mayBeFrozen: false }],
    stages: { weeks: 0, daysFromMonday: 4 },
    allowedByWeek: null,
    ...change,
  }) as unknown as PlannedRecipe;
const allowed = (recipe: PlannedRecipe, seasons: readonly SourceYear[], sources = [crab]) =>
  begunWhileRipe(
    { planned: [recipe], schedules: new Map(), leftOut: [] },
    sources,
    new Map([[crab.id, seasons]]),
    weeks,
  ).planned[0]?.allowedByWeek;

describe('a recipe of several days', () => {
  // Fridays: September 4, 11, 18, 25, October 2, 9.
  test('is begun on a day on which its fruit is ripe, or was so lately that it still keeps', () => {
    expect(allowed(recipeOf(), [ripe('2026-09-11', '2026-09-25')])).toEqual([
      false,
      true,
      true,
      true,
      false,
      false,
    ]);
    expect(allowed(recipeOf(), [ripe('2026-09-12', '2026-09-15')])).toEqual([
      false,
      false,
      true,
      false,
      false,
      false,
    ]);
    expect(allowed(recipeOf(), [ripe('2026-09-12', '2026-09-14')])).toEqual([
      false,
      false,
      false,
      false,
      false,
      false,
    ]);
    expect(allowed(recipeOf(), [ripe('2026-09-01', '2026-09-04'), ripe('2026-10-02', '2026-10-02')])).toEqual(
      [true, false, false, false, true, false],
    );
  });

  test('is asked about on the day on which it is begun, weeks before its load', () => {
    const overSunday = recipeOf({ stages: { weeks: 1, daysFromMonday: 6 } });
    // Loaded in week 38, begun on Sunday, September 13.
    expect(allowed(overSunday, [ripe('2026-09-13', '2026-09-13')])).toEqual([
      false,
      false,
      true,
      false,
      false,
      false,
    ]);
  });

  test('keeps the months that bound it already', () => {
    const bound = recipeOf({ allowedByWeek: [true, true, false, true, true, true] });
    expect(allowed(bound, [ripe('2026-09-11', '2026-09-25')])).toEqual([
      false,
      true,
      false,
      true,
      false,
      false,
    ]);
  });

  test('needs every fresh crop of it, and none that may wait in the freezer', () => {
    const also = (crop: string, mayBeFrozen: boolean) =>
      recipeOf({ produce: [...recipeOf().produce, { crop, lb: 1, mayBeFrozen }] });
    const seasons = [ripe('2026-09-01', '2026-12-01')];
    expect(allowed(also('quince', false), seasons)).toEqual(weeks.map(() => false));
    expect(allowed(also('quince', true), seasons)).toEqual(weeks.map(() => true));
    expect(allowed(recipeOf({ produce: [{ crop: 'crab-apple', lb: 5, mayBeFrozen: true }] }), [])).toBeNull();
  });

  test('has no source where none gives its crop', () => {
    expect(allowed(recipeOf(), [ripe('2026-09-01', '2026-12-01')], [])).toEqual(weeks.map(() => false));
  });

  test('what is made in one go is left as it is', () => {
    expect(allowed(recipeOf({ stages: undefined }), [])).toBeNull();
  });
});

describe('a recipe that may be begun of what lies at hand', () => {
  const saturdays = ['2026-09-05', '2026-09-12', '2026-09-19', '2026-09-26', '2026-10-03', '2026-10-10'];
  const waiting = {
    weeks,
    startsOn: 'monday',
    asOf: asDate('2026-09-02'),
    away: [],
    canningDays: saturdays.map((day) => [asDate(day)]),
  } as WaitingDays;
  const closed = { allowedByWeek: weeks.map(() => false) };
  const fromHand = (recipe: PlannedRecipe, useBy: string) =>
    alsoFromHand(recipe, [fetchedOf({ crop: 'crab-apple' as never, useBy: asDate(useBy) })], waiting)
      .allowedByWeek;

  test('in one go until the last canning day on which it still keeps', () => {
    const inOneGo = recipeOf({ ...closed, stages: undefined });
    expect(fromHand(inOneGo, '2026-09-11')).toEqual([true, false, false, false, false, false]);
    expect(fromHand(inOneGo, '2026-09-12')).toEqual([true, true, false, false, false, false]);
    expect(fromHand(inOneGo, '2026-09-04')).toEqual(weeks.map(() => false));
  });

  test('over several days where it keeps until it is begun, its load weeks later', () => {
    const staged = recipeOf({ ...closed, stages: { weeks: 1, daysFromMonday: 6 } });
    // Begun on Sundays, September 6 and 13, loaded in the week after.
    expect(fromHand(staged, '2026-09-12')).toEqual([false, true, false, false, false, false]);
    expect(fromHand(staged, '2026-09-13')).toEqual([false, true, true, false, false, false]);
    expect(fromHand(staged, '2026-09-05')).toEqual(weeks.map(() => false));
  });

  test('beside the weeks in which it may be made anyway', () => {
    const some = recipeOf({ stages: undefined, allowedByWeek: [false, false, false, false, true, false] });
    expect(fromHand(some, '2026-09-05')).toEqual([true, false, false, false, true, false]);
  });

  test('what may be made in any week stays so', () => {
    expect(fromHand(recipeOf({ stages: undefined }), '2026-09-05')).toBeNull();
  });
});
