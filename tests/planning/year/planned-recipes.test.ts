import { describe, expect, test } from 'vitest';
import { asDate, weeksFrom } from '../../../shared/week.ts';
import type { Canner } from '../../../src/household/kitchen.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import { type Kitchen, recipesHere } from '../../../src/planning/year/planned-recipes.ts';
import { copyOf, householdAt, kettle, pressureCanner } from '../../preserving/own-kitchen.ts';
import { tables } from '../../preserving/tables.ts';
import { asOf, berries, berryBatch, factsOf, peachBatch, peaches } from './orchard-street.ts';

const weeks = weeksFrom('2026-W32' as never, 52);
const here = (recipes: readonly Recipe[], change: Partial<Kitchen> = {}) =>
  recipesHere(recipes, {
    household: factsOf().household,
    canners: [kettle, pressureCanner],
    items: [peaches, berries],
    weeks,
    asOf,
    sessionWeekday: 6,
    reference: tables,
    ...change,
  });
const plannedOf = (recipe: Recipe, change: Partial<Kitchen> = {}) => {
  const { planned, leftOut } = here([recipe], change);
  const [one] = planned;
  if (one === undefined) throw new Error(`left out: ${JSON.stringify(leftOut)}`);
  return one;
};
const reasons = (recipe: Recipe, change: Partial<Kitchen> = {}) =>
  here([recipe], change).leftOut.map(({ recipeId, name, reasons }) => ({
    recipeId,
    name,
    codes: reasons.map(({ code }) => code),
  }));

