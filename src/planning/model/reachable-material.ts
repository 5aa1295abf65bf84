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

/** Most batches of a recipe whose raw material could ever be on hand to begin them in a week; infinite for one that needs none. */
export function mostByMaterial(
  sets: PlanningSets,
  most: MostBatches,
  recipe: PlannedRecipe,
  week: number,
): number {
  return Math.min(
    Number.POSITIVE_INFINITY,
    ...sets.rawMaterials.flatMap((rawMaterial) => {
      const { any, freshOnly } = needOf(recipe, rawMaterial);
      if (any <= 0) return [];
      const fresh = freshReach(sets, most, rawMaterial, week);
      const all =
        fresh > 0 || week % frozenWorkWeeks === 0
          ? fresh + frozenReach(sets, most, rawMaterial, week)
          : fresh;
      return [Math.min(all / any, freshOnly > 0 ? fresh / freshOnly : Number.POSITIVE_INFINITY)];
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
