import { cell, entry, found } from '../../lookup.ts';
import { minutesInCanner } from '../../year/recipe-time.ts';
import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';
import type { ScheduleLoads } from './canner-loads.ts';

/**
 * The load cycles of a canner (heat, vent, process, cool, unload) fit the sessions held.
 *
 * `sum(load minutes × loads[c,s,w]) + done <= session minutes × sessions[w]` for each canner, minutes.
 */
export function cannerDay(
  { sets, parameters, columns, writer }: Draft,
  loads: readonly ScheduleLoads[],
): void {
  const loadMinutes = new Map<string, number>(
    sets.recipes.flatMap(({ processing }) =>
      processing === null
        ? []
        : [[`${processing.cannerId},${processing.scheduleKey}`, processing.loadMinutes] as const],
    ),
  );
  for (const canner of sets.year.canners)
    sets.weekIndexes.forEach((week) => {
      const cycles = loads
        .filter((load) => load.cannerId === canner.id && load.week === week)
        .map(
          (load): Entry => [
            load.loads,
            found(loadMinutes, `${load.cannerId},${load.scheduleKey}`, 'loadMinutes'),
          ],
        );
      if (cycles.length === 0) return;
      const sessionMinutes = entry(parameters.sessionMinutesByWeek, week, 'sessionMinutesByWeek');
      const done = sets.recipes.reduce(
        (sum, recipe, at) =>
          recipe.processing?.cannerId === canner.id
            ? sum + minutesInCanner(recipe) * cell(parameters.doneBatches, at, week, 'doneBatches')
            : sum,
        0,
      );
      writer.row(
        `canner_day[${canner.id},${sets.year.weeks[week]}]`,
        Number.NEGATIVE_INFINITY,
        [...cycles, [entry(columns.sessions, week, 'sessions'), -sessionMinutes]],
        -Math.min(done, sessionMinutes * entry(parameters.mostSessionsByWeek, week, 'mostSessionsByWeek')),
      );
    });
}
