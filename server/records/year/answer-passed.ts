import { found, type Outcome } from '../../../shared/problems.ts';
import type { PassedAnswer } from '../../../shared/schemas/decision.ts';
import { addWeeks, daysOfWeek, weekHolding, weeksFrom } from '../../../shared/week.ts';
import { nextSessionDates } from '../../../src/planning/days/session-dates.ts';
import { householdById } from '../../queries/household/household.ts';
import { kitchenHoursOf } from '../../queries/household/kitchen.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { type Recording, record, refuse } from '../record.ts';

/** A session to which batches are moved is looked for so far ahead. */
const weeksLookedAhead = 26;

/**
 * What became of batches whose day is past: dropped, or moved to the next session. What was written down in the
 * meantime stays a fact and wins.
 */
export const answerPassed = (recording: Recording, request: PassedAnswer): Promise<Outcome<PassedAnswer>> =>
  record(recording, 'answer passed session', request, async ({ trx, householdId, at, today }) => {
    const all = await recipesOf(trx, householdId);
    if (!all.some((recipe) => recipe.id === request.recipeId))
      return refuse('recipe-unknown', 'recipeId', 'Choose a recipe from the plan.');
    const { weekStartsOn } = await householdById(trx, householdId);
    const thisWeek = weekHolding(today, weekStartsOn);
    if (request.week > thisWeek)
      return refuse(
        'week-is-ahead',
        'week',
        'That week is still to come. Keep it or rule it out under its week.',
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
      const hours = await kitchenHoursOf(trx, householdId);
      const weeks = weeksFrom(thisWeek, weeksLookedAhead);
      const after =
        request.week === thisWeek ? (daysOfWeek(addWeeks(thisWeek, 1), weekStartsOn)[0] ?? today) : today;
      const [next] = nextSessionDates(hours, weeks, after, weekStartsOn, 1);
      await put(next === undefined ? addWeeks(thisWeek, 1) : weekHolding(next.on, weekStartsOn), 'pinned');
    }
    return found(request);
  });
