import { describe, expect, test } from 'vitest';
import { glutDifference } from '../../../src/planning/glut/glut-difference.ts';
import type { Plan } from '../../../src/planning/plan.ts';
import type { PlannedSource } from '../../../src/planning/planning-year.ts';
import { jamRecipe, plumWeeks, plumYear } from '../plum-year.ts';

const plum = jamRecipe.produce[0]?.crop as PlannedSource['crop'];
const pear = 'pear' as PlannedSource['crop'];

describe('what a plan with a glut does otherwise', () => {
  const session = (recipe: string, batches: number, change: object = {}) => ({
    recipe,
    batches,
    jars: [],
    ...change,
  });
  const week = (at: number, sessions: object[], change: object = {}) => ({
    week: plumWeeks[at],
    sessions,
    purchases: [],
    materials: [],
    spend: 0,
    kitchenMinutes: 0,
    ...change,
  });
  const planOf = (...weeks: object[]) =>
    ({ weeks, items: [], gaveWay: [], objective: {} }) as unknown as Plan;
  const year = plumYear({
    recipes: [
      jamRecipe,
      { ...jamRecipe, id: 'pears' as never, produce: [{ crop: pear, lb: 1, mayBeFrozen: false }] },
    ],
  });
  const difference = (before: Plan, after: Plan) =>
    glutDifference(year, { crop: plum, lb: 60 }, { before, after });
  const jam = 'jam-of-plums';
  const before = planOf(
    week(0, [session('pears', 1)], { spend: 500, kitchenMinutes: 100 }),
    week(1, []),
    week(2, [session(jam, 2)]),
    week(35, [session(jam, 2)]),
  );

  test('makes of the crop now: what is begun in this week or the next', () => {
    const begin = (at: number) => ({ begin: { week: plumWeeks[at], on: '2026-12-01' } });
    const after = planOf(
      week(0, [session(jam, 3), session('pears', 1), session(jam, 7, { begun: { id: 'a', on: 'x' } })]),
      week(1, [session(jam, 1)]),
      week(2, [session(jam, 2), session(jam, 4, begin(1)), session(jam, 5, { begun: { id: 'a', on: 'x' } })]),
      week(3, [session(jam, 1, begin(2))]),
    );
    expect(difference(before, after).now).toEqual([
      { week: plumWeeks[0], recipe: jam, batches: 3 },
      { week: plumWeeks[1], recipe: jam, batches: 1 },
      { week: plumWeeks[2], recipe: jam, batches: 4 },
    ]);
  });

  test('makes more or fewer over the year; what only moves is no more, and only near moves are told', () => {
    const after = planOf(
      week(0, [session(jam, 3)]),
      week(1, [session('pears', 1)]),
      week(2, [session(jam, 2)]),
      week(35, []),
    );
    const found = difference(before, after);
    expect(found.overYear).toEqual([{ recipe: jam, batches: 1 }]);
    expect(
      found.moved.map(({ week: one, recipe, before: was, after: is }) => [one, recipe, was, is]),
    ).toEqual(
      expect.arrayContaining([
        [plumWeeks[0], jam, 0, 3],
        [plumWeeks[0], 'pears', 1, 0],
        [plumWeeks[1], 'pears', 0, 1],
      ]),
    );
    expect(found.moved.some(({ week: one }) => one === plumWeeks[35])).toBe(false);
    const fewer = difference(
      before,
      planOf(week(0, []), week(1, []), week(2, [session(jam, 5)]), week(35, [session(jam, 2)])),
    );
    expect(fewer.overYear).toEqual([
      { recipe: 'pears', batches: -1 },
      { recipe: jam, batches: 3 },
    ]);
  });

  test('freezes more of it in the near weeks, and leaves what it does not take', () => {
    const frozen = (what: string, freeze: number) => ({ what, freeze });
    const taken = (what: string, quantity: number, kind = 'produce') => ({ kind, what, quantity });
    const after = planOf(
      week(0, [], {
        materials: [frozen('plum', 20), frozen('pear', 9)],
        purchases: [taken('glut-of-plum', 45), taken('orchard', 9), taken('glut-of-plum', 9, 'supply')],
      }),
      week(1, [], { materials: [frozen('plum', 5)] }),
      week(2, [], {}),
      week(3, [], {}),
      week(35, [], { materials: [frozen('plum', 50)] }),
    );
    const had = planOf(week(0, [], { materials: [frozen('plum', 4)] }));
    expect(difference(had, after)).toMatchObject({ freezeLb: 21, leftLb: 15 });
    expect(difference(after, had)).toMatchObject({ freezeLb: 0, leftLb: 60 });
    const all = planOf(week(0, [], { purchases: [taken('glut-of-plum', 61)] }));
    expect(difference(had, all).leftLb).toBe(0);
  });

  test('costs so much more money and time over the year', () => {
    const after = planOf(week(0, [], { spend: 800, kitchenMinutes: 60 }));
    expect(difference(before, after)).toMatchObject({ spend: 300, kitchenMinutes: -40 });
  });

  test('tells of moves within four weeks, and of what is made of the crop within two', () => {
    const had = planOf(...[0, 1, 2, 3, 4].map((at) => week(at, [])));
    const after = planOf(...[0, 1, 2, 3, 4].map((at) => week(at, [session(jam, 1)])));
    const found = difference(had, after);
    expect(found.now.map(({ week: one }) => one)).toEqual([plumWeeks[0], plumWeeks[1]]);
    expect(found.moved.map(({ week: one }) => one)).toEqual([0, 1, 2, 3].map((at) => plumWeeks[at]));
    expect(found.overYear).toEqual([{ recipe: jam, batches: 5 }]);
  });

  test('counts what is frozen within four weeks alone', () => {
    const frozen = (at: number) => week(at, [], { materials: [{ what: 'plum', freeze: 10 }] });
    expect(difference(planOf(), planOf(...[0, 1, 2, 3].map(frozen))).freezeLb).toBe(40);
    expect(difference(planOf(), planOf(...[0, 1, 2, 3, 4].map(frozen))).freezeLb).toBe(40);
  });

  test('stands by recipe, the fewest first, of as many by its id', () => {
    const after = planOf(
      week(0, [session('c', 1), session('d', 1), session('a', 1), session('b', 1), session('more', 2)]),
    );
    expect(
      difference(planOf(week(0, [session('less', 1)])), after).overYear.map(({ recipe }) => recipe),
    ).toEqual(['less', 'a', 'b', 'c', 'd', 'more']);
  });

  test('is of a recipe that takes the crop among others', () => {
    const mixed = plumYear({
      recipes: [
        {
          ...jamRecipe,
          id: 'mixed' as never,
          produce: [{ crop: pear, lb: 1, mayBeFrozen: false }, ...jamRecipe.produce],
        },
      ],
    });
    const after = planOf(week(0, [session('mixed', 1)]));
    expect(
      glutDifference(mixed, { crop: plum, lb: 60 }, { before: planOf(week(0, [])), after }).now,
    ).toHaveLength(1);
  });
});
