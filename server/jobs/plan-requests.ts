import { randomUUID } from 'node:crypto';
import { setTimeout } from 'node:timers/promises';
import type { HouseholdId } from '../../shared/ids.ts';
import { asDate } from '../../shared/week.ts';
import type { Clock } from '../clock.ts';
import type { Database } from '../database/database.ts';
import { holdHousehold } from '../database/hold-household.ts';
import type { PlanJobState } from '../queries/year/plan-job-state.ts';
import { jobRow } from '../records/job-row.ts';
import { progressIn } from './plan-progress.ts';

/** What is asked of the planner, and what it is doing, in the table of jobs: whichever process asks, and whichever plans. */
export interface PlanRequests {
  state(householdId: string): Promise<PlanJobState>;
  /** Asks for a plan unless one is being made; a plan that is only being checked is let go for it. */
  start(householdId: string): Promise<void>;
  /** Stops a plan that is asked for or being made; the last good plan stays. */
  cancel(householdId: string): Promise<void>;
  /** Settles when the plan that is being made is kept, before it is checked. */
  planned(householdId: string): Promise<void>;
  /** Settles when nothing is asked for or being made for the household. */
  settled(householdId: string): Promise<void>;
  /** Whoever waits goes. */
  close(): void;
}

export interface PlanRequestsParts {
  readonly db: Database;
  readonly now: Clock;
  /** Told that a plan is asked for. */
  readonly onAsked?: () => void;
  /** Told that nobody wants what is being made for a household. */
  readonly onStopped?: (householdId: string) => void;
}

/** How long whoever waits for a plan waits before it looks again: first and longest. */
const looks = { firstMs: 20, longestMs: 250 } as const;
/** As many rows as are about one day and the one before it. */
const rowsLookedAt = 6;

export function planRequests({ db, now, onAsked, onStopped }: PlanRequestsParts): PlanRequests {
  let closing = false;

  const rowsOf = (trx: Database, householdId: string) =>
    trx
      .selectFrom('job')
      .select([
        'seq',
        'kind',
        'due_at',
        'turn_at',
        'leased_by',
        'leased_until',
        'served_at',
        'finished_at',
        'failure',
        'said',
        'solves_for',
      ])
      .where('household_id', '=', householdId)
      .where('kind', 'in', ['plan', 'replan'])
      .orderBy('seq', 'desc')
      .limit(rowsLookedAt)
      .execute();
  type Row = Awaited<ReturnType<typeof rowsOf>>[number];

  const isUnderWay = (row: Row) => row.finished_at === null && row.leased_by !== null;
  const isWaiting = (row: Row) =>
    row.kind === 'plan' && row.finished_at === null && row.leased_by === null && row.turn_at !== null;
  /** Nobody wants it any more, and whoever makes it does not know yet. */
  const isStopping = (row: Row) =>
    row.finished_at !== null && row.solves_for !== null && (row.leased_until ?? 0) > now();

  const end = (trx: Database, householdId: string, rows: readonly Row[]) =>
    trx
      .updateTable('job')
      .set({ finished_at: now(), served_at: now() })
      .where('household_id', '=', householdId)
      .where(
        'seq',
        'in',
        rows.map(({ seq }) => seq),
      )
      .where('finished_at', 'is', null)
      .execute();

  const state = async (householdId: string): Promise<PlanJobState> => {
    const rows = await rowsOf(db, householdId);
    const current = rows.find(isUnderWay) ?? rows.find(isWaiting);
    if (current !== undefined) {
      const said = current.leased_by === null ? null : progressIn(current.said);
      if (said !== null && said.phase !== 'planning') return { state: 'checking' };
      const { incumbent = null, bound = null, gap = null, soFar = null } = said?.progress ?? {};
      return {
        state: 'running',
        startedAt: said?.startedAt ?? current.due_at,
        best: incumbent,
        bound,
        gap,
        soFar,
        note: said?.note ?? null,
      };
    }
    const [last] = rows
      .filter(({ served_at }) => served_at !== null)
      .sort((one, other) => Number(other.served_at) - Number(one.served_at) || other.seq - one.seq);
    return last?.failure == null ? { state: 'idle' } : { state: 'failed', words: last.failure };
  };

  const until = async (isSo: () => Promise<boolean>): Promise<void> => {
    for (let wait: number = looks.firstMs; !closing; wait = Math.min(1.5 * wait, looks.longestMs)) {
      if (await isSo()) return;
      await setTimeout(wait);
    }
  };

  return {
    state,
    start: async (householdId) => {
      const id = householdId as HouseholdId;
      const outcome = await db.transaction().execute(async (trx) => {
        await holdHousehold(trx, id);
        const rows = await rowsOf(trx, id);
        const underWay = rows.filter(isUnderWay);
        const isPlanning = underWay.some(
          ({ said }) => (progressIn(said)?.phase ?? 'planning') === 'planning',
        );
        if (isPlanning || rows.some(isWaiting)) return 'asked already';
        if (underWay.length > 0) await end(trx, id, underWay);
        await trx
          .deleteFrom('job')
          .where('household_id', '=', id)
          .where('kind', '=', 'plan')
          .where('finished_at', 'is not', null)
          .where('solves_for', 'is', null)
          .execute();
        const at = now();
        await trx
          .insertInto('job')
          .values(
            jobRow(
              {
                kind: 'plan',
                subject: `${id} ${randomUUID()}`,
                household: id,
                lane: 'now',
                forOn: asDate(new Date(at).toISOString().slice(0, 10)),
                dueAt: at,
              },
              at,
            ),
          )
          .execute();
        return underWay.length > 0 ? 'asked in place of a check' : 'asked';
      });
      if (outcome === 'asked already') return;
      if (outcome === 'asked in place of a check') onStopped?.(householdId);
      onAsked?.();
    },
    cancel: async (householdId) => {
      const rows = (await rowsOf(db, householdId)).filter((row) => isUnderWay(row) || isWaiting(row));
      if (rows.length > 0) await end(db, householdId, rows);
      onStopped?.(householdId);
    },
    planned: (householdId) => until(async () => (await state(householdId)).state !== 'running'),
    settled: (householdId) =>
      until(async () => {
        const rows = await rowsOf(db, householdId);
        return !rows.some((row) => isUnderWay(row) || isWaiting(row) || isStopping(row));
      }),
    close: () => {
      closing = true;
    },
  };
}
