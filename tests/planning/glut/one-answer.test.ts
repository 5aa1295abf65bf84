import { describe, expect, test } from 'vitest';
import { asJarKind } from '../../../shared/jar.ts';
import { type GlutAnswer, glutAnswers } from '../../../src/planning/glut/glut-answers.ts';
import type { PlannedRecipe, PlanningYear } from '../../../src/planning/planning-year.ts';
import type { YearWalk } from '../../../src/planning/year/year-walk.ts';
import { jamRecipe, plumJam, plumWeeks, plumYear } from '../plum-year.ts';
import { dried, glutYear, itemOf, plum, plumsOf, recipeOf, wanting } from './glut-kitchen.ts';

interface Asked {
  readonly lb?: number;
  readonly weeks?: number;
  readonly wanted?: Readonly<Record<string, number | YearWalk>>;
  readonly year?: Partial<PlanningYear>;
}
const answersTo = (
  recipes: readonly PlannedRecipe[],
  { lb = 10, weeks = 1, wanted = {}, year = {} }: Asked = {},
): readonly GlutAnswer[] =>
  glutAnswers(
    glutYear(recipes, year),
    { crop: plum, lb },
    {
      weeks,
      walkOf: (item) => {
        const walk = wanted[item];
        return walk === undefined ? null : typeof walk === 'number' ? wanting(walk) : walk;
      },
    },
  );
const aimed = (answers: readonly GlutAnswer[], aim: GlutAnswer['aims'][number]) => {
  const answer = answers.find(({ aims }) => aims.includes(aim));
  return answer && Object.fromEntries(answer.makes.map(({ recipe, batches }) => [recipe, batches]));
};
const jam = plumJam.id;
const processing = jamRecipe.processing as NonNullable<PlannedRecipe['processing']>;

describe('what an answer makes', () => {
  test('stands with its recipe, item, jars, batches and units to count on, in the week of its load', () => {
    const stages = { weeks: 1, daysFromMonday: 5, handsOnByWeek: [20, 70], possibleByWeek: null };
    const [answer] = answersTo([recipeOf('jam', { name: 'Plum jam', stages })], { lb: 20, weeks: 2 });
    expect(answer?.makes).toEqual([
      {
        recipe: 'jam',
        name: 'Plum jam',
        item: jam,
        jarKind: jamRecipe.jarKind,
        week: plumWeeks[1],
        batches: 2,
        units: 14,
      },
    ]);
  });

  test('leaves so many pounds, and so much of the freezer', () => {
    const bags = dried('bags', 30, { ...plumsOf(4), yieldLowUnits: 3 });
    const items = [{ ...plumJam, openingLots: [], freezerQuartsPerUnit: 1.5 }];
    expect(answersTo([bags], { lb: 10, year: { items } })).toMatchObject([
      { lbUsed: 8, lbLeft: 2, freezerLeft: 20 - 2 * 4.5 },
    ]);
    expect(answersTo([bags], { lb: 8 })).toMatchObject([{ lbUsed: 8, lbLeft: 0, freezerLeft: 20 }]);
  });
});

describe('the jars of an answer', () => {
  const quart = asJarKind('quart', 'wide');
  const other = itemOf('quarts', { jarKind: quart });
  const quarts = recipeOf('quarts', {
    itemId: other.id,
    jarKind: quart,
    yieldHighJars: 5,
    handsOnMinutes: 60,
  });
  const [holding] = plumYear().jars;
  if (holding === undefined) throw new Error('expected jars');
  const jarsOf = (...empty: readonly (readonly [kind: typeof quart, count: number])[]) =>
    answersTo([recipeOf('pints', { handsOnMinutes: 60 }), quarts], {
      lb: 20,
      wanted: { [jam]: 7, quarts: 7 },
      year: {
        items: [plumJam, other],
        jars: empty.map(([kind, count]) => ({ ...holding, kind, empty: count })),
      },
    })[0]?.jars;
  const pint = holding.kind;

  test('are those of all its batches, each kind against the empty ones of its own', () => {
    expect(jarsOf([pint, 30], [quart, 30])).toEqual({ count: 13, missing: 0 });
    expect(jarsOf([pint, 8], [quart, 4])).toEqual({ count: 13, missing: 1 });
    expect(jarsOf([pint, 6], [quart, 30])).toEqual({ count: 13, missing: 2 });
    expect(jarsOf([pint, 6])).toEqual({ count: 13, missing: 7 });
  });

  test('are none of what goes into none', () => {
    expect(answersTo([dried('bags', 30, { ...plumsOf(4), yieldHighJars: 4 })])).toMatchObject([
      { jars: { count: 0, missing: 0 } },
    ]);
  });
});

