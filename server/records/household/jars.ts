import { counted } from '../../../shared/counting.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import type { JarChangeRequest, JarHoldingRequest } from '../../../shared/schemas/kitchen.ts';
import { jarStockOf } from '../../queries/household/kitchen.ts';
import { type Recording, record, refuse } from '../record.ts';
import { addEmptyJarEvents, emptyJars, newEntryId } from '../shelf/jar-events.ts';
import { settleListed } from '../year/settle-listed.ts';

/** Jars of one kind: how many stand empty now, and what a new pack costs. What stands full the shelf knows. */
export const setJarHolding = (
  recording: Recording,
  request: JarHoldingRequest,
): Promise<Outcome<JarHoldingRequest>> =>
  record(recording, 'set jars', request, async (recorder) => {
    const { trx, householdId, today } = recorder;
    const said = { price_cents: request.price, pack: request.pack };
    await trx
      .insertInto('jar_holding')
      .values({ household_id: householdId, jar_kind: request.jarKind, ...said })
      .onConflict((same) => same.columns(['household_id', 'jar_kind']).doUpdateSet(said))
      .execute();
    await addEmptyJarEvents(recorder, [
      {
        entryId: newEntryId(),
        jarKind: request.jarKind,
        kind: 'counted',
        jars: request.empty - (await emptyJars(recorder, request.jarKind)),
        occurredOn: today,
      },
    ]);
    return found(request);
  });

const eventOfChange = {
  'came-back': { kind: 'returned', sign: 1 },
  broke: { kind: 'broken', sign: -1 },
  given: { kind: 'broken', sign: -1 },
  bought: { kind: 'bought', sign: 1 },
} as const;

/** Jars that came back from where they were away, broke or were given away empty, or were bought. */
export const changeJars = (
  recording: Recording,
  request: JarChangeRequest,
): Promise<Outcome<JarChangeRequest>> =>
  record(recording, 'change jars', request, async (recorder) => {
    const { jarKind, change, jars } = request;
    const stock = (await jarStockOf(recorder.trx, recorder.householdId)).find(({ kind }) => kind === jarKind);
    const most = change === 'came-back' ? stock?.away : change === 'bought' ? undefined : stock?.empty;
    if (stock === undefined)
      return refuse(
        'jar-not-counted',
        'jarKind',
        'The empty jars of this kind were never counted. Say how many there are first.',
      );
    if (most !== undefined && jars > most)
      return refuse(
        'more-than-there-are',
        'jars',
        change === 'came-back'
          ? `${counted(most, 'is', 'are')} away, not ${jars}. Count the empty ones instead.`
          : `${counted(most, 'is', 'are')} empty, not ${jars}. A full jar that broke is written down on its shelf.`,
      );
    const { kind, sign } = eventOfChange[change];
    const entryId = newEntryId();
    await addEmptyJarEvents(recorder, [
      { entryId, jarKind, kind, jars: sign * jars, occurredOn: recorder.today },
    ]);
    if (change === 'bought')
      await settleListed(recorder, { kind: 'jars', what: jarKind, quantity: jars, entryId });
    return found(request);
  });
