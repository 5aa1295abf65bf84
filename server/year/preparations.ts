import type { HouseholdId } from '../../shared/ids.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { Preparations, RecipeBatches } from '../../src/household/begun.ts';
import type { Recipe } from '../../src/household/recipe.ts';
import { loadPlaceOf } from '../../src/preserving/day/load-key.ts';
import type { Ruling } from '../../src/preserving/refusal.ts';
import {
  batchRuling,
  type Preparation,
  stillStanding,
} from '../../src/preserving/stages/prepared-batches.ts';
import { localDateTime, type ReadyForCanner } from '../../src/preserving/stages/stages-done.ts';
import type { Database } from '../database/database.ts';
import { batchesFilled, batchesWithStages, potKeyOf, potsBegunOn } from '../queries/canning/stages.ts';
import { stagesHere } from './recipe-stages.ts';

export async function preparations(db: Database, householdId: HouseholdId): Promise<Preparations> {
  const [batches, filled] = await Promise.all([
    batchesWithStages(db, householdId),
    batchesFilled(db, householdId),
  ]);
  return { batches, filled };
}

/** Batches of a recipe that were begun and neither filled nor thrown away; of those filled on `apartFrom` none is taken off. */
export const standingBatches = (
  { batches, filled }: Preparations,
  recipeId: string,
  apartFrom: CalendarDate | null = null,
): readonly RecipeBatches[] => {
  const own = batches.filter((batch) => batch.recipeId === recipeId && !batch.isThrownAway);
  const left = stillStanding(
    own,
    filled.filter((one) => one.recipeId === recipeId && one.on !== apartFrom),
  );
  return left.flatMap(({ id, batches: count }) => {
    const known = own.find((one) => one.id === id);
    return known === undefined ? [] : [{ ...known, batches: count }];
  });
};

/** How a recipe's batches stand for a canning day. */
export const preparationFor = (
  recipe: Pick<Recipe, 'id' | 'basedOn' | 'process'>,
  on: CalendarDate,
  known: Preparations,
  reference: ReferenceTables,
  timeZone: string,
): Preparation => ({
  stages: stagesHere(recipe, reference),
  prepared: standingBatches(known, recipe.id, on),
  timeZone,
});

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
  const [known, pots] = await Promise.all([preparations(db, householdId), potsBegunOn(db, householdId, on)]);
  const place = loadPlaceOf(loadKey);
  const preparation = preparationOf(known);
  const begunAt = place === null ? at : (pots.get(potKeyOf(place)) ?? at);
  return batchRuling(preparation, place?.pot ?? 1, localDateTime(begunAt, preparation.timeZone));
}

export interface LoadAsked {
  readonly on: CalendarDate;
  readonly loadKey: string;
  readonly preparationOf: (known: Preparations) => Preparation;
}
