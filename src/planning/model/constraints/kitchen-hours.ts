import { cell, entry } from '../../lookup.ts';
import { minutesInWeek } from '../../year/recipe-time.ts';
import { stageWeeks } from '../../year/stage-weeks.ts';
import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';
import { recipeLabel } from '../sets.ts';

/**
 * Work at table and stove fits the sessions held; weeks away have none.
 *
 * `sum(minutes in w × batches[r,v]) + done <= (session minutes - set-up minutes) × hands in w × sessions[w]`, minutes, over the batches
 * loaded in w and those whose stages are worked on in w and that are loaded later; and, one
 * recipe at a time, `batches[r,w] <= batches per session × sessions[w]`, which also keeps a batch within a session.
 */
export function kitchenHours({ sets, parameters, columns, writer }: Draft): void {
  const { setUpMinutes } = sets.year.time;
  sets.weekIndexes.forEach((week) => {
    const sessions = entry(columns.sessions, week, 'sessions');
    const key = sets.year.weeks[week];
    const perSession =
      (entry(parameters.sessionMinutesByWeek, week, 'sessionMinutesByWeek') - setUpMinutes) *
      entry(parameters.handsByWeek, week, 'handsByWeek');
    const work: Entry[] = [];
    sets.recipes.forEach((recipe, at) => {
      for (let before = 1; before <= stageWeeks(recipe); before += 1) {
        const later = columns.batches[at]?.[week + before];
        const minutes = minutesInWeek(recipe, before);
        if (later != null && minutes > 0) work.push([later, minutes]);
      }
      const batches = columns.batches[at]?.[week];
      if (batches == null) return;
      work.push([batches, minutesInWeek(recipe, 0)]);
      const makes = columns.makes[at]?.[week];
      if (makes != null && recipe.setUp !== undefined) work.push([makes, recipe.setUp.minutes]);
      writer.row(
        `kitchen_hours[${recipeLabel(recipe)},${key}]`,
        Number.NEGATIVE_INFINITY,
        [
          [batches, 1],
          [sessions, -cell(parameters.batchesPerSession, at, week, 'batchesPerSession')],
        ],
        0,
      );
    });
    if (work.length === 0) return;
    writer.row(
      `kitchen_hours[${key}]`,
      Number.NEGATIVE_INFINITY,
      [...work, [sessions, -Math.max(0, perSession)]],
      -Math.min(
        doneMinutes(sets, parameters, week),
        Math.max(0, perSession) * entry(parameters.mostSessionsByWeek, week, 'mostSessionsByWeek'),
      ),
    );
  });
}

function doneMinutes(sets: Draft['sets'], parameters: Draft['parameters'], week: number): number {
  return sets.recipes.reduce(
    (sum, recipe, at) =>
      sum + minutesInWeek(recipe, 0) * cell(parameters.doneBatches, at, week, 'doneBatches'),
    0,
  );
}
