import { describe, expect, test } from 'vitest';
import { Room } from '../../../src/planning/glut/glut-room.ts';
import type { PlannedRecipe, PlanningYear } from '../../../src/planning/planning-year.ts';
import { jamRecipe, plumJam, plumWeeks, plumYear } from '../plum-year.ts';
import { dried, glutYear, itemOf, kitchenOf, plumsOf, recipeOf, wanting } from './glut-kitchen.ts';

type Processing = NonNullable<PlannedRecipe['processing']>;
const processing = jamRecipe.processing as Processing;

const roomOf = (
  recipes: readonly PlannedRecipe[],
  { lb = 1000, weeks = 2, year = {} }: { lb?: number; weeks?: number; year?: Partial<PlanningYear> } = {},
) => {
  const { kitchen, ways, way } = kitchenOf(glutYear(recipes, year), { weeks });
  const room = new Room(kitchen, ways, lb);
  return {
    room,
    way,
    /** The weeks in which so many batches go in, one after the other; null where one fits none. */
    added: (...ids: readonly string[]) => ids.map((id) => room.add(way(id))),
  };
};
const twoHours = dried('two-hours', 120, plumsOf(1));

describe('what still fits beside a glut', () => {
  test('goes into the earliest week with time for it: two of two hours in each of 270 minutes', () => {
    const { added } = roomOf([twoHours]);
    expect(added('two-hours', 'two-hours', 'two-hours', 'two-hours', 'two-hours')).toEqual([
      0,
      0,
      1,
      1,
      null,
    ]);
  });

  test('to the minute, recipes beside each other', () => {
    const recipes = [
      dried('long', 200, plumsOf(1)),
      dried('just', 70, plumsOf(1)),
      dried('over', 71, plumsOf(1)),
    ];
    expect(roomOf(recipes, { weeks: 1 }).added('long', 'just')).toEqual([0, 0]);
    expect(roomOf(recipes, { weeks: 1 }).added('long', 'over')).toEqual([0, null]);
  });

  test('counts every session and every pair of hands of a week', () => {
    const time = { ...plumYear().time, maxSessionsByWeek: plumWeeks.map((_, week) => (week === 0 ? 2 : 0)) };
    const many = roomOf([twoHours], { year: { time } }).added(
      ...Array.from({ length: 5 }, () => 'two-hours'),
    );
    expect(many).toEqual([0, 0, 0, 0, null]);
    const hands = { ...plumYear().time, handsByWeek: plumWeeks.map(() => 2) };
    expect(
      roomOf([twoHours], { weeks: 1, year: { time: hands } }).added(
        ...Array.from({ length: 5 }, () => 'two-hours'),
      ),
    ).toEqual([0, 0, 0, 0, null]);
  });

  test('takes no more pounds than there are', () => {
    const jam = dried('jam', 10, plumsOf(10));
    expect(roomOf([jam], { lb: 20 }).added('jam', 'jam', 'jam')).toEqual([0, 0, null]);
    expect(roomOf([jam], { lb: 19.9 }).added('jam', 'jam')).toEqual([0, null]);
  });

  test('takes no more of the freezer than is free: 20 quarts', () => {
    const bags = dried('bags', 10, { ...plumsOf(1), yieldLowUnits: 4 });
    const frozen = (freezerQuartsPerUnit: number) =>
      roomOf([bags], { year: { items: [{ ...plumJam, openingLots: [], freezerQuartsPerUnit }] } });
    expect(frozen(2.5).added('bags', 'bags', 'bags')).toEqual([0, 0, null]);
    expect(frozen(2.51).added('bags', 'bags')).toEqual([0, null]);
  });

  test('takes no more of the crocks than there is: 8 quarts', () => {
    const crock = (quarts: number) => dried('crock', 10, { ...plumsOf(1), crock: { quarts, weeks: 1 } });
    expect(roomOf([crock(4)]).added('crock', 'crock', 'crock')).toEqual([0, 0, null]);
    expect(roomOf([crock(4.1)]).added('crock', 'crock')).toEqual([0, null]);
  });

  test('keeps a canner no longer than its day, whatever goes into it; another canner has a day of its own', () => {
    const canned = (id: string, loadMinutes: number, cannerId: string = processing.cannerId) =>
      recipeOf(id, {
        ...plumsOf(1),
        handsOnMinutes: 1,
        processing: {
          ...processing,
          scheduleKey: id,
          loadMinutes,
          attendedMinutes: 0,
          cannerId: cannerId as never,
        },
      });
    const canners = [
      ...plumYear().canners,
      { id: 'second' as never, name: 'Second', method: 'pressure' as const },
    ];
    const recipes = [
      canned('long', 200),
      canned('just', 100),
      canned('over', 101),
      canned('other', 101, 'second'),
    ];
    const room = () => roomOf(recipes, { weeks: 1, year: { canners } });
    expect(room().added('long', 'just')).toEqual([0, 0]);
    expect(room().added('long', 'over')).toEqual([0, null]);
    expect(room().added('long', 'other')).toEqual([0, 0]);
    expect(roomOf(recipes, { weeks: 2, year: { canners } }).added('long', 'over')).toEqual([0, 1]);
  });

  test('takes the minutes of what is worked on for weeks in each of them', () => {
    const stages = { weeks: 1, daysFromMonday: 5, handsOnByWeek: [200, 70], possibleByWeek: null };
    const kraut = dried('kraut', 270, { ...plumsOf(1), stages });
    const recipes = [kraut, dried('just', 70, plumsOf(1)), dried('hour', 200, plumsOf(1))];
    // Begun in week 0 and filled in week 1: 200 minutes of the one, 70 of the other are gone.
    expect(roomOf(recipes).added('kraut', 'just', 'just', 'hour')).toEqual([0, 0, 1, null]);
    expect(roomOf(recipes).added('kraut', 'hour')).toEqual([0, 1]);
    expect(roomOf(recipes).added('just', 'kraut', 'just', 'just')).toEqual([0, 0, 1, 1]);
    expect(roomOf(recipes).added('hour', 'just', 'kraut')).toEqual([0, 0, 1]);
    // A week that is full of something else leaves no time for its filling.
    expect(roomOf([...recipes, dried('full', 201, plumsOf(1))]).added('full', 'full', 'kraut')).toEqual([
      0,
      1,
      null,
    ]);
  });

  test('no more batches in a week than its recipe allows', () => {
    const allowedByWeek = plumWeeks.map((_, week) => week === 1);
    expect(
      roomOf([dried('late', 100, { ...plumsOf(1), allowedByWeek })]).added('late', 'late', 'late'),
    ).toEqual([1, 1, null]);
  });
});

