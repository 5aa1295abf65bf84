import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { addDays } from '../../shared/week.ts';
import type { BegunBatches, PlannedRecipe, PlanningYear } from '../../src/planning/planning-year.ts';
import { tinyYear } from './tiny-year.ts';

/** Stage weeks that are tried: within the week, overnight into the next, a pickle of two weeks, a ferment of five. */
const stageWeeksTried = [0, 1, 2, 5] as const;

/**
 * The tiny year with recipes of several days: each is begun in the weeks in which it was made, and loaded 0, 1, 2 or 5
 * weeks later, its minutes spread over the weeks between; weeks in which its stages cannot be done; batches begun already.
 * What is only made has no reserve: in so long a year a plan may go without early to hold one, which playing by hand never does.
 */
export function stagedYear(seed: number): PlanningYear {
  const generator = xoroshiro128plus(seed * 31 + 7);
  const chance = (share: number) => uniformFloat64(generator) < share;
  const whole = (low: number, high: number) => low + Math.floor(uniformFloat64(generator) * (high - low + 1));
  const year = tinyYear(seed, 10);
  const byWeek = <T>(make: (week: number) => T) => year.weeks.map((_, week) => make(week));
  const recipes = year.recipes.map((recipe): PlannedRecipe => {
    const weeks = stageWeeksTried[whole(0, 3)] ?? 0;
    const share = weeks === 0 ? 0 : whole(0, recipe.handsOnMinutes);
    const first = weeks < 2 ? share : Math.floor(share / 2);
    const handsOnByWeek = Array.from({ length: weeks + 1 }, (_, at) =>
      at === weeks ? recipe.handsOnMinutes - share : at === 0 ? first : at === weeks - 1 ? share - first : 0,
    );
    const barred = chance(0.3) ? whole(0, year.weeks.length - 1) : -1;
    return {
      ...recipe,
      allowedByWeek: byWeek((week) => recipe.allowedByWeek?.[week - weeks] === true),
      crock: recipe.crock === null ? null : { ...recipe.crock, weeks: weeks + 1 },
      stages: {
        weeks,
        daysFromMonday: whole(0, 6),
        handsOnByWeek,
        possibleByWeek: barred < 0 ? null : byWeek((week) => week !== barred),
      },
    };
  });
  const begunOf = recipes[whole(0, recipes.length - 1)];
  const firstWeek = whole(0, 4);
  const lastWeek = firstWeek + whole(0, 2);
  const begun: BegunBatches[] =
    begunOf === undefined || chance(0.4)
      ? []
      : [
          {
            id: 'standing',
            recipeId: begunOf.id,
            jarKind: begunOf.jarKind,
            batches: whole(1, 2),
            begunOn: addDays(year.asOf, -whole(0, 20)),
            mayLoadByWeek: byWeek((week) => firstWeek <= week && week <= lastWeek),
          },
        ];
  const items = year.items.map((item) => (item.packs.length > 0 ? item : { ...item, reserveUnits: 0 }));
  return { ...year, items, recipes, ...(begun.length > 0 ? { begun } : {}) };
}
