import { z } from 'zod';
import { jarSize } from '../../jar.ts';
import { basis, rangeCell, sourceKey, tableKey } from './cells.ts';

/** One ingredient of one tested batch; the yield is repeated on each line of the batch. */
export const batchQuantityRow = z
  .object({
    product_key: tableKey,
    product: z.string().min(1),
    pectin: z.enum(['none', 'liquid', 'powder']),
    ingredient: z.string().min(1),
    quantity: rangeCell,
    unit: z.enum(['lb', 'oz', 'cup', 'tbsp', 'tsp', 'qt', 'pint', 'each', 'package', 'pouch']),
    yield_jars: rangeCell,
    yield_jar_size: jarSize,
    source_id: sourceKey,
    source_locator: z.string().min(1),
    basis,
  })
  .transform((row) => ({
    productKey: row.product_key,
    product: row.product,
    pectin: row.pectin,
    ingredient: row.ingredient,
    quantity: row.quantity,
    unit: row.unit,
    yieldJars: row.yield_jars,
    yieldJar: row.yield_jar_size,
    sourceId: row.source_id,
    locator: row.source_locator,
    basis: row.basis,
  }));
export type BatchQuantityRow = Readonly<z.output<typeof batchQuantityRow>>;