describe('what is pinned or done', () => {
  const week = plumWeeks[0] ?? ('' as never);
  const kept = (decision: string, change: object = {}) =>
    ({ recipeId: 'two-hours', week, decision, batches: 1, ...change }) as never;
  const other = dried('other', 120, plumsOf(1));
  const left = (...decisions: readonly never[]) =>
    roomOf([twoHours, other], { weeks: 1, year: { kept: decisions } }).added('other', 'other');

  test('has its time taken off first', () => {
    expect(left()).toEqual([0, 0]);
    expect(left(kept('pinned'))).toEqual([0, null]);
    expect(left(kept('done'))).toEqual([0, null]);
    expect(left(kept('pinned', { batches: 2 }))).toEqual([null, null]);
    expect(left(kept('pinned'), kept('done', { recipeId: 'other' }))).toEqual([null, null]);
  });

  test('takes none where it is ruled out, of another week, or of a recipe nobody has', () => {
    expect(left(kept('ruled-out'))).toEqual([0, 0]);
    expect(left(kept('pinned', { week: plumWeeks[1] }))).toEqual([0, 0]);
    expect(left(kept('pinned', { week: '2020-W01' }))).toEqual([0, 0]);
    expect(left(kept('pinned', { recipeId: 'gone' }))).toEqual([0, 0]);
  });

  test('keeps its canner too', () => {
    const slow = (id: string) =>
      recipeOf(id, {
        ...plumsOf(1),
        handsOnMinutes: 1,
        processing: { ...processing, scheduleKey: id, loadMinutes: 160, attendedMinutes: 0 },
      });
    const recipes = [slow('a'), slow('b')];
    expect(roomOf(recipes, { weeks: 1 }).added('b')).toEqual([0]);
    expect(
      roomOf(recipes, { weeks: 1, year: { kept: [kept('pinned', { recipeId: 'a' })] } }).added('b'),
    ).toEqual([null]);
  });

  test('of weeks before the year is passed over, its load in the first week counts', () => {
    const stages = { weeks: 2, daysFromMonday: 5, handsOnByWeek: [60, 60, 200], possibleByWeek: null };
    const kraut = dried('kraut', 320, { ...plumsOf(1), stages });
    expect(
      roomOf([kraut, other], { weeks: 1, year: { kept: [kept('pinned', { recipeId: 'kraut' })] } }).added(
        'other',
      ),
    ).toEqual([null]);
  });
});

