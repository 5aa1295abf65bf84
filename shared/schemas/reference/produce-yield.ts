import { z } from 'zod';
import { basis, optionalNumberCell, optionalRangeCell, sourceKey, tableKey } from './cells.ts';

/** Produce needed per quart and per canner load, and what a bushel, crate or lug gives. */
export const produceYieldRow = z
  .object({
    food_key: tableKey,
    food: z.string().min(1),
    form: z.string().min(1),
    quantity: optionalNumberCell,
    unit: z.string().transform((text) => (text === '' ? null : text)),
    unit_weight_lb: optionalNumberCell,
    avg_lb_per_quart: optionalRangeCell,
    lb_per_canner_load_7qt: optionalRangeCell,
    lb_per_canner_load_9pt: optionalRangeCell,
    yield_low_qt: optionalNumberCell,
    yield_high_qt: optionalNumberCell,
    source_id: sourceKey,
    source_locator: z.string().min(1),
    basis,
  })
  .refine(
    (row) => row.yield_low_qt === null || row.yield_high_qt === null || row.yield_low_qt <= row.yield_high_qt,
    { message: 'Expected the low yield not above the high yield', path: ['yield_high_qt'] },
  )
  .transform((row) => ({
    foodKey: row.food_key,
    food: row.food,
    form: row.form,
    quantity: row.quantity,
    unit: row.unit,
    unitWeightLb: row.unit_weight_lb,
    lbPerQuart: row.avg_lb_per_quart,
    lbPerSevenQuartLoad: row.lb_per_canner_load_7qt,
    lbPerNinePintLoad: row.lb_per_canner_load_9pt,
    yieldLowQuarts: row.yield_low_qt,
    yieldHighQuarts: row.yield_high_qt,
    sourceId: row.source_id,
    locator: row.source_locator,
    basis: row.basis,
  }));
export type ProduceYieldRow = Readonly<z.output<typeof produceYieldRow>>;
