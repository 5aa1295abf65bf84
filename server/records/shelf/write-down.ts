import { counted } from '../../../shared/counting.ts';
import type { RecipeId } from '../../../shared/ids.ts';
import { inUsualJars, type JarKind, sizeOf } from '../../../shared/jar.ts';
import { found, type Outcome, type Problem, refused } from '../../../shared/problems.ts';
import type { BatchResultRequest } from '../../../shared/schemas/canning-session.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { ProcessingEvidence } from '../../../shared/schemas/shelf/put-up.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import {
  evidenceProblems,
  type ProcessEvidence,
} from '../../../src/preserving/afterwards/process-evidence.ts';
import { askGate, isCanned, noonOf } from '../../../src/preserving/ask-gate.ts';
import type { Schedule } from '../../../src/preserving/lookup/schedule.ts';
import { byProductOf } from '../../../src/preserving/recipes/by-product.ts';
import { householdById } from '../../queries/household/household.ts';
import { itemById } from '../../queries/household/items.ts';
import { cannersOf } from '../../queries/household/kitchen.ts';
import { materialsOf, recipesOf } from '../../queries/household/recipes.ts';
import { problemsIn, type Recorder, type Recording, type Rules, record, refuse } from '../record.ts';
import { keepByProduct, useByProducts } from '../year/waiting-material.ts';
import { type PutUpAnswer, putUpWithin } from './put-up.ts';

export interface WriteDown {
  readonly recipeId: string;
  /** The canning day; what is written down before it counts as of today. */
  readonly on: CalendarDate;
  /** When the last load came out of the canner, UTC milliseconds. */
  readonly processedAt: number;
  readonly came: BatchResultRequest;
}

export interface WriteDownAnswer {
  readonly resultId: string;
  readonly lots: PutUpAnswer['lots'];
}

/**
 * What came out of a recipe's batches: lots with the evidence of their processing, jars and lids counted, what was left
 * over waiting, the batches done in the plan. Jars that were not processed as published are not shelved.
 */
export const writeDown = (
  recording: Recording,
  reference: ReferenceTables,
  request: WriteDown,
): Promise<Outcome<WriteDownAnswer>> =>
  record(recording, 'write down', { ...request, processedAt: null }, async (recorder) => {
    const { trx, householdId, today } = recorder;
    const { came } = request;
    const all = await recipesOf(trx, householdId);
    const recipe = all.find(({ id }) => id === request.recipeId);
    if (!recipe) return refuse('recipe-unknown', 'recipeId', 'Choose a recipe from the canning day.');
    const filled = filledJars(recipe, came);
    if (!filled.ok)
      return refused(
        ...filled.problems,
        ...(recipe.process === null
          ? []
          : evidenceUnwritten({ doneBy: came.doneBy, minutesRun: came.minutesRun?.toString() ?? '' })),
      );
    const madeOn = earlierOf(request.on, today);
    const item = await itemById(trx, householdId, recipe.itemId);
    if (item === null) throw new RangeError(`writeDown: recipe ${recipe.id} has no item`);
    const evidence = await evidenceFor(recorder, reference, { recipe, item }, filled.value, came, madeOn);
    if (!evidence.ok) return evidence;

    const lots: PutUpAnswer['lots'][number][] = [];
    let resultId = '';
    for (const [at, line] of filled.value.entries()) {
      const shelved = await putUpWithin(
        recorder,
        {
          itemId: recipe.itemId,
          recipeId: recipe.id,
          batches: at === 0 && came.batches > 0 ? came.batches : null,
          madeOn,
          readyFrom: null,
          bestQualityUntil: null,
          placeId: null,
          filled: [line],
          left: null,
          note: came.note,
          evidence: evidence.value[at] ?? null,
        },
        request.on,
      );
      if (!shelved.ok) return shelved;
      lots.push(...shelved.value.lots);
      resultId ||= shelved.value.entryId;
    }
    await keepResult(recorder, resultId, recipe, request, madeOn, lots);
    await useByProducts(recorder, recipe.uses, came.batches, madeOn, resultId);
    const left = byProductOf(recipe, await materialsOf(trx, householdId), reference);
    if (left !== null && came.byProduct !== null)
      await keepByProduct(recorder, left, came.byProduct, madeOn, resultId);
    return found({ resultId, lots });
  });

