import { dateWords } from '../../../shared/date-words.ts';
import type { CannerId, LotId } from '../../../shared/ids.ts';
import { found, type Outcome, refused } from '../../../shared/problems.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { LotOnShelf } from '../../../src/household/lot.ts';
import { receivedCounts } from '../../../src/preserving/afterwards/process-evidence.ts';
import { type Doubt, lotsInDoubt } from '../../../src/preserving/afterwards/set-aside.ts';
import { acidityOf } from '../../../src/preserving/recipes/item-acidity.ts';
import { itemById } from '../../queries/household/items.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { lotEvidence } from '../../queries/shelf/evidence.ts';
import { lotsOf } from '../../queries/shelf/shelf.ts';
import { nextSeq } from '../next-seq.ts';
import {
  problemsIn,
  type Reader,
  type Recorder,
  type Recording,
  type Rules,
  record,
  refuse,
} from '../record.ts';
import { addJarEvents, newEntryId } from './jar-events.ts';

export interface SetAsideAnswer {
  readonly lotIds: readonly LotId[];
}

const longestReason = 200;

/**
 * Sets aside what is doubted, one lot or all of a canner since a day, in one action: nobody eats from it, and neither
 * projection nor plan counts it, until it is released or discarded. Lots with nothing left, or aside already, stay as they are.
 */
export const setAside = (
  recording: Recording,
  doubt: Doubt,
  reason: string,
): Promise<Outcome<SetAsideAnswer>> =>
  record(recording, 'set aside', { doubt, reason }, async (recorder) => {
    const said = reason.trim().slice(0, longestReason);
    const lots = await lotsOf(recorder.trx, recorder.householdId, { empty: true });
    const doubted = await doubtedLots(recorder, lots, doubt);
    const wrong = problemsIn(
      said === ''
        ? refuse(
            'reason-missing',
            'reason',
            'Write in a few words why you doubt it, for whoever decides later.',
          )
        : found(null),
      doubted,
    );
    if (!doubted.ok || wrong.length > 0) return refused(...wrong);
    const lotIds = lots
      .filter((lot) => doubted.value.has(lot.id) && lot.setAside === null && lot.unitsLeft > 0)
      .map(({ id }) => id);
    await setAsideWithin(recorder, lotIds, said);
    return found({ lotIds });
  });

/** What was processed in a canner since a day, told while the reason cannot be read. */
export const doubtRules: Rules<{ readonly cannerId: CannerId; readonly since: CalendarDate }> = async (
  reader,
  { cannerId, since },
) => {
  if (cannerId === undefined || since === undefined) return [];
  const lots = await lotsOf(reader.trx, reader.householdId, { empty: true });
  return problemsIn(await doubtedLots(reader, lots, { kind: 'canner', cannerId, since }));
};

async function doubtedLots(
  reader: Reader,
  lots: readonly LotOnShelf[],
  doubt: Doubt,
): Promise<Outcome<ReadonlySet<LotId>>> {
  const evidence = await lotEvidence(reader.trx, reader.householdId);
  const doubted = new Set(
    lotsInDoubt(
      lots.map((lot) => ({
        lotId: lot.id,
        cannerId: evidence.find(({ lotId }) => lotId === lot.id)?.cannerId ?? null,
        processedOn: lot.madeOn,
      })),
      doubt,
    ),
  );
  if (doubted.size > 0) return found(doubted);
  return refuse(
    doubt.kind === 'lot' ? 'lot-unknown' : 'nothing-doubted',
    doubt.kind === 'lot' ? 'lotId' : 'since',
    doubt.kind === 'lot'
      ? 'Choose a batch from the shelf.'
      : `Nothing was canned in that canner since ${dateWords(doubt.since)}. Choose an earlier day or another canner.`,
  );
}

export async function setAsideWithin(
  recorder: Recorder,
  lotIds: readonly LotId[],
  reason: string,
): Promise<void> {
  for (const lotId of lotIds) {
    await putStanding(recorder, lotId, { at: recorder.at, reason });
    await recorder.trx
      .insertInto('lot_standing_event')
      .values({
        household_id: recorder.householdId,
        seq: nextSeq('lot_standing_event', recorder.householdId),
        lot_id: lotId,
        kind: 'set-aside',
        reason,
        at: recorder.at,
      })
      .execute();
  }
}

/** The doubt is cleared: the lot counts again. What came from others with an unknown process is never released. */
export const release = (
  recording: Recording,
  reference: ReferenceTables,
  lotId: string,
): Promise<Outcome<SetAsideAnswer>> =>
  record(recording, 'release', { lotId }, async (recorder) => {
    const lot = await lotAside(recorder, lotId);
    if (!lot.ok) return lot;
    const item = await itemById(recorder.trx, recorder.householdId, lot.value.itemId);
    const acidity = item && acidityOf(item, await recipesOf(recorder.trx, recorder.householdId), reference);
    if (lot.value.origin === 'received' && acidity !== null && !receivedCounts(acidity))
      return refuse(
        'process-unknown',
        'lotId',
        'This came from others with an unknown process and is low in acid, so nobody here can say that it is safe. Discard it.',
      );
    await putStanding(recorder, lot.value.id, null);
    await recorder.trx
      .insertInto('lot_standing_event')
      .values({
        household_id: recorder.householdId,
        seq: nextSeq('lot_standing_event', recorder.householdId),
        lot_id: lot.value.id,
        kind: 'released',
        at: recorder.at,
      })
      .execute();
    return found({ lotIds: [lot.value.id] });
  });

/** What stands aside is thrown away, jars and all: nothing of it is eaten, given away or filled again. */
export const discardAside = (recording: Recording, lotId: string): Promise<Outcome<SetAsideAnswer>> =>
  record(recording, 'discard set aside', { lotId }, async (recorder) => {
    const lot = await lotAside(recorder, lotId);
    if (!lot.ok) return lot;
    await addJarEvents(recorder, [
      {
        entryId: newEntryId(),
        lotId: lot.value.id,
        kind: 'discarded',
        units: -lot.value.unitsLeft,
        reason: `set aside: ${lot.value.setAside?.reason ?? ''}`,
        occurredOn: recorder.today,
      },
    ]);
    return found({ lotIds: [lot.value.id] });
  });

async function lotAside(recorder: Recorder, lotId: string): Promise<Outcome<LotOnShelf>> {
  const [lot] = await lotsOf(recorder.trx, recorder.householdId, { lotId });
  return lot && lot.setAside !== null
    ? found(lot)
    : refuse(
        'not-set-aside',
        'lotId',
        'That batch is not set aside, or it is empty. Look at what is set aside now.',
      );
}

const putStanding = (
  { trx, householdId }: Recorder,
  lotId: LotId,
  aside: { readonly at: number; readonly reason: string } | null,
) =>
  trx
    .updateTable('lot')
    .set({ set_aside_at: aside?.at ?? null, set_aside_reason: aside?.reason ?? null })
    .where('household_id', '=', householdId)
    .where('id', '=', lotId)
    .execute();
