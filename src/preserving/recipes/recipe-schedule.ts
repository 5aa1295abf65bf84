import type { JarSize } from '../../../shared/jar.ts';
import type { Pack } from '../../../shared/schemas/reference/process-time.ts';
import { addDays, type CalendarDate } from '../../../shared/week.ts';
import type { Canner } from '../canner.ts';
import { schedulesInCanner } from '../canner.ts';
import type { ProcessTables } from '../lookup/process-lookup.ts';
import type { ProcessQuery, Schedule } from '../lookup/schedule.ts';
import { forbidden, type Refusal, type Ruling } from '../refusal.ts';
import { daysFor, mostHoursBefore } from '../stages/recipe-stages.ts';
import type { TestedRecipe } from './recipe-book.ts';

/** How a household puts up one recipe. */
export interface PuttingUp {
  readonly jar: JarSize;
  /** Needed only where the recipe may be packed hot or raw. */
  readonly pack?: Pack;
  readonly canner: Canner;
  readonly altitudeFt: number;
  readonly sessionOn: CalendarDate;
  readonly choice?: NonNullable<ProcessQuery['choice']>;
  readonly conditions?: NonNullable<ProcessQuery['conditions']>;
}

/**
 * The published schedules for a recipe in this jar and canner at this altitude. Of several printed styles the one that
 * prints the jar itself comes first, then one that serves it by the rule of the next larger size. When none does, the
 * refusals of the first style are given.
 */
export const schedulesForRecipe = (
  tables: ProcessTables,
  recipe: TestedRecipe,
  puttingUp: PuttingUp,
): Ruling<readonly [Schedule, ...Schedule[]]> => {
  const { canner, sessionOn, pack, ...asked } = puttingUp;
  const wanted = recipe.processes.filter((process) => pack === undefined || process.pack === pack);
  const candidates = wanted.length > 0 ? wanted : recipe.processes;
  let byRule: Ruling<readonly [Schedule, ...Schedule[]]> | undefined;
  let refusals: readonly Refusal[] | undefined;
  for (const process of candidates) {
    const ruling = schedulesInCanner(
      tables,
      { ...asked, foodKey: process.foodKey, style: process.style, pack: process.pack },
      canner,
      sessionOn,
    );
    if (!ruling.ok) refusals ??= ruling.problems;
    else if (ruling.value[0].jarRule === null) return ruling;
    else byRule ??= ruling;
  }
  return byRule ?? forbidden(...(refusals ?? []));
};

/** Day on which the jars are filled and processed, counted from the first day of work; the later end of a ferment. */
export const processedOn = (recipe: TestedRecipe, startedOn: CalendarDate): CalendarDate =>
  addDays(startedOn, daysFor(mostHoursBefore(recipe.stages)));

/** First day of work so that the jars can be processed on that day; the later end of a ferment. */
export const startedOn = (recipe: TestedRecipe, processed: CalendarDate): CalendarDate =>
  addDays(processed, -daysFor(mostHoursBefore(recipe.stages)));

/** First day on which a sealed jar is ready to eat: at once, or after the shorter printed curing time. */
export const readyFrom = (recipe: TestedRecipe, processed: CalendarDate): CalendarDate =>
  addDays(processed, recipe.curing?.daysLow ?? 0);
