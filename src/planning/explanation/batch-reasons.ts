import type { RecipeId } from '../../../shared/ids.ts';
import { mondayOf, type WeekKey } from '../../../shared/week.ts';
import type { PlanPath } from '../answer/plan-path.ts';
import { cell, entry, noneBeyond, orNone } from '../lookup.ts';
import { type PlanningParameters, planningParameters } from '../model/parameters.ts';
import { type PlanningSets, planningSets, type RecipeInSets } from '../model/sets.ts';
import type { Plan } from '../plan.ts';
import { type PlannedRecipe, type PlanningYear, reserveHeld } from '../planning-year.ts';
import { isSessionOf, stageWeeks } from '../year/stage-weeks.ts';

export interface Reason {
  readonly code:
    | 'wanted'
    | 'only-weeks'
    | 'cheapest-week'
    | 'hours-full-before'
    | 'hours-full-after'
    | 'garden-crop'
    | 'pinned'
    | 'by-product'
    | 'begun';
  readonly words: string;
}

export interface BatchReasons {
  readonly week: WeekKey;
  readonly recipe: RecipeId;
  readonly batches: number;
  readonly reasons: readonly Reason[];
}

/** A week is full when less than this share of its sessions' time is left. */
const fullShare = 0.12;

/** Why each planned batch is made, and why in its week: what the plan's own figures say, heaviest reason first. */
export function batchReasons(year: PlanningYear, plan: Plan, paths: readonly PlanPath[]): BatchReasons[] {
  const sets = planningSets(year);
  const parameters = planningParameters(sets);
  return plan.weeks.flatMap(({ week, sessions }, at) =>
    sessions.flatMap((session): BatchReasons[] => {
      const recipe = sets.recipes.findIndex((one) => isSessionOf(one, session));
      const made = sets.recipes[recipe];
      if (made === undefined) return [];
      return [
        {
          week,
          recipe: session.recipe,
          batches: session.batches,
          reasons: [
            ...pinned(sets, made, week),
            ...begunReasons(made, sets, parameters, recipe),
            ...wanted(sets, made, paths, session.units, at),
            ...windowReasons(sets, parameters, recipe, at),
            ...gardenReasons(sets, made, at - stageWeeks(made)),
            ...byProductReasons(sets, made),
            ...hoursReasons(sets, parameters, plan, recipe, at),
          ],
        },
      ];
    }),
  );
}

const weekWords = (week: WeekKey | undefined) =>
  week === undefined ? 'then' : `the week of ${mondayOf(week)}`;

function pinned({ year }: PlanningSets, { id }: PlannedRecipe, week: WeekKey): Reason[] {
  return year.kept.some((kept) => kept.recipeId === id && kept.week === week && kept.decision === 'pinned')
    ? [{ code: 'pinned', words: 'You asked for it in this week.' }]
    : [];
}

/** When the shelf would run short without these units. */
function wanted(
  { year, items }: PlanningSets,
  { itemId }: PlannedRecipe,
  paths: readonly PlanPath[],
  units: number,
  from: number,
): Reason[] {
  const item = items.find(({ id }) => id === itemId);
  const path = paths.find((one) => one.item === itemId);
  if (item === undefined || path === undefined) return [];
  const short = path.stockByWeek.findIndex((stock, week) => week >= from && stock < units - 1e-6);
  const last = path.stockByWeek.length - 1;
  if (short >= 0 && short < last)
    return [
      {
        code: 'wanted',
        words: `Without it ${item.name} would run short by ${weekWords(year.weeks[short])}.`,
      },
    ];
  return entry(path.stockByWeek, last, 'stockByWeek') < item.yearEndUnits + reserveHeld(item) + units
    ? [{ code: 'wanted', words: `It carries ${item.name} beyond the year's end, to the next supply.` }]
    : [];
}

/** What is begun has its load while its stages allow it. */
function begunReasons(
  { begun }: RecipeInSets,
  { year }: PlanningSets,
  { mostBatches }: PlanningParameters,
  recipe: number,
): Reason[] {
  if (begun === undefined) return [];
  const possible = (mostBatches[recipe] ?? []).flatMap((most, week) => (most > 0 ? [week] : []));
  const first = possible.at(0);
  const last = possible.at(-1);
  const weeks =
    first === undefined || last === undefined || last === year.weeks.length - 1
      ? ''
      : first === last
        ? `, and its jars may be filled only in ${weekWords(year.weeks[first])}`
        : `, and its jars may be filled from ${weekWords(year.weeks[first])} to ${weekWords(year.weeks[last])}`;
  return [{ code: 'begun', words: `It was begun on ${begun.begunOn}${weeks}.` }];
}

