import { found, type Outcome } from '../../shared/problems.ts';
import { addDays } from '../../shared/week.ts';
import { once } from './once.ts';
import { type Recording, refuse } from './record.ts';

export const noticeAnswers = ['done', 'later', 'now'] as const;
export type NoticeAnswer = (typeof noticeAnswers)[number];

/** A notice put off sleeps for a week. */
const laterDays = 7;

/**
 * What a person says to a notice: dealt with, later, or bring it back. No fact of the pantry changes, so the plan stays as
 * up to date as it was.
 */
export const answerNotice = (
  { db, householdId, key, at, today }: Recording,
  request: { readonly noticeId: string; readonly answer: NoticeAnswer },
): Promise<Outcome<NoticeAnswer>> =>
  db.transaction().execute(async (trx) => {
    const { outcome } = await once(
      trx,
      { householdId, key, at },
      { verb: 'answer notice', request },
      async (): Promise<Outcome<NoticeAnswer>> => {
        const state = { done: 'done', later: 'snoozed', now: 'open' } as const;
        const { numUpdatedRows } = await trx
          .updateTable('notice')
          .set({
            state: state[request.answer],
            snoozed_until: request.answer === 'later' ? addDays(today, laterDays) : null,
            changed_at: at,
          })
          .where('household_id', '=', householdId)
          .where('id', '=', request.noticeId)
          .where('state', 'in', ['open', 'snoozed'])
          .executeTakeFirstOrThrow();
        if (numUpdatedRows !== 1n)
          return refuse(
            'notice-unknown',
            '',
            'This notice no longer waits for an answer. The list is up to date now.',
          );
        return found(request.answer);
      },
    );
    return outcome;
  });
