import { found, type Outcome, refused } from '../../../shared/problems.ts';
import type { DecisionRequest } from '../../../shared/schemas/decision.ts';
import { weekHolding } from '../../../shared/week.ts';
import { householdById } from '../../queries/household/household.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { problem, type Recording, type Rules, record } from '../record.ts';

/** A recipe that is here, in a week that is still to come and in which it was not made. */
export const decisionRules: Rules<DecisionRequest> = async (
  { trx, householdId, today },
  { recipeId, week, decision },
) => {
  const isHere = (await recipesOf(trx, householdId)).some(({ id }) => id === recipeId);
  const unknown =
    recipeId === undefined || isHere
      ? []
      : [problem('recipe-unknown', 'recipeId', 'Choose a recipe from the plan.')];
  if (week === undefined) return unknown;
  const { weekStartsOn } = await householdById(trx, householdId);
  if (decision !== undefined && decision !== 'free' && week < weekHolding(today, weekStartsOn))
    return [...unknown, problem('week-is-past', 'week', 'That week is past. Choose a week to come.')];
  const earlier = await trx
    .selectFrom('kept')
    .select('decision')
    .where('household_id', '=', householdId)
    .where('recipe_id', '=', recipeId ?? '')
    .where('week', '=', week)
    .executeTakeFirst();
  return earlier?.decision === 'done'
    ? [
        problem(
          'already-made',
          'week',
          'You already made it that week, so there is nothing left to decide. Choose another week.',
        ),
      ]
    : unknown;
};

/** Pins a batch to a week, rules it out there, or takes either back. What has been made stays a fact. */
export const keepDecision = (
  recording: Recording,
  request: DecisionRequest,
): Promise<Outcome<DecisionRequest>> =>
  record(recording, 'keep decision', request, async (recorder) => {
    const { trx, householdId, at } = recorder;
    const wrong = await decisionRules(recorder, request);
    if (wrong.length > 0) return refused(...wrong);
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
