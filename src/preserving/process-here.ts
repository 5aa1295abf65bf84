import type { JarSize } from '../../shared/jar.ts';
import { asDate } from '../../shared/week.ts';
import type { LocalDateTime } from '../household/begun.ts';
import type { NameDenial } from '../household/recipe.ts';
import {
  type Canner,
  countsOnGaugeCheck,
  type GaugeCheckPlannedOn,
  jarsPerLoad,
  schedulesInCanner,
} from './canner.ts';
import { cite } from './citation.ts';
import { nameRefusals } from './foods/food-names.ts';
import type { FoodCondition } from './lookup/food-conditions.ts';
import type { Schedule } from './lookup/schedule.ts';
import { type BasisTables, processOfBasis, type RecipeBasis, recipeBasis } from './recipes/recipe-basis.ts';
import type { RecipeProcess, TestedRecipe } from './recipes/recipe-book.ts';
import { allowed, forbidden, type Refusal, type Ruling, refusal } from './refusal.ts';
import type { Prepared, StageBefore } from './stages/stage-question.ts';
import { stagesDone } from './stages/stages-done.ts';

// The one gate: nothing is processed in this kitchen, planned, printed or offered, that did not pass here.

/** What is asked of a household's recipe: everything that must fit together before a jar goes into a canner. */
export interface ProcessQuestion {
  /** Key of the recipe book, or of a food of the processing table. */
  readonly basedOn: string;
  /** What the household calls it: its item, its recipe. */
  readonly names: readonly string[];
  /** Foods somebody said are not in what goes by those names; asked anew where nobody did. */
  readonly nameDenials?: readonly NameDenial[];
  /** `null` for what names no process: it is not canned. */
  readonly process: { readonly food: string; readonly style: string; readonly pack: string } | null;
  /** Crops it is made of, by their key. */
  readonly crops: readonly string[];
  readonly jar: JarSize;
  /** `null` when none was chosen, or it is gone. */
  readonly canner: Canner | null;
  /** `null` until it was said. */
  readonly altitudeFt: number | null;
  readonly prepared: Prepared;
  /** When the jars are to be filled and processed. */
  readonly at: LocalDateTime;
  readonly conditions?: readonly FoodCondition[];
  /**
   * From this day on the dial gauge's yearly check is counted on though nobody has recorded it: a plan asks so, and says so. A
   * canning day never does; missing or `null`: only what was recorded counts.
   */
  readonly gaugeCheckPlannedOn?: GaugeCheckPlannedOn;
  /** Of the kitchen: hours that pass are counted also in a night in which clocks change. */
  readonly timeZone?: string;
}

export interface ProcessAnswer {
  /** The tested food in words, to stand beside the household's own name. */
  readonly testedFood: string;
  /** The recipe of the book it follows; `null` for a food printed without one there. */
  readonly tested: TestedRecipe | null;
  readonly process: RecipeProcess;
  /** Printed rows for this jar, canner and altitude; several only where the table prints alternatives. */
  readonly schedules: readonly [Schedule, ...Schedule[]];
  readonly jarsPerLoad: number;
  /** In order; empty for what is made in one go. */
  readonly before: readonly StageBefore[];
  /** The answer stands only if the dial gauge is checked before the day: see `gaugeCheckPlannedOn`. */
  readonly countsOnGaugeCheck: boolean;
}

/**
 * Whether this may be processed here: the printed rows, how many jars a load takes, and what must have happened before;
 * or every rule in its way, with its source and what is possible instead.
 *
 * Held together, not one by one: the process belongs to the food the recipe is based on; the crops and the names are of
 * that food; the canner and its gauge are fit on the day; a row is printed for style, pack, jar and altitude; a load takes
 * such jars; and the stages before were begun long enough ago (with `as-planned` they are only told). Nothing is estimated.
 *
 * Source: USDA Complete Guide 1, p1-8 (a process is for the food it was tested for); the rest as cited in each refusal.
 */
export const processHere = (tables: BasisTables, question: ProcessQuestion): Ruling<ProcessAnswer> => {
  const belongs = processOfRecipe(tables, question);
  if (!belongs.ok) return belongs;
  const { basis, process } = belongs.value;
  const { canner, altitudeFt, jar, at, gaugeCheckPlannedOn = null } = question;
  if (canner === null) return forbidden(cannerGone());
  if (altitudeFt === null) return forbidden(altitudeUnknown());
  const on = asDate(at.slice(0, 10));
  const schedules = schedulesInCanner(
    tables,
    { ...process, jar, altitudeFt, conditions: question.conditions ?? [] },
    canner,
    on,
    gaugeCheckPlannedOn,
  );
  if (!schedules.ok) return schedules;
  const perLoad = jarsPerLoad(canner, jar, tables.cannerFacts);
  if (!perLoad.ok) return perLoad;
  if (perLoad.value < 1) return forbidden(jarDoesNotFit(jar));
  const { prepared, timeZone } = question;
  const before = stagesDone({
    tested: basis.tested,
    process,
    prepared,
    at,
    tables,
    ...(timeZone ? { timeZone } : {}),
  });
  if (!before.ok) return before;
  return allowed({
    testedFood: basis.name,
    tested: basis.tested,
    process,
    schedules: schedules.value,
    jarsPerLoad: perLoad.value,
    before: before.value,
    countsOnGaugeCheck: countsOnGaugeCheck(canner, on, gaugeCheckPlannedOn),
  });
};

