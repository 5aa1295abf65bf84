import type { ItemId, SourceId } from '../../../shared/ids.ts';
import { type JarKind, mouths } from '../../../shared/jar.ts';
import { asCents } from '../../../shared/money.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import type { BoughtRequest, LineRequest } from '../../../shared/schemas/buying.ts';
import { addDays, type CalendarDate } from '../../../shared/week.ts';
import { isSameLine, type PurchaseKind } from '../../../src/household/purchase.ts';
import type { PlannedPurchase } from '../../../src/planning/plan.ts';
import { sourcesOf } from '../../queries/year/harvest.ts';
import { standingPlanOf } from '../../queries/year/plans.ts';
import { pastDay } from '../canning/checks.ts';
import { type Recorder, type Recording, record, refuse } from '../record.ts';
import { buyWithin } from '../shelf/buy.ts';
import { addEmptyJarEvents, newEntryId } from '../shelf/jar-events.ts';
import { undoWithin } from '../shelf/undo.ts';
import { addStoreEvent, takeStoresBack } from './stores.ts';

export interface LineAnswer {
  readonly id: string;
}

/** A line of the plan's list was bought, as planned or in another amount, for another price, on another day. */
export const markBought = (recording: Recording, request: BoughtRequest): Promise<Outcome<LineAnswer>> =>
  record(recording, 'bought', request, async (recorder) => {
    const line = await standingLine(recorder, request);
    if (!line.ok) return line;
    const { quantity: planned, cost } = line.value;
    const quantity = request.amount ?? planned;
    if (quantity <= 0)
      return refuse(
        'nothing-bought',
        'amount',
        'Write how much was bought, more than 0. Skip the line if nothing is to be bought.',
      );
    const day = pastDay(recorder, 'boughtOn', request.boughtOn);
    if (!day.ok) return day;
    const paid = request.paid ?? asCents(Math.round((cost * quantity) / Math.max(planned, 1e-9)));
    const raised = await raiseOnHand(recorder, request, { quantity, paid, on: day.value });
    if (!raised.ok) return raised;
    const id = newEntryId();
    await insertLine(recorder, request, {
      id,
      decision: 'bought',
      quantity,
      cost: paid,
      on: day.value,
      settles: request.rest !== 'asked',
      entryId: raised.value,
    });
    return found({ id });
  });

/** A line is not to be bought in its week. */
export const skipLine = (recording: Recording, request: LineRequest): Promise<Outcome<LineAnswer>> =>
  record(recording, 'skip line', request, async (recorder) => {
    const line = await standingLine(recorder, request);
    if (!line.ok) return line;
    const id = newEntryId();
    await insertLine(recorder, request, {
      id,
      decision: 'skipped',
      quantity: 0,
      cost: asCents(0),
      on: recorder.today,
      settles: true,
      entryId: null,
    });
    return found({ id });
  });

/** Takes a line back that was bought or skipped, with all it raised; what was counted since is right as it is. */
export const undoLine = (recording: Recording, id: string): Promise<Outcome<LineAnswer>> =>
  record(recording, 'undo line', { id }, async (recorder) => {
    const { trx, householdId, at } = recorder;
    const row = await trx
      .selectFrom('bought')
      .selectAll()
      .where('household_id', '=', householdId)
      .where('id', '=', id)
      .executeTakeFirst();
    if (row === undefined || row.undone_at !== null)
      return refuse(
        'already-undone',
        '',
        'That line is not among what was bought or skipped; it may be undone already. Load the page again.',
      );
    if (row.entry_id !== null) {
      const lowered = await lowerOnHand(recorder, row.kind, row.what, row.entry_id);
      if (!lowered.ok) return lowered;
    }
    await trx
      .updateTable('bought')
      .set({ undone_at: at })
      .where('household_id', '=', householdId)
      .where((line) => (row.entry_id === null ? line('id', '=', id) : line('entry_id', '=', row.entry_id)))
      .where('undone_at', 'is', null)
      .execute();
    return found({ id });
  });

/** The line as the standing plan still has it. */
async function standingLine(
  { trx, householdId }: Recorder,
  request: LineRequest,
): Promise<Outcome<PlannedPurchase>> {
  const stored = await standingPlanOf(trx, householdId);
  const line = stored?.plan.weeks
    .find(({ week }) => week === request.week)
    ?.purchases.find((one) =>
      isSameLine(request, {
        week: request.week,
        kind: one.kind,
        what: one.what,
        pack: one.packs?.id ?? null,
      }),
    );
  return line === undefined
    ? refuse(
        'line-gone',
        '',
        'That line is no longer on the buying list: it was bought or skipped already, or the plan has changed. Load the page again.',
      )
    : found(line);
}

interface Bought {
  readonly quantity: number;
  readonly paid: ReturnType<typeof asCents>;
  readonly on: CalendarDate;
}

