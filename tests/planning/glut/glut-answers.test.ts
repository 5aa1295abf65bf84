import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { type GlutAnswer, glutAnswers } from '../../../src/planning/glut/glut-answers.ts';
import type {
  PlannedItem,
  PlannedRecipe,
  PlannedSource,
  PlanningYear,
} from '../../../src/planning/planning-year.ts';
import { minutesAtStove, minutesInCanner } from '../../../src/planning/year/recipe-time.ts';
import { type YearWalk, yearWalk } from '../../../src/planning/year/year-walk.ts';
import { jamRecipe, plumJam, plumWeeks, plumYear } from '../plum-year.ts';

const plum = jamRecipe.produce[0]?.crop as PlannedSource['crop'];

const whole: PlannedItem = {
  ...plumJam,
  id: 'plums-whole' as PlannedItem['id'],
  name: 'Plums',
  openingLots: [],
};
const wholeRecipe: PlannedRecipe = {
  ...jamRecipe,
  id: 'plums-in-pints' as PlannedRecipe['id'],
  name: 'Plums in pints',
  itemId: whole.id,
  produce: [{ crop: plum, lb: 8, mayBeFrozen: false }],
  supplies: [],
  yieldLowUnits: 6,
  yieldHighJars: 7,
  handsOnMinutes: 70,
};
const leather: PlannedRecipe = {
  ...jamRecipe,
  id: 'plum-leather' as PlannedRecipe['id'],
  name: 'Plum leather',
  jarKind: null,
  processing: null,
  supplies: [],
  produce: [{ crop: plum, lb: 5, mayBeFrozen: false }],
  yieldLowUnits: 2,
  yieldHighJars: 0,
  handsOnMinutes: 40,
};

/** A year in whose first week so many pounds lie at hand, and nothing else of the crop ever comes. */
const yearWith = (lb: number, change: Partial<PlanningYear> = {}): PlanningYear =>
  plumYear({
    items: [plumJam, whole],
    recipes: [jamRecipe, wholeRecipe, leather],
    sources: plumYear().sources.map((source) => ({
      ...source,
      lbByWeek: plumWeeks.map((_, week) => (week === 0 ? lb : 0)),
      priceCentsPerLbByWeek: plumWeeks.map(() => asCents(0)),
      isAtHand: true,
    })),
    ...change,
  });

const walkWanting = (item: PlannedItem, toCome: number): YearWalk => ({
  ...yearWalk(item, { target: null, standing: 0, planned: 0 }),
  need: Math.max(1, toCome),
  carryOver: 0,
  toCome,
  missing: toCome,
});

const answersTo = (lb: number, wanted: { jam: number; whole: number }, change: Partial<PlanningYear> = {}) =>
  glutAnswers(
    yearWith(lb, change),
    { crop: plum, lb },
    {
      weeks: 1,
      walkOf: (id) =>
        id === plumJam.id
          ? walkWanting(plumJam, wanted.jam)
          : id === whole.id
            ? walkWanting(whole, wanted.whole)
            : null,
    },
  );

const batchesOf = (answer: GlutAnswer | undefined) =>
  Object.fromEntries((answer?.makes ?? []).map(({ recipe, batches }) => [recipe, batches]));

