import { groupedBy } from '../../../shared/grouped-by.ts';
import type { HouseholdId, LotId, RecipeId } from '../../../shared/ids.ts';
import type { JarKind } from '../../../shared/jar.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { BatchResult, ResultLot } from '../../../src/household/batch-result.ts';
import type { Database } from '../../database/database.ts';
import { fitting } from '../household/fitting.ts';

/** Days on which something was made, or the one canning day on which it was written down. */
type ResultsAsked =
  | { readonly from: CalendarDate; readonly to: CalendarDate }
  | { readonly sessionOn: CalendarDate };

/** Results written down and not undone since, oldest first. */
export async function batchResultsOf(
  db: Database,
  householdId: HouseholdId,
  asked?: ResultsAsked,
): Promise<readonly BatchResult[]> {
  let query = db
    .selectFrom('batch_result')
    .selectAll()
    .where('household_id', '=', householdId)
    .orderBy('processed_at')
    .orderBy('id');
  if (asked !== undefined && 'from' in asked)
    query = query.where('made_on', '>=', asked.from).where('made_on', '<=', asked.to);
  else if (asked !== undefined)
    query = query.where((row) => row.eb(row.fn.coalesce('session_on', 'made_on'), '=', asked.sessionOn));
  const rows = await query.execute();
  if (rows.length === 0) return [];
  const lots = await resultLots(
    db,
    householdId,
    rows.map((row) => row.id),
  );
  return rows
    .map((row) => ({
      id: row.id,
      recipeId: row.recipe_id as RecipeId,
      madeOn: row.made_on as CalendarDate,
      sessionOn: (row.session_on ?? row.made_on) as CalendarDate,
      batches: row.batches,
      jars: row.jars,
      minutesTaken: row.minutes_taken,
      processedAt: row.processed_at,
      note: row.note,
      lots: lots.get(row.id) ?? [],
    }))
    .filter((result) => result.lots.length > 0);
}

/** Lots of results whose putting up still stands. */
async function resultLots(
  db: Database,
  householdId: HouseholdId,
  resultIds: readonly string[],
): Promise<ReadonlyMap<string, readonly ResultLot[]>> {
  const rows = await db
    .selectFrom('batch_result_lot as result')
    .innerJoin('lot', (join) =>
      join.onRef('lot.household_id', '=', 'result.household_id').onRef('lot.id', '=', 'result.lot_id'),
    )
    .innerJoin('jar_event as made', (join) =>
      join
        .onRef('made.household_id', '=', 'lot.household_id')
        .onRef('made.lot_id', '=', 'lot.id')
        .on('made.kind', '=', 'put up'),
    )
    .leftJoin('jar_event as reversal', (join) =>
      join
        .onRef('reversal.household_id', '=', 'made.household_id')
        .onRef('reversal.reverses_seq', '=', 'made.seq'),
    )
    .leftJoin('processing_evidence as evidence', (join) =>
      join.onRef('evidence.household_id', '=', 'lot.household_id').onRef('evidence.lot_id', '=', 'lot.id'),
    )
    .leftJoin('seal_check as check', (join) =>
      join.onRef('check.household_id', '=', 'lot.household_id').onRef('check.lot_id', '=', 'lot.id'),
    )
    .where('result.household_id', '=', householdId)
    .where('result.result_id', 'in', [...resultIds])
    .where('reversal.seq', 'is', null)
    .orderBy('lot.id')
    .select([
      'result.result_id',
      'lot.id',
      'lot.batch_code',
      'lot.jar_kind',
      'made.units',
      'lot.ready_from',
      'lot.best_quality_until',
      'evidence.lot_id as evidence_of',
      'check.checked_at',
      'check.failed',
      'check.choice',
    ])
    .execute();
  const byResult = groupedBy(rows, (row) => row.result_id);
  return new Map(
    [...byResult].map(([result, own]) => [
      result,
      own.map((row) => ({
        lotId: row.id as LotId,
        batchCode: row.batch_code,
        jarKind: fitting('lot', 'jar_kind', row.jar_kind, null) as JarKind | null,
        units: row.units,
        readyFrom: row.ready_from as CalendarDate,
        bestQualityUntil: row.best_quality_until as CalendarDate,
        isProcessed: row.evidence_of !== null,
        sealCheck:
          row.checked_at === null
            ? null
            : { at: row.checked_at, failed: row.failed ?? 0, choice: row.choice },
      })),
    ]),
  );
}

/** Who watched the canner of the newest of some lots; empty where nobody did. */
export async function lastWatcher(
  db: Database,
  householdId: HouseholdId,
  lotIds: readonly LotId[],
): Promise<string> {
  const row = await db
    .selectFrom('processing_evidence')
    .select('done_by')
    .where('household_id', '=', householdId)
    .where('lot_id', 'in', [...lotIds])
    .orderBy('lot_id', 'desc')
    .limit(1)
    .executeTakeFirst();
  return row?.done_by ?? '';
}