/** What is on hand goes up by what was bought; answers the entry that did it. */
async function raiseOnHand(
  recorder: Recorder,
  { kind, what }: LineRequest,
  { quantity, paid, on }: Bought,
): Promise<Outcome<string>> {
  const { trx, householdId } = recorder;
  const entryId = newEntryId();
  switch (kind) {
    case 'item': {
      const bought = await buyWithin(recorder, {
        itemId: what as ItemId,
        units: quantity,
        jarKind: null,
        boughtOn: on,
        bestQualityUntil: null,
        placeId: null,
        origin: 'bought',
        paid,
      });
      if (!bought.ok)
        return {
          ok: false,
          problems: bought.problems.map((one) => ({
            ...one,
            path: one.path[0] === 'units' ? ['amount'] : one.path,
          })),
        };
      return found(bought.value.entryId);
    }
    case 'supply':
      await addStoreEvent(recorder, {
        entryId,
        store: 'supply',
        subject: what,
        kind: 'bought',
        quantity,
        occurredOn: on,
      });
      return found(entryId);
    case 'produce': {
      const source = (await sourcesOf(trx, householdId)).find(({ id }) => id === (what as SourceId));
      if (source === undefined)
        return refuse('source-unknown', 'what', 'That source is no longer here. Load the page again.');
      await addStoreEvent(recorder, {
        entryId,
        store: 'crop',
        subject: source.crop,
        kind: 'bought',
        quantity,
        occurredOn: on,
        sourceId: source.id,
        useBy: addDays(on, source.useByDays),
      });
      return found(entryId);
    }
    case 'jars': {
      const whole = wholeNumber(quantity);
      if (!whole.ok) return whole;
      await addEmptyJarEvents(recorder, [
        { entryId, jarKind: what as JarKind, kind: 'bought', jars: quantity, occurredOn: on },
      ]);
      return found(entryId);
    }
    case 'lids': {
      const whole = wholeNumber(quantity);
      if (!whole.ok) return whole;
      const mouth = mouths.find((one) => one === what);
      if (mouth === undefined) return refuse('mouth-unknown', 'what', 'Choose regular or wide.');
      await trx
        .insertInto('lid_box')
        .values({ household_id: householdId, id: entryId, mouth, lids: quantity, bought_on: on })
        .execute();
      return found(entryId);
    }
  }
}

const wholeNumber = (quantity: number): Outcome<number> =>
  Number.isInteger(quantity)
    ? found(quantity)
    : refuse('not-whole', 'amount', `${quantity} is not a whole number. Leave out the fraction.`);

async function lowerOnHand(
  recorder: Recorder,
  kind: PurchaseKind,
  what: string,
  entryId: string,
): Promise<Outcome<true>> {
  const { trx, householdId } = recorder;
  const used = (where: string) =>
    refuse<true>(
      'already-used',
      '',
      `Not all of it is still there. Undo what took it, or count it anew under ${where}.`,
    );
  switch (kind) {
    case 'item': {
      const undone = await undoWithin(recorder, entryId);
      return undone.ok ? found(true) : undone;
    }
    case 'supply':
    case 'produce':
      await takeStoresBack(recorder, entryId);
      return found(true);
    case 'jars': {
      const own = await trx
        .selectFrom('empty_jar_event')
        .selectAll()
        .where('household_id', '=', householdId)
        .where('jar_kind', '=', what)
        .orderBy('seq')
        .execute();
      const event = own.find((one) => one.entry_id === entryId);
      if (event === undefined || own.some((one) => one.kind === 'counted' && one.seq > event.seq))
        return found(true);
      const empty = own.reduce((sum, one) => (one.kind === 'lent' ? sum : sum + one.jars), 0);
      if (empty < event.jars) return used('Kitchen');
      await addEmptyJarEvents(recorder, [
        {
          entryId,
          jarKind: what as JarKind,
          kind: 'bought',
          jars: -event.jars,
          occurredOn: event.occurred_on as CalendarDate,
        },
      ]);
      return found(true);
    }
    case 'lids': {
      const box = await trx
        .selectFrom('lid_box')
        .select('lids')
        .where('household_id', '=', householdId)
        .where('id', '=', entryId)
        .executeTakeFirst();
      // A box that is gone was counted anew with all the others.
      if (box === undefined) return found(true);
      const brought = await trx
        .selectFrom('bought')
        .select('quantity')
        .where('household_id', '=', householdId)
        .where('entry_id', '=', entryId)
        .executeTakeFirstOrThrow();
      if (box.lids < brought.quantity) return used('Kitchen');
      await trx
        .deleteFrom('lid_box')
        .where('household_id', '=', householdId)
        .where('id', '=', entryId)
        .execute();
      return found(true);
    }
  }
}

interface NewLine extends Pick<Bought, 'quantity' | 'on'> {
  readonly id: string;
  readonly decision: 'bought' | 'skipped';
  readonly cost: ReturnType<typeof asCents>;
  readonly settles: boolean;
  readonly entryId: string | null;
}

const insertLine = (
  { trx, householdId, at }: Recorder,
  { week, kind, what, pack }: LineRequest,
  { id, decision, quantity, cost, on, settles, entryId }: NewLine,
) =>
  trx
    .insertInto('bought')
    .values({
      household_id: householdId,
      id,
      week,
      kind,
      what,
      pack_id: pack,
      decision,
      quantity,
      cost_cents: cost,
      bought_on: on,
      settles: settles ? 1 : 0,
      entry_id: entryId,
      recorded_at: at,
      undone_at: null,
    })
    .execute();