describe('a recipe as the planner takes it', () => {
  // USDA Complete Guide 1, p1-18: heat up at most 30 minutes, wait 5; Guide 2, p2-20: peaches in pints 30 minutes at 5,300 ft.
  test('a canned one with its canner, the printed time and what a load of it takes', () => {
    expect(plannedOf(peachBatch)).toMatchObject({
      yieldLowUnits: 9,
      yieldHighJars: 9,
      readyAfterWeeks: 0,
      crock: null,
      allowedByWeek: null,
      processing: {
        cannerId: 'kettle',
        lowAcid: false,
        minutes: 30,
        psi: null,
        jarsPerLoad: 9,
        loadMinutes: 30 + 30 + 5,
      },
    });
    const { schedules } = here([peachBatch, berryBatch]);
    expect([...schedules.keys()]).toEqual(['peach-batch']);
    expect(schedules.get(peachBatch.id)).toMatchObject([{ minutes: 30 }]);
  });

  test('one that is not canned without any of that', () => {
    expect(plannedOf(berryBatch)).toMatchObject({ processing: null, yieldLowUnits: 4, jarKind: null });
  });

  test('what is low in acid is marked, under pressure', () => {
    const beans = copyOf(
      'beans-snap-pints',
      { in: pressureCanner },
      { itemId: peaches.id, name: 'Green beans' },
    );
    const items = [{ ...peaches, name: 'Green beans' }];
    expect(plannedOf(beans, { items }).processing).toMatchObject({ lowAcid: true, cannerId: 'pressure' });
  });

  // USDA Complete Guide 3, p3-8: crushed tomatoes in quarts under a weighted gauge, 20 minutes at 10 psi or 15 at 15.
  test('of printed alternatives the longest load is counted on, wherever it stands in the table', () => {
    const crushed = copyOf(
      'tomatoes-crushed-quarts',
      { in: pressureCanner },
      { itemId: peaches.id, name: 'Tomatoes' },
    );
    const items = [{ ...peaches, name: 'Tomatoes' }];
    const backwards = { ...tables, processTimes: tables.processTimes.toReversed() };
    for (const reference of [tables, backwards]) {
      expect(here([crushed], { items, reference }).schedules.get(crushed.id)).toHaveLength(2);
      expect(plannedOf(crushed, { items, reference }).processing).toMatchObject({ minutes: 20, psi: 10 });
    }
  });

  // 7 to 8 pints where 7 fit: one load, the eighth jar is set aside and is in no plan.
  test.each([
    { low: 7, high: 8, fit: 7, sure: 7 },
    { low: 8, high: 8, fit: 7, sure: 7 },
    { low: 6, high: 8, fit: 7, sure: 6 },
    { low: 8, high: 9, fit: 7, sure: 8 },
    { low: 15, high: 15, fit: 7, sure: 14 },
  ])('of $low to $high jars where $fit fit, $sure are sure', ({ low, high, fit, sure }) => {
    const canners = [{ ...kettle, holds: { ...kettle.holds, pints: fit } }];
    expect(plannedOf({ ...peachBatch, yieldLow: low, yieldHigh: high }, { canners }).yieldLowUnits).toBe(
      sure,
    );
  });

  test('counts in the usual jar of its item: nine pints are four and a half quarts', () => {
    expect(
      plannedOf(peachBatch, { items: [{ ...peaches, usualJar: 'quart/wide' as never }] }).yieldLowUnits,
    ).toBe(4.5);
    expect(plannedOf(peachBatch, { items: [{ ...peaches, usualJar: null }] }).yieldLowUnits).toBe(9);
    expect(plannedOf({ ...berryBatch, jarKind: 'pint/regular' as never }).yieldLowUnits).toBe(4);
  });

  test.each([
    [0, 0],
    [1, 1],
    [7, 1],
    [8, 2],
    [28, 4],
  ])('good after %i days is good after %i weeks', (days, ready) => {
    expect(plannedOf({ ...berryBatch, readyAfterDays: days }).readyAfterWeeks).toBe(ready);
  });

  test('stands in a crock as was written down, whole weeks', () => {
    expect(plannedOf({ ...berryBatch, crock: { quarts: 8, days: 15 } }).crock).toEqual({
      quarts: 8,
      weeks: 3,
    });
    expect(plannedOf(berryBatch).crock).toBeNull();
  });

  // USDA Complete Guide 6, p6-10: quick dill pickles stand 12 hours in salt water; canned on Saturday they are begun on Friday.
  test('with the stages of its days, its crock as long as they last', () => {
    const dill = copyOf('quick-dill-pickles', {}, { itemId: peaches.id, crock: { quarts: 8, days: 30 } });
    const items = [{ ...peaches, name: 'Dill pickles' }];
    const onSaturday = plannedOf(dill, { items });
    expect(onSaturday.stages).toMatchObject({ weeks: 0, daysFromMonday: 4 });
    expect(onSaturday.crock).toEqual({ quarts: 8, weeks: 1 });
    // Canned on Mondays they are begun on Sunday, of the week before.
    const onMonday = plannedOf(dill, { items, sessionWeekday: 1 });
    expect(onMonday.stages).toMatchObject({ weeks: 1, daysFromMonday: 6 });
    expect(onMonday.crock).toEqual({ quarts: 8, weeks: 2 });
    expect(plannedOf(peachBatch)).not.toHaveProperty('stages');
  });

  // USDA Complete Guide 6, p6-6: a gallon of crock holds 5 pounds of cabbage.
  test('of which nobody wrote down a crock, in the one that its heaviest crop asks for', () => {
    const kraut = copyOf('sauerkraut', {}, { itemId: peaches.id, name: 'Sauerkraut' });
    const items = [{ ...peaches, name: 'Sauerkraut' }];
    const asked = plannedOf({ ...kraut, crock: null }, { items }).crock;
    expect(asked?.quarts).toBe(kraut.crock?.quarts);
    const half = kraut.produce.map((need) => ({ ...need, lb: need.lb / 2 }));
    expect(plannedOf({ ...kraut, crock: null, produce: half }, { items }).crock?.quarts).toBeLessThan(
      asked?.quarts ?? 0,
    );
    expect(plannedOf({ ...berryBatch, produce: half }).crock).toBeNull();
  });

  test('is made in the months of its season, those in which it is begun', () => {
    const allowed = plannedOf({ ...peachBatch, season: { fromMonth: 8, untilMonth: 9 } }).allowedByWeek;
    const months = new Set(weeks.flatMap((week, at) => (allowed?.[at] ? [week] : [])));
    expect(months.has('2026-W32' as never)).toBe(true);
    expect(months.has('2026-W45' as never)).toBe(false);
    const dill = copyOf(
      'quick-dill-pickles',
      {},
      { itemId: peaches.id, season: { fromMonth: 9, untilMonth: 9 } },
    );
    const ofDill = (sessionWeekday: number) =>
      plannedOf(dill, { items: [{ ...peaches, name: 'Dill pickles' }], sessionWeekday }).allowedByWeek;
    expect(ofDill(1)?.slice(1)).toEqual(ofDill(6)?.slice(0, -1));
  });
});

