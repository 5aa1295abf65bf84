import type { HouseholdId } from '../../../shared/ids.ts';
import {
  type LabelGrid,
  usualLabelGrid,
  usualLabelGridInInches,
} from '../../../shared/schemas/shelf/label-grid.ts';
import type { Database } from '../../database/database.ts';
import { fittingRows } from '../household/fitting.ts';
import { householdById } from '../household/household.ts';

/** The sheet of labels the household prints on; until it has said, a common one of the paper its country prints on. */
export async function labelGrid(db: Database, householdId: HouseholdId): Promise<LabelGrid> {
  const row = await db
    .selectFrom('label_grid')
    .selectAll()
    .where('household_id', '=', householdId)
    .executeTakeFirst();
  if (!row || fittingRows('label_grid', [row]).length === 0) {
    const { units } = await householdById(db, householdId);
    return units === 'us' ? usualLabelGridInInches : usualLabelGrid;
  }
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
