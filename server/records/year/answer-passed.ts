import { found, type Outcome } from '../../../shared/problems.ts';
import type { PassedAnswer } from '../../../shared/schemas/decision.ts';
import { addDays, addWeeks, mondayOf, weekOf } from '../../../shared/week.ts';
import { kitchenHoursOf } from '../../queries/household/kitchen.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { type Recording, record, refuse } from '../record.ts';

/**
 * What became of batches whose day is past: dropped, or moved to the next usual day. What was written down in the
 * meantime stays a fact and wins.
 */
export const answerPassed = (recording: Recording, request: PassedAnswer): Promise<Outcome<PassedAnswer>> =>
  record(recording, 'answer passed session', request, async ({ trx, householdId, at, today }) => {
    const all = await recipesOf(trx, householdId);
    if (!all.some((recipe) => recipe.id === request.recipeId))
      return refuse(
        'recipe-unknown',
        'recipeId',
        `Expected a recipe of this household; found “${request.recipeId}”. Choose one from the plan.`,
      );
    const thisWeek = weekOf(today);
    if (request.week > thisWeek)
      return refuse(
        'week-is-ahead',
        'week',
        `Expected this week or one that is past; found ${request.week}, which is still to come. Keep it or rule it out under its week.`,
      );
    const put = async (week: string, decision: 'pinned' | 'ruled-out') => {
      const said = { decision, batches: decision === 'pinned' ? request.batches : null, decided_at: at };
      await trx
        .insertInto('kept')
        .values({ household_id: householdId, recipe_id: request.recipeId, week, ...said })
        .onConflict((same) =>
          same
            .columns(['household_id', 'recipe_id', 'week'])
            .doUpdateSet(said)
            .where('kept.decision', '!=', 'done'),
        )
        .execute();
    };
    await put(request.week, 'ruled-out');
    if (request.answer === 'moved') {
      const { sessionWeekday } = await kitchenHoursOf(trx, householdId);
      const isOver = addDays(mondayOf(thisWeek), sessionWeekday - 1) < today;
      await put(request.week === thisWeek || isOver ? addWeeks(thisWeek, 1) : thisWeek, 'pinned');
    }
    return found(request);
  });