const earlierOf = (one: CalendarDate, other: CalendarDate): CalendarDate => (one < other ? one : other);

interface FilledLine {
  readonly jarKind: JarKind | null;
  readonly units: number;
}

/** Jars of another kind say which; told while the rest cannot be read. */
export const cameRules =
  (recipe: Recipe): Rules<BatchResultRequest> =>
  (_reader, { jarKind = null, otherUnits = null, otherKind = null }) =>
    problemsIn(filledJars(recipe, { jarKind, otherUnits, otherKind, units: 0 }));

function filledJars(
  recipe: Recipe,
  came: Pick<BatchResultRequest, 'jarKind' | 'units' | 'otherUnits' | 'otherKind'>,
): Outcome<readonly FilledLine[]> {
  const first = {
    jarKind: recipe.jarKind === null ? null : (came.jarKind ?? recipe.jarKind),
    units: came.units,
  };
  if (came.otherUnits === null) return found([first]);
  if (came.otherKind === null || came.otherKind === first.jarKind)
    return refuse(
      'other-jar-missing',
      'otherKind',
      'Choose the kind of jar of the others, or add them to the first number.',
    );
  return found([first, { jarKind: came.otherKind, units: came.otherUnits }]);
}

const problem = (code: string, field: string, message: string): Problem => ({ code, path: [field], message });

const atRecipe = (problems: readonly Problem[]): Outcome<never> =>
  refused(...problems.map((problem) => ({ ...problem, path: ['recipeId'] })));

/** What is written of every load that was canned, and here is not. */
export const evidenceUnwritten = ({
  doneBy = '',
  minutesRun = '',
}: Readonly<Record<string, string>>): readonly Problem[] => [
  ...(doneBy.trim() === '' ? [problem('who-missing', 'doneBy', 'Write who watched the canner.')] : []),
  ...(minutesRun.trim() === ''
    ? [
        problem(
          'minutes-missing',
          'minutesRun',
          'Write how many minutes the load was processed without a break, read off the clock.',
        ),
      ]
    : []),
];

/** One piece of evidence for each kind of jar, held against the published row of that jar; none for what is not canned. */
async function evidenceFor(
  { trx, householdId }: Recorder,
  reference: ReferenceTables,
  { recipe, item }: { readonly recipe: Recipe; readonly item: Item },
  filled: readonly FilledLine[],
  came: BatchResultRequest,
  on: CalendarDate,
): Promise<Outcome<readonly ProcessingEvidence[]>> {
  const { process } = recipe;
  if (!isCanned(recipe, item)) return found([]);
  const [household, canners] = await Promise.all([
    householdById(trx, householdId),
    cannersOf(trx, householdId),
  ]);
  const kitchen = { household, canners, reference };
  const when = { at: noonOf(on), prepared: 'as-planned' } as const;
  if (process === null) {
    const none = askGate(recipe, item, kitchen, when);
    return none.ok ? found([]) : atRecipe(none.problems);
  }
  const canner = canners.find(({ id }) => id === process.cannerId);
  if (!canner)
    return refuse(
      'canner-gone',
      'recipeId',
      `The canner of ${recipe.name} is no longer used. Choose another canner for it first.`,
    );
  // Everything that is missing is said at once.
  const missing = [
    ...evidenceUnwritten({ doneBy: came.doneBy, minutesRun: came.minutesRun?.toString() ?? '' }),
  ];
  const evidence: ProcessingEvidence[] = [];
  for (const { jarKind } of filled) {
    const gate = askGate(
      { ...recipe, process: { ...process, jarKind: jarKind ?? process.jarKind } },
      item,
      kitchen,
      when,
    );
    if (!gate.ok) return atRecipe(gate.problems);
    const ran = {
      altitudeFt: came.altitudeFt ?? household.altitudeFt ?? Number.NaN,
      psi: came.psi,
      minutesRun: came.minutesRun ?? Number.POSITIVE_INFINITY,
      acidTicked: came.acidTicked,
    };
    const ruling = rowThatRan(gate.value.schedules, ran);
    if (came.psi === null && gate.value.schedules.every(({ psi }) => psi !== null))
      missing.push(
        problem(
          'pressure-missing',
          'psi',
          'Write the pressure at which the gauge stood, or tick that it held.',
        ),
      );
    const besides = ruling.ok ? [] : ruling.problems;
    const [first, ...others] = [
      ...missing,
      ...besides.filter(({ path }) => !['minutesRun', 'psi'].includes(String(path[0]))),
    ];
    if (missing.length > 0 && first !== undefined) return refused(first, ...others);
    if (!ruling.ok) return ruling;
    const kept = ruling.value;
    evidence.push({
      cannerId: canner.id,
      method: canner.method,
      gauge: canner.gauge,
      scheduleRow: kept.rowKey,
      altitudeFt: ran.altitudeFt,
      psi: kept.psi === null ? null : ran.psi,
      minutesRun: ran.minutesRun,
      acidTicked: kept.acid === null ? null : ran.acidTicked,
      doneBy: came.doneBy,
    });
  }
  return found(evidence);
}

