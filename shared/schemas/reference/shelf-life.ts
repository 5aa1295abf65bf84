import { z } from 'zod';
import { basis, numberCell, sourceKey, tableKey } from './cells.ts';

const keptForm = z.enum([
  'home-canned',
  'jam-jelly-home',
  'pickle',
  'commercial-canned',
  'dried',
  'frozen',
  'dry-staple',
  'fresh',
]);

/** How long an item keeps: days of best quality, or a keep-cold limit when `kind` is `safety`. */
export const shelfLifeRow = z
  .object({
    item_key: tableKey,
    item: z.string().min(1),
    form: keptForm,
    state: z.enum(['unopened', 'opened-refrigerated']),
    min_days: numberCell.refine((days) => days >= 1, 'Expected at least one day'),
    max_days: numberCell,
    kind: z.enum(['quality', 'safety']),
    temp_note: z.string(),
    source_id: sourceKey,
    source_locator: z.string().min(1),
    basis,
  })
  .refine((row) => row.min_days <= row.max_days, {
    message: 'Expected the shorter life first',
    path: ['max_days'],
  })
  .transform((row) => ({
    itemKey: row.item_key,
    item: row.item,
    form: row.form,
    state: row.state,
    minDays: row.min_days,
    maxDays: row.max_days,
    kind: row.kind,
    temperatureNote: row.temp_note,
    sourceId: row.source_id,
    locator: row.source_locator,
    basis: row.basis,
  }));
export type ShelfLifeRow = Readonly<z.output<typeof shelfLifeRow>>;