describe('what the year then lacks or has over', () => {
  const of = (
    toCome: number | null,
    recipes: readonly PlannedRecipe[] = [dried('bags', 30, { ...plumsOf(10), yieldLowUnits: 7 })],
  ) => {
    const [answer] = answersTo(recipes, { wanted: toCome === null ? {} : { [jam]: toCome } });
    return { lacks: answer?.lacks, over: answer?.over };
  };

  test('is what its units do not fill, or are too many', () => {
    expect(of(10)).toEqual({ lacks: [{ item: jam, units: 3 }], over: [] });
    expect(of(7)).toEqual({ lacks: [], over: [] });
    expect(of(5)).toEqual({ lacks: [], over: [{ item: jam, units: 2 }] });
    expect(of(null)).toEqual({ lacks: [], over: [{ item: jam, units: 7 }] });
  });

  test('is told once of an item two recipes make', () => {
    const two = ['a', 'b'].map((id) => dried(id, 30, { ...plumsOf(5), yieldLowUnits: 2 }));
    expect(of(9, two)).toEqual({ lacks: [{ item: jam, units: 5 }], over: [] });
  });

  test('is told of an item of the crop too that this answer does not make', () => {
    const other = itemOf('other');
    const [answer] = answersTo(
      [
        dried('bags', 30, { ...plumsOf(10), yieldLowUnits: 7 }),
        dried('leather', 200, { ...plumsOf(10), itemId: other.id, yieldLowUnits: 1 }),
      ],
      { wanted: { [jam]: 7, other: 4 }, year: { items: [plumJam, other] } },
    );
    expect(answer?.lacks).toEqual([{ item: 'other', units: 4 }]);
  });
});

describe('what an answer leaves for other batches', () => {
  test('is each material once, of all batches', () => {
    const gives = (...of: readonly (readonly [materialId: string, quantity: number])[]) => ({
      gives: of.map(([materialId, quantity]) => ({ materialId, quantity })),
    });
    const recipes = [
      dried('a', 30, { ...plumsOf(5), ...gives(['pits', 1], ['skins', 0.5]) }),
      dried('b', 30, { ...plumsOf(5), itemId: 'other' as never, ...gives(['skins', 2]) }),
    ];
    const [answer] = answersTo(recipes, {
      lb: 15,
      wanted: { [jam]: 14, other: 7 },
      year: { items: [plumJam, itemOf('other')] },
    });
    expect(answer?.makes.map(({ recipe, batches }) => [recipe, batches])).toEqual([
      ['a', 2],
      ['b', 1],
    ]);
    expect(answer?.leaves).toEqual([
      { materialId: 'pits', quantity: 2 },
      { materialId: 'skins', quantity: 3 },
    ]);
    expect(answersTo([dried('a', 30, plumsOf(5))])[0]?.leaves).toEqual([]);
  });
});

describe('of answers equal in their aim', () => {
  const way = (
    id: string,
    lb: number,
    minutes: number,
    yieldLowUnits: number,
    change: Partial<PlannedRecipe> = {},
  ) => dried(id, minutes, { ...plumsOf(lb), yieldLowUnits, ...change });

  test('what serves the year as much with less work comes first', () => {
    // Ten are wanted: two of six in 120 minutes, or ten at once in 110.
    const recipes = [way('six', 5, 60, 6), way('ten', 5, 110, 10)];
    expect(aimed(answersTo(recipes, { lb: 10, wanted: { [jam]: 10 } }), 'what the year lacks')).toEqual({
      ten: 1,
    });
  });

  test('with the same work what uses more up', () => {
    const recipes = [way('a', 5, 100, 7), way('b', 8, 100, 7)];
    expect(aimed(answersTo(recipes, { lb: 8, wanted: { [jam]: 7 } }), 'what the year lacks')).toEqual({
      b: 1,
    });
  });

  test('what uses as much up and serves the year more comes first, then what is less work', () => {
    const serving = [way('quick', 10, 90, 7, { itemId: 'other' as never }), way('wanted', 10, 100, 7)];
    const year = { items: [plumJam, itemOf('other')] };
    expect(aimed(answersTo(serving, { lb: 10, wanted: { [jam]: 7 }, year }), 'all of it')).toEqual({
      wanted: 1,
    });
    // Two small ones keep the canner for a day each, with a set-up in either week; one big is done in one.
    const canned = (id: string, lb: number, handsOnMinutes: number) =>
      recipeOf(id, {
        ...plumsOf(lb),
        handsOnMinutes,
        processing: { ...processing, scheduleKey: id, loadMinutes: 200, attendedMinutes: 0 },
      });
    const even = [canned('small', 10, 100), canned('big', 20, 210)];
    expect(aimed(answersTo(even, { lb: 20, weeks: 2 }), 'all of it')).toEqual({ big: 1 });
  });
});

describe('the aims of the answers', () => {
  const recipes = [
    dried('wanted', 100, { ...plumsOf(5), yieldLowUnits: 7 }),
    dried('much', 130, { ...plumsOf(20), itemId: 'other' as never }),
    dried('quick', 20, { ...plumsOf(12), itemId: 'other' as never }),
  ];
  const year = { items: [plumJam, itemOf('other')] };
  const aims = (wanted: NonNullable<Asked['wanted']>, lb: number) =>
    answersTo(recipes, { lb, wanted, year }).map((one) => one.aims);

  test('stand in their order: what the year lacks, all of it, the least work', () => {
    expect(aims({ [jam]: 7 }, 20)).toEqual([['what the year lacks'], ['all of it'], ['least work']]);
    expect(aims({ [jam]: 7 }, 12)).toEqual([['what the year lacks'], ['all of it', 'least work']]);
  });

  test('where the year lacks nothing the least work comes first', () => {
    expect(aims({}, 20)).toEqual([['least work'], ['all of it']]);
    expect(aims({ [jam]: 1 }, 20)).toEqual([['least work'], ['all of it']]);
  });
});
