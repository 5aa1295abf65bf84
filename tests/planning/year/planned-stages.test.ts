import { describe, expect, test } from 'vitest';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import {
  addDays,
  asDate,
  type CalendarDate,
  daysBetween,
  mondayOf,
  weekOf,
  weeksFrom,
} from '../../../shared/week.ts';
import type { BegunStage, Preparations, RecipeBatches } from '../../../src/household/begun.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import { begunBatches, minutesByStage, plannedStages } from '../../../src/planning/year/planned-stages.ts';
import { recipeBook } from '../../../src/preserving/recipes/recipe-book.ts';
import { batchCalendar } from '../../../src/preserving/stages/batch-calendar.ts';
import { batchRuling } from '../../../src/preserving/stages/prepared-batches.ts';
import type { RecipeStage } from '../../../src/preserving/stages/recipe-stages.ts';
import { preparationFor } from '../../../src/preserving/stages/standing-batches.ts';

const reference = loadReferenceTables();
const staged = recipeBook(reference).filter(({ stages }) => stages.length > 0);
const timeZone = 'America/Denver';
const asOf = asDate('2026-06-01');
const weeks = weeksFrom(weekOf(asOf), 52);

/** A recipe of the book as a household keeps it, as far as its stages go. */
const kept = (key: string, change: Partial<Recipe> = {}): Recipe => {
  const tested = staged.find((one) => one.key === key);
  const [process] = tested?.processes ?? [];
  if (tested === undefined || process === undefined) throw new Error(`${key} is no recipe with stages`);
  return {
    id: key.replaceAll('_', '-'),
    itemId: 'item',
    name: tested.name,
    basedOn: key,
    changes: [],
    jarKind: 'pint/regular',
    process: {
      food: process.foodKey,
      style: process.style,
      pack: process.pack,
      cannerId: 'kettle',
      jarKind: 'pint/regular',
    },
    awaitsCanner: false,
    processRefused: null,
    yieldLow: 7,
    yieldHigh: 8,
    handsOnMinutes: 90,
    atFirst: { yieldLow: 7, yieldHigh: 8, handsOnMinutes: 90, batchesSeen: 0 },
    readyAfterDays: tested.curing?.daysLow ?? 0,
    crock: null,
    season: null,
    produce: [],
    supplies: [],
    gives: [],
    uses: [],
    stages: [],
    ...change,
  } as unknown as Recipe;
};

const kitchen = (sessionWeekday: number, change: Partial<Parameters<typeof plannedStages>[1]> = {}) => ({
  weeks,
  asOf,
  sessionWeekday,
  weekStartsOn: 'monday' as const,
  away: [],
  reference,
  timeZone,
  ...change,
});

/** Everything begun at the first time listed for it, one stage after the other, as somebody who follows the calendar does. */
function begunByCalendar(recipe: Recipe, on: CalendarDate, from: readonly BegunStage[] = []) {
  const { stages } = preparationFor(recipe, on, { batches: [], filled: [] }, reference, timeZone);
  let begun: readonly BegunStage[] = from;
  for (let step = 0; step <= stages.length; step += 1) {
    const asked = { stages, way: null, begun, load: { on, at: '09:00' }, asOf: addDays(on, -90), timeZone };
    const calendar = batchCalendar(asked);
    const next = calendar.before.find(({ state }) => state !== 'done');
    if (next === undefined) return { begun, calendar };
    begun = [...begun, { position: next.stage.position, way: calendar.way, begunAt: next.from }];
  }
  throw new Error(`${recipe.id}: the calendar never ends`);
}

/** A batch of it with these stages written down, asked as a canning day asks. */
function gateAt(recipe: Recipe, begun: readonly BegunStage[], on: CalendarDate, at: string) {
  const batch = { id: 'one', recipeId: recipe.id, batches: 1, begun, isThrownAway: false } as RecipeBatches;
  const known: Preparations = { batches: [batch], filled: [] };
  return batchRuling(preparationFor(recipe, on, known, reference, timeZone), 1, at);
}

