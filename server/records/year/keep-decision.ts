import { found, type Outcome } from '../../../shared/problems.ts';
import type { DecisionRequest } from '../../../shared/schemas/decision.ts';
import { weekHolding } from '../../../shared/week.ts';
import { householdById } from '../../queries/household/household.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { type Recording, record, refuse } from '../record.ts';

/** Pins a batch to a week, rules it out there, or takes either back. What has been made stays a fact. */
export const keepDecision = (
  recording: Recording,
  request: DecisionRequest,
): Promise<Outcome<DecisionRequest>> =>
  record(recording, 'keep decision', request, async ({ trx, householdId, at, today }) => {
    const all = await recipesOf(trx, householdId);
    if (!all.some((recipe) => recipe.id === request.recipeId))
      return refuse('recipe-unknown', 'recipeId', 'Choose a recipe from the plan.');
    if (
      request.decision !== 'free' &&
      request.week < weekHolding(today, (await householdById(trx, householdId)).weekStartsOn)
    )
      return refuse('week-is-past', 'week', 'That week is past. Choose a week to come.');
    const earlier = await trx
      .selectFrom('kept')
      .select('decision')
      .where('household_id', '=', householdId)
      .where('recipe_id', '=', request.recipeId)
      .where('week', '=', request.week)
      .executeTakeFirst();
    if (earlier?.decision === 'done')
      return refuse(
        'already-made',
        'week',
        'It was already made in that week. Nothing is left to decide there; choose another week.',
      );
    await trx
      .deleteFrom('kept')
      .where('household_id', '=', householdId)
      .where('recipe_id', '=', request.recipeId)
      .where('week', '=', request.week)
      .execute();
    if (request.decision !== 'free')
      await trx
        .insertInto('kept')
        .values({
          household_id: householdId,
          recipe_id: request.recipeId,
          week: request.week,
          decision: request.decision,
          batches: request.decision === 'pinned' ? request.batches : null,
          decided_at: at,
        })
        .execute();
    return found(request);
  });
