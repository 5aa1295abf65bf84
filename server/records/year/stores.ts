import type { CalendarDate } from '../../../shared/week.ts';
import { smallestAmount } from '../../../src/household/lot.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import { suppliesOf } from '../../queries/household/recipes.ts';
import { fetchedProduceOf } from '../../queries/year/buying.ts';
import { nextSeq } from '../next-seq.ts';
import type { Recorder } from '../record.ts';

// Sugar, vinegar and the like, and crops that were fetched: what came, what batches took, what was counted.

export interface NewStoreEvent {
  readonly entryId: string;
  readonly store: 'supply' | 'crop';
  readonly subject: string;
  readonly kind: 'bought' | 'used' | 'counted' | 'reversed';
  /** Positive came, negative went; in the supply's unit, or lb. */
  readonly quantity: number;
  readonly occurredOn: CalendarDate;
  readonly sourceId?: string;
  readonly useBy?: CalendarDate;
}

/** Adds an event; of a supply, what is on hand changes with it, unless that was just counted. */
export async function addStoreEvent(recorder: Recorder, event: NewStoreEvent): Promise<void> {
  const { trx, householdId, at } = recorder;
  await trx
    .insertInto('store_event')
    .values({
      household_id: householdId,
      seq: nextSeq('store_event', householdId),
      entry_id: event.entryId,
      store: event.store,
      subject: event.subject,
      kind: event.kind,
      quantity: event.quantity,
      source_id: event.sourceId ?? null,
      use_by: event.useBy ?? null,
      occurred_on: event.occurredOn,
      recorded_at: at,
    })
    .execute();
  if (event.store !== 'supply' || event.kind === 'counted') return;
  await trx
    .updateTable('supply')
    .set((row) => ({
      on_hand: row
        .case()
        .when(row('on_hand', '+', event.quantity), '<', 0)
        .then(0)
        .else(row('on_hand', '+', event.quantity))
        .end(),
    }))
    .where('household_id', '=', householdId)
    .where('id', '=', event.subject)
    .execute();
}

/**
 * What batches take of the supplies on hand and of the crops that were fetched, as far as there is any: nobody writes down every
 * spoon of sugar, so what was never counted is not missed.
 */
export async function takeForBatches(
  recorder: Recorder,
  entryId: string,
  recipe: Pick<Recipe, 'supplies' | 'produce'>,
  batches: number,
  on: CalendarDate,
): Promise<void> {
  const { trx, householdId } = recorder;
  const supplies = await suppliesOf(trx, householdId);
  for (const { supplyId, quantity } of recipe.supplies) {
    const onHand = supplies.find(({ id }) => id === supplyId)?.onHand ?? 0;
    const taken = Math.min(onHand, quantity * batches);
    if (taken > smallestAmount)
      await addStoreEvent(recorder, {
        entryId,
        store: 'supply',
        subject: supplyId,
        kind: 'used',
        quantity: -taken,
        occurredOn: on,
      });
  }
  const fetched = await fetchedProduceOf(trx, householdId, on);
  for (const { crop, lb } of recipe.produce) {
    const atHand = fetched
      .filter((one) => one.crop === crop && one.useBy >= on && one.on <= on)
      .reduce((sum, { lbLeft }) => sum + lbLeft, 0);
    const taken = Math.min(atHand, lb * batches);
    if (taken > smallestAmount)
      await addStoreEvent(recorder, {
        entryId,
        store: 'crop',
        subject: crop,
        kind: 'used',
        quantity: -taken,
        occurredOn: on,
      });
  }
}

/** Takes back what an entry brought or took; a supply that was counted since is right as it is. */
export async function takeStoresBack(recorder: Recorder, entryId: string): Promise<void> {
  const { trx, householdId } = recorder;
  const events = await trx
    .selectFrom('store_event')
    .selectAll()
    .where('household_id', '=', householdId)
    .where('entry_id', '=', entryId)
    .execute();
  for (const event of events) {
    const counted = await trx
      .selectFrom('store_event')
      .select('seq')
      .where('household_id', '=', householdId)
      .where('store', '=', event.store)
      .where('subject', '=', event.subject)
      .where('kind', '=', 'counted')
      .where('seq', '>', event.seq)
      .executeTakeFirst();
    if (counted !== undefined) continue;
    await addStoreEvent(recorder, {
      entryId,
      store: event.store,
      subject: event.subject,
      kind: 'reversed',
      quantity: -event.quantity,
      occurredOn: event.occurred_on as CalendarDate,
    });
  }
}
