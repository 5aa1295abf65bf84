import { addDays, type CalendarDate, mondayOf, type WeekKey } from '../../../shared/week.ts';
import type { SourceYear } from '../../harvest/source-years.ts';
import type { FetchedProduce } from '../../household/purchase.ts';
import type { Source } from '../../household/source.ts';
import { found } from '../lookup.ts';
import type { PlannedRecipe } from '../planning-year.ts';
import { lastUseWeekAtHand, type WaitingDays } from './fruit-waits.ts';
import type { RecipesHere } from './planned-recipes.ts';
import { stageWeeks } from './stage-weeks.ts';

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
        found(seasonsBySource, source.id, 'seasonsBySource').some(
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

/**
 * A recipe that may also be begun of what lies at hand, as long as that keeps: it is there, whatever months the recipe is
 * usually made in and whether or not its season is over.
 */
export function alsoFromHand(
  recipe: PlannedRecipe,
  fetched: readonly FetchedProduce[],
  waiting: WaitingDays,
): PlannedRecipe {
  const { allowedByWeek, produce, stages } = recipe;
  if (allowedByWeek === null) return recipe;
  const atHand = fetched.filter(
    ({ crop, lbLeft, useBy }) =>
      lbLeft > 0 && useBy >= waiting.asOf && produce.some((need) => need.crop === crop),
  );
  if (atHand.length === 0) return recipe;
  return {
    ...recipe,
    allowedByWeek: allowedByWeek.map((allowed, load) => {
      const begun = load - stageWeeks(recipe);
      const week = waiting.weeks[begun];
      if (allowed || week === undefined) return allowed;
      return atHand.some(({ useBy }) =>
        stages === undefined
          ? begun <= lastUseWeekAtHand(useBy, waiting)
          : addDays(mondayOf(week), stages.daysFromMonday) <= useBy,
      );
    }),
  };
}
