import { randomUUID } from 'node:crypto';
import { dateWords } from '../../../shared/date-words.ts';
import type { HouseholdId } from '../../../shared/ids.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Notice } from '../../../src/notices/notice.ts';
import { noticeChanges } from '../../../src/notices/notice-changes.ts';
import type { Database, Writing } from '../../database/database.ts';
import { holdHousehold } from '../../database/hold-household.ts';
import { noticesOnRecord } from '../../queries/notices/notices.ts';
import { nextSeq } from '../next-seq.ts';
import { once } from '../once.ts';
import { type Recording, refuse } from '../record.ts';

/**
 * Brings the kept notices in line with what the rules say today. What was snoozed sleeps on, what was done stays done;
 * asking twice on one day changes nothing the second time. Notices are no facts of the year, so plans stay current.
 */
export async function keepNotices(
  db: Database,
  householdId: HouseholdId,
  current: readonly Notice[],
  { at, today }: { readonly at: number; readonly today: CalendarDate },
): Promise<void> {
  // Most looks change nothing, and then nothing is held.
  if (isUnchanged(noticeChanges(await noticesOnRecord(db, householdId), current, today))) return;
  await db.transaction().execute(async (trx) => {
    await holdHousehold(trx, householdId);
    const kept = await noticesOnRecord(trx, householdId);
    const changes = noticeChanges(kept, current, today);
    const idOf = ({ kind, subject }: { readonly kind: string; readonly subject: string }) =>
      kept.find((notice) => notice.kind === kind && notice.subject === subject)?.id ?? '';
    for (const notice of changes.opened) await open(trx, householdId, notice, at);
    for (const notice of changes.reopened)
      await change(trx, householdId, idOf(notice), at, {
        ...wordsOf(notice),
        state: 'open',
        snoozed_until: null,
      });
    for (const notice of changes.reworded) await change(trx, householdId, idOf(notice), at, wordsOf(notice));
    for (const notice of changes.gone)
      await change(trx, householdId, idOf(notice), at, { state: 'gone', snoozed_until: null });
  });
}

const isUnchanged = (changes: ReturnType<typeof noticeChanges>): boolean =>
  Object.values(changes).every((list) => list.length === 0);

const wordsOf = ({ reason, dueOn, about = [] }: Notice) => ({
  reason,
  due_on: dueOn,
  about_json: JSON.stringify(about),
});

const open = async (trx: Writing, householdId: HouseholdId, notice: Notice, at: number) =>
  trx
    .insertInto('notice')
    .values({
      household_id: householdId,
      id: randomUUID(),
      kind: notice.kind,
      subject: notice.subject,
      ...wordsOf(notice),
      state: 'open',
      snoozed_until: null,
      first_seen_at: at,
      changed_at: at,
      sent_at: null,
      seq: nextSeq('notice', householdId),
    })
    .execute();

const change = (
  trx: Writing,
  householdId: HouseholdId,
  id: string,
  at: number,
  to: {
    readonly reason?: string;
    readonly due_on?: string | null;
    readonly about_json?: string;
    readonly state?: 'open' | 'gone' | 'done' | 'snoozed';
    readonly snoozed_until?: string | null;
  },
) =>
  trx
    .updateTable('notice')
    .set({ ...to, changed_at: at })
    .where('household_id', '=', householdId)
    .where('id', '=', id)
    .execute();

export type NoticeAnswer =
  | { readonly state: 'done' }
  | { readonly state: 'open' }
  | { readonly state: 'snoozed'; readonly until: CalendarDate };

/**
 * What a person does about a notice: it is done, it sleeps until a day, or it is brought back. Said once for a key; no
 * fact of the year changes, so the plan stays as current as it was.
 */
export const answerNotice = (
  { db, householdId, key, at, today }: Recording,
  noticeId: string,
  answer: NoticeAnswer,
): Promise<Outcome<{ readonly noticeId: string }>> =>
  db.transaction().execute(async (trx) => {
    await holdHousehold(trx, householdId);
    const asked = { verb: 'answer notice', request: { noticeId, answer } };
    const { outcome } = await once(trx, { householdId, key, at }, asked, async () => {
      if (answer.state === 'snoozed' && answer.until <= today)
        return refuse<{ readonly noticeId: string }>(
          'snooze-is-past',
          'until',
          `${dateWords(answer.until)} is not after today, ${dateWords(today)}. Choose a later day.`,
        );
      const { numUpdatedRows } = await trx
        .updateTable('notice')
        .set({
          state: answer.state,
          snoozed_until: answer.state === 'snoozed' ? answer.until : null,
          changed_at: at,
        })
        .where('household_id', '=', householdId)
        .where('id', '=', noticeId)
        .where('state', 'in', ['open', 'snoozed'])
        .executeTakeFirstOrThrow();
      return numUpdatedRows === 1n
        ? found({ noticeId })
        : refuse<{ readonly noticeId: string }>(
            'notice-unknown',
            'noticeId',
            'This notice is no longer open; its reason may have gone. Load the page again.',
          );
    });
    return outcome;
  });