/**
 * The part of the gate that needs no kitchen: whether a recipe's process is one of what it is based on, and its crops and
 * names are of that food. Asked on its own of what is brought in, typed or renamed.
 */
export const processOfRecipe = (
  tables: BasisTables,
  {
    basedOn,
    names,
    nameDenials = [],
    process,
    crops,
  }: Pick<ProcessQuestion, 'basedOn' | 'names' | 'nameDenials' | 'process' | 'crops'>,
): Ruling<{ readonly basis: RecipeBasis; readonly process: RecipeProcess }> => {
  if (process === null) return forbidden(noProcess());
  const basis = recipeBasis(tables, basedOn, process);
  if (!basis) return forbidden(notTested(basedOn));
  const printed = processOfBasis(basis, process);
  if (!printed) return forbidden(processOfAnother(basis, process));
  const foreign = crops.filter((crop) => !basis.hasCrop(crop));
  if (foreign.length > 0) return forbidden(...foreign.map((crop) => cropOfAnother(basis, crop)));
  const misnamed = [...new Set(names)].flatMap((name) => namedOtherwise(name, nameDenials, basis));
  if (misnamed.length > 0) return forbidden(...misnamed);
  return allowed({ basis, process: printed });
};

/** A name is held against the food the process was tested for. */
const namedOtherwise = (
  name: string,
  denials: readonly NameDenial[],
  { name: food, tested, processes }: RecipeBasis,
): readonly Refusal[] => nameRefusals(name, tested ?? { name: food, processes }, denials);

const ofItsFood = cite('USDA-G1', 'p1-8');

const noProcess = (): Refusal =>
  refusal(
    'no-process-named',
    'process',
    'Food in sealed jars needs a process that was tested for it, and this recipe names none',
    ofItsFood,
    'Add the recipe from the book, or keep it frozen or refrigerated.',
  );

const notTested = (basedOn: string): Refusal =>
  refusal(
    'not-a-tested-recipe',
    'basedOn',
    `A process belongs to the food it was tested for, and this recipe is based on ${JSON.stringify(basedOn.slice(0, 60))}, which is no recipe of the book and no food of the processing tables`,
    ofItsFood,
    'Add the recipe from the book, or keep it frozen or refrigerated.',
  );

const processOfAnother = (
  { name, processes }: RecipeBasis,
  { food, style, pack }: NonNullable<ProcessQuestion['process']>,
): Refusal => {
  const printed = processes.map((one) => `${one.foodKey}, ${one.style}, ${one.pack} pack`);
  return refusal(
    'process-of-another-food',
    'process',
    `A process belongs to the food it was tested for: ${food.slice(0, 60)}, ${style.slice(0, 60)}, ${pack.slice(0, 10)} pack is none of those printed for ${name}`,
    ofItsFood,
    `Printed for it: ${[...new Set(printed)].slice(0, 6).join('; ')}. Otherwise keep it frozen or refrigerated.`,
  );
};

const cropOfAnother = ({ name }: RecipeBasis, crop: string): Refusal =>
  refusal(
    'crop-of-another-food',
    'crops',
    `The process was tested for ${name}, and ${crop.slice(0, 40).replaceAll(/[-_]/g, ' ')} is not part of that`,
    ofItsFood,
    'Add the recipe of that crop from the book, or keep it frozen or refrigerated.',
  );

const cannerGone = (): Refusal =>
  refusal(
    'canner-gone',
    'canner',
    'A process is printed for one kind of canner, and the canner of this recipe is no longer used',
    cite('USDA-G1', 'p1-17'),
    'Choose another canner for it.',
  );

const altitudeUnknown = (): Refusal =>
  refusal(
    'altitude-unknown',
    'altitudeFt',
    'The altitude of the kitchen is not known, and every processing time depends on it',
    cite('USDA-G1', 'every table begins at 0 ft'),
    'Enter it on the kitchen page.',
  );

const jarDoesNotFit = (jar: JarSize): Refusal =>
  refusal(
    'jar-does-not-fit',
    'canner',
    `This canner holds no ${jar} jars`,
    cite('USDA-G1', 'p1-17'),
    'Choose another jar or canner, or write down how many it holds.',
  );
