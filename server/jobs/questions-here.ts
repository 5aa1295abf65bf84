import type { Planner } from './plan-maker.ts';
import { AskerLeft, PlannerBusy, plannerUntil, questionsWaiting } from './questions.ts';

/** Works questions out in this process, those of a household one after the other. */
export interface QuestionsHere {
  /** A question ends when its asker leaves, and one too many is refused: both throw. */
  ask<Answer>(
    householdId: string,
    question: (planner: Planner) => Promise<Answer>,
    left?: AbortSignal,
  ): Promise<Answer>;
}

export function questionsHere(plannerOf: (householdId: string) => Planner): QuestionsHere {
  const asked = new Map<string, Promise<unknown>>();
  const unanswered = new Map<string, number>();

  return {
    ask: (householdId, question, left) => {
      const waiting = unanswered.get(householdId) ?? 0;
      if (waiting > questionsWaiting) return Promise.reject(new PlannerBusy());
      unanswered.set(householdId, waiting + 1);
      const before = asked.get(householdId) ?? Promise.resolve();
      const answer = before
        .then(async () => {
          if (left?.aborted) throw new AskerLeft();
          const answered = await question(plannerUntil(plannerOf(householdId), left));
          if (left?.aborted) throw new AskerLeft();
          return answered;
        })
        .catch((cause: unknown) => {
          // What a solve that was called off led to is no fault.
          throw left?.aborted ? new AskerLeft() : cause;
        })
        .finally(() => {
          const rest = (unanswered.get(householdId) ?? 1) - 1;
          if (rest > 0) unanswered.set(householdId, rest);
          else {
            unanswered.delete(householdId);
            asked.delete(householdId);
          }
        });
      // The next question waits for this one, whether or not it could be answered.
      asked.set(
        householdId,
        answer.catch(() => {}),
      );
      return answer;
    },
  };
}
