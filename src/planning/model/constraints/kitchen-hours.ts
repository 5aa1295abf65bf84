import { cell, entry, orNone } from '../../lookup.ts';
import { minutesInWeek } from '../../year/recipe-time.ts';
import { stageWeeks } from '../../year/stage-weeks.ts';
import type { Draft } from '../draft.ts';
import { recipeLabel } from '../sets.ts';
import { columnIn, termIn } from '../terms.ts';

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
    const workMinutes = Math.max(
      0,
      entry(parameters.sessionMinutesByWeek, week, 'sessionMinutesByWeek') - setUpMinutes,
    );
    const perSession = workMinutes * entry(parameters.handsByWeek, week, 'handsByWeek');
    const work = sets.recipes
      .flatMap((recipe, at) => [
        ...Array.from({ length: stageWeeks(recipe) }, (_, before) => before + 1).flatMap((before) =>
          termIn(columns.batches, at, week + before, minutesInWeek(recipe, before)),
        ),
        ...termIn(columns.batches, at, week, minutesInWeek(recipe, 0)),
        ...termIn(columns.makes, at, week, orNone(recipe.setUp?.minutes)),
      ])
      .filter(([, minutes]) => minutes > 0);
    sets.recipes.forEach((recipe, at) => {
      const batches = columnIn(columns.batches, at, week);
      writer.row(
        `kitchen_hours[${recipeLabel(recipe)},${key}]`,
        Number.NEGATIVE_INFINITY,
        batches === null
          ? []
          : [
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
      [...work, [sessions, -perSession]],
      -Math.min(
        doneMinutes(sets, parameters, week),
        perSession * entry(parameters.mostSessionsByWeek, week, 'mostSessionsByWeek'),
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
