import { dateWords } from '../../../shared/date-words.ts';
import type { LotId } from '../../../shared/ids.ts';
import { type JarKind, mouthOf } from '../../../shared/jar.ts';
import { found, type Outcome, together } from '../../../shared/problems.ts';
import type { ProcessingEvidence, PutUp } from '../../../shared/schemas/shelf/put-up.ts';
import { addDays, type CalendarDate, weekHolding } from '../../../shared/week.ts';
import { isRecordedAsItHappened } from '../../../src/consumption/recording-start.ts';
import type { Item } from '../../../src/household/item.ts';
import { eatenBeforeReason } from '../../../src/household/paper-record.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import { standingBatches } from '../../../src/preserving/stages/standing-batches.ts';
import { pageNames } from '../../../views/words/page-names.ts';
import { householdById } from '../../queries/household/household.ts';
import { cannersOf } from '../../queries/household/kitchen.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { standingPlanOf } from '../../queries/year/plans.ts';
import { preparationsOf } from '../../year/preparations.ts';
import { knownItem, pastDay, wholeUnits } from '../canning/checks.ts';
import {
  problemsIn,
  type Reader,
  type Recorder,
  type Recording,
  type Rules,
  record,
  refuse,
} from '../record.ts';
import { takeForBatches } from '../year/stores.ts';
import { addEmptyJarEvents, addJarEvents, newEntryId } from './jar-events.ts';
import { addLot, bestQualityDay, jarKindOf, knownPlace } from './new-lot.ts';

export interface PutUpAnswer {
  readonly entryId: string;
  readonly lots: readonly {
    readonly lotId: LotId;
    readonly batchCode: string;
    readonly jarKind: JarKind | null;
    readonly units: number;
    readonly readyFrom: CalendarDate;
    readonly bestQualityUntil: CalendarDate;
  }[];
}

/** What came out of a batch: lots, filled jars, used lids, and the batch done in the plan. */
export const putUp = (recording: Recording, request: PutUp): Promise<Outcome<PutUpAnswer>> =>
  record(recording, 'put up', request, async (recorder) =>
    putUpWithin(recorder, await asPlanned(recorder, request)),
  );

/** Puts up within another record; `plannedOn` is the canning day whose week has it done, where that is not the day it was made. */
export async function putUpWithin(
  recorder: Recorder,
  request: PutUp,
  plannedOn: CalendarDate | null = null,
): Promise<Outcome<PutUpAnswer>> {
  const checked = together(
    together(await whatIsPutUp(recorder, request), eatenBefore(request)),
    together(await knownPlace(recorder, request.placeId), await knownCanner(recorder, request.evidence)),
  );
  if (!checked.ok) return checked;
  const [[whatIs, eaten], [placeId, evidence]] = checked.value;
  const { item, recipe, madeOn, readyFrom, bestQualityUntil, filled } = whatIs;

  const entryId = newEntryId();
  const lots: PutUpAnswer['lots'][number][] = [];
  for (const { jarKind, units } of filled) {
    const lot = await addLot(recorder, {
      item,
      jarKind,
      origin: 'put-up',
      madeOn,
      readyFrom,
      bestQualityUntil,
      placeId,
      recipeId: recipe?.id ?? null,
      costCents: null,
    });
    await addJarEvents(recorder, [
      { entryId, lotId: lot.id, kind: 'put up', units, reason: request.note || null, occurredOn: madeOn },
    ]);
    if (eaten > 0)
      await addJarEvents(recorder, [
        {
          entryId,
          lotId: lot.id,
          kind: 'counted',
          units: -eaten,
          trainsUse: true,
          reason: eatenBeforeReason,
          occurredOn: recorder.today,
        },
      ]);
    if (jarKind !== null) await fillJars(recorder, entryId, jarKind, units, madeOn);
    if (evidence !== null) await keepEvidence(recorder, lot.id, evidence);
    lots.push({ lotId: lot.id, batchCode: lot.batchCode, jarKind, units, readyFrom, bestQualityUntil });
  }
  if (recipe !== null && request.batches !== null) {
    await markDone(recorder, recipe, plannedOn ?? madeOn, request.batches);
    await takeForBatches(
      recorder,
      entryId,
      recipe,
      await madeInOneGo(recorder, recipe, request.batches),
      madeOn,
    );
  }
  return found({ entryId, lots });
}