describe('the days before a load, as the planner takes them', () => {
  // Weeks at both changes of clocks in Denver (November 1, 2026 and March 14, 2027) and between.
  const loadWeeks = ['2026-W29', '2026-W45', '2027-W11'] as const;

  test.each([1, 2, 3, 4, 5, 6, 7])(
    'with canning on weekday %i no recipe of the book is loaded before its stages allow, begun when the plan says',
    (sessionWeekday) => {
      for (const { key } of staged) {
        const recipe = kept(key);
        const stages = plannedStages(recipe, kitchen(sessionWeekday));
        for (const week of loadWeeks) {
          const on = addDays(mondayOf(week as never), sessionWeekday - 1);
          const { begun, calendar } = begunByCalendar(recipe, on);
          const beginOn = asDate(begun[0]?.begunAt.slice(0, 10) ?? on);
          const gate = gateAt(recipe, begun, on, calendar.load?.at ?? `${on}T09:00`);

          expect([key, week, gate.ok], JSON.stringify(gate)).toEqual([key, week, true]);
          expect(calendar.load?.on).toBe(on);
          const weeksBefore = daysBetween(mondayOf(weekOf(beginOn)), mondayOf(week as never)) / 7;
          expect([key, weeksBefore]).toEqual([key, stages?.weeks]);
          expect(daysBetween(mondayOf(weekOf(beginOn)), beginOn)).toBe(stages?.daysFromMonday);
        }
      }
    },
  );

  test('every minute of a batch falls in one of its weeks', () => {
    for (const { key } of staged)
      for (let weekday = 1; weekday <= 7; weekday += 1) {
        const { handsOnByWeek = [], weeks: before } = plannedStages(kept(key), kitchen(weekday)) ?? {};

        expect(handsOnByWeek).toHaveLength((before ?? -1) + 1);
        expect(handsOnByWeek.reduce((sum, minutes) => sum + minutes, 0)).toBeCloseTo(90, 6);
      }
  });

  // 14-day pickles: 13 days from the first to the last; sauerkraut at 70 to 75 °F: 21. USDA Complete Guide 6, p6-11 and p6-8 (read).
  test('14-day pickles for a Saturday are begun on the Sunday thirteen days before, kraut three weeks before', () => {
    expect(plannedStages(kept('14-day-sweet-pickles'), kitchen(6))).toMatchObject({
      weeks: 2,
      daysFromMonday: 6,
    });
    expect(plannedStages(kept('sauerkraut'), kitchen(6))?.weeks).toBeGreaterThanOrEqual(3);
    expect(plannedStages(kept('quick-dill-pickles'), kitchen(6))).toMatchObject({
      weeks: 0,
      daysFromMonday: 4,
    });
    expect(plannedStages(kept('quick-dill-pickles'), kitchen(1))).toMatchObject({
      weeks: 1,
      daysFromMonday: 6,
    });
  });

  test('nothing is planned that had to be begun before today, or while nobody is at home for it', () => {
    const first = plannedStages(kept('14-day-sweet-pickles'), kitchen(6))?.possibleByWeek ?? [];
    expect(first.slice(0, 4)).toEqual([false, false, true, true]);

    // Day 9 of pickles for Saturday, July 11 is Monday, July 6.
    const away = [{ fromOn: asDate('2026-07-06'), untilOn: asDate('2026-07-07') }];
    const whileAway = plannedStages(kept('14-day-sweet-pickles'), kitchen(6, { away }))?.possibleByWeek ?? [];
    expect(whileAway[weeks.indexOf(weekOf(asDate('2026-07-11')))]).toBe(false);
    expect(whileAway[weeks.indexOf(weekOf(asDate('2026-07-25')))]).toBe(true);
  });

  test('what is made in one go, or not canned, has none', () => {
    expect(plannedStages(kept('sauerkraut', { process: null }), kitchen(6))).toBeUndefined();
  });
});