describe('a recipe that cannot be planned here', () => {
  test('is left out with every rule in its way', () => {
    expect(reasons(peachBatch, { household: householdAt(null) })).toEqual([
      { recipeId: 'peach-batch', name: peachBatch.name, codes: ['altitude-unknown'] },
    ]);
    expect(reasons({ ...berryBatch, yieldLow: 0, handsOnMinutes: 0 })).toEqual([
      {
        recipeId: 'berry-batch',
        name: 'Frozen strawberries',
        codes: ['number-out-of-bounds', 'number-out-of-bounds'],
      },
    ]);
    expect(here([peachBatch], { household: householdAt(null) }).planned).toEqual([]);
  });

  test('is not even asked about where its item is gone or no longer kept', () => {
    const { planned, leftOut } = here([peachBatch, berryBatch], { items: [{ ...peaches, retiredOn: asOf }] });
    expect([planned, leftOut]).toEqual([[], []]);
  });

  test('stands in nobody else’s way', () => {
    const { planned, leftOut } = here([peachBatch, berryBatch], { household: householdAt(null) });
    expect(planned.map(({ id }) => id)).toEqual(['berry-batch']);
    expect(leftOut.map(({ recipeId }) => recipeId)).toEqual(['peach-batch']);
  });
});

describe('a dial gauge', () => {
  // USDA Complete Guide 1, p1-20: checked every year before use.
  const dial = (gaugeCheckedOn: string | null): Canner => ({
    ...pressureCanner,
    gauge: 'dial',
    gaugeOff: { at5: 0, at10: 0, at15: 0 },
    gaugeCheckedOn: gaugeCheckedOn === null ? null : asDate(gaugeCheckedOn),
  });
  const beans = copyOf(
    'beans-snap-pints',
    { in: pressureCanner },
    { itemId: peaches.id, name: 'Green beans' },
  );
  const kitchen = (checked: string | null, change: Partial<Kitchen> = {}) => ({
    items: [{ ...peaches, name: 'Green beans' }],
    canners: [dial(checked)],
    ...change,
  });
  const weeksOf = (checked: string, change: Partial<Kitchen> = {}) => {
    const allowed = plannedOf(beans, kitchen(checked, change)).allowedByWeek;
    return weeks.filter((_, at) => allowed?.[at]);
  };

  test('in date today carries the weeks until its year is over', () => {
    const until = weeksOf('2026-05-02');
    expect(until[0]).toBe('2026-W32');
    // The last Saturday within 365 days of May 2, 2026 is May 1, 2027.
    expect(until.at(-1)).toBe('2027-W17');
  });

  test('out of date carries none, unless its check is planned: then those from that week on', () => {
    expect(reasons(beans, kitchen('2025-05-02'))).toMatchObject([{ codes: ['dial-gauge-unchecked'] }]);
    const planned = weeksOf('2025-05-02', { gaugeCheckPlannedOn: asDate('2026-08-10') });
    expect(planned).toEqual(weeks.slice(1));
  });

  test('a check that is planned opens nothing that something else keeps shut', () => {
    const gaugeCheckPlannedOn = asDate('2026-08-10');
    expect(reasons(beans, kitchen(null, { gaugeCheckPlannedOn }))).toMatchObject([
      { codes: ['dial-gauge-unchecked'] },
    ]);
    const sea = kitchen('2025-05-02', { gaugeCheckPlannedOn, household: householdAt(null) });
    expect(reasons(beans, sea)).toMatchObject([{ codes: ['altitude-unknown'] }]);
  });

  test('a weighted gauge is bound to no date', () => {
    expect(plannedOf(beans, { items: kitchen(null).items }).allowedByWeek).toBeNull();
  });

  test('and the season hold together', () => {
    const inAugust = { ...beans, season: { fromMonth: 8, untilMonth: 8 } };
    const allowed = plannedOf(
      inAugust,
      kitchen('2025-05-02', { gaugeCheckPlannedOn: asDate('2026-08-10') }),
    ).allowedByWeek;
    const open = weeks.filter((_, at) => allowed?.[at]);
    expect(open[0]).toBe('2026-W33');
    expect(open).not.toContain('2026-W32');
    expect(open).not.toContain('2026-W45');
  });
});
