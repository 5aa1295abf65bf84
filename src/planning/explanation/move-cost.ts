import type { RecipeId } from '../../../shared/ids.ts';
import type { WeekKey } from '../../../shared/week.ts';
import { cell, entry } from '../lookup.ts';
import { type BuiltModel, buildModel, canningStage } from '../model/build-model.ts';
import { householdRules } from '../model/rules.ts';
import type { Plan } from '../plan.ts';
import type { PlanningYear } from '../planning-year.ts';
import type { Solve } from '../solving/solving.ts';
import { isSessionOf } from '../year/stage-weeks.ts';

export interface BatchMove {
  readonly recipe: RecipeId;
  readonly week: WeekKey;
  /** Weeks later; negative is earlier. */
  readonly by: number;
}

export type MoveCost =
  /** Cents more (or less, when negative) over the year, wishes priced in, if every other batch stays where it is. */
  | { readonly outcome: 'possible'; readonly cents: number }
  /** The week beyond has no produce, no session, no canner, or lies outside the year. */
  | { readonly outcome: 'cannot be made then' }
  /** It could be made, but the week has no time, jars or money left beside what else is planned. */
  | { readonly outcome: 'does not fit' }
  | { readonly outcome: 'not worked out'; readonly detail: string };

/** What it would cost to make a planned batch some weeks earlier or later while everything else stays as planned. */
export async function moveCost(
  year: PlanningYear,
  plan: Plan,
  { recipe, week, by }: BatchMove,
  solve: Solve,
): Promise<MoveCost> {
  const built = buildModel(year, { ...canningStage, joinedWeeks: false }, householdRules);
  const from = built.sets.weekIndex.get(week);
  if (from === undefined) return { outcome: 'cannot be made then' };
  const decided = batchesOf(built, plan);
  const moved = built.sets.recipes.findIndex(
    ({ id }, at) => id === recipe && cell(decided, at, from, 'decided') > 0,
  );
  const target = built.columns.batches[moved]?.[from + by];
  if (target == null) return { outcome: 'cannot be made then' };
  const count = cell(decided, moved, from, 'decided');
  const after = decided.map((weeks, at) =>
    at === moved
      ? weeks.map((batches, inWeek) =>
          inWeek === from ? 0 : inWeek === from + by ? batches + count : batches,
        )
      : weeks,
  );
  const limit = entry(built.model.columns, target, 'columns').upper;
  if (cell(after, moved, from + by, 'after') > limit) return { outcome: 'cannot be made then' };
  const before = await solve(built.model, { gap: 0, bounds: boundsOf(built, decided), secondsLimit: 10 });
  if (before.status !== 'solved') return { outcome: 'not worked out', detail: before.status };
  const then = await solve(built.model, { gap: 0, bounds: boundsOf(built, after), secondsLimit: 10 });
  if (then.status === 'infeasible') return { outcome: 'does not fit' };
  if (then.status !== 'solved') return { outcome: 'not worked out', detail: then.status };
  return { outcome: 'possible', cents: Math.round(then.objective - before.objective) };
}

/** [recipe][week] batches a printed plan holds, in the order of the model's sets. */
function batchesOf({ sets }: BuiltModel, plan: Plan): number[][] {
  return sets.recipes.map((recipe) =>
    plan.weeks.map(({ sessions }) =>
      sessions
        .filter((session) => isSessionOf(recipe, session))
        .reduce((sum, { batches }) => sum + batches, 0),
    ),
  );
}

function boundsOf(
  { columns }: BuiltModel,
  batches: readonly (readonly number[])[],
): ReadonlyMap<number, readonly [number, number]> {
  return new Map(
    columns.batches.flatMap((weeks, recipe) =>
      weeks.flatMap((column, week) => {
        const count = cell(batches, recipe, week, 'batches');
        return column === null ? [] : [[column, [count, count]] as const];
      }),
    ),
  );
}
