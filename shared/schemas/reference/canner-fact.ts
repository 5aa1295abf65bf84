import { z } from 'zod';
import { basis, sourceKey, tableKey } from './cells.ts';

/** One stated fact about canners, jars, acid or yearly amounts; `value` is a number, a range or a sentence. */
export const cannerFactRow = z
  .object({
    key: tableKey.or(z.string().regex(/^[a-zA-Z0-9._-]+$/)),
    value: z.string().min(1),
    unit: z.string().min(1),
    source_id: sourceKey,
    source_locator: z.string().min(1),
    basis,
  })
  .transform((row) => ({
    key: row.key,
    value: row.value,
    unit: row.unit,
    sourceId: row.source_id,
    locator: row.source_locator,
    basis: row.basis,
  }));
export type CannerFactRow = Readonly<z.output<typeof cannerFactRow>>;
