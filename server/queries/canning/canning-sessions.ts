import { groupedBy } from '../../../shared/grouped-by.ts';
import type { HouseholdId } from '../../../shared/ids.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { CanningSession, SessionSetting, SessionWork } from '../../../src/household/session.ts';
import type { SheetBasis } from '../../../src/preserving/afterwards/process-evidence.ts';
import type { LoadsOfDay } from '../../../src/preserving/day/loads-of-day.ts';
import type { ClockEvent } from '../../../src/preserving/day/process-clock.ts';
import type { Database } from '../../database/database.ts';
import type { CanningSessionTable } from '../../database/tables.ts';
import { fittingRows } from '../household/fitting.ts';
import type { Row } from '../row.ts';

const fromRow = (row: Row<CanningSessionTable>): CanningSession => ({
  on: row.session_on as CalendarDate,
  setting: JSON.parse(row.setting_json) as SessionSetting,
  work: JSON.parse(row.work_json) as readonly SessionWork[],
  openedAt: row.opened_at,
});

/** Canning days that were begun, oldest first; of the days named, both included, or of all. */
export async function canningSessionsOf(
  db: Database,
  householdId: HouseholdId,
  span?: { readonly from: CalendarDate; readonly to: CalendarDate },
): Promise<readonly CanningSession[]> {
  let query = db
    .selectFrom('canning_session')
    .selectAll()
    .where('household_id', '=', householdId)
    .orderBy('session_on');
  if (span) query = query.where('session_on', '>=', span.from).where('session_on', '<=', span.to);
  return fittingRows('canning_session', await query.execute()).map(fromRow);
}

export async function canningSessionOn(
  db: Database,
  householdId: HouseholdId,
  on: CalendarDate,
): Promise<CanningSession | null> {
  const [session] = await canningSessionsOf(db, householdId, { from: on, to: on });
  return session ?? null;
}

export async function loadsOfDay(
  db: Database,
  householdId: HouseholdId,
  on: CalendarDate,
): Promise<LoadsOfDay> {
  const [ticks, clock] = await Promise.all([
    db
      .selectFrom('session_tick')
      .select(['load_key', 'step'])
      .where('household_id', '=', householdId)
      .where('session_on', '=', on)
      .execute(),
    db
      .selectFrom('load_clock_event')
      .select(['load_key', 'kind', 'why', 'at', 'steady_run', 'steady_ms'])
      .where('household_id', '=', householdId)
      .where('session_on', '=', on)
      .orderBy('seq')
      .execute(),
  ]);
  const ticksByLoad = groupedBy(ticks, (row) => row.load_key);
  const eventsByLoad = groupedBy(clock, (row) => row.load_key);
  return {
    tickedByLoad: new Map(
      [...ticksByLoad].map(([load, rows]) => [load, new Set(rows.map(({ step }) => step))]),
    ),
    clockByLoad: new Map(
      [...eventsByLoad].map(([load, rows]) => [
        load,
        rows.map(({ kind, why, at, steady_run: run, steady_ms: ms }): ClockEvent => {
          const instant = { at, steady: run === null || ms === null ? null : { run, ms } };
          return kind === 'interrupted' && why !== null
            ? { kind: 'interrupted', why, ...instant }
            : { kind: 'started', ...instant };
        }),
      ]),
    ),
  };
}

/** A sheet that was printed, and what it rested on. */
export interface PrintedSheet {
  readonly number: number;
  readonly on: CalendarDate;
  readonly basis: readonly SheetBasis[];
  readonly printedAt: number;
}

/** Sheets of a day, the newest first. */
export async function printedSheets(
  db: Database,
  householdId: HouseholdId,
  on: CalendarDate,
): Promise<readonly PrintedSheet[]> {
  const rows = await db
    .selectFrom('printed_sheet')
    .selectAll()
    .where('household_id', '=', householdId)
    .where('session_on', '=', on)
    .orderBy('number', 'desc')
    .execute();
  return fittingRows('printed_sheet', rows).map((row) => ({
    number: row.number,
    on: row.session_on as CalendarDate,
    basis: JSON.parse(row.basis_json) as readonly SheetBasis[],
    printedAt: row.printed_at,
  }));
}
