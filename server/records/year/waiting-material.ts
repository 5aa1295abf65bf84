import { found, type Outcome } from '../../../shared/problems.ts';
import { addDays, type CalendarDate } from '../../../shared/week.ts';
import { smallestAmount } from '../../../src/household/lot.ts';
import type { ByProduct } from '../../../src/preserving/recipes/by-product.ts';
import { arrivalsOf, waitingMaterialsOf } from '../../queries/year/waiting-material.ts';
import { freshId } from '../fresh-id.ts';
import { nextSeq } from '../next-seq.ts';
import { type Recorder, type Recording, record, refuse } from '../record.ts';

/** What was left of a batch waits from that day on, and only so long. */
export async function keepByProduct(
  recorder: Recorder,
  { materialId, name, unit, keepsDays }: ByProduct,
  quantity: number,
  on: CalendarDate,
  resultId: string,
): Promise<void> {
  await recorder.trx
    .insertInto('material_event')
    .values({
      household_id: recorder.householdId,
      seq: nextSeq('material_event', recorder.householdId),
      subject: materialId ?? (await materialNamed(recorder, { name, unit, keepsDays })),
      kind: 'left-over',
      quantity,
      unit,
      use_by: addDays(on, keepsDays),
      occurred_on: on,
      recorded_at: recorder.at,
      result_id: resultId,
    })
    .execute();
}

/**
 * The by-product of batches that were undone goes with them, as far as it still waits: first in, first used. Answers whether
 * some of it was used or thrown away already; that stays written down.
 */
export async function takeByProductsBack(
  recorder: Recorder,
  resultIds: readonly string[],
): Promise<{ readonly usedAlready: boolean }> {
  await giveBackUsed(recorder, resultIds);
  const { trx, householdId, at } = recorder;
  let usedAlready = false;
  for (const resultId of resultIds) {
    for (const arrival of await arrivalsOf(trx, householdId, resultId)) {
      if (arrival.waits < arrival.came - smallestAmount) usedAlready = true;
      if (arrival.waits <= smallestAmount) continue;
      await trx
        .insertInto('material_event')
        .values({
          household_id: householdId,
          seq: nextSeq('material_event', householdId),
          subject: arrival.materialId,
          kind: 'left-over',
          quantity: -arrival.waits,
          unit: arrival.unit,
          use_by: null,
          occurred_on: arrival.on,
          recorded_at: at,
          result_id: resultId,
        })
        .execute();
    }
  }
  return { usedAlready };
}

/** The household's by-product of that name; a new one where it has none. */
export async function materialNamed(
  { trx, householdId }: Recorder,
  {
    name,
    unit = 'lb',
    keepsDays,
  }: { readonly name: string; readonly unit?: string; readonly keepsDays: number },
): Promise<string> {
  const taken = await trx
    .selectFrom('material')
    .select(['id', 'name'])
    .where('household_id', '=', householdId)
    .execute();
  const same = taken.find((row) => row.name.toLowerCase() === name.toLowerCase());
  if (same) return same.id;
  const id = freshId(
    name,
    taken.map((row) => row.id),
  );
  await trx
    .insertInto('material')
    .values({
      household_id: householdId,
      id,
      name,
      unit,
      keeps_days_cold: keepsDays,
      keeps_months_frozen: null,
    })
    .execute();
  return id;
}

/**
 * What batches were made of and others had left is used up with them: what waits, as far as it goes. What was meant and was not
 * there is written down by nobody.
 */
export async function useByProducts(
  recorder: Recorder,
  uses: readonly { readonly materialId: string; readonly quantity: number }[],
  batches: number,
  on: CalendarDate,
  resultId: string,
): Promise<void> {
  const waiting = await waitingMaterialsOf(recorder.trx, recorder.householdId);
  for (const { materialId, quantity } of uses) {
    const there = waiting.find(({ id }) => id === materialId);
    if (there === undefined || batches <= 0) continue;
    await recorder.trx
      .insertInto('material_event')
      .values({
        household_id: recorder.householdId,
        seq: nextSeq('material_event', recorder.householdId),
        subject: materialId,
        kind: 'used',
        quantity: -Math.min(there.quantity, quantity * batches),
        unit: there.unit,
        use_by: null,
        occurred_on: on,
        recorded_at: recorder.at,
        result_id: resultId,
      })
      .execute();
  }
}

/** What undone batches had used up waits again, as long as before. */
async function giveBackUsed({ trx, householdId, at }: Recorder, resultIds: readonly string[]): Promise<void> {
  if (resultIds.length === 0) return;
  const used = await trx
    .selectFrom('material_event')
    .select(['result_id', 'subject', 'unit'])
    .select((row) => row.fn.sum<number>('quantity').as('quantity'))
    .select((row) => row.fn.min('occurred_on').as('occurred_on'))
    .where('household_id', '=', householdId)
    .where('kind', '=', 'used')
    .where('result_id', 'in', resultIds)
    .groupBy(['result_id', 'subject', 'unit'])
    .execute();
  for (const { result_id, subject, unit, quantity, occurred_on } of used)
    if (quantity < -smallestAmount)
      await trx
        .insertInto('material_event')
        .values({
          household_id: householdId,
          seq: nextSeq('material_event', householdId),
          subject,
          kind: 'used',
          quantity: -quantity,
          unit,
          use_by: null,
          occurred_on,
          recorded_at: at,
          result_id,
        })
        .execute();
}

/** Everything of a waiting material was used, or thrown away. */
export const settleMaterial = (
  recording: Recording,
  materialId: string,
  as: 'used' | 'lost',
): Promise<Outcome<{ readonly quantity: number }>> =>
  record(recording, 'settle material', { materialId, as }, async ({ trx, householdId, today, at }) => {
    const waiting = await waitingMaterialsOf(trx, householdId);
    const material = waiting.find(({ id }) => id === materialId);
    if (!material)
      return refuse(
        'nothing-waits',
        'materialId',
        'Nothing like that waits to be used; it may be settled already. Load the page again.',
      );
    await trx
      .insertInto('material_event')
      .values({
        household_id: householdId,
        seq: nextSeq('material_event', householdId),
        subject: material.id,
        kind: as,
        quantity: -material.quantity,
        unit: material.unit,
        use_by: null,
        occurred_on: today,
        recorded_at: at,
        result_id: null,
      })
      .execute();
    return found({ quantity: material.quantity });
  });
