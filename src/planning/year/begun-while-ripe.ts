import { addDays, type CalendarDate, mondayOf, type WeekKey } from '../../../shared/week.ts';
import type { SourceYear } from '../../harvest/source-years.ts';
import type { Source } from '../../household/source.ts';
import type { RecipesHere } from './planned-recipes.ts';

/**
 * Recipes of several days without the loads whose fresh crops are not there on the day on which they would be begun: not
 * picked yet, or picked for the last time longer ago than they keep.
 */
export function begunWhileRipe(
  recipes: RecipesHere,
  sources: readonly Source[],
  seasonsBySource: ReadonlyMap<Source['id'], readonly SourceYear[]>,
  weeks: readonly WeekKey[],
): RecipesHere {
  const isThere = (crop: string, on: CalendarDate) =>
    sources.some(
      (source) =>
        source.crop === crop &&
        (seasonsBySource.get(source.id) ?? []).some(
          ({ season }) => season.plannedFrom <= on && on <= addDays(season.plannedTo, source.useByDays),
        ),
    );
  return {
    ...recipes,
    planned: recipes.planned.map((recipe) => {
      const { stages, allowedByWeek } = recipe;
      const fresh = recipe.produce.filter(({ mayBeFrozen }) => !mayBeFrozen);
      if (stages === undefined || fresh.length === 0) return recipe;
      return {
        ...recipe,
        allowedByWeek: weeks.map((week, at) => {
          const on = addDays(mondayOf(week), stages.daysFromMonday - 7 * stages.weeks);
          return (allowedByWeek?.[at] ?? true) && fresh.every(({ crop }) => isThere(crop, on));
        }),
      };
    }),
  };
}
