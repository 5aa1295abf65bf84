import { remembering } from '../../../shared/remembering.ts';
import { entry, orNone } from '../lookup.ts';
import type { PlannedRecipe } from '../planning-year.ts';
import { begunInWeek } from '../year/stage-weeks.ts';
import { lastUseWeek } from '../year/supply-weeks.ts';
import { givenOf, needOf, type RawMaterial } from './raw-materials.ts';
import type { PlanningSets } from './sets.ts';

/** Frozen material is worked up in weeks that also bring it fresh, and otherwise in every fourth week. */
const frozenWorkWeeks = 4;

/** [recipe][week]: most batches as far as known. */
export type MostBatches = readonly (readonly number[])[];

/**
 * Most batches of a recipe whose raw material could ever be on hand to begin them in a week; infinite for one that needs none. All recipes
 * ask the same of a material in a week, so that is worked out once.
 */
export function mostByMaterial(
  sets: PlanningSets,
  most: MostBatches,
): (recipe: PlannedRecipe, week: number) => number {
  const needsOf = remembering((recipe: PlannedRecipe) =>
    sets.rawMaterials.flatMap((rawMaterial) => {
      const { any, freshOnly } = needOf(recipe, rawMaterial);
      return any <= 0 ? [] : [{ any, freshOnly, reach: reachOf(rawMaterial) }];
    }),
  );
  const reachOf = remembering((rawMaterial: RawMaterial) =>
    remembering((week: number) => {
      const fresh = freshReach(sets, most, rawMaterial, week);
      const isWorkedUp = fresh > 0 || week % frozenWorkWeeks === 0;
      return { fresh, all: isWorkedUp ? fresh + frozenReach(sets, most, rawMaterial, week) : fresh };
    }),
  );
  return (recipe, week) =>
    Math.min(
      Number.POSITIVE_INFINITY,
      ...needsOf(recipe).map(({ any, freshOnly, reach }) => {
        const { fresh, all } = reach(week);
        return Math.min(all / any, freshOnly > 0 ? fresh / freshOnly : Number.POSITIVE_INFINITY);
      }),
    );
}

/** Unfrozen amount that could be on hand: what came in this week and the weeks it keeps. */
export function freshReach(
  sets: PlanningSets,
  most: MostBatches,
  rawMaterial: RawMaterial,
  week: number,
): number {
  let reach = week <= rawMaterial.carryWeeks ? rawMaterial.opening : 0;
  for (let came = Math.max(0, week - rawMaterial.carryWeeks); came <= week; came += 1)
    reach += inflow(sets, most, rawMaterial, came, week);
  return reach;
}

/** Frozen amount that could be on hand: what was there and what came in and could be frozen since. */
export function frozenReach(
  sets: PlanningSets,
  most: MostBatches,
  rawMaterial: RawMaterial,
  week: number,
): number {
  if (rawMaterial.freezer === null) return 0;
  let reach = week <= rawMaterial.freezer.weeks ? rawMaterial.freezer.opening : 0;
  for (let came = Math.max(0, week - rawMaterial.freezer.weeks); came <= week; came += 1)
    reach += inflow(sets, most, rawMaterial, came);
  return reach;
}

/**
 * Most that could come in during a week: what sources give, or what the most batches that give it would leave. Of sources only what
 * can still be used in a week; what goes into the freezer does so in the week it came.
 */
function inflow(
  { sources, recipes }: PlanningSets,
  most: MostBatches,
  rawMaterial: RawMaterial,
  week: number,
  usedIn: number = week,
): number {
  if (rawMaterial.kind === 'crop')
    return rawMaterial.sources.reduce((sum, at) => {
      const source = entry(sources, at, 'sources');
      return lastUseWeek(source, week) >= usedIn ? sum + entry(source.lbByWeek, week, 'lbByWeek') : sum;
    }, 0);
  return recipes.reduce(
    (sum, recipe, at) => sum + givenOf(recipe, rawMaterial) * orNone(begunInWeek(most[at], recipe, week)),
    0,
  );
}
