import { entry } from '../../lookup.ts';
import type { BegunBatches } from '../../planning-year.ts';
import type { Draft } from '../draft.ts';
import { terms } from '../terms.ts';

/** Batches begun already and the column that counts how many of them find no canner load in time. */
export interface BegunLoads {
  readonly begun: BegunBatches;
  readonly missing: number;
}

/**
 * What is begun is put up: each of these batches has its load in one of the weeks in which its stages allow it.
 *
 * `sum over weeks of batches[r,w] + begun_missing[batch] = batches begun`; one that hard facts forbid carries a price
 * instead of making the year impossible, as a pin does.
 */
export function begunBatches({ sets, columns, writer }: Draft): BegunLoads[] {
  return sets.recipes.flatMap(({ begun }, at): BegunLoads[] => {
    if (begun === undefined) return [];
    const missing = writer.column(`begun_missing[${begun.id}]`, { lower: 0, upper: begun.batches });
    const loads = terms(entry(columns.batches, at, 'batches'), 1);
    writer.row(`begun_batches[${begun.id}]`, begun.batches, [[missing, 1], ...loads], begun.batches);
    return [{ begun, missing }];
  });
}
