import { oneOrMore } from '../../../shared/counting.ts';
import type { PlaceId } from '../../../shared/ids.ts';
import { found, type Outcome, refused } from '../../../shared/problems.ts';
import type { PlaceRequest } from '../../../shared/schemas/kitchen.ts';
import { placesOf } from '../../queries/household/kitchen.ts';
import { lotsOf } from '../../queries/shelf/shelf.ts';
import { freshId } from '../fresh-id.ts';
import { problem, type Recorder, type Recording, type Rules, record, refuse } from '../record.ts';

/** Two places of one name could not be told apart. */
export const placeRules: Rules<PlaceRequest> = async ({ trx, householdId }, { placeId = null, name }) => {
  const same = (await placesOf(trx, householdId)).find(
    (place) => place.id !== placeId && place.name.toLowerCase() === name?.toLowerCase(),
  );
  return same === undefined
    ? []
    : [problem('name-taken', 'name', `You already have a place called ${same.name}. Choose another name.`)];
};

/** Adds a place where jars stand, or changes one. */
export const savePlace = (
  recording: Recording,
  request: PlaceRequest,
): Promise<Outcome<{ readonly placeId: PlaceId }>> =>
  record(recording, 'save place', request, async (recorder) => {
    const { trx, householdId } = recorder;
    const places = await placesOf(trx, householdId);
    if (request.placeId !== null && !places.some(({ id }) => id === request.placeId)) return unknown();
    const wrong = await placeRules(recorder, request);
    if (wrong.length > 0) return refused(...wrong);
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
