import { randomUUID } from 'node:crypto';
import { setTimeout } from 'node:timers/promises';
import type { HouseholdId } from '../../shared/ids.ts';
import { ShelfwardError } from '../../shared/problems.ts';
import { asDate } from '../../shared/week.ts';
import type { StoredPlan } from '../../src/planning/stored-plan.ts';
import type { Clock } from '../clock.ts';
import type { Database } from '../database/database.ts';
import { holdHousehold } from '../database/hold-household.ts';
import { newestPlan } from '../queries/year/plans.ts';
import { jobRow } from '../records/job-row.ts';
import type { JobWork } from './job-table.ts';
import type { Planner } from './plan-maker.ts';
import {
  type AnswerTo,
  AskerLeft,
  answerTo,
  PlannerBusy,
  plannerUntil,
  type Question,
  questionsWaiting,
} from './questions.ts';

// Questions that one process asks and another works out, each handed over in the row of a job, and so is the answer.

interface Asked {
  /** The plan the question is about; about another one it is not answered. */
  readonly plan: string;
  readonly question: Question;
}

/** How long whoever asked waits before it looks again: first and longest. */
const looks = { firstMs: 20, longestMs: 200 } as const;
/** A question that nobody has begun by then is taken back. */
const begunWithinMs = 30_000;
/** How often it is looked whether whoever asked is still there. */
const wantedEveryMs = 1000;

/** Asks, and waits for the answer; null where another plan has come meanwhile. */
export async function askElsewhere<One extends Question>(
  { db, now }: { readonly db: Database; readonly now: Clock },
  household: HouseholdId,
  { id: plan }: Pick<StoredPlan, 'id'>,
  question: One,
  left?: AbortSignal,
): Promise<AnswerTo<One> | null> {
  const subject = `${household} ${randomUUID()}`;
  const row = () =>
    db
      .selectFrom('job')
      .select(['leased_by', 'served_at', 'finished_at', 'turn_at', 'failure', 'said'])
      .where('household_id', '=', household)
      .where('kind', '=', 'question')
      .where('subject', '=', subject);
  await put(db, household, subject, { plan, question }, now());
  for (let wait: number = looks.firstMs, waited = 0; ; wait = Math.min(1.5 * wait, looks.longestMs)) {
    const job = await row().executeTakeFirst();
    if (left?.aborted || job === undefined || (job.served_at === null && waited > begunWithinMs)) {
      await takeBack(db, household, subject, now());
      throw left?.aborted ? new AskerLeft() : new PlannerBusy();
    }
    if (job.failure !== null) throw new ShelfwardError('question-failed', job.failure);
    if (job.finished_at !== null) return JSON.parse(job.said ?? 'null') as AnswerTo<One> | null;
    await setTimeout(wait);
    waited += wait;
  }
}

const put = (
  db: Database,
  household: HouseholdId,
  subject: string,
  asked: Asked,
  at: number,
): Promise<void> =>
  db.transaction().execute(async (trx) => {
    await holdHousehold(trx, household);
    const ofHousehold = trx
      .selectFrom('job')
      .select('seq')
      .where('household_id', '=', household)
      .where('kind', '=', 'question');
    const open = await ofHousehold.where('finished_at', 'is', null).execute();
    if (open.length > questionsWaiting) throw new PlannerBusy();
    // Those that were answered have been read.
    await trx
      .deleteFrom('job')
      .where('household_id', '=', household)
      .where('kind', '=', 'question')
      .where('finished_at', '<', at - begunWithinMs)
      .where('solves_for', 'is', null)
      .execute();
    const forOn = asDate(new Date(at).toISOString().slice(0, 10));
    await trx
      .insertInto('job')
      .values({
        ...jobRow({ kind: 'question', subject, household, lane: 'now', forOn, dueAt: at }, at),
        asked: JSON.stringify(asked),
      })
      .execute();
  });

/** Nobody waits for the answer any more: whoever works on it ends. */
const takeBack = (db: Database, household: HouseholdId, subject: string, at: number): Promise<unknown> =>
  db
    .updateTable('job')
    .set({ finished_at: at })
    .where('household_id', '=', household)
    .where('kind', '=', 'question')
    .where('subject', '=', subject)
    .where('finished_at', 'is', null)
    .execute();

/** Works out what others ask. */
export const questionWork =
  (db: Database, plannerOf: (householdId: string) => Planner): JobWork =>
  async (subject, _, lease) => {
    const [household = ''] = subject.split(' ');
    const job = await db
      .selectFrom('job')
      .select('asked')
      .where('household_id', '=', household)
      .where('kind', '=', 'question')
      .where('subject', '=', subject)
      .executeTakeFirst();
    const { plan: planId, question } = JSON.parse(job?.asked ?? '{}') as Partial<Asked>;
    const plan = await newestPlan(db, household as HouseholdId);
    if (question === undefined || plan === null || plan.id !== planId) {
      await lease.say('null');
      return;
    }
    const looking = setInterval(() => void lease.renew(), wantedEveryMs);
    try {
      const answer = await answerTo(question, plan, plannerUntil(plannerOf(household), lease.lost));
      await lease.say(JSON.stringify(answer));
    } finally {
      clearInterval(looking);
    }
  };