/** A planned week asks for no more of what was put up in it, though no recipe was named: then it is the plan's. */
async function asPlanned(recorder: Recorder, request: PutUp): Promise<PutUp> {
  const { trx, householdId, today } = recorder;
  const [line, ...others] = request.filled;
  const madeOn = request.madeOn ?? today;
  if (request.recipeId !== null || request.batches !== null || line === undefined || others.length > 0)
    return request;
  const [plan, { weekStartsOn }, recipes] = await Promise.all([
    standingPlanOf(trx, householdId),
    householdById(trx, householdId),
    recipesOf(trx, householdId),
  ]);
  const week = plan?.plan.weeks.find((one) => one.week === weekHolding(madeOn, weekStartsOn));
  const planned = (week?.sessions ?? []).flatMap((session) => {
    const recipe = recipes.find(({ id }) => id === session.recipe);
    return recipe?.itemId === request.itemId ? [{ recipe, session }] : [];
  });
  const named =
    planned.find(({ recipe }) => line.jarKind !== null && recipe.jarKind === line.jarKind) ?? planned[0];
  if (named === undefined) return request;
  const { recipe, session } = named;
  const perBatch = (recipe.yieldLow + recipe.yieldHigh) / 2;
  const batches = Math.min(session.batches, Math.round(line.units / perBatch));
  return batches < 1 ? request : { ...request, recipeId: recipe.id, batches };
}

/** Batches of which nothing was taken before: those begun days before took their produce and supplies then. */
async function madeInOneGo(recorder: Recorder, recipe: Recipe, batches: number): Promise<number> {
  const begun = standingBatches(await preparationsOf(recorder.trx, recorder.householdId), recipe.id);
  return Math.max(0, batches - begun.reduce((sum, one) => sum + one.batches, 0));
}

/** Units eaten of a batch before it was written down; only sayable of one kind of jar at a time. */
function eatenBefore({ left, filled }: Pick<PutUp, 'left' | 'filled'>): Outcome<number> {
  const [first, ...others] = filled;
  if (left === null || first === undefined) return found(0);
  if (others.length > 0)
    return refuse(
      'left-of-several',
      'left',
      'How many are left can be written for one kind of jar; here are several. Write each kind down on its own.',
    );
  if (left > first.units)
    return refuse(
      'more-left-than-made',
      'left',
      `${first.units} were put up, so ${left} cannot be left. Change one of the two.`,
    );
  return found(first.units - left);
}

interface Checked {
  readonly item: Item;
  readonly recipe: Recipe | null;
  readonly madeOn: CalendarDate;
  readonly readyFrom: CalendarDate;
  readonly bestQualityUntil: CalendarDate;
  readonly filled: readonly { readonly jarKind: JarKind | null; readonly units: number }[];
}

/** What can be told of a batch from the fields that can be read. */
export const putUpRules: Rules<PutUp> = async (reader, asked) => {
  const known = asked.itemId === undefined ? null : await madeHere(reader, asked.itemId);
  const recipe = known?.ok ? await recipeOf(reader, known.value, asked.recipeId ?? null) : null;
  const { madeOn, readyFrom = null, bestQualityUntil = null, filled, left = null } = asked;
  return problemsIn(
    known ?? found(null),
    recipe ?? found(null),
    madeOn === undefined
      ? found(null)
      : known?.ok
        ? daysOf(reader, known.value, recipe?.ok ? recipe.value : null, {
            madeOn,
            readyFrom,
            bestQualityUntil,
          })
        : pastDay(reader, 'madeOn', madeOn),
    known?.ok && filled !== undefined ? jarsFilled(known.value, filled) : found(null),
    filled === undefined ? found(null) : eatenBefore({ left, filled }),
    await knownPlace(reader, asked.placeId ?? null),
  );
};