describe('answers to a glut', () => {
  // A batch of jam takes 100 minutes, one of whole plums 80, and a session half an hour to set up; 5 hours are there.
  test('put what the year lacks first, then what uses it up, then the least work, each with what it asks', () => {
    const [first, ...others] = answersTo(40, { jam: 14, whole: 6 }, { recipes: [jamRecipe, wholeRecipe] });

    expect(first?.aims).toContain('what the year lacks');
    expect(batchesOf(first)).toEqual({ 'jam-of-plums': 1, 'plums-in-pints': 1 });
    expect(first?.lbUsed).toBe(18);
    expect(first?.lbLeft).toBe(22);
    expect(first?.minutes).toBe(30 + 100 + 80);
    expect(first?.lacks).toEqual([{ item: plumJam.id, units: 7 }]);
    expect(first?.jars).toEqual({ count: 15, missing: 0 });
    // A pound of sugar beyond the four in the house is one pack; 15 jars and their spares, ten lids in the house.
    expect(first?.toBuy).toEqual({ cost: 400 + 450, withoutPrice: [] });
    expect(others.flatMap(({ aims }) => aims)).toContain('all of it');
  });

  test('are one answer where they are the same, and none where no batch fits', () => {
    expect(answersTo(9, { jam: 0, whole: 6 }).map(({ aims }) => aims)).toContainEqual([
      'what the year lacks',
      'all of it',
      'least work',
    ]);
    expect(answersTo(4, { jam: 20, whole: 20 })).toEqual([]);
    expect(
      answersTo(
        40,
        { jam: 20, whole: 20 },
        {
          time: { ...plumYear().time, maxSessionsByWeek: plumWeeks.map((_, week) => (week === 0 ? 0 : 1)) },
        },
      ),
    ).toEqual([]);
  });

  test('of what the year has enough begin with the least work, and say what comes beyond its need', () => {
    const [first] = answersTo(40, { jam: 0, whole: 0 });

    expect(first?.aims).toContain('least work');
    expect(first?.over.length).toBeGreaterThan(0);
    expect(first?.lacks).toEqual([]);
  });

  test('leave the hours to what is pinned, and take no recipe that is ruled out in its week', () => {
    const week = plumWeeks[0] ?? ('' as never);
    const pinned = answersTo(
      40,
      { jam: 14, whole: 12 },
      {
        kept: [{ recipeId: jamRecipe.id, week, decision: 'pinned', batches: 1 }],
      },
    );
    const ruledOut = answersTo(
      40,
      { jam: 14, whole: 12 },
      {
        kept: [{ recipeId: jamRecipe.id, week, decision: 'ruled-out' }],
      },
    );

    for (const { minutes } of pinned) expect(minutes).toBeLessThanOrEqual(300 - 100);
    expect(ruledOut.length).toBeGreaterThan(0);
    for (const answer of ruledOut) expect(batchesOf(answer)).not.toHaveProperty('jam-of-plums');
  });

  test('fit pounds, hours and canner, and no other mix serves more or leaves less', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 5, max: 80 }),
        fc.integer({ min: 0, max: 30 }),
        fc.integer({ min: 0, max: 30 }),
        fc.integer({ min: 2, max: 9 }),
        (lb, jam, wholeWanted, hours) => {
          const time = { ...plumYear().time, hoursPerSessionByWeek: plumWeeks.map(() => hours) };
          const answers = answersTo(lb, { jam, whole: wholeWanted }, { time });
          const recipes = [jamRecipe, wholeRecipe, leather];
          const mixes = everyMix(recipes, lb, hours * 60);
          const worth = (batches: readonly number[]) =>
            shareOf(7 * (batches[0] ?? 0) + 2 * (batches[2] ?? 0), jam) +
            shareOf(6 * (batches[1] ?? 0), wholeWanted);
          for (const answer of answers) {
            const batches = recipes.map(({ id }) => batchesOf(answer)[id] ?? 0);
            expect(mixes).toContainEqual(batches);
            if (answer.aims.includes('all of it'))
              expect(answer.lbUsed).toBeCloseTo(Math.max(...mixes.map((mix) => poundsOf(recipes, mix))), 6);
            if (answer.aims.includes('what the year lacks')) {
              // A batch the year wants less than half of is not made for it.
              const best = Math.max(
                ...mixes.filter((mix) => isWanted(mix, jam, wholeWanted)).map((mix) => worth(mix)),
              );
              expect(worth(batches)).toBeCloseTo(best, 6);
            }
          }
        },
      ),
      { numRuns: 150 },
    );
  });
});

const shareOf = (units: number, wanted: number): number => Math.min(units, wanted) / Math.max(1, wanted);
const poundsOf = (recipes: readonly PlannedRecipe[], mix: readonly number[]): number =>
  recipes.reduce((sum, { produce }, at) => sum + (produce[0]?.lb ?? 0) * (mix[at] ?? 0), 0);

/** Whether the batches can be put in one after the other so that the year wants at least half of each. */
function isWanted(
  [jam = 0, inPints = 0, sheets = 0]: readonly number[],
  jamWanted: number,
  wholeWanted: number,
) {
  const goesOn = (jamLeft: number, sheetsLeft: number, have: number): boolean =>
    (jamLeft === 0 && sheetsLeft === 0) ||
    (jamLeft > 0 && have + 3.5 <= jamWanted && goesOn(jamLeft - 1, sheetsLeft, have + 7)) ||
    (sheetsLeft > 0 && have + 1 <= jamWanted && goesOn(jamLeft, sheetsLeft - 1, have + 2));
  return goesOn(jam, sheets, 0) && (inPints === 0 || 6 * inPints - 3 <= wholeWanted);
}

/** Every number of batches that pounds, hours of one session and the one canner allow. */
function everyMix(recipes: readonly PlannedRecipe[], lb: number, sessionMinutes: number): number[][] {
  const work = sessionMinutes - plumYear().time.setUpMinutes;
  const mixes: number[][] = [];
  for (let jam = 0; jam <= 9; jam += 1)
    for (let inPints = 0; inPints <= 11; inPints += 1)
      for (let sheets = 0; sheets <= 17; sheets += 1) {
        const mix = [jam, inPints, sheets];
        const of = (minutes: (recipe: PlannedRecipe) => number) =>
          recipes.reduce((sum, recipe, at) => sum + minutes(recipe) * (mix[at] ?? 0), 0);
        if (
          poundsOf(recipes, mix) <= lb + 1e-9 &&
          of(minutesAtStove) <= work + 1e-9 &&
          of(minutesInCanner) <= sessionMinutes + 1e-9
        )
          mixes.push(mix);
      }
  return mixes;
}