describe('batches that are begun', () => {
  test.each([2, 6, 7])(
    'with canning on weekday %i each has a week in which the canning day takes it, and none after it has stood too long',
    (sessionWeekday) => {
      for (const { key } of staged) {
        const recipe = kept(key);
        const { begun: followed } = begunByCalendar(recipe, asDate('2026-08-12'));
        const begun = followed.slice(0, 1);
        const batch = {
          id: 'one',
          recipeId: recipe.id,
          batches: 2,
          begun,
          isThrownAway: false,
        } as RecipeBatches;
        const [standing] = begunBatches(recipe, { batches: [batch], filled: [] }, kitchen(sessionWeekday));

        expect(standing, key).toMatchObject({ batches: 2, begunOn: begun[0]?.begunAt.slice(0, 10) });
        const may = weeks.filter((_, at) => standing?.mayLoadByWeek[at] === true);
        for (const week of may.slice(0, 2)) {
          const days = [0, 1, 2, 3, 4, 5, 6].map((day) => addDays(mondayOf(week), day));
          const taken = days.some((on) => {
            const { begun: done, calendar } = begunByCalendar(recipe, on, begun);
            return calendar.load?.on === on && gateAt(recipe, done, on, calendar.load.at).ok;
          });
          expect([key, week, taken]).toEqual([key, week, true]);
        }
      }
    },
  );

  // Kept cold in its brine kraut may wait; 14-day pickles have their day: USDA Complete Guide 6, p6-8 and p6-11 (read).
  test('kraut may wait for its load in the cold, 14-day pickles have one week, and what stood too long none', () => {
    const weeksOf = (key: string, begunAt: string, way: string | null, asOfDay = asOf) => {
      const recipe = kept(key);
      const begun = [{ position: 1, way, begunAt }];
      const batch = {
        id: 'one',
        recipeId: recipe.id,
        batches: 1,
        begun,
        isThrownAway: false,
      } as RecipeBatches;
      const at = { ...kitchen(6), asOf: asOfDay };
      const [standing] = begunBatches(recipe, { batches: [batch], filled: [] }, at);
      return (standing?.mayLoadByWeek ?? []).flatMap((may, week) => (may ? [week] : []));
    };

    const kraut = weeksOf('sauerkraut', '2026-06-01T10:00', 'at 70 to 75 F');
    expect([kraut[0], kraut.at(-1)]).toEqual([3, 51]);
    expect(weeksOf('14-day-sweet-pickles', '2026-06-02T10:00', null)).toHaveLength(1);
    expect(weeksOf('14-day-sweet-pickles', '2026-06-02T10:00', null, asDate('2026-07-20'))).toEqual([]);
  });
});

describe('the minutes of each stage', () => {
  // Soak overnight, drain at once, stand a day, heat and fill.
  const path = [12, 0, 24, 0].map((leastHours, at) => ({ position: at + 1, leastHours }) as RecipeStage);
  const written = (...minutes: readonly number[]) => ({
    stages: minutes.map((handsOnMinutes) => ({ handsOnMinutes })) as unknown as Recipe['stages'],
    handsOnMinutes: 80,
  });

  test('are as the household wrote them down, drawn to what a batch takes', () => {
    expect(minutesByStage(written(10, 5, 5, 20), path)).toEqual([20, 10, 10, 40]);
  });

  test('may be written down for those alone that wait, and the last', () => {
    expect(minutesByStage(written(10, 10, 20), path)).toEqual([20, 0, 20, 40]);
  });

  test('are even shares where nothing, too little or nothing but noughts was written', () => {
    expect(minutesByStage(written(), path)).toEqual([20, 20, 20, 20]);
    expect(minutesByStage(written(10, 30), path)).toEqual([20, 20, 20, 20]);
    expect(minutesByStage(written(0, 0, 0, 0), path)).toEqual([20, 20, 20, 20]);
  });
});

