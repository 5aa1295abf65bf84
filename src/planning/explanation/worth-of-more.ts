import { asCents } from '../../../shared/money.ts';
import type { WeekKey } from '../../../shared/week.ts';
import { entry, orNone } from '../lookup.ts';
import { buildModel, canningStage } from '../model/build-model.ts';
import type { Model } from '../model/model.ts';
import { recipeLabel } from '../model/sets.ts';
import type { PlanningYear } from '../planning-year.ts';
import type { Solve } from '../solving/solving.ts';
import { loadsPerBatch } from '../year/recipe-time.ts';

/** A little more of what the year is short of. */
export type More =
  | { readonly what: 'hour'; readonly week: WeekKey }
  | { readonly what: 'load'; readonly week: WeekKey; readonly cannerId: string }
  | { readonly what: 'dozen jars'; readonly kind: string }
  | { readonly what: 'weekly money'; readonly cents: number };

export interface Worth {
  readonly more: More;
  /** Cents a year, wishes priced in, 0 or more. */
  readonly cents: number;
}

/**
 * What a little more of each would be worth over the year: the difference of two relaxed plans, one with it and one
 * without. Batches count in parts there, so it is a guide (an hour that a whole batch cannot use shows a worth all the
 * same), and it is exact for the relaxation, where a shadow price holds only for the first minute.
 */
export async function worthOfMore(
  year: PlanningYear,
  wanted: readonly More[],
  solve: Solve,
): Promise<Worth[]> {
  const relaxed = { gap: 0, relaxed: true, secondsLimit: 10 };
  const now = await solve(buildModel(year, canningStage).model, relaxed);
  if (now.status !== 'solved') return [];
  const found: Worth[] = [];
  for (const more of wanted) {
    const then = await solve(modelWithMore(year, more), relaxed);
    if (then.status === 'solved')
      found.push({ more, cents: Math.max(0, Math.round(now.objective - then.objective)) });
  }
  return found;
}

function modelWithMore(year: PlanningYear, more: More): Model {
  switch (more.what) {
    case 'hour':
      return buildModel({ ...year, time: withHour(year, more.week) }, canningStage).model;
    case 'load':
      return withLoad(year, more.week, more.cannerId);
    case 'dozen jars':
      return buildModel(
        {
          ...year,
          jars: year.jars.map((holding) =>
            holding.kind === more.kind
              ? { ...holding, empty: holding.empty + 12, owned: holding.owned + 12 }
              : holding,
          ),
        },
        canningStage,
      ).model;
    case 'weekly money':
      return buildModel(
        {
          ...year,
          fund: {
            ...year.fund,
            setAsideByWeek: year.fund.setAsideByWeek.map((cents) => asCents(cents + more.cents)),
          },
        },
        canningStage,
      ).model;
  }
}

/** An hour more in the week, shared by its sessions. */
function withHour({ weeks, time }: PlanningYear, week: WeekKey): PlanningYear['time'] {
  return {
    ...time,
    hoursPerSessionByWeek: time.hoursPerSessionByWeek.map((hours, at) =>
      weeks[at] === week
        ? hours + 1 / Math.max(1, entry(time.maxSessionsByWeek, at, 'maxSessionsByWeek'))
        : hours,
    ),
  };
}

/**
 * Room for one load more in the canner: in its day, in what each of its recipes may take of a session, and in the batches of each that
 * may be made in the week at all. What may not be made then stays so.
 */
function withLoad(year: PlanningYear, week: WeekKey, cannerId: string): Model {
  const { model, sets } = buildModel(year, canningStage);
  const ofCanner = sets.recipes.filter(({ processing }) => processing?.cannerId === cannerId);
  const loadMinutes = Math.max(0, ...ofCanner.map(({ processing }) => orNone(processing?.loadMinutes)));
  const more = new Map([
    [`canner_day[${cannerId},${week}]`, loadMinutes],
    ...ofCanner.map(
      (recipe) => [`kitchen_hours[${recipeLabel(recipe)},${week}]`, 1 / loadsPerBatch(recipe)] as const,
    ),
  ]);
  const batches = new Map(
    ofCanner.flatMap((recipe) =>
      [`batches[${recipeLabel(recipe)},${week}]`, `total_batches[${recipeLabel(recipe)}]`].map(
        (name) => [name, 1 / loadsPerBatch(recipe)] as const,
      ),
    ),
  );
  return {
    ...model,
    columns: model.columns.map((column) =>
      column.upper > 0 ? { ...column, upper: column.upper + orNone(batches.get(column.name)) } : column,
    ),
    rows: model.rows.map((row) => ({ ...row, upper: row.upper + orNone(more.get(row.name)) })),
  };
}
