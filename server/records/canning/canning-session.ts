import { dateWords } from '../../../shared/date-words.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { CanningSession, SessionSetting, SessionWork } from '../../../src/household/session.ts';
import type { SheetBasis } from '../../../src/preserving/afterwards/process-evidence.ts';
import { loadPlaceOf } from '../../../src/preserving/day/load-key.ts';
import type { LoadsOfDay } from '../../../src/preserving/day/loads-of-day.ts';
import { type ClockEvent, readClock } from '../../../src/preserving/day/process-clock.ts';
import { type SessionStep, stepsBlockingLoad } from '../../../src/preserving/sheet/session-step.ts';
import { batchResultsOf } from '../../queries/canning/batch-results.ts';
import { canningSessionOn, loadsOfDay, printedSheets } from '../../queries/canning/canning-sessions.ts';
import { type LoadAsked, loadRuling } from '../../year/preparations.ts';
import { nextSeq } from '../next-seq.ts';
import { type Recorder, type Recording, record, refuse } from '../record.ts';

interface DayToOpen {
  readonly on: CalendarDate;
  readonly setting: SessionSetting;
  readonly work: readonly SessionWork[];
}

/**
 * Begins a canning day: from now on a new plan does not change what is worked on. Begun already, only the setting is kept; a
 * printed schedule by which a clock has run stays.
 */
export const openSession = (
  recording: Recording,
  { on, setting, work }: DayToOpen,
): Promise<Outcome<{ readonly on: CalendarDate }>> =>
  record(
    recording,
    'open canning day',
    { on, setting, work },
    async ({ trx, householdId, at }) => {
      const earlier = await canningSessionOn(trx, householdId, on);
      const settled = earlier && settledRow(earlier, setting, await loadsOfDay(trx, householdId, on));
      if (settled)
        return refuse(
          'schedule-settled',
          'rows',
          'A clock has run by the schedule that was chosen, so the loads of today stay with it. Choose another one on the next canning day.',
        );
      if (work.length === 0)
        return refuse(
          'nothing-to-do',
          'on',
          `The plan has nothing to put up on ${dateWords(on)}. Choose another day.`,
        );
      await trx
        .insertInto('canning_session')
        .values({
          household_id: householdId,
          session_on: on,
          setting_json: JSON.stringify(setting),
          work_json: JSON.stringify(work),
          opened_at: at,
        })
        .onConflict((same) =>
          same.columns(['household_id', 'session_on']).doUpdateSet({ setting_json: JSON.stringify(setting) }),
        )
        .execute();
      return found({ on });
    },
    'no facts',
  );

/** A recipe whose chosen row would change although a clock has run by it. */
const settledRow = (
  { setting }: CanningSession,
  asked: SessionSetting,
  { clockByLoad }: LoadsOfDay,
): string | undefined =>
  [...clockByLoad.keys()]
    .flatMap((key) => loadPlaceOf(key)?.recipe ?? [])
    .find((recipe) => setting.rows[recipe] !== undefined && setting.rows[recipe] !== asked.rows[recipe]);

/** Takes a day back that was begun by mistake: only while no clock ran, no sheet was printed and nothing came out. */
export const withdrawSession = (
  recording: Recording,
  on: CalendarDate,
): Promise<Outcome<{ readonly on: CalendarDate }>> =>
  record(
    recording,
    'withdraw canning day',
    { on },
    async (recorder) => {
      const { trx, householdId } = recorder;
      const session = await begunSession(recorder, on);
      if (!session.ok) return session;
      const [clocks, sheets, results] = await Promise.all([
        loadsOfDay(trx, householdId, on),
        printedSheets(trx, householdId, on),
        batchResultsOf(trx, householdId, { sessionOn: on }),
      ]);
      if (clocks.clockByLoad.size + sheets.length + results.length > 0)
        return refuse(
          'day-has-happened',
          'on',
          `On ${dateWords(on)} a clock ran, a sheet was printed or something came out, so the day stays as it is.`,
        );
      await trx
        .deleteFrom('canning_session')
        .where('household_id', '=', householdId)
        .where('session_on', '=', on)
        .execute();
      return found({ on });
    },
    'no facts',
  );

/** A load of a day that was begun, with the checklist it follows. */
export interface LoadOfSession {
  readonly on: CalendarDate;
  readonly loadKey: string;
  readonly steps: readonly SessionStep[];
  /** What of its recipe was begun before; the load waits for it. */
  readonly preparationOf: LoadAsked['preparationOf'];
}

/** Ticks a step of a load's checklist, or takes the tick back. */
export const tickStep = (
  recording: Recording,
  { on, loadKey, steps, preparationOf }: LoadOfSession,
  ticked: { readonly step: string; readonly done: boolean },
): Promise<Outcome<{ readonly step: string }>> =>
  record(
    recording,
    'tick',
    { on, loadKey, ...ticked },
    async (recorder) => {
      const session = await begunSession(recorder, on);
      if (!session.ok) return session;
      const { step, done } = ticked;
      if (!steps.some(({ key }) => key === step))
        return refuse(
          'step-unknown',
          'step',
          `This load has no step “${step.slice(0, 40)}”. Load the page again.`,
        );
      if (done) {
        const { trx, householdId, at } = recorder;
        const ruling = await loadRuling(trx, householdId, { on, loadKey, preparationOf }, at);
        if (!ruling.ok) return ruling;
      }
      const place = { household_id: recorder.householdId, session_on: on, load_key: loadKey, step };
      if (done)
        await recorder.trx
          .insertInto('session_tick')
          .values({ ...place, ticked_at: recorder.at })
          .onConflict((same) => same.doNothing())
          .execute();
      else
        await recorder.trx
          .deleteFrom('session_tick')
          .where('household_id', '=', place.household_id)
          .where('session_on', '=', on)
          .where('load_key', '=', loadKey)
          .where('step', '=', step)
          .execute();
      return found({ step });
    },
    'no facts',
  );