describe('what the year wants of one more batch', () => {
  test('is at least half of it, beside what is in already', () => {
    const wantedOf = (toCome: number, already: number) => {
      const { kitchen, ways, way } = kitchenOf(
        glutYear([dried('jam', 10, { ...plumsOf(1), yieldLowUnits: 8 })]),
        {
          walkOf: () => wanting(toCome),
        },
      );
      const room = new Room(kitchen, ways, 1000);
      for (let at = 0; at < already; at += 1) room.add(way('jam'));
      return room.isWanted(way('jam'));
    };
    expect([3.9, 4, 5].map((toCome) => wantedOf(toCome, 0))).toEqual([false, true, true]);
    expect([11.9, 12].map((toCome) => wantedOf(toCome, 1))).toEqual([false, true]);
  });

  test('is nothing of what nobody keeps', () => {
    const { room, way } = roomOf([twoHours]);
    expect(room.isWanted(way('two-hours'))).toBe(false);
  });
});

describe('a mix', () => {
  const butter = itemOf('butter');
  const recipes = [
    dried('a', 100, { ...plumsOf(4), yieldLowUnits: 2 }),
    dried('b', 100, { ...plumsOf(6), yieldLowUnits: 3 }),
    dried('c', 50, { ...plumsOf(1), itemId: butter.id, yieldLowUnits: 5 }),
  ];
  const mixOf = (...ids: readonly string[]) => {
    const walks = new Map([
      [plumJam.id as string, wanting(10, { missing: 2, need: 8, carryOver: 2 })],
      ['butter', wanting(4)],
    ]);
    const { kitchen, ways, way } = kitchenOf(glutYear(recipes, { items: [plumJam, butter] }), {
      weeks: 2,
      walkOf: (item) => walks.get(item) ?? null,
    });
    const room = new Room(kitchen, ways.toReversed(), 50);
    const weeks = ids.map((id) => room.add(way(id)));
    return { room, way, mix: room.mix(), weeks };
  };
  const brief = ({ mix }: ReturnType<typeof mixOf>) =>
    mix.taken.map(({ way, week, batches }) => `${way.recipe.id} ${week} ${batches}`);

  test('stands by its weeks and recipes, each with its batches', () => {
    expect(brief(mixOf('b', 'a', 'b', 'a', 'c'))).toEqual(['a 0 1', 'b 0 1', 'c 0 1', 'a 1 1', 'b 1 1']);
    expect(brief(mixOf('a', 'a'))).toEqual(['a 0 2']);
    expect(brief(mixOf())).toEqual([]);
  });

  test('takes its pounds and its minutes, and half an hour to set up in each week', () => {
    expect(mixOf('b', 'a', 'b', 'a', 'c').mix).toMatchObject({ lb: 21, minutes: 4 * 100 + 50 + 2 * 30 });
    expect(mixOf('a').mix).toMatchObject({ lb: 4, minutes: 130 });
    expect(mixOf().mix).toMatchObject({ lb: 0, minutes: 0, worth: 0 });
  });

  test('is worth its share of each item’s year; what nothing is planned for counts twice', () => {
    // Jam: 2 + 3 of the 10 wanted, 2 of them missing. Butter: 5 of 4 wanted and missing.
    expect(mixOf('a', 'b', 'c').mix.worth).toBeCloseTo((5 + 2) / 10 + (4 + 4) / 4, 9);
  });

  test('is as before once what was put in is taken out again', () => {
    const { room, way, mix } = mixOf('a', 'b');
    const before = [room.add(way('c')), room.add(way('a'))];
    expect(before).toEqual([0, 1]);
    room.remove(way('a'), 1);
    room.remove(way('c'), 0);
    expect(room.mix()).toEqual(mix);
    expect([room.add(way('c')), room.add(way('a'))]).toEqual(before);
  });

  test('gives back the freezer, the crocks and the canner with what is taken out', () => {
    const full = recipeOf('full', {
      ...plumsOf(50),
      handsOnMinutes: 10,
      crock: { quarts: 8, weeks: 1 },
      processing: { ...processing, loadMinutes: 300 },
    });
    const items = [{ ...plumJam, openingLots: [], freezerQuartsPerUnit: 20 / 7 }];
    const { room, way } = roomOf([full], { lb: 50, weeks: 1, year: { items } });
    for (let round = 0; round < 2; round += 1) {
      expect(room.add(way('full'))).toBe(0);
      expect(room.add(way('full'))).toBeNull();
      room.remove(way('full'), 0);
    }
  });
});
