import { compare } from '../../../shared/compare.ts';
import type { RecipeId } from '../../../shared/ids.ts';
import type { WeekKey } from '../../../shared/week.ts';
import { planDifference } from '../answer/plan-difference.ts';
import { orNone } from '../lookup.ts';
import type { Plan } from '../plan.ts';
import type { PlanningYear } from '../planning-year.ts';
import { type Glut, glutSource } from './glut.ts';

/** What a plan with a glut does otherwise than the plan before it. */
export interface GlutDifference {
  /** Batches of the crop's own recipes begun in the glut's week and the next, by the week of their load. */
  readonly now: readonly { readonly week: WeekKey; readonly recipe: RecipeId; readonly batches: number }[];
  /** Batches more (or fewer, when negative) over the year, by recipe; a batch that only moves is in `moved`. */
  readonly overYear: readonly { readonly recipe: RecipeId; readonly batches: number }[];
  /** Near weeks whose batches changed. */
  readonly moved: readonly {
    readonly week: WeekKey;
    readonly recipe: RecipeId;
    readonly before: number;
    readonly after: number;
  }[];
  /** Pounds of the crop that go into the freezer more than before, and that are left over unused. */
  readonly freezeLb: number;
  readonly leftLb: number;
  /** Cents and kitchen minutes over the year, after less before. */
  readonly spend: number;
  readonly kitchenMinutes: number;
}

/** Weeks from the glut's own on whose changes are worth a line each. */
const nearWeeks = 4;

/** Compares a plan without the glut and one with it, both of the same weeks. */
export function glutDifference(
  year: PlanningYear,
  glut: Glut,
  plans: { readonly before: Plan; readonly after: Plan },
): GlutDifference {
  const { before, after } = plans;
  const difference = planDifference(before, after);
  const ofCrop = new Set(
    year.recipes.filter(({ produce }) => produce.some(({ crop }) => crop === glut.crop)).map(({ id }) => id),
  );
  const overYear = new Map<RecipeId, number>();
  for (const change of difference.batches)
    overYear.set(change.recipe, orNone(overYear.get(change.recipe)) + change.after - change.before);
  const nowWeeks = new Set(year.weeks.slice(0, 2));
  const near = new Set(year.weeks.slice(0, nearWeeks));
  const taken = after.weeks
    .flatMap(({ purchases }) => purchases)
    .filter(({ kind, what }) => kind === 'produce' && what === glutSource(glut))
    .reduce((sum, { quantity }) => sum + quantity, 0);
  return {
    now: after.weeks.flatMap(({ week, sessions }) =>
      sessions
        .filter(
          ({ recipe, begin, begun }) =>
            ofCrop.has(recipe) && begun === undefined && nowWeeks.has(begin?.week ?? week),
        )
        .map(({ recipe, batches }) => ({ week, recipe, batches })),
    ),
    overYear: [...overYear]
      .filter(([, batches]) => batches !== 0)
      .map(([recipe, batches]) => ({ recipe, batches }))
      .sort((one, other) => one.batches - other.batches || compare(one.recipe, other.recipe)),
    moved: difference.batches.filter(({ week }) => near.has(week)),
    freezeLb: Math.max(0, frozen(after, glut) - frozen(before, glut)),
    leftLb: Math.max(0, glut.lb - taken),
    spend: difference.spend,
    kitchenMinutes: difference.kitchenMinutes,
  };
}

const frozen = ({ weeks }: Plan, { crop }: Glut): number =>
  weeks
    .slice(0, nearWeeks)
    .flatMap(({ materials }) => materials)
    .filter(({ what }) => what === crop)
    .reduce((sum, { freeze }) => sum + freeze, 0);
