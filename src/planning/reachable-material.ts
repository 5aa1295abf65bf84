import type { PlannedRecipe } from './planning-year.ts';
import type { PlanningSets } from './sets.ts';
import { givenOf, needOf, type Stuff } from './stuffs.ts';

/** Frozen material is worked up in weeks that also bring it fresh, and otherwise in every fourth week. */
const frozenWorkWeeks = 4;

/** Most batches of a recipe whose raw material could ever be on hand in a week; infinite for one that needs none. */
export function mostByMaterial(sets: PlanningSets, recipe: PlannedRecipe, week: number): number {
  return Math.min(
    Number.POSITIVE_INFINITY,
    ...sets.stuffs.flatMap((stuff) => {
      const { any, freshOnly } = needOf(recipe, stuff);
      if (any <= 0) return [];
      const fresh = freshReach(sets, stuff, week);
      const all = fresh > 0 || week % frozenWorkWeeks === 0 ? fresh + frozenReach(sets, stuff, week) : fresh;
      return [Math.min(all / any, freshOnly > 0 ? fresh / freshOnly : Number.POSITIVE_INFINITY)];
    }),
  );
}

/** Unfrozen amount that could be on hand: what came in this week and the weeks it keeps. */
export function freshReach(sets: PlanningSets, stuff: Stuff, week: number): number {
  let reach = week <= stuff.carryWeeks ? stuff.opening : 0;
  for (let came = Math.max(0, week - stuff.carryWeeks); came <= week; came += 1)
    reach += inflow(sets, stuff, came);
  return reach;
}

/** Frozen amount that could be on hand: what was there and what came in and could be frozen since. */
export function frozenReach(sets: PlanningSets, stuff: Stuff, week: number): number {
  if (stuff.freezer === null) return 0;
  let reach = week <= stuff.freezer.weeks ? stuff.freezer.opening : 0;
  for (let came = Math.max(0, week - stuff.freezer.weeks); came <= week; came += 1)
    reach += inflow(sets, stuff, came);
  return reach;
}

/** Most that could come in during a week. By-products count as plentiful wherever a recipe that gives them is allowed. */
function inflow({ sources, recipes }: PlanningSets, stuff: Stuff, week: number): number {
  if (stuff.kind === 'crop')
    return stuff.sources.reduce((sum, at) => sum + (sources[at]?.lbByWeek[week] ?? 0), 0);
  const plenty = 1000;
  return recipes.some(
    (recipe) => givenOf(recipe, stuff) > 0 && couldBeMade({ sources, recipes }, recipe, week),
  )
    ? plenty
    : 0;
}

/** Some source gives each fresh crop of the recipe in the week, and the week allows it. */
function couldBeMade(
  { sources }: Pick<PlanningSets, 'sources' | 'recipes'>,
  { produce, allowedByWeek }: PlannedRecipe,
  week: number,
): boolean {
  const allowed = allowedByWeek?.[week] ?? true;
  return (
    allowed &&
    produce.every(({ crop, mayBeFrozen }) =>
      mayBeFrozen
        ? true
        : sources.some((source) => {
            const keeps = Math.floor(source.useByDays / 7);
            return (
              source.crop === crop &&
              source.lbByWeek.slice(Math.max(0, week - keeps), week + 1).some((lb) => lb > 0)
            );
          }),
    )
  );
}
