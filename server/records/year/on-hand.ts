import type { ItemId, SourceId } from '../../../shared/ids.ts';
import { type JarKind, mouths } from '../../../shared/jar.ts';
import type { Cents } from '../../../shared/money.ts';
import { found, type Outcome, type Problem, refused } from '../../../shared/problems.ts';
import type { LineRequest } from '../../../shared/schemas/buying.ts';
import { addDays, type CalendarDate } from '../../../shared/week.ts';
import type { PurchaseKind } from '../../../src/household/purchase.ts';
import { pageNames } from '../../../views/words/page-names.ts';
import { itemById } from '../../queries/household/items.ts';
import { sourcesOf } from '../../queries/year/harvest.ts';
import { wholeUnits } from '../canning/checks.ts';
import { type Reader, type Recorder, refuse } from '../record.ts';
import { buyWithin } from '../shelf/buy.ts';
import { addEmptyJarEvents, newEntryId } from '../shelf/jar-events.ts';
import { undoWithin } from '../shelf/undo.ts';
import { addStoreEvent, takeStoresBack } from './stores.ts';

// What is on hand of what a shopping list asks for: up by what was bought, and down again where that is taken back.

export interface Bought {
  readonly quantity: number;
  readonly paid: Cents;
  readonly on: CalendarDate;
}

/** What is on hand goes up by what was bought; answers the entry that did it. */
export async function raiseOnHand(
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
      return bought.ok ? found(bought.value.entryId) : besideAmount(bought.problems);
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
      await addEmptyJarEvents(recorder, [
        { entryId, jarKind: what as JarKind, kind: 'bought', jars: quantity, occurredOn: on },
      ]);
      return found(entryId);
    }
    case 'lids': {
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

const besideAmount = (problems: readonly Problem[]): Outcome<never> =>
  refused(...problems.map((one) => ({ ...one, path: one.path[0] === 'units' ? ['amount'] : one.path })));

/** Jars and lids come whole, and so does an item that is counted in pieces. */
export async function soldSo(
  reader: Reader,
  { kind, what }: Pick<LineRequest, 'kind' | 'what'>,
  quantity: number,
): Promise<Outcome<number>> {
  if (kind === 'jars' || kind === 'lids') return wholeNumber(quantity);
  const item = kind === 'item' ? await itemById(reader.trx, reader.householdId, what) : null;
  const whole = item === null ? found(quantity) : wholeUnits(item, quantity);
  return whole.ok ? whole : besideAmount(whole.problems);
}

/** Takes back what an entry raised; refused where it is used already. What was counted since is right as it is. */
export async function lowerOnHand(
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
      if (empty < event.jars) return used(pageNames.kitchen);
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
      if (box.lids < brought.quantity) return used(pageNames.kitchen);
      await trx
        .deleteFrom('lid_box')
        .where('household_id', '=', householdId)
        .where('id', '=', entryId)
        .execute();
      return found(true);
    }
  }
}
