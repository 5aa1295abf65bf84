import { z } from 'zod';
import { basis, numberCell, sourceKey, tableKey } from './cells.ts';

/** The amount customarily eaten at one time. */
export const servingRow = z
  .object({
    item_key: tableKey,
    item: z.string().min(1),
    serving_qty: numberCell.refine((quantity) => quantity > 0, 'Expected an amount above 0'),
    serving_unit: z.enum(['tbsp', 'g', 'cup']),
    source_id: sourceKey,
    locator: z.string().min(1),
    basis,
  })
  .transform((row) => ({
    itemKey: row.item_key,
    item: row.item,
    quantity: row.serving_qty,
    unit: row.serving_unit,
    sourceId: row.source_id,
    locator: row.locator,
    basis: row.basis,
  }));
