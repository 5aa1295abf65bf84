import type { SourceId } from '../../../shared/ids.ts';
import { asCents } from '../../../shared/money.ts';
import type { PlannedSource, PlanningYear } from '../planning-year.ts';
import { stageWeeks } from '../year/stage-weeks.ts';
import { type Glut, glutSource } from './glut.ts';
import { daysWhenNotKnown } from './glut-at-hand.ts';

/**
 * The year with a glut in its first week, free and from our own garden, for planning again near the present plan. The
 * crop's own recipes may be begun in that week even where their usual months are others.
 */
export function yearWithGlut(year: PlanningYear, { crop, lb }: Glut): PlanningYear {
  const ofCrop = year.sources.filter((source) => source.crop === crop);
  const glut: PlannedSource = {
    id: glutSource({ crop }) as SourceId,
    name: 'Glut',
    crop,
    kind: 'garden',
    lbByWeek: year.weeks.map((_, week) => (week === 0 ? lb : 0)),
    priceCentsPerLbByWeek: year.weeks.map(() => asCents(0)),
    useByDays: ofCrop.length > 0 ? Math.min(...ofCrop.map(({ useByDays }) => useByDays)) : daysWhenNotKnown,
    poorYearChance: 0,
    poorYearShare: 1,
    fallBack: 'do-without',
  };
  const recipes = year.recipes.map((recipe) =>
    recipe.allowedByWeek !== null && recipe.produce.some((need) => need.crop === crop)
      ? {
          ...recipe,
          allowedByWeek: recipe.allowedByWeek.map((allowed, week) => allowed || week === stageWeeks(recipe)),
        }
      : recipe,
  );
  return { ...year, recipes, sources: [...year.sources, glut] };
}