describe('days on which stages are done', () => {
  // Quick dill pickles are soaked overnight for the canning day: what is loaded on a Saturday is begun on a Friday.
  const possible = (change: Parameters<typeof kitchen>[1] = {}, weekday = 6) =>
    plannedStages(kept('quick-dill-pickles'), kitchen(weekday, change))?.possibleByWeek?.slice(0, 4);
  const away = (from: string, until: string) => [{ fromOn: asDate(from), untilOn: asDate(until) }];

  test('are not before today', () => {
    expect(possible({ asOf: asDate('2026-06-05') })).toEqual([true, true, true, true]);
    expect(possible({ asOf: asDate('2026-06-06') })).toEqual([false, true, true, true]);
    expect(possible({ asOf: asDate('2026-06-07') })).toEqual([false, true, true, true]);
  });

  test('are not while nobody is at home; the last day away is the first at home', () => {
    expect(possible({ away: away('2026-06-12', '2026-06-13') })).toEqual([true, false, true, true]);
    expect(possible({ away: away('2026-06-10', '2026-06-12') })).toEqual([true, true, true, true]);
    expect(possible({ away: away('2026-06-13', '2026-06-20') })).toEqual([true, true, false, true]);
  });

  test('are days of the household’s own week', () => {
    // Canned on Sundays, the first day of the week, they are soaked on the last of the week before.
    const sundays = plannedStages(kept('quick-dill-pickles'), kitchen(7, { weekStartsOn: 'sunday' }));
    expect(sundays).toMatchObject({ weeks: 1, daysFromMonday: 5 });
    const mondays = plannedStages(kept('quick-dill-pickles'), kitchen(7));
    expect(mondays).toMatchObject({ weeks: 0, daysFromMonday: 5 });
    const onMondays = plannedStages(kept('quick-dill-pickles'), kitchen(1, { weekStartsOn: 'sunday' }));
    expect(onMondays).toMatchObject({ weeks: 0, daysFromMonday: -1 });
  });
});

describe('a batch that stands begun', () => {
  const batch = (change: object = {}) =>
    ({
      id: 'one',
      recipeId: 'sauerkraut',
      batches: 2,
      begun: [{ position: 1, way: 'at 70 to 75 F', begunAt: '2026-06-01T10:00' }],
      isThrownAway: false,
      ...change,
    }) as unknown as RecipeBatches;
  const standing = (
    change: object = {},
    at: Parameters<typeof kitchen>[1] = {},
    recipe = kept('sauerkraut'),
  ) => begunBatches(recipe, { batches: [batch(change)], filled: [] }, kitchen(6, at));

  test('is told by what it is, how many and since when', () => {
    expect(standing()).toHaveLength(1);
    const [{ mayLoadByWeek, ...told } = { mayLoadByWeek: [] }] = standing();
    expect(told).toEqual({
      id: 'one',
      recipeId: 'sauerkraut',
      jarKind: 'pint/regular',
      batches: 2,
      begunOn: '2026-06-01',
    });
    expect(mayLoadByWeek).toHaveLength(52);
  });

  test('is loaded on every canning day from the first that its stages allow, as long as it may wait', () => {
    const first = (asOfDay: string) => standing({}, { asOf: asDate(asOfDay) })[0]?.mayLoadByWeek.slice(0, 6);
    // Three weeks at 70 to 75 °F, USDA Complete Guide 6, p6-8 (read): from Monday, June 22 on.
    expect(first('2026-06-01')).toEqual([false, false, false, true, true, true]);
    expect(first('2026-06-27')).toEqual([false, false, false, true, true, true]);
    expect(first('2026-06-28')).toEqual([false, false, false, false, true, true]);
  });

  test('is none where it was thrown away, is of another recipe, or is not canned', () => {
    expect(standing({ isThrownAway: true })).toEqual([]);
    expect(standing({ recipeId: 'other' })).toEqual([]);
    expect(standing({}, {}, kept('sauerkraut', { process: null }))).toEqual([]);
  });
});
