import { randomUUID } from 'node:crypto';
import { counted } from '../../../shared/counting.ts';
import { found, type Outcome, refused } from '../../../shared/problems.ts';
import type { CannerRequest } from '../../../shared/schemas/kitchen.ts';
import type { UpkeepDoneRequest, UpkeepTaskRequest } from '../../../shared/schemas/upkeep.ts';
import { cannersOf } from '../../queries/household/kitchen.ts';
import { upkeepOf } from '../../queries/household/upkeep.ts';
import { pastDay } from '../canning/checks.ts';
import { freshId } from '../fresh-id.ts';
import { problemsIn, type Recorder, type Recording, type Rules, record, refuse } from '../record.ts';

/** So many tasks of its own a household can have. */
const mostTasks = 60;

/** What is done was done on a day that has come. */
export const upkeepDoneRules: Rules<UpkeepDoneRequest> = (reader, { doneOn = null }) =>
  problemsIn(doneOn === null ? found(null) : pastDay(reader, 'doneOn', doneOn));

/** Writes down that something was done. Nothing of the year depends on it: the plan stays as it is. */
export const writeUpkeep = (recording: Recording, request: UpkeepDoneRequest): Promise<Outcome<true>> =>
  record(
    recording,
    'write upkeep',
    request,
    async (recorder) => {
      const { trx, householdId, at, by } = recorder;
      const wrong = await upkeepDoneRules(recorder, request);
      if (wrong.length > 0) return refused(...wrong);
      if (!(await isThere(recorder, request)))
        return refuse('task-unknown', 'of', 'That is no longer looked after here. Load the page again.');
      const { kind, of, doneOn, note } = request;
      await trx
        .insertInto('upkeep_event')
        .values({
          household_id: householdId,
          id: randomUUID(),
          kind,
          canner_id: kind === 'own' ? null : of,
          task_id: kind === 'own' ? of : null,
          done_on: doneOn,
          note: note === '' ? null : note,
          gauge_off_at_5_psi: null,
          gauge_off_at_10_psi: null,
          gauge_off_at_15_psi: null,
          recorded_by: by,
          recorded_at: at,
          undone_at: null,
        })
        .execute();
      return found(true);
    },
    'no facts',
  );

async function isThere({ trx, householdId }: Recorder, { kind, of }: UpkeepDoneRequest): Promise<boolean> {
  if (kind === 'own') return (await upkeepOf(trx, householdId)).tasks.some(({ id }) => id === of);
  return (await cannersOf(trx, householdId)).some(({ id, method }) => id === of && method === 'pressure');
}

/**
 * Takes back that something was done; it stays in the file as undone. Of a dial gauge the check before it counts again, or none:
 * then no pressure is given until one is written down.
 */
export async function undoUpkeep(recording: Recording, eventId: string): Promise<Outcome<true>> {
  const { db, householdId } = recording;
  const { done } = await upkeepOf(db, householdId);
  const isGauge = done.some(({ id, kind }) => id === eventId && kind === 'gauge');
  return record(
    recording,
    'undo upkeep',
    { eventId },
    async (recorder) => {
      const { trx, at } = recorder;
      const undone = await trx
        .updateTable('upkeep_event')
        .set({ undone_at: at })
        .where('household_id', '=', householdId)
        .where('id', '=', eventId)
        .where('undone_at', 'is', null)
        .returning(['kind', 'canner_id'])
        .executeTakeFirst();
      if (undone === undefined)
        return refuse('upkeep-unknown', '', 'That is undone already, or was not written down here.');
      if (undone.kind === 'gauge' && undone.canner_id !== null) await checkBefore(recorder, undone.canner_id);
      return found(true);
    },
    isGauge ? 'facts' : 'no facts',
  );
}

/** The check that was written down last, of those that still stand, is the one that counts. */
async function checkBefore({ trx, householdId }: Recorder, cannerId: string): Promise<void> {
  const { done } = await upkeepOf(trx, householdId);
  const last = done.findLast(({ kind, cannerId: of }) => kind === 'gauge' && of === cannerId);
  await trx
    .updateTable('canner')
    .set({
      gauge_checked_on: last?.doneOn ?? null,
      gauge_off_at_5_psi: last?.gaugeOff?.at5 ?? null,
      gauge_off_at_10_psi: last?.gaugeOff?.at10 ?? null,
      gauge_off_at_15_psi: last?.gaugeOff?.at15 ?? null,
    })
    .where('household_id', '=', householdId)
    .where('id', '=', cannerId)
    .execute();
}

type Check = Pick<CannerRequest, 'gaugeCheckedOn' | 'gaugeOffAt5' | 'gaugeOffAt10' | 'gaugeOffAt15'>;

/**
 * A canner's gauge as it is saved under Settings, in the log: another day or other figures are another check, a day that was taken out
 * undoes the last. A check from before there was a log comes into it first, so that it can be gone back to.
 */