/** The processing clock starts: never before what blocks the load is ticked, and not twice. */
export const startClock = (
  recording: Recording,
  { on, loadKey, steps, preparationOf }: LoadOfSession,
  minutes: number,
): Promise<Outcome<{ readonly startedAt: number }>> =>
  record(
    recording,
    'start clock',
    { on, loadKey },
    async (recorder) => {
      const session = await begunSession(recorder, on);
      if (!session.ok) return session;
      const loads = await loadsOfDay(recorder.trx, recorder.householdId, on);
      const ruling = await loadRuling(
        recorder.trx,
        recorder.householdId,
        { on, loadKey, preparationOf },
        recorder.at,
      );
      if (!ruling.ok) return ruling;
      const blocking = stepsBlockingLoad(steps, loads.tickedByLoad.get(loadKey) ?? new Set());
      const [first] = blocking;
      if (first)
        return refuse(
          'load-blocked',
          'clock',
          `Tick this before the clock may start: ${first.text} Then start it.`,
        );
      const clock = readClock(loads.clockByLoad.get(loadKey) ?? [], minutes, recorder);
      if (clock.state === 'running' || clock.state === 'done')
        return refuse(
          'clock-runs',
          'clock',
          `The clock of this load ${clock.state === 'done' ? 'has run its whole time' : 'runs already'}. Nothing is left to start.`,
        );
      await addClockEvent(recorder, on, loadKey, {
        kind: 'started',
        at: recorder.at,
        steady: recorder.steady,
      });
      return found({ startedAt: recorder.at });
    },
    'no facts',
  );

export type Interruption = Extract<ClockEvent, { kind: 'interrupted' }>['why'];

/** The boil stopped, the pressure fell or the power went: the clock goes back to zero and waits for a new start. */
export const interruptClock = (
  recording: Recording,
  { on, loadKey }: LoadOfSession,
  minutes: number,
  why: Interruption,
): Promise<Outcome<{ readonly interruptedAt: number }>> =>
  record(
    recording,
    'interrupt clock',
    { on, loadKey, why },
    async (recorder) => {
      const session = await begunSession(recorder, on);
      if (!session.ok) return session;
      const loads = await loadsOfDay(recorder.trx, recorder.householdId, on);
      const clock = readClock(loads.clockByLoad.get(loadKey) ?? [], minutes, recorder);
      if (clock.state !== 'running')
        return refuse(
          'clock-stands',
          'clock',
          clock.state === 'done'
            ? 'This load has run its whole time; nothing can interrupt it any more.'
            : 'The clock of this load does not run. Start it when the water boils or the pressure stands.',
        );
      await addClockEvent(recorder, on, loadKey, {
        kind: 'interrupted',
        why,
        at: recorder.at,
        steady: recorder.steady,
      });
      return found({ interruptedAt: recorder.at });
    },
    'no facts',
  );

/** Gives the next sheet its number and keeps what it rests on, so that it can be told void later. */
export const printSheet = (
  recording: Recording,
  on: CalendarDate,
  basis: readonly SheetBasis[],
): Promise<Outcome<{ readonly number: number }>> =>
  record(
    recording,
    'print sheet',
    { on, basis },
    async (recorder) => {
      const session = await begunSession(recorder, on);
      if (!session.ok) return session;
      if (basis.length === 0)
        return refuse(
          'no-schedule',
          'sheet',
          'No tested process is on this day, so there is nothing to print. Read why above.',
        );
      const [newest] = await printedSheets(recorder.trx, recorder.householdId, on);
      if (newest && JSON.stringify(newest.basis) === JSON.stringify(basis))
        return found({ number: newest.number });
      const { last } = await recorder.trx
        .selectFrom('printed_sheet')
        .select((row) => row.fn.coalesce(row.fn.max('number'), row.lit(0)).as('last'))
        .where('household_id', '=', recorder.householdId)
        .executeTakeFirstOrThrow();
      const number = Number(last) + 1;
      await recorder.trx
        .insertInto('printed_sheet')
        .values({
          household_id: recorder.householdId,
          number,
          session_on: on,
          basis_json: JSON.stringify(basis),
          printed_at: recorder.at,
        })
        .execute();
      return found({ number });
    },
    'no facts',
  );

async function begunSession(recorder: Recorder, on: CalendarDate): Promise<Outcome<CanningSession>> {
  const session = await canningSessionOn(recorder.trx, recorder.householdId, on);
  return session === null
    ? refuse('day-not-begun', 'on', `The canning day ${dateWords(on)} was not begun. Begin it first.`)
    : found(session);
}

const addClockEvent = (recorder: Recorder, on: CalendarDate, loadKey: string, event: ClockEvent) =>
  recorder.trx
    .insertInto('load_clock_event')
    .values({
      household_id: recorder.householdId,
      seq: nextSeq('load_clock_event', recorder.householdId),
      session_on: on,
      load_key: loadKey,
      kind: event.kind,
      why: event.kind === 'interrupted' ? event.why : null,
      at: event.at,
      steady_run: event.steady?.run ?? null,
      steady_ms: event.steady?.ms ?? null,
    })
    .execute();
