import type { CannerId, HouseholdId, LotId } from '../../../shared/ids.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Database } from '../../database/database.ts';

/** How a lot was processed, as it was written down. */
export interface LotEvidence {
  readonly lotId: LotId;
  readonly processedOn: CalendarDate;
  readonly cannerId: CannerId;
  readonly cannerName: string;
  readonly method: string;
  readonly gauge: string | null;
  /** Key of the published row that was followed. */
  readonly scheduleRow: string;
  readonly altitudeFt: number;
  readonly psi: number | null;
  readonly minutesRun: number;
  /** Null where no acid is asked for. */
  readonly acidTicked: boolean | null;
  readonly doneBy: string;
}

/** Evidence of every lot that was processed, oldest first; of one lot when it is named. */
export async function lotEvidence(
  db: Database,
  householdId: HouseholdId,
  lotId?: string,
): Promise<readonly LotEvidence[]> {
  let query = db
    .selectFrom('processing_evidence as evidence')
    .innerJoin('lot', (join) =>
      join.onRef('lot.household_id', '=', 'evidence.household_id').onRef('lot.id', '=', 'evidence.lot_id'),
    )
    .innerJoin('canner', (join) =>
      join
        .onRef('canner.household_id', '=', 'evidence.household_id')
        .onRef('canner.id', '=', 'evidence.canner_id'),
    )
    .where('evidence.household_id', '=', householdId)
    .orderBy('lot.made_on')
    .orderBy('lot.id')
    .select([
      'evidence.lot_id',
      'lot.made_on',
      'evidence.canner_id',
      'canner.name',
      'evidence.method',
      'evidence.gauge',
      'evidence.schedule_row',
      'evidence.altitude_ft',
      'evidence.psi',
      'evidence.minutes_run',
      'evidence.acid_ticked',
      'evidence.done_by',
    ]);
  if (lotId !== undefined) query = query.where('evidence.lot_id', '=', lotId);
  const rows = await query.execute();
  return rows.map((row) => ({
    lotId: row.lot_id as LotId,
    processedOn: row.made_on as CalendarDate,
    cannerId: row.canner_id as CannerId,
    cannerName: row.name,
    method: row.method,
    gauge: row.gauge,
    scheduleRow: row.schedule_row,
    altitudeFt: row.altitude_ft,
    psi: row.psi,
    minutesRun: row.minutes_run,
    acidTicked: row.acid_ticked === null ? null : row.acid_ticked === 1,
    doneBy: row.done_by,
  }));
}