export async function logGaugeCheck(
  recorder: Recorder,
  cannerId: string,
  before: Check | null,
  now: Check,
): Promise<void> {
  const { trx, householdId, at, by } = recorder;
  if (before !== null && sameCheck(before, now)) return;
  const known = await trx
    .selectFrom('upkeep_event')
    .select('id')
    .where('household_id', '=', householdId)
    .where('kind', '=', 'gauge')
    .where('canner_id', '=', cannerId)
    .where('undone_at', 'is', null)
    .orderBy('recorded_at', 'desc')
    .orderBy('id', 'desc')
    .execute();
  const add = async (check: Check, recordedAt: number, recordedBy: string | null) => {
    if (check.gaugeCheckedOn === null) return;
    await trx
      .insertInto('upkeep_event')
      .values({
        household_id: householdId,
        id: randomUUID(),
        kind: 'gauge',
        canner_id: cannerId,
        task_id: null,
        done_on: check.gaugeCheckedOn,
        note: null,
        gauge_off_at_5_psi: check.gaugeOffAt5,
        gauge_off_at_10_psi: check.gaugeOffAt10,
        gauge_off_at_15_psi: check.gaugeOffAt15,
        recorded_by: recordedBy,
        recorded_at: recordedAt,
        undone_at: null,
      })
      .execute();
  };
  if (before !== null && known.length === 0) await add(before, Math.max(0, at - 1), null);
  if (now.gaugeCheckedOn !== null) return add(now, at, by);
  await trx
    .updateTable('upkeep_event')
    .set({ undone_at: at })
    .where('household_id', '=', householdId)
    .where('kind', '=', 'gauge')
    .where('canner_id', '=', cannerId)
    .where('undone_at', 'is', null)
    .execute();
}

const sameCheck = (one: Check, other: Check): boolean =>
  one.gaugeCheckedOn === other.gaugeCheckedOn &&
  one.gaugeOffAt5 === other.gaugeOffAt5 &&
  one.gaugeOffAt10 === other.gaugeOffAt10 &&
  one.gaugeOffAt15 === other.gaugeOffAt15;

/** Of a canner that is there, no task twice, and no more than a page has room for. */
export const upkeepTaskRules: Rules<UpkeepTaskRequest> = async (
  { trx, householdId },
  { cannerId = null, device, name },
) => {
  const [{ tasks }, canners] = await Promise.all([upkeepOf(trx, householdId), cannersOf(trx, householdId)]);
  const isTwice =
    name !== undefined &&
    tasks.some(
      (task) => task.name === name && task.cannerId === cannerId && (task.device ?? '') === (device ?? ''),
    );
  return problemsIn(
    tasks.length >= mostTasks
      ? refuse(
          'tasks-too-many',
          '',
          `${counted(mostTasks, 'task')} are the most you can have. Remove one you no longer do, then add this one.`,
        )
      : found(null),
    cannerId !== null && !canners.some(({ id }) => id === cannerId)
      ? refuse('canner-unknown', 'cannerId', 'Choose a canner of your kitchen, or another device.')
      : found(null),
    isTwice
      ? refuse('task-said', 'name', 'You do this already, of the same device. Change the words, or leave it.')
      : found(null),
  );
};

/** Something more that the household does to a device. */
export const addUpkeepTask = (recording: Recording, request: UpkeepTaskRequest): Promise<Outcome<true>> =>
  record(
    recording,
    'add upkeep task',
    request,
    async (recorder) => {
      const { trx, householdId } = recorder;
      const wrong = await upkeepTaskRules(recorder, request);
      if (wrong.length > 0) return refused(...wrong);
      const taken = await trx
        .selectFrom('upkeep_task')
        .select('id')
        .where('household_id', '=', householdId)
        .execute();
      await trx
        .insertInto('upkeep_task')
        .values({
          household_id: householdId,
          id: freshId(
            request.name,
            taken.map(({ id }) => id),
          ),
          canner_id: request.cannerId,
          device: request.cannerId === null ? request.device : null,
          name: request.name,
          every_months: request.everyMonths,
          retired_on: null,
        })
        .execute();
      return found(true);
    },
    'no facts',
  );

/** No longer done; what was written down of it stays in the file. */
export const endUpkeepTask = (recording: Recording, taskId: string): Promise<Outcome<true>> =>
  record(
    recording,
    'end upkeep task',
    { taskId },
    async ({ trx, householdId, today }) => {
      const { numUpdatedRows } = await trx
        .updateTable('upkeep_task')
        .set({ retired_on: today })
        .where('household_id', '=', householdId)
        .where('id', '=', taskId)
        .where('retired_on', 'is', null)
        .executeTakeFirstOrThrow();
      return numUpdatedRows === 0n
        ? refuse('task-unknown', '', 'That is no longer looked after here. Load the page again.')
        : found(true);
    },
    'no facts',
  );
