import { asCents } from '../../../shared/money.ts';
import { type GlutKitchen, kitchenFor, type MixWay, waysOf } from '../../../src/planning/glut/glut-ways.ts';
import type {
  PlannedItem,
  PlannedRecipe,
  PlannedSource,
  PlanningYear,
} from '../../../src/planning/planning-year.ts';
import { type YearWalk, yearWalk } from '../../../src/planning/year/year-walk.ts';
import { jamRecipe, plumJam, plumWeeks, plumYear } from '../plum-year.ts';

// Plums lie at hand in the first four weeks. A session is 300 minutes, 30 of them to set up; a batch of jam takes 10 lb, 90 minutes
// and 10 at the stove, and gives 7 jars to count on.

export const plum = jamRecipe.produce[0]?.crop as PlannedSource['crop'];
export const recipeOf = (id: string, change: Partial<PlannedRecipe> = {}): PlannedRecipe => ({
  ...jamRecipe,
  id: id as PlannedRecipe['id'],
  name: id,
  ...change,
});
export const itemOf = (id: string, change: Partial<PlannedItem> = {}): PlannedItem => ({
  ...plumJam,
  id: id as PlannedItem['id'],
  name: id,
  openingLots: [],
  ...change,
});
/** Work at the table alone: no jars, no canner, and nothing that takes room. */
export const dried = (id: string, handsOnMinutes: number, change: Partial<PlannedRecipe> = {}) =>
  recipeOf(id, { jarKind: null, processing: null, supplies: [], handsOnMinutes, ...change });
export const plumsOf = (lb: number): Pick<PlannedRecipe, 'produce'> => ({
  produce: [{ crop: plum, lb, mayBeFrozen: false }],
});

export const glutYear = (recipes: readonly PlannedRecipe[], change: Partial<PlanningYear> = {}) =>
  plumYear({
    items: [plumJam],
    recipes,
    sources: plumYear().sources.map((source) => ({
      ...source,
      lbByWeek: plumWeeks.map((_, week) => (week < 4 ? 100 : 0)),
      priceCentsPerLbByWeek: plumWeeks.map(() => asCents(0)),
      isAtHand: true,
    })),
    ...change,
  });

/** A year that wants so many units of an item, none of them planned. */
export const wanting = (toCome: number, change: Partial<YearWalk> = {}): YearWalk => ({
  ...yearWalk(plumJam, { target: null, standing: 0, planned: 0 }),
  need: Math.max(1, toCome),
  carryOver: 0,
  toCome,
  missing: toCome,
  ...change,
});

/** The kitchen of a year and the ways of plums in it, by recipe. */
export function kitchenOf(
  year: PlanningYear,
  {
    weeks = 1,
    walkOf = () => null,
  }: { readonly weeks?: number; readonly walkOf?: (item: string) => YearWalk | null } = {},
): { readonly kitchen: GlutKitchen; readonly ways: readonly MixWay[]; readonly way: (id: string) => MixWay } {
  const kitchen = kitchenFor(year, weeks);
  const ways = waysOf(kitchen, plum, walkOf);
  return {
    kitchen,
    ways,
    way: (id) => {
      const found = ways.find(({ recipe }) => recipe.id === id);
      if (found === undefined) throw new Error(`expected a way ${id} among ${ways.length}`);
      return found;
    },
  };
}
