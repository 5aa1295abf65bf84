import { z } from 'zod';
import { basis, numberCell, sourceKey, tableKey } from './cells.ts';

/** A figure of what a household is advised to keep for an emergency. */
export const emergencyAdviceRow = z
  .object({
    advice_key: tableKey,
    what: z.string().min(1),
    value: numberCell.refine((value) => value > 0, 'Expected a figure above 0'),
    unit: z.enum(['gallon', 'day', 'month']),
    source_id: sourceKey,
    locator: z.string().min(1),
    basis,
  })
  .transform((row) => ({
    key: row.advice_key,
    what: row.what,
    value: row.value,
    unit: row.unit,
    sourceId: row.source_id,
    locator: row.locator,
    basis: row.basis,
  }));
export type EmergencyAdviceRow = Readonly<z.output<typeof emergencyAdviceRow>>;
