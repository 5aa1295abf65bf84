import { found, type Outcome } from '../../../shared/problems.ts';
import type { LabelGrid } from '../../../shared/schemas/shelf/label-grid.ts';
import { type Recording, record } from '../record.ts';

/** Says what sheet of labels the household prints on. */
export const setLabelGrid = (recording: Recording, grid: LabelGrid): Promise<Outcome<true>> =>
  record(
    recording,
    'set label grid',
    grid,
    async ({ trx, householdId }) => {
      const said = {
        paper: grid.paper,
        columns: grid.columns,
        rows: grid.rows,
        width_mm: grid.widthMm,
        height_mm: grid.heightMm,
        left_mm: grid.leftMm,
        top_mm: grid.topMm,
        across_mm: grid.acrossMm,
        down_mm: grid.downMm,
        address: grid.address.replace(/\/+$/, ''),
      };
      await trx
        .insertInto('label_grid')
        .values({ household_id: householdId, ...said })
        .onConflict((same) => same.column('household_id').doUpdateSet(said))
        .execute();
      return found(true);
    },
    'no facts',
  );
