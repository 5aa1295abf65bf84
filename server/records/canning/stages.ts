import { found, type Outcome } from '../../../shared/problems.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { FirstStageRequest, NextStageRequest, WayRequest } from '../../../shared/schemas/stage.ts';
import type { BegunStage, RecipeBatches } from '../../../src/household/begun.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import { waysOf } from '../../../src/preserving/stages/recipe-stages.ts';
import { beginRuling, localDateTime } from '../../../src/preserving/stages/stages-done.ts';
import { stagesHere } from '../../../src/preserving/stages/stages-here.ts';
import { standingBatches } from '../../../src/preserving/stages/standing-batches.ts';
import { householdById } from '../../queries/household/household.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { preparationsOf } from '../../year/preparations.ts';
import { freshId } from '../fresh-id.ts';
import { nextSeq } from '../next-seq.ts';
import { type Recorder, type Recording, record, refuse } from '../record.ts';
import { takeForBatches, takeStoresBack } from '../year/stores.ts';

/** Begins batches of a recipe days or hours before their canner load: their first stage is done, now or at a time before. */
export const beginBatches = (
  recording: Recording,
  reference: ReferenceTables,
  request: FirstStageRequest,
): Promise<Outcome<{ readonly batchId: string }>> =>
  record(recording, 'begin batches', request, async (recorder) => {
    const recipe = await knownRecipe(recorder, request.recipe);
    if (!recipe.ok) return recipe;
    const taken = await recorder.trx
      .selectFrom('stage_event')
      .select('batch_id')
      .distinct()
      .where('household_id', '=', recorder.householdId)
      .execute();
    const id = freshId(
      `${recipe.value.id}-begun`,
      taken.map((row) => row.batch_id),
    );
    const written = await writeStage(recorder, reference, recipe.value, request, {
      id,
      batches: request.batches,
      begun: [],
    });
    if (!written.ok) return written;
    await takeForBatches(recorder, begunEntry(id), recipe.value, request.batches, recorder.today);
    return found({ batchId: id });
  });

/** The entry under which batches begun days before their load took their produce and supplies. */
const begunEntry = (batchId: string): string => `begun ${batchId}`;

/** The way a household takes with a recipe, of those its source prints. What was begun keeps the way it was begun by. */
export const chooseWay = (
  recording: Recording,
  reference: ReferenceTables,
  request: WayRequest,
): Promise<Outcome<true>> =>
  record(recording, 'choose way', request, async (recorder) => {
    const recipe = await knownRecipe(recorder, request.recipe);
    if (!recipe.ok) return recipe;
    const ways = waysOf(stagesHere(recipe.value, reference)).filter((way) => way !== null);
    if (!ways.includes(request.way))
      return refuse(
        'way-not-printed',
        'way',
        ways.length === 0
          ? `${recipe.value.name} is made in one way only; there is none to choose.`
          : `The source prints no such way. Choose one of these: ${ways.join(', or ')}.`,
      );
    await recorder.trx
      .insertInto('recipe_way')
      .values({
        household_id: recorder.householdId,
        seq: nextSeq('recipe_way', recorder.householdId),
        recipe_id: recipe.value.id,
        way: request.way,
        chosen_by: recorder.by,
        chosen_at: recorder.at,
      })
      .execute();
    return found(true);
  });

/** The next stage of batches that were begun. */
export const beginStage = (
  recording: Recording,
  reference: ReferenceTables,
  request: NextStageRequest & { readonly batchId: string },
): Promise<Outcome<{ readonly batchId: string }>> =>
  record(recording, 'begin stage', request, async (recorder) => {
    const batch = await standingBatch(recorder, request.batchId);
    if (!batch.ok) return batch;
    const recipe = await knownRecipe(recorder, batch.value.recipeId);
    if (!recipe.ok) return recipe;
    const written = await writeStage(recorder, reference, recipe.value, request, batch.value);
    return written.ok ? found({ batchId: request.batchId }) : written;
  });

