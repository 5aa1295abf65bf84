import type { LotId } from '../../../shared/ids.ts';
import { found, type Outcome, together } from '../../../shared/problems.ts';
import type { Purchase } from '../../../shared/schemas/shelf/purchase.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import { usualUnits } from '../../../src/household/lot.ts';
import { itemById } from '../../queries/household/items.ts';
import { knownItem, pastDay, wholeUnits } from '../canning/checks.ts';
import { problemsIn, type Reader, type Recorder, type Recording, type Rules, record } from '../record.ts';
import { settleListed } from '../year/settle-listed.ts';
import { addJarEvents, newEntryId } from './jar-events.ts';
import { addLot, bestQualityDay, jarKindOf, knownPlace } from './new-lot.ts';

export interface BuyAnswer {
  readonly entryId: string;
  readonly lotId: LotId;
  readonly batchCode: string;
  readonly bestQualityUntil: CalendarDate;
}

/** What can be told of a purchase from the fields that can be read. */
export const purchaseRules: Rules<Purchase> = async (
  reader,
  { itemId, units, boughtOn, bestQualityUntil = null, jarKind = null, placeId = null },
) => {
  const known = itemId === undefined ? null : await knownItem(reader, itemId);
  const item = known?.ok ? known.value : null;
  return problemsIn(
    known ?? found(null),
    item === null || units === undefined ? found(null) : wholeUnits(item, units),
    boughtOn === undefined
      ? found(null)
      : item === null
        ? pastDay(reader, 'boughtOn', boughtOn)
        : daysOf(reader, item, { boughtOn, bestQualityUntil }),
    item === null ? found(null) : jarKindOf(item, jarKind),
    await knownPlace(reader, placeId),
  );
};

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
  const checked = together(
    together(wholeUnits(item, request.units), daysOf(recorder, item, request)),
    together(jarKindOf(item, request.jarKind), await knownPlace(recorder, request.placeId)),
  );
  if (!checked.ok) return checked;
  const [[, [boughtOn, bestQualityUntil]], [jarKind, placeId]] = checked.value;

  const entryId = newEntryId();
  const lot = await addLot(recorder, {
    item,
    jarKind,
    origin: request.origin,
    madeOn: boughtOn,
    readyFrom: boughtOn,
    bestQualityUntil,
    placeId,
    recipeId: null,
    costCents: request.paid,
  });
  await addJarEvents(recorder, [
    { entryId, lotId: lot.id, kind: request.origin, units: request.units, occurredOn: boughtOn },
  ]);
  return found({ entryId, lotId: lot.id, batchCode: lot.batchCode, bestQualityUntil });
}

/** The day it came and its last day of best quality; where the first is wrong the second cannot be judged. */
function daysOf(
  reader: Reader,
  item: Item,
  request: Pick<Purchase, 'boughtOn' | 'bestQualityUntil'>,
): Outcome<readonly [CalendarDate, CalendarDate]> {
  const day = pastDay(reader, 'boughtOn', request.boughtOn);
  return day.ok ? together(day, bestQualityDay(item, day.value, request.bestQualityUntil)) : day;
}
