import { z } from 'zod';
import { basis, monthDay, numberCell, optionalMonthDay, sourceKey, tableKey } from './cells.ts';

/** When a crop can be had in a region. An end before the begin wraps the year end. */
export const harvestWindowRow = z
  .object({
    crop_key: tableKey,
    crop: z.string().min(1),
    region: z.string().regex(/^[A-Z]{2}(-[A-Za-z]+)?$/, 'Expected a region like MI or PA-regional'),
    begin_doy: numberCell.refine((day) => day >= 1 && day <= 365, 'Expected a day of the year from 1 to 365'),
    begin_date: monthDay,
    most_active_begin: optionalMonthDay,
    most_active_end: optionalMonthDay,
    end_date: monthDay,
    precision: z.enum(['day', 'week', 'third-of-month', 'month']),
    source_id: sourceKey,
    source_locator: z.string().min(1),
    basis,
  })
  .refine((row) => (row.most_active_begin === null) === (row.most_active_end === null), {
    message: 'Expected both most active dates or neither',
    path: ['most_active_end'],
  })
  .transform((row) => ({
    cropKey: row.crop_key,
    crop: row.crop,
    region: row.region,
    beginDayOfYear: row.begin_doy,
    beginsOn: row.begin_date,
    mostActiveFrom: row.most_active_begin,
    mostActiveTo: row.most_active_end,
    endsOn: row.end_date,
    precision: row.precision,
    sourceId: row.source_id,
    locator: row.source_locator,
    basis: row.basis,
  }));
export type HarvestWindowRow = Readonly<z.output<typeof harvestWindowRow>>;