/** The printed row that was run in full; where several are printed, any of them, but one of them whole. */
function rowThatRan(
  schedules: readonly [Schedule, ...Schedule[]],
  ran: Omit<ProcessEvidence, 'rowKey'>,
): Outcome<Schedule> {
  const problemsOf = (schedule: Schedule) => evidenceProblems({ ...ran, rowKey: schedule.rowKey }, schedule);
  const kept = schedules.find((schedule) => problemsOf(schedule).length === 0);
  if (kept) return found(kept);
  const [first, ...others] = schedules;
  if (others.length === 0) return refused(...problemsOf(first));
  const whicheverRow = problemsOf(first).filter(({ path }) => path[0] !== 'minutesRun' && path[0] !== 'psi');
  if (whicheverRow.length > 0) return refused(...whicheverRow);
  const listed = schedules
    .map(({ minutes, psi }) => `${counted(minutes, 'minute')} at ${psi} psi`)
    .join(', ');
  return refused({
    code: 'no-printed-row-ran',
    path: ['minutesRun'],
    message: `${counted(ran.minutesRun, 'minute')} at ${ran.psi ?? 'no'} psi is no printed schedule run in full (${listed}). Do not shelve these jars: process them again within 24 hours, freeze or refrigerate them.`,
  });
}

async function keepResult(
  { trx, householdId, at }: Recorder,
  id: string,
  recipe: Recipe,
  { on, came, processedAt }: WriteDown,
  madeOn: CalendarDate,
  lots: PutUpAnswer['lots'],
): Promise<void> {
  const own = { household_id: householdId };
  await trx
    .insertInto('batch_result')
    .values({
      ...own,
      id,
      recipe_id: recipe.id satisfies RecipeId,
      made_on: madeOn,
      batches: came.batches,
      jars: lots.reduce((sum, { jarKind, units }) => sum + inRecipesJars(recipe, jarKind, units), 0),
      minutes_taken: came.minutesTaken,
      processed_at: processedAt,
      note: came.note,
      recorded_at: at,
      session_on: on,
    })
    .execute();
  await trx
    .insertInto('batch_result_lot')
    .values(lots.map(({ lotId }) => ({ ...own, result_id: id, lot_id: lotId })))
    .execute();
}

const inRecipesJars = (recipe: Recipe, jarKind: JarKind | null, units: number): number =>
  jarKind === null || recipe.jarKind === null
    ? units
    : units * inUsualJars(sizeOf(jarKind), sizeOf(recipe.jarKind));
