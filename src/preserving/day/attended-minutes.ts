import type { CannerFactRow } from '../../../shared/schemas/reference/canner-fact.ts';
import { factRange } from '../citation.ts';
import type { ProcessMethod } from '../lookup/schedule.ts';

/** Lifting jars in and out of a hot canner; common practice, no source. */
const handlingMinutes = 10;

/**
 * Minutes of one load in which somebody must stand at the stove and do nothing else: lifting jars in and out, and in a
 * pressure canner the venting and the rise to pressure (USDA Complete Guide 1, p1-20 and p1-22, high ends). While a load
 * boils or holds its pressure other kitchen work goes on within sight of it.
 */
export const attendedMinutes = (method: ProcessMethod, facts: readonly CannerFactRow[]): number =>
  method === 'pressure'
    ? handlingMinutes + factRange(facts, 'pc.vent').high + factRange(facts, 'pc.pressurize').high
    : handlingMinutes;