/** Takes the newest stage of a batch back that was written down by mistake. */
export const takeStageBack = (
  recording: Recording,
  batchId: string,
): Promise<Outcome<{ readonly batchId: string }>> =>
  record(recording, 'take stage back', { batchId }, async (recorder) => {
    const batch = await standingBatch(recorder, batchId);
    if (!batch.ok) return batch;
    const last = batch.value.begun.at(-1);
    if (batch.value.begun.length === 1) await takeStoresBack(recorder, begunEntry(batchId));
    if (last !== undefined)
      await addEvent(recorder, batch.value, { kind: 'taken back', position: last.position });
    return found({ batchId });
  });

/** Batches that went bad, or waited longer than the source allows. */
export const throwBatchAway = (
  recording: Recording,
  batchId: string,
): Promise<Outcome<{ readonly batchId: string }>> =>
  record(recording, 'throw batch away', { batchId }, async (recorder) => {
    const batch = await standingBatch(recorder, batchId);
    if (!batch.ok) return batch;
    await addEvent(recorder, batch.value, { kind: 'thrown away', position: null });
    return found({ batchId });
  });

type BatchWritten = Pick<RecipeBatches, 'id' | 'batches' | 'begun'>;

async function writeStage(
  recorder: Recorder,
  reference: ReferenceTables,
  recipe: Recipe,
  { position, way, begunAt }: NextStageRequest,
  batch: BatchWritten,
): Promise<Outcome<true>> {
  const { timeZone } = await householdById(recorder.trx, recorder.householdId);
  const now = localDateTime(recorder.at, timeZone);
  const at = begunAt ?? now;
  if (at > now)
    return refuse(
      'stage-in-future',
      'begunAt',
      `${at.replace('T', ' ')} is still to come. Write it down once it is begun.`,
    );
  const wanted: BegunStage = { position, way: way === '' ? null : way, begunAt: at };
  const ruling = beginRuling(stagesHere(recipe, reference), batch.begun, wanted, timeZone);
  if (!ruling.ok) return ruling;
  await addEvent(recorder, { ...batch, recipeId: recipe.id }, { kind: 'begun', ...wanted });
  return found(true);
}

const addEvent = (
  { trx, householdId, at, by }: Recorder,
  batch: Pick<RecipeBatches, 'id' | 'recipeId' | 'batches'>,
  event:
    | ({ readonly kind: 'begun' } & BegunStage)
    | { readonly kind: 'taken back'; readonly position: number }
    | { readonly kind: 'thrown away'; readonly position: null },
) =>
  trx
    .insertInto('stage_event')
    .values({
      household_id: householdId,
      seq: nextSeq('stage_event', householdId),
      batch_id: batch.id,
      recipe_id: batch.recipeId,
      batches: batch.batches,
      kind: event.kind,
      position: event.position,
      way: event.kind === 'begun' ? event.way : null,
      begun_at: event.kind === 'begun' ? event.begunAt : null,
      recorded_by: by,
      recorded_at: at,
    })
    .execute();

/** A batch that was begun and is neither filled into jars nor thrown away. */
async function standingBatch(
  { trx, householdId }: Recorder,
  batchId: string,
): Promise<Outcome<RecipeBatches>> {
  const preparations = await preparationsOf(trx, householdId);
  const whole = preparations.batches.find(({ id }) => id === batchId);
  if (whole === undefined)
    return refuse('batch-unknown', '', 'No such batch was begun here. Load the page again.');
  return standingBatches(preparations, whole.recipeId).some(({ id }) => id === batchId)
    ? found(whole)
    : refuse(
        'batch-finished',
        '',
        'This batch went into jars or was thrown away already. What is written down of it stays.',
      );
}

async function knownRecipe({ trx, householdId }: Recorder, recipeId: string): Promise<Outcome<Recipe>> {
  const recipe = (await recipesOf(trx, householdId)).find(({ id }) => id === recipeId);
  return recipe ? found(recipe) : refuse('recipe-unknown', 'recipe', 'Choose a recipe from the list.');
}
