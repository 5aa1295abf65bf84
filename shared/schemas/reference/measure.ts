import { z } from 'zod';
import { basis, numberCell, sourceKey } from './cells.ts';

/** One conversion. A unit may carry a commodity after a colon: `cup:salsa`, `bushel:apples`. */
export const measureRow = z
  .object({
    from_qty: numberCell,
    from_unit: z.string().min(1),
    to_qty: numberCell.refine((quantity) => quantity > 0, 'Expected an amount above 0'),
    to_unit: z.string().min(1),
    exactness: z.enum(['exact', 'approx']),
    source_id: sourceKey,
    basis,
  })
  .transform((row) => ({
    fromQuantity: row.from_qty,
    fromUnit: row.from_unit,
    toQuantity: row.to_qty,
    toUnit: row.to_unit,
    exactness: row.exactness,
    sourceId: row.source_id,
    basis: row.basis,
  }));
export type MeasureRow = Readonly<z.output<typeof measureRow>>;
