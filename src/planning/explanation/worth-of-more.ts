import { asCents } from '../../../shared/money.ts';
import type { WeekKey } from '../../../shared/week.ts';
import { entry, orNone } from '../lookup.ts';
import { buildModel } from '../model/build-model.ts';
import type { Model } from '../model/model.ts';
import { recipeLabel } from '../model/sets.ts';
import type { JarHolding, PlanningYear } from '../planning-year.ts';
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
  const now = await solve(buildModel(year).model, relaxed);
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
      return buildModel({ ...year, time: withHour(year, more.week) }).model;
    case 'load':
      return withLoad(year, more.week, more.cannerId);
    case 'dozen jars':
      return buildModel({ ...year, jars: year.jars.map((holding) => withDozen(holding, more.kind)) }).model;
    case 'weekly money': {
      const setAsideByWeek = year.fund.setAsideByWeek.map((cents) => asCents(cents + more.cents));
      return buildModel({ ...year, fund: { ...year.fund, setAsideByWeek } }).model;
    }
  }
}

const withDozen = (holding: JarHolding, kind: string): JarHolding =>
  holding.kind === kind ? { ...holding, empty: holding.empty + 12, owned: holding.owned + 12 } : holding;

/** An hour more in the week, shared by its sessions: each of them, the longest too, is that much longer. */
function withHour({ weeks, time }: PlanningYear, week: WeekKey): PlanningYear['time'] {
  const longer = (hoursByWeek: readonly number[]): readonly number[] =>
    hoursByWeek.map((hours, at) =>
      weeks[at] === week
        ? hours + 1 / Math.max(1, entry(time.maxSessionsByWeek, at, 'maxSessionsByWeek'))
        : hours,
    );
  return {
    ...time,
    hoursPerSessionByWeek: longer(time.hoursPerSessionByWeek),
    ...(time.longestSessionByWeek && { longestSessionByWeek: longer(time.longestSessionByWeek) }),
  };
}

/**
 * Room for one load more in the canner: in its day, in what each of its recipes may take of a session, and in the batches of each that
 * may be made in the week at all. What may not be made then stays so.
 */
function withLoad(year: PlanningYear, week: WeekKey, cannerId: string): Model {
  const { model, sets } = buildModel(year);
  const ofCanner = sets.recipes.flatMap((recipe) =>
    recipe.processing?.cannerId === cannerId
      ? [{ label: recipeLabel(recipe), aLoad: 1 / loadsPerBatch(recipe), ...recipe.processing }]
      : [],
  );
  const more = new Map([
    [`canner_day[${cannerId},${week}]`, Math.max(0, ...ofCanner.map(({ loadMinutes }) => loadMinutes))],
    ...ofCanner.map(({ label, aLoad }) => [`kitchen_hours[${label},${week}]`, aLoad] as const),
  ]);
  const batches = new Map(
    ofCanner.flatMap(({ label, aLoad }) =>
      [`batches[${label},${week}]`, `total_batches[${label}]`].map((name) => [name, aLoad] as const),
    ),
  );
  return {
    ...model,
    columns: model.columns.map((column) => ({
      ...column,
      upper: column.upper + orNone(batches.get(column.name)),
    })),
    rows: model.rows.map((row) => ({ ...row, upper: row.upper + orNone(more.get(row.name)) })),
  };
}
