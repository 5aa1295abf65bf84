import { oneOrMore } from '../../../shared/counting.ts';
import type { PlaceId } from '../../../shared/ids.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import type { PlaceRequest } from '../../../shared/schemas/kitchen.ts';
import { placesOf } from '../../queries/household/kitchen.ts';
import { lotsOf } from '../../queries/shelf/shelf.ts';
import { freshId } from '../fresh-id.ts';
import { type Recorder, type Recording, record, refuse } from '../record.ts';

/** Adds a place where jars stand, or changes one. */
export const savePlace = (
  recording: Recording,
  request: PlaceRequest,
): Promise<Outcome<{ readonly placeId: PlaceId }>> =>
  record(recording, 'save place', request, async (recorder) => {
    const { trx, householdId } = recorder;
    const places = await placesOf(trx, householdId);
    if (request.placeId !== null && !places.some(({ id }) => id === request.placeId)) return unknown();
    const same = places.find(
      ({ id, name }) => id !== request.placeId && name.toLowerCase() === request.name.toLowerCase(),
    );
    if (same)
      return refuse(
        'name-taken',
        'name',
        `There is a place called ${same.name} already. Choose another name.`,
      );
    const id =
      request.placeId ??
      (freshId(
        request.name,
        places.map((place) => place.id),
      ) as PlaceId);
    const said = { name: request.name, kind: request.kind, capacity_quarts: request.capacityQuarts };
    await trx
      .insertInto('place')
      .values({ household_id: householdId, id, ...said })
      .onConflict((same) => same.columns(['household_id', 'id']).doUpdateSet(said))
      .execute();
    return found({ placeId: id });
  });

/** A place that is no longer there. What stands in it has to be eaten or moved first; emptied batches forget it. */
export const removePlace = (
  recording: Recording,
  placeId: string,
): Promise<Outcome<{ readonly placeId: string }>> =>
  record(recording, 'remove place', { placeId }, async (recorder) => {
    const { trx, householdId } = recorder;
    const place = (await placesOf(trx, householdId)).find(({ id }) => id === placeId);
    if (!place) return unknown();
    const standing = await standingIn(recorder, placeId);
    if (standing > 0)
      return refuse(
        'place-in-use',
        'placeId',
        `${place.name} is not empty: ${oneOrMore(standing, 'batch is', 'batches are')} in it. Rename it, or remove it when they are eaten.`,
      );
    await trx
      .updateTable('lot')
      .set({ place_id: null })
      .where('household_id', '=', householdId)
      .where('place_id', '=', placeId)
      .execute();
    await trx.deleteFrom('place').where('household_id', '=', householdId).where('id', '=', placeId).execute();
    return found({ placeId });
  });

const standingIn = async ({ trx, householdId }: Recorder, placeId: string): Promise<number> =>
  (await lotsOf(trx, householdId)).filter((lot) => lot.place?.id === placeId && lot.unitsLeft > 0).length;

const unknown = () => refuse('place-unknown', 'placeId', 'Choose a place from the list.');
