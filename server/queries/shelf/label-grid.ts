import type { HouseholdId } from '../../../shared/ids.ts';
import { type LabelGrid, usualLabelGrid } from '../../../shared/schemas/shelf/label-grid.ts';
import type { Database } from '../../database/database.ts';

/** The sheet of labels the household prints on; a common one until it has said. */
export async function labelGrid(db: Database, householdId: HouseholdId): Promise<LabelGrid> {
  const row = await db
    .selectFrom('label_grid')
    .selectAll()
    .where('household_id', '=', householdId)
    .executeTakeFirst();
  if (!row) return usualLabelGrid;
  return {
    paper: row.paper,
    columns: row.columns,
    rows: row.rows,
    widthMm: row.width_mm,
    heightMm: row.height_mm,
    leftMm: row.left_mm,
    topMm: row.top_mm,
    acrossMm: row.across_mm,
    downMm: row.down_mm,
    address: row.address,
  };
}
