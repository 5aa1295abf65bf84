import type { CannerId, HouseholdId } from '../../../shared/ids.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Upkeep } from '../../../src/preserving/upkeep.ts';
import type { Database } from '../../database/database.ts';
import { fittingRows } from './fitting.ts';

/** Tasks of the household's own and what was done, without what was undone. */
export async function upkeepOf(db: Database, householdId: HouseholdId): Promise<Upkeep> {
  const [tasks, done] = await Promise.all([
    db
      .selectFrom('upkeep_task')
      .selectAll()
      .where('household_id', '=', householdId)
      .where('retired_on', 'is', null)
      .orderBy('name')
      .orderBy('id')
      .execute(),
    db
      .selectFrom('upkeep_event')
      .selectAll()
      .where('household_id', '=', householdId)
      .where('undone_at', 'is', null)
      .orderBy('recorded_at')
      .orderBy('id')
      .execute(),
  ]);
  return {
    tasks: fittingRows('upkeep_task', tasks).map((row) => ({
      id: row.id,
      cannerId: row.canner_id as CannerId | null,
      device: row.device,
      name: row.name,
      everyMonths: row.every_months,
    })),
    done: fittingRows('upkeep_event', done).map((row) => ({
      id: row.id,
      kind: row.kind,
      cannerId: row.canner_id as CannerId | null,
      taskId: row.task_id,
      doneOn: row.done_on as CalendarDate,
      note: row.note,
      gaugeOff:
        row.gauge_off_at_5_psi === null ||
        row.gauge_off_at_10_psi === null ||
        row.gauge_off_at_15_psi === null
          ? null
          : { at5: row.gauge_off_at_5_psi, at10: row.gauge_off_at_10_psi, at15: row.gauge_off_at_15_psi },
      by: row.recorded_by,
    })),
  };
}
