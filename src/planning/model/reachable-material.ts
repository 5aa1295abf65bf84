import { entry, orNone } from '../lookup.ts';
import type { PlannedRecipe } from '../planning-year.ts';
import { begunInWeek } from '../year/stage-weeks.ts';
import type { PlanningSets } from './sets.ts';
import { givenOf, needOf, type Stuff } from './stuffs.ts';

/** Frozen material is worked up in weeks that also bring it fresh, and otherwise in every fourth week. */
const frozenWorkWeeks = 4;

/** [recipe][week]: most batches as far as known. */
export type MostBatches = readonly (readonly number[])[];

/** Most batches of a recipe whose raw material could ever be on hand to begin them in a week; infinite for one that needs none. */
export function mostByMaterial(
  sets: PlanningSets,
  most: MostBatches,
  recipe: PlannedRecipe,
  week: number,
): number {
  return Math.min(
    Number.POSITIVE_INFINITY,
    ...sets.stuffs.flatMap((stuff) => {
      const { any, freshOnly } = needOf(recipe, stuff);
      if (any <= 0) return [];
      const fresh = freshReach(sets, most, stuff, week);
      const all =
        fresh > 0 || week % frozenWorkWeeks === 0 ? fresh + frozenReach(sets, most, stuff, week) : fresh;
      return [Math.min(all / any, freshOnly > 0 ? fresh / freshOnly : Number.POSITIVE_INFINITY)];
    }),
  );
}

/** Unfrozen amount that could be on hand: what came in this week and the weeks it keeps. */
export function freshReach(sets: PlanningSets, most: MostBatches, stuff: Stuff, week: number): number {
  let reach = week <= stuff.carryWeeks ? stuff.opening : 0;
  for (let came = Math.max(0, week - stuff.carryWeeks); came <= week; came += 1)
    reach += inflow(sets, most, stuff, came);
  return reach;
}

/** Frozen amount that could be on hand: what was there and what came in and could be frozen since. */
export function frozenReach(sets: PlanningSets, most: MostBatches, stuff: Stuff, week: number): number {
  if (stuff.freezer === null) return 0;
  let reach = week <= stuff.freezer.weeks ? stuff.freezer.opening : 0;
  for (let came = Math.max(0, week - stuff.freezer.weeks); came <= week; came += 1)
    reach += inflow(sets, most, stuff, came);
  return reach;
}

/** Most that could come in during a week: what sources give, or what the most batches that give it would leave. */
function inflow({ sources, recipes }: PlanningSets, most: MostBatches, stuff: Stuff, week: number): number {
  if (stuff.kind === 'crop')
    return stuff.sources.reduce(
      (sum, at) => sum + entry(entry(sources, at, 'sources').lbByWeek, week, 'lbByWeek'),
      0,
    );
  return recipes.reduce(
    (sum, recipe, at) => sum + givenOf(recipe, stuff) * orNone(begunInWeek(most[at], recipe, week)),
    0,
  );
}
