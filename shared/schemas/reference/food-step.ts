import { z } from 'zod';
import { basis, numberCell, sourceKey, tableKey } from './cells.ts';
import { pack } from './process-time.ts';

/** What is done with the food itself before the jar is closed, `stage` for what takes hours or days. */
const foodStepKind = z.enum([
  'prepare',
  'stage',
  'boil',
  'strain',
  'test',
  'skim',
  'salt',
  'fill',
  'liquid',
  'cure',
]);

/** One step of a food's own page. */
export const foodStepRow = z
  .object({
    food_key: tableKey,
    style: z.string().transform((text) => (text === '' ? null : text)),
    pack,
    position: numberCell,
    kind: foodStepKind,
    what: z.string().min(1),
    source_id: sourceKey,
    source_locator: z.string().min(1),
    basis,
  })
  .transform((row) => ({
    foodKey: row.food_key,
    style: row.style,
    pack: row.pack,
    position: row.position,
    kind: row.kind,
    what: row.what,
    sourceId: row.source_id,
    locator: row.source_locator,
    basis: row.basis,
  }));
export type FoodStepRow = Readonly<z.output<typeof foodStepRow>>;
