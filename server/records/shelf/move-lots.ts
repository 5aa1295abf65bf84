import type { LotId, PlaceId } from '../../../shared/ids.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import type { Move } from '../../../shared/schemas/shelf/move.ts';
import type { Place } from '../../../src/household/kitchen.ts';
import type { LotOnShelf } from '../../../src/household/lot.ts';
import { itemById } from '../../queries/household/items.ts';
import { placesOf } from '../../queries/household/kitchen.ts';
import { lotsOf } from '../../queries/shelf/shelf.ts';
import { type Recorder, type Recording, record, refuse } from '../record.ts';
import { addJarEvents, newEntryId } from './jar-events.ts';
import { knownPlace } from './new-lot.ts';

export interface Moved {
  readonly lotIds: readonly LotId[];
  readonly place: Place;
}

/**
 * Batches are carried to another place, whole. No unit leaves the shelf; each batch has an entry of its own, so that each
 * move can be undone alone. Batches that stand there already are left out.
 */
export const moveLots = (recording: Recording, request: Move): Promise<Outcome<Moved>> =>
  record(recording, 'move lots', request, async (recorder) => {
    const { trx, householdId } = recorder;
    const known = await knownPlace(recorder, request.placeId);
    if (!known.ok) return known;
    const place = (await placesOf(trx, householdId)).find(({ id }) => id === request.placeId);
    if (!place) return refuse('place-unknown', 'placeId', 'Choose a place.');
    const moved: LotId[] = [];
    for (const lotId of new Set(request.lotIds)) {
      const lot = await movable(recorder, lotId, place);
      if (!lot.ok) return lot;
      if (lot.value.place?.id === place.id) continue;
      await carry(recorder, lot.value, place);
      moved.push(lotId);
    }
    if (moved.length === 0)
      return refuse('already-there', 'placeId', `It is in ${place.name} already. Choose another place.`);
    return found({ lotIds: moved, place });
  });

async function movable(recorder: Recorder, lotId: LotId, place: Place): Promise<Outcome<LotOnShelf>> {
  const { trx, householdId } = recorder;
  const [lot] = await lotsOf(trx, householdId, { lotId });
  const item = lot && (await itemById(trx, householdId, lot.itemId));
  if (!lot || !item)
    return refuse(
      'lot-unknown',
      'lotIds',
      'That batch has nothing left. Load the page again and choose one that has.',
    );
  if (item.keeping === 'frozen' && place.kind !== 'freezer')
    return refuse(
      'frozen-leaves-freezer',
      'placeId',
      `${item.name} is kept frozen, and ${place.name} is no freezer. Choose a freezer, or take what you thaw.`,
    );
  return found(lot);
}

async function carry(recorder: Recorder, lot: LotOnShelf, place: Place): Promise<void> {
  const { trx, householdId } = recorder;
  const entryId = newEntryId();
  await addJarEvents(recorder, [
    { entryId, lotId: lot.id, kind: 'moved', units: 0, occurredOn: recorder.today },
  ]);
  await trx
    .insertInto('lot_move')
    .values({
      household_id: householdId,
      entry_id: entryId,
      lot_id: lot.id,
      from_place_id: lot.place?.id ?? null,
      from_name: lot.place?.name ?? null,
      to_place_id: place.id,
      to_name: place.name,
    })
    .execute();
  await standIn(recorder, lot.id, place.id);
}

const standIn = (
  { trx, householdId }: Recorder,
  lotId: string,
  placeId: PlaceId | string | null,
): Promise<unknown> =>
  trx
    .updateTable('lot')
    .set({ place_id: placeId })
    .where('household_id', '=', householdId)
    .where('id', '=', lotId)
    .execute();

/** Carries a batch back where it stood before this entry; refused once it was carried on from there. */
export async function moveBack(recorder: Recorder, entryId: string): Promise<Outcome<true>> {
  const { trx, householdId } = recorder;
  const move = await trx
    .selectFrom('lot_move')
    .selectAll()
    .where('household_id', '=', householdId)
    .where('entry_id', '=', entryId)
    .executeTakeFirst();
  if (!move) return found(true);
  const [lot] = await lotsOf(trx, householdId, { lotId: move.lot_id, empty: true });
  if (lot?.place?.id !== move.to_place_id)
    return refuse(
      'moved-on',
      'entryId',
      `The batch has left ${move.to_name}; it is ${lot?.place ? `in ${lot.place.name}` : 'elsewhere'} now. Undo the later move first, or move it where it belongs.`,
    );
  const before = (await placesOf(trx, householdId)).find(({ id }) => id === move.from_place_id);
  await standIn(recorder, move.lot_id, before?.id ?? null);
  return found(true);
}
