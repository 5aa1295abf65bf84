import type { HouseholdId } from '../../shared/ids.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { Preparations } from '../../src/household/begun.ts';
import { loadPlaceOf } from '../../src/preserving/day/load-key.ts';
import type { Ruling } from '../../src/preserving/refusal.ts';
import { batchRuling, type Preparation } from '../../src/preserving/stages/prepared-batches.ts';
import { localDateTime, type ReadyForCanner } from '../../src/preserving/stages/stages-done.ts';
import type { Database } from '../database/database.ts';
import { batchesFilled, batchesWithStages, potKeyOf, potsBegunOn } from '../queries/canning/stages.ts';

export async function preparationsOf(db: Database, householdId: HouseholdId): Promise<Preparations> {
  const [batches, filled] = await Promise.all([
    batchesWithStages(db, householdId),
    batchesFilled(db, householdId),
  ]);
  return { batches, filled };
}

/**
 * Whether a load of a day may be begun, or gone on with: its pot's stages must have been done when work on the pot
 * began, which is now where it has not.
 */
export async function loadRuling(
  db: Database,
  householdId: HouseholdId,
  { on, loadKey, preparationOf }: LoadAsked,
  at: number,
): Promise<Ruling<ReadyForCanner>> {
  const [preparations, pots] = await Promise.all([
    preparationsOf(db, householdId),
    potsBegunOn(db, householdId, on),
  ]);
  const place = loadPlaceOf(loadKey);
  const preparation = preparationOf(preparations);
  const begunAt = place === null ? at : (pots.get(potKeyOf(place)) ?? at);
  return batchRuling(preparation, place?.pot ?? 1, localDateTime(begunAt, preparation.timeZone));
}

export interface LoadAsked {
  readonly on: CalendarDate;
  readonly loadKey: string;
  readonly preparationOf: (known: Preparations) => Preparation;
}
