import { z } from 'zod';
import { basis, numberCell, sourceKey, tableKey } from './cells.ts';

export const hardinesses = ['hardy', 'semi-hardy', 'tender', 'very-tender'] as const;
/** When a vegetable is planted against the last freeze of spring. */
export type Hardiness = (typeof hardinesses)[number];

/** How long a vegetable takes from planting to its first harvest. */
export const daysToHarvestRow = z
  .object({
    crop_key: tableKey,
    hardiness: z.enum(hardinesses),
    days_low: numberCell,
    days_high: numberCell,
    source_id: sourceKey,
    source_locator: z.string().min(1),
    basis,
  })
  .refine((row) => row.days_low <= row.days_high, {
    message: 'Expected the fewer days first',
    path: ['days_high'],
  })
  .transform((row) => ({
    cropKey: row.crop_key,
    hardiness: row.hardiness,
    daysLow: row.days_low,
    daysHigh: row.days_high,
    sourceId: row.source_id,
    locator: row.source_locator,
    basis: row.basis,
  }));
export type DaysToHarvestRow = Readonly<z.output<typeof daysToHarvestRow>>;
