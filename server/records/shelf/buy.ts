import type { LotId } from '../../../shared/ids.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import type { Purchase } from '../../../shared/schemas/shelf/purchase.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import { usualUnits } from '../../../src/household/lot.ts';
import { itemById } from '../../queries/household/items.ts';
import { knownItem, pastDay, wholeUnits } from '../canning/checks.ts';
import { type Recorder, type Recording, record } from '../record.ts';
import { settleListed } from '../year/settle-listed.ts';
import { addJarEvents, newEntryId } from './jar-events.ts';
import { addLot, bestQualityDay, jarKindOf, knownPlace } from './new-lot.ts';

export interface BuyAnswer {
  readonly entryId: string;
  readonly lotId: LotId;
  readonly batchCode: string;
  readonly bestQualityUntil: CalendarDate;
}

/** Units come onto the shelf from outside: bought, or received from somebody (how those were processed is not known). */
export const buy = (recording: Recording, request: Purchase): Promise<Outcome<BuyAnswer>> =>
  record(recording, 'buy', request, async (recorder) => {
    const bought = await buyWithin(recorder, request);
    const item = await itemById(recorder.trx, recorder.householdId, request.itemId);
    if (bought.ok && item !== null && request.origin === 'bought')
      await settleListed(recorder, {
        kind: 'item',
        what: item.id,
        quantity: usualUnits(item, request.jarKind ?? item.usualJar, request.units),
        entryId: bought.value.entryId,
      });
    return bought;
  });

export async function buyWithin(recorder: Recorder, request: Purchase): Promise<Outcome<BuyAnswer>> {
  const known = await knownItem(recorder, request.itemId);
  if (!known.ok) return known;
  const item = known.value;
  const whole = wholeUnits(item, request.units);
  if (!whole.ok) return whole;
  const day = pastDay(recorder, 'boughtOn', request.boughtOn);
  if (!day.ok) return day;
  const best = bestQualityDay(item, day.value, request.bestQualityUntil);
  if (!best.ok) return best;
  const jarKind = jarKindOf(item, request.jarKind);
  if (!jarKind.ok) return jarKind;
  const place = await knownPlace(recorder, request.placeId);
  if (!place.ok) return place;

  const entryId = newEntryId();
  const lot = await addLot(recorder, {
    item,
    jarKind: jarKind.value,
    origin: request.origin,
    madeOn: day.value,
    readyFrom: day.value,
    bestQualityUntil: best.value,
    placeId: place.value,
    recipeId: null,
    costCents: request.paid,
  });
  await addJarEvents(recorder, [
    { entryId, lotId: lot.id, kind: request.origin, units: request.units, occurredOn: day.value },
  ]);
  return found({ entryId, lotId: lot.id, batchCode: lot.batchCode, bestQualityUntil: best.value });
}