function windowReasons(
  { year, recipes, sources }: PlanningSets,
  { mostBatches }: PlanningParameters,
  recipe: number,
  at: number,
): Reason[] {
  const made = entry(recipes, recipe, 'recipes');
  if (made.begun !== undefined) return [];
  const begunBefore = stageWeeks(made);
  const possible = (mostBatches[recipe] ?? []).flatMap((most, week) => (most > 0 ? [week] : []));
  // The season this week is part of; the year's end may begin the next one.
  let [first, last] = [at, at];
  while (possible.includes(first - 1)) first -= 1;
  while (possible.includes(last + 1)) last += 1;
  const few = last - first < 10;
  const prices = possible.map((loadWeek) => {
    const week = loadWeek - begunBefore;
    return made.produce.reduce((sum, { crop, lb }) => {
      const offered = sources.filter(
        (source) => source.crop === crop && entry(source.lbByWeek, week, 'lbByWeek') > 0,
      );
      return (
        sum +
        lb *
          Math.min(
            ...offered.map((source) => entry(source.priceCentsPerLbByWeek, week, 'priceCentsPerLbByWeek')),
          )
      );
    }, 0);
  });
  const here = prices[possible.indexOf(at)] ?? Number.POSITIVE_INFINITY;
  const isCheapest =
    Number.isFinite(here) && here <= Math.min(...prices) + 1e-9 && here < Math.max(...prices) - 1;
  return [
    ...(few
      ? [
          {
            code: 'only-weeks' as const,
            words:
              begunBefore === 0
                ? `It can be made only from ${weekWords(year.weeks[first])} to ${weekWords(year.weeks[last])}.`
                : `It can be begun only from ${weekWords(year.weeks[first - begunBefore])} to ${weekWords(year.weeks[last - begunBefore])}.`,
          },
        ]
      : []),
    ...(isCheapest
      ? [
          {
            code: 'cheapest-week' as const,
            words:
              begunBefore === 0
                ? 'Its produce costs least in this week.'
                : 'Its produce costs least in the week in which it is begun.',
          },
        ]
      : []),
  ];
}

function gardenReasons(
  { sources }: PlanningSets,
  { produce, stages }: PlannedRecipe,
  week: number,
): Reason[] {
  const isOurs = produce.some(({ crop }) =>
    sources.some(
      (source) => source.crop === crop && source.kind === 'garden' && noneBeyond(source.lbByWeek, week) > 0,
    ),
  );
  const when = orNone(stages?.weeks) > 0 ? 'in the week in which it is begun' : 'in this week';
  return isOurs ? [{ code: 'garden-crop', words: `It uses what our own garden gives ${when}.` }] : [];
}

function byProductReasons({ year }: PlanningSets, { uses }: PlannedRecipe): Reason[] {
  return uses.map(({ materialId }) => ({
    code: 'by-product',
    words: `It works up ${year.materials.find(({ id }) => id === materialId)?.name ?? materialId}, which would be lost otherwise.`,
  }));
}

/** Weeks beside this one in which it could be made but no time is left. */
function hoursReasons(
  { year }: PlanningSets,
  { mostBatches, sessionMinutesByWeek, mostSessionsByWeek }: PlanningParameters,
  plan: Plan,
  recipe: number,
  at: number,
): Reason[] {
  const isFull = (week: number) => {
    const planned = plan.weeks[week];
    if (planned === undefined) return false;
    const room =
      entry(sessionMinutesByWeek, week, 'sessionMinutesByWeek') *
      entry(mostSessionsByWeek, week, 'mostSessionsByWeek');
    return (
      cell(mostBatches, recipe, week, 'mostBatches') > 0 && planned.kitchenMinutes > room * (1 - fullShare)
    );
  };
  return [
    ...(isFull(at - 1)
      ? [
          {
            code: 'hours-full-before' as const,
            words: `The kitchen is full in ${weekWords(year.weeks[at - 1])}.`,
          },
        ]
      : []),
    ...(isFull(at + 1)
      ? [
          {
            code: 'hours-full-after' as const,
            words: `The kitchen is full in ${weekWords(year.weeks[at + 1])}.`,
          },
        ]
      : []),
  ];
}
