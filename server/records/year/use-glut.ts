import { randomUUID } from 'node:crypto';
import type { z } from 'zod';
import type { CropKey, RecipeId } from '../../../shared/ids.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import type { CalendarDate, WeekKey } from '../../../shared/week.ts';
import { glutPins } from '../../queries/year/glut-uses.ts';
import { nextSeq } from '../next-seq.ts';
import { type Recorder, type Recording, record, refuse } from '../record.ts';
import { newEntryId } from '../shelf/jar-events.ts';
import { addStoreEvent, takeStoresBack } from './stores.ts';

/** A glut and the batches it is to go into. */
export interface GlutUse {
  readonly crop: CropKey;
  readonly lb: number;
  readonly useBy: CalendarDate;
  readonly makes: readonly { readonly recipe: RecipeId; readonly week: WeekKey; readonly batches: number }[];
}

type Pin = z.output<typeof glutPins>[number];

/** Takes a glut into the plan: its produce lies at hand from today, and each batch is kept in its week. */
export const useGlut = (recording: Recording, use: GlutUse): Promise<Outcome<{ readonly id: string }>> =>
  record(recording, 'use glut', use, async (recorder) => {
    const { trx, householdId, at, today } = recorder;
    const id = newEntryId();
    await addStoreEvent(recorder, {
      entryId: id,
      store: 'crop',
      subject: use.crop,
      kind: 'bought',
      quantity: use.lb,
      occurredOn: today,
      useBy: use.useBy,
    });
    const set: Pin[] = [];
    for (const { recipe, week, batches } of use.makes) {
      const earlier = await decisionOn(recorder, recipe, week);
      if (earlier?.decision === 'done') continue;
      const before = earlier?.decision === 'pinned' ? (earlier.batches ?? 0) : null;
      const pin = { recipe, week, batches: batches + (before ?? 0), before };
      await setPin(recorder, pin, pin.batches);
      set.push(pin);
    }
    const factsVersion = await factsVersionNow(recorder);
    const plan = await trx
      .selectFrom('plan')
      .select(['id', 'facts_version'])
      .where('household_id', '=', householdId)
      .orderBy('seq', 'desc')
      .orderBy('made_at', 'desc')
      .limit(1)
      .executeTakeFirst();
    await trx
      .insertInto('glut_use')
      .values({
        household_id: householdId,
        id,
        crop: use.crop,
        lb: use.lb,
        use_by: use.useBy,
        pins_json: JSON.stringify(set),
        plan_before: plan?.id ?? null,
        // The version was stepped for this act already.
        plan_was_current: plan?.facts_version === factsVersion - 1 ? 1 : 0,
        facts_version: factsVersion,
        recorded_at: at,
        undone_at: null,
      })
      .execute();
    return found({ id });
  });

/**
 * Takes a glut out of the plan again, with all that came with it. Where nothing else was said since, the plan before it is
 * the plan again; what was made of it, or pinned otherwise since, stays as it is.
 */
export const undoGlut = (
  recording: Recording,
  id: string,
): Promise<Outcome<{ readonly isPlanBack: boolean }>> =>
  record(recording, 'undo glut', { id }, async (recorder) => {
    const { trx, householdId, at } = recorder;
    const row = await trx
      .selectFrom('glut_use')
      .selectAll()
      .where('household_id', '=', householdId)
      .where('id', '=', id)
      .executeTakeFirst();
    if (row === undefined || row.undone_at !== null)
      return refuse(
        'already-undone',
        '',
        'That plan is not in use any more; it may be undone already. Load the page again.',
      );
    await takeStoresBack(recorder, id);
    for (const pin of glutPins.parse(JSON.parse(row.pins_json))) {
      const now = await decisionOn(recorder, pin.recipe, pin.week);
      if (now?.decision === 'pinned' && now.batches === pin.batches) await setPin(recorder, pin, pin.before);
    }
    await trx
      .updateTable('glut_use')
      .set({ undone_at: at })
      .where('household_id', '=', householdId)
      .where('id', '=', id)
      .execute();
    const factsVersion = await factsVersionNow(recorder);
    const isPlanBack =
      row.plan_before !== null &&
      factsVersion === row.facts_version + 1 &&
      (await planAgainAs(recorder, row.plan_before, row.plan_was_current === 1 ? factsVersion : null));
    return found({ isPlanBack });
  });

/** The kept plan of that id once more, as the newest; of the facts as they are where it was of those before the glut. */
async function planAgainAs(
  { trx, householdId }: Recorder,
  planId: string,
  factsVersion: number | null,
): Promise<boolean> {
  const before = await trx
    .selectFrom('plan')
    .selectAll()
    .where('household_id', '=', householdId)
    .where('id', '=', planId)
    .executeTakeFirst();
  if (before === undefined) return false;
  await trx
    .insertInto('plan')
    .values({
      ...before,
      id: randomUUID(),
      facts_version: factsVersion ?? before.facts_version,
      seq: nextSeq('plan', householdId),
    })
    .execute();
  return true;
}

const factsVersionNow = async ({ trx, householdId }: Recorder): Promise<number> =>
  (
    await trx
      .selectFrom('household')
      .select('facts_version')
      .where('id', '=', householdId)
      .executeTakeFirstOrThrow()
  ).facts_version;

const decisionOn = ({ trx, householdId }: Recorder, recipe: string, week: string) =>
  trx
    .selectFrom('kept')
    .select(['decision', 'batches'])
    .where('household_id', '=', householdId)
    .where('recipe_id', '=', recipe)
    .where('week', '=', week)
    .executeTakeFirst();

/** So many batches are pinned in the week; null takes the pin off. */
async function setPin(
  { trx, householdId, at }: Recorder,
  { recipe, week }: Pick<Pin, 'recipe' | 'week'>,
  batches: number | null,
): Promise<void> {
  await trx
    .deleteFrom('kept')
    .where('household_id', '=', householdId)
    .where('recipe_id', '=', recipe)
    .where('week', '=', week)
    .execute();
  if (batches !== null)
    await trx
      .insertInto('kept')
      .values({
        household_id: householdId,
        recipe_id: recipe,
        week,
        decision: 'pinned',
        batches,
        decided_at: at,
      })
      .execute();
}
