import { oneOrMore } from '../../../shared/counting.ts';
import { dateWords } from '../../../shared/date-words.ts';
import { found, type Outcome, type Problem, refused } from '../../../shared/problems.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { SessionWork } from '../../../src/household/session.ts';
import { batchesBegunOn } from '../../../src/preserving/day/begun-batches.ts';
import { batchResultsOf } from '../../queries/canning/batch-results.ts';
import { canningSessionOn, loadsOfDay } from '../../queries/canning/canning-sessions.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { problem, type Recording, record, refuse } from '../record.ts';

/**
 * Changes what is made on a day that was begun: a batch more, one less, another recipe. Ticks and clocks hang on recipe, pot
 * and load, so what is begun keeps its state; it can neither be dropped nor counted away. Nothing left is refused: such a
 * day is taken back instead.
 */
export const changeWork = (
  recording: Recording,
  { on, work }: { readonly on: CalendarDate; readonly work: readonly SessionWork[] },
): Promise<Outcome<{ readonly work: readonly SessionWork[] }>> =>
  record(
    recording,
    'change canning work',
    { on, work },
    async ({ trx, householdId }) => {
      const session = await canningSessionOn(trx, householdId, on);
      if (session === null)
        return refuse(
          'day-not-begun',
          'on',
          `The canning day ${dateWords(on)} was not begun. Begin it first.`,
        );
      const [recipes, loads, results] = await Promise.all([
        recipesOf(trx, householdId),
        loadsOfDay(trx, householdId, on),
        batchResultsOf(trx, householdId, { sessionOn: on }),
      ]);
      const nameOf = new Map<string, string>(recipes.map(({ id, name }) => [id, name]));
      const wanted = new Map(work.map(({ recipeId, batches }) => [recipeId, batches]));
      const wrong: Problem[] = [];
      for (const recipeId of wanted.keys()) {
        if (!nameOf.has(recipeId) && !session.work.some((earlier) => earlier.recipeId === recipeId))
          wrong.push(problem('recipe-unknown', 'added', 'Choose a recipe from the list.'));
      }
      for (const { recipeId } of session.work) {
        const begun = batchesBegunOn(recipeId, loads, results);
        const batches = wanted.get(recipeId) ?? 0;
        if (batches < begun)
          wrong.push(
            problem(
              'batch-begun',
              `batches-${recipeId}`,
              `You have already ticked, timed or written down ${oneOrMore(begun, 'batch', 'batches')} of ${nameOf.get(recipeId) ?? 'it'}, so ${batches} is too few. Leave those on the day, or take the ticks back first.`,
            ),
          );
      }
      if (wrong.length > 0) return refused(...wrong);
      const kept = work.filter(({ batches }) => batches > 0);
      if (kept.length === 0)
        return refuse(
          'nothing-to-do',
          '',
          `Nothing would be left to make on ${dateWords(on)}. Take the day back instead.`,
        );
      await trx
        .updateTable('canning_session')
        .set({ work_json: JSON.stringify(kept) })
        .where('household_id', '=', householdId)
        .where('session_on', '=', on)
        .execute();
      return found({ work: kept });
    },
    'no facts',
  );