/** An item that is put up; a staple is only bought. */
async function madeHere(reader: Reader, itemId: PutUp['itemId']): Promise<Outcome<Item>> {
  const known = await knownItem(reader, itemId);
  if (!known.ok || known.value.kind !== 'staple') return known;
  return refuse(
    'staple-not-made',
    'itemId',
    `You only buy ${known.value.name}. Write it down as bought instead.`,
  );
}

async function recipeOf(
  reader: Reader,
  item: Item,
  recipeId: PutUp['recipeId'],
): Promise<Outcome<Recipe | null>> {
  const all = await recipesOf(reader.trx, reader.householdId);
  const recipe = all.find((candidate) => candidate.id === recipeId) ?? null;
  return recipeId !== null && recipe?.itemId !== item.id
    ? refuse('recipe-unknown', 'recipeId', `Choose a recipe of ${item.name}, or leave it blank.`)
    : found(recipe);
}

async function whatIsPutUp(recorder: Recorder, request: PutUp): Promise<Outcome<Checked>> {
  const known = await madeHere(recorder, request.itemId);
  if (!known.ok) return known;
  const item = known.value;
  const recipe = await recipeOf(recorder, item, request.recipeId);
  if (!recipe.ok) return recipe;
  const checked = together(daysOf(recorder, item, recipe.value, request), jarsFilled(item, request.filled));
  if (!checked.ok) return checked;
  const [days, filled] = checked.value;
  return found({ item, recipe: recipe.value, ...days, filled });
}

/** The days of a batch; where the day it was put up is wrong, the others cannot be judged by it. */
function daysOf(
  reader: Reader,
  item: Item,
  recipe: Recipe | null,
  request: Pick<PutUp, 'madeOn' | 'readyFrom' | 'bestQualityUntil'>,
): Outcome<Pick<Checked, 'madeOn' | 'readyFrom' | 'bestQualityUntil'>> {
  const day = pastDay(reader, 'madeOn', request.madeOn);
  if (!day.ok) return day;
  const madeOn = day.value;
  const readyFrom = request.readyFrom ?? addDays(madeOn, recipe?.readyAfterDays ?? 0);
  const ready =
    readyFrom < madeOn
      ? refuse<CalendarDate>(
          'ready-before-made',
          'readyFrom',
          `It was put up on ${dateWords(madeOn)}, so it cannot be ready on ${dateWords(readyFrom)}. Leave it blank or choose a later day.`,
        )
      : found(readyFrom);
  const both = together(ready, bestQualityDay(item, madeOn, request.bestQualityUntil));
  return both.ok ? found({ madeOn, readyFrom, bestQualityUntil: both.value[1] }) : both;
}

/** The jars that were filled, each in whole units of the item. */
function jarsFilled(item: Item, lines: PutUp['filled']): Outcome<Checked['filled']> {
  let all: Outcome<Checked['filled']> = found([]);
  for (const line of lines) {
    const one = together(wholeUnits(item, line.units), jarKindOf(item, line.jarKind));
    const both = together(all, one);
    all = both.ok ? found([...both.value[0], { units: line.units, jarKind: both.value[1][1] }]) : both;
  }
  return all;
}

async function knownCanner(
  recorder: Recorder,
  evidence: ProcessingEvidence | null,
): Promise<Outcome<ProcessingEvidence | null>> {
  if (evidence === null) return found(null);
  const canners = await cannersOf(recorder.trx, recorder.householdId);
  const canner = canners.find((candidate) => candidate.id === evidence.cannerId);
  if (canner && canner.method === evidence.method && canner.gauge === evidence.gauge) return found(evidence);
  return refuse(
    'canner-unknown',
    'evidence',
    `${pageNames.kitchen} describes no such canner. Choose the canner again.`,
  );
}

