import { counted } from '../../../shared/counting.ts';
import { found, type Outcome, refused } from '../../../shared/problems.ts';
import type { JarChangeRequest, JarHoldingRequest } from '../../../shared/schemas/kitchen.ts';
import { jarStockOf } from '../../queries/household/kitchen.ts';
import { problem, type Recording, type Rules, record } from '../record.ts';
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

/** Only what was counted comes and goes, and no more than there is. */
export const jarChangeRules: Rules<JarChangeRequest> = async (
  { trx, householdId },
  { jarKind, change, jars },
) => {
  if (jarKind === undefined) return [];
  const stock = (await jarStockOf(trx, householdId)).find(({ kind }) => kind === jarKind);
  if (stock === undefined)
    return [
      problem(
        'jar-not-counted',
        'jarKind',
        'You have not counted the empty jars of this kind yet. Write how many you have first.',
      ),
    ];
  if (change === undefined || change === 'bought' || jars === undefined) return [];
  const most = change === 'came-back' ? stock.away : stock.empty;
  if (jars <= most) return [];
  return [
    problem(
      'more-than-there-are',
      'jars',
      change === 'came-back'
        ? `${counted(most, 'is', 'are')} away, not ${jars}. Count the empty ones instead.`
        : `${counted(most, 'is', 'are')} empty, not ${jars}. If a full jar broke, write it down on its shelf.`,
    ),
  ];
};

/** Jars that came back from where they were away, broke or were given away empty, or were bought. */
export const changeJars = (
  recording: Recording,
  request: JarChangeRequest,
): Promise<Outcome<JarChangeRequest>> =>
  record(recording, 'change jars', request, async (recorder) => {
    const { jarKind, change, jars } = request;
    const wrong = await jarChangeRules(recorder, request);
    if (wrong.length > 0) return refused(...wrong);
    const { kind, sign } = eventOfChange[change];
    const entryId = newEntryId();
    await addEmptyJarEvents(recorder, [
      { entryId, jarKind, kind, jars: sign * jars, occurredOn: recorder.today },
    ]);
    if (change === 'bought')
      await settleListed(recorder, { kind: 'jars', what: jarKind, quantity: jars, entryId });
    return found(request);
  });
