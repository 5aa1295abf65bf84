import { found, type Outcome } from '../../../shared/problems.ts';
import { addDays, type CalendarDate } from '../../../shared/week.ts';
import { smallestAmount } from '../../../src/household/lot.ts';
import type { ByProduct } from '../../../src/preserving/recipes/by-product.ts';
import { arrivalsOf, waitingMaterialsOf } from '../../queries/year/waiting-material.ts';
import { freshId } from '../fresh-id.ts';
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
      subject: materialId ?? (await newMaterial(recorder, name, unit, keepsDays)),
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
  { trx, householdId, at }: Recorder,
  resultIds: readonly string[],
): Promise<{ readonly usedAlready: boolean }> {
  let usedAlready = false;
  for (const resultId of resultIds) {
    for (const arrival of await arrivalsOf(trx, householdId, resultId)) {
      if (arrival.waits < arrival.came - smallestAmount) usedAlready = true;
      if (arrival.waits <= smallestAmount) continue;
      await trx
        .insertInto('material_event')
        .values({
          household_id: householdId,
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

async function newMaterial(
  { trx, householdId }: Recorder,
  name: string,
  unit: string,
  keepsDays: number,
): Promise<string> {
  const taken = await trx
    .selectFrom('material')
    .select('id')
    .where('household_id', '=', householdId)
    .execute();
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