/**
 * Takes jars and lids for a batch from those on hand. What was counted after the batch was put up is without it already: a batch of
 * last year took last year's jars and lids, and stands full on the shelf without taking any of today's.
 */
async function fillJars(
  recorder: Recorder,
  entryId: string,
  jarKind: JarKind,
  jars: number,
  on: CalendarDate,
): Promise<void> {
  if (await wasCountedBy(recorder, jarKind, on))
    await addEmptyJarEvents(recorder, [{ entryId, jarKind, kind: 'filled', jars: -jars, occurredOn: on }]);
  let needed = jars;
  const boxes = await recorder.trx
    .selectFrom('lid_box')
    .selectAll()
    .where('household_id', '=', recorder.householdId)
    .where('mouth', '=', mouthOf(jarKind))
    .where('lids', '>', 0)
    .where('bought_on', '<=', on)
    .orderBy('bought_on')
    .orderBy('id')
    .execute();
  for (const box of boxes) {
    const used = Math.min(box.lids, needed);
    needed -= used;
    if (used > 0)
      await recorder.trx
        .updateTable('lid_box')
        .set({ lids: box.lids - used })
        .where('household_id', '=', recorder.householdId)
        .where('id', '=', box.id)
        .execute();
  }
}

/** Whether the empty jars of a kind had been counted by that day; where nobody ever counted them, a batch of the last week fills some. */
async function wasCountedBy(recorder: Recorder, jarKind: JarKind, on: CalendarDate): Promise<boolean> {
  const { trx, householdId, today } = recorder;
  const counted = await trx
    .selectFrom('empty_jar_event')
    .select('occurred_on')
    .where('household_id', '=', householdId)
    .where('jar_kind', '=', jarKind)
    .where('kind', '=', 'counted')
    .where('entry_id', 'not in', (lots) =>
      lots.selectFrom('jar_event').select('entry_id').where('household_id', '=', householdId),
    )
    .orderBy('occurred_on', 'desc')
    .limit(1)
    .executeTakeFirst();
  return counted === undefined ? isRecordedAsItHappened({ on, writtenOn: today }) : counted.occurred_on <= on;
}

const keepEvidence = (recorder: Recorder, lotId: LotId, evidence: ProcessingEvidence) =>
  recorder.trx
    .insertInto('processing_evidence')
    .values({
      household_id: recorder.householdId,
      lot_id: lotId,
      canner_id: evidence.cannerId,
      method: evidence.method,
      gauge: evidence.gauge,
      schedule_row: evidence.scheduleRow,
      altitude_ft: evidence.altitudeFt,
      psi: evidence.psi,
      minutes_run: evidence.minutesRun,
      acid_ticked: evidence.acidTicked === null ? null : evidence.acidTicked ? 1 : 0,
      done_by: evidence.doneBy,
    })
    .execute();

/** A batch that was made is a fact of the week it was planned in, on top of what was done there before. */
async function markDone(
  recorder: Recorder,
  recipe: Recipe,
  plannedOn: CalendarDate,
  batches: number,
): Promise<void> {
  const { trx, householdId, at } = recorder;
  const week = weekHolding(plannedOn, (await householdById(trx, householdId)).weekStartsOn);
  const earlier = await trx
    .selectFrom('kept')
    .select('batches')
    .where('household_id', '=', householdId)
    .where('recipe_id', '=', recipe.id)
    .where('week', '=', week)
    .where('decision', '=', 'done')
    .executeTakeFirst();
  const done = { decision: 'done' as const, batches: (earlier?.batches ?? 0) + batches, decided_at: at };
  await trx
    .insertInto('kept')
    .values({ household_id: householdId, recipe_id: recipe.id, week, ...done })
    .onConflict((conflict) => conflict.columns(['household_id', 'recipe_id', 'week']).doUpdateSet(done))
    .execute();
}
