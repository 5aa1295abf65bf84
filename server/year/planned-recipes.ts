import type { RecipeId } from '../../shared/ids.ts';
import { inUsualJars, type JarKind, sizeOf } from '../../shared/jar.ts';
import type { Problem } from '../../shared/problems.ts';
import { type Pack, pack } from '../../shared/schemas/reference/process-time.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import { addDays, type CalendarDate, mondayOf, type WeekKey } from '../../shared/week.ts';
import { isInMonths } from '../../src/planning/months.ts';
import type { PlannedProcessing, PlannedRecipe } from '../../src/planning/planning-year.ts';
import { attendedMinutes } from '../../src/preserving/attended-minutes.ts';
import { type Canner as CannerFacts, jarsPerLoad, schedulesInCanner } from '../../src/preserving/canner.ts';
import { loadMinutes } from '../../src/preserving/load-time.ts';
import type { Schedule } from '../../src/preserving/schedule.ts';
import type { Household } from '../queries/household.ts';
import type { Item } from '../queries/items.ts';
import type { Canner } from '../queries/kitchen.ts';
import type { Recipe } from '../queries/recipes.ts';

/** A recipe that cannot be planned here, and every rule that stands in its way. */
export interface LeftOutRecipe {
  readonly recipeId: RecipeId;
  readonly name: string;
  readonly reasons: readonly Problem[];
}

export interface RecipesHere {
  readonly planned: readonly PlannedRecipe[];
  /** Every printed schedule of each canned recipe, in this kitchen's canner at its altitude; several only where the table prints alternatives. */
  readonly schedules: ReadonlyMap<RecipeId, readonly [Schedule, ...Schedule[]]>;
  readonly leftOut: readonly LeftOutRecipe[];
}

export interface Kitchen {
  readonly household: Household;
  readonly canners: readonly Canner[];
  readonly items: readonly Item[];
  readonly weeks: readonly WeekKey[];
  readonly asOf: CalendarDate;
  readonly sessionWeekday: number;
  readonly reference: ReferenceTables;
}

type Processed =
  | {
      readonly ok: true;
      readonly processing: PlannedProcessing;
      readonly schedules: readonly [Schedule, ...Schedule[]];
      readonly allowed: readonly boolean[] | null;
    }
  | { readonly ok: false; readonly reasons: readonly Problem[] };

/** Every recipe as the planner sees it; a canned one only with a published schedule for this canner, jar and altitude. */
export function recipesHere(recipes: readonly Recipe[], kitchen: Kitchen): RecipesHere {
  const planned: PlannedRecipe[] = [];
  const leftOut: LeftOutRecipe[] = [];
  const schedules = new Map<RecipeId, readonly [Schedule, ...Schedule[]]>();
  for (const recipe of recipes) {
    const item = kitchen.items.find((candidate) => candidate.id === recipe.itemId);
    if (!item || item.retiredOn !== null) continue;
    if (recipe.process === null) {
      const reasons = mustBeCanned(item, recipe);
      if (reasons.length > 0) leftOut.push({ recipeId: recipe.id, name: recipe.name, reasons });
      else planned.push(plannedRecipe(recipe, item, kitchen, null, null));
      continue;
    }
    const processed = processHere(recipe.process, kitchen);
    if (processed.ok) {
      planned.push(plannedRecipe(recipe, item, kitchen, processed.processing, processed.allowed));
      schedules.set(recipe.id, processed.schedules);
    } else leftOut.push({ recipeId: recipe.id, name: recipe.name, reasons: processed.reasons });
  }
  return { planned, schedules, leftOut };
}

/** A canned item without a tested process is not planned at all. */
const mustBeCanned = (item: Item, recipe: Recipe): readonly Problem[] => {
  if (item.keeping !== 'canned') return [];
  return [
    recipe.awaitsCanner
      ? {
          code: 'canner-not-chosen',
          path: ['canner'],
          message: `No canner of this kitchen has been chosen for ${recipe.name}. Add a canner that fits on the kitchen page, then choose it on the page of ${item.name}.`,
        }
      : {
          code: 'no-process-named',
          path: ['process'],
          message: `${recipe.name} is kept in sealed jars but names no tested process. Name one, or keep it frozen or refrigerated.`,
        },
  ];
};

/** Whether, and how, a recipe's process can be done here in its jar; refused with every reason. */
export function processHere(process: NonNullable<Recipe['process']>, kitchen: Kitchen): Processed {
  const { household, reference } = kitchen;
  const canner = kitchen.canners.find((candidate) => candidate.id === process.cannerId);
  if (!canner)
    return cannot(
      'canner-gone',
      'canner',
      'The canner of this recipe is no longer used. Choose another canner for it.',
    );
  if (household.altitudeFt === null)
    return cannot(
      'altitude-unknown',
      'altitudeFt',
      'The altitude of the kitchen is not known, and every processing time depends on it. Enter it on the kitchen page.',
    );
  const packed = pack.safeParse(process.pack);
  if (!packed.success)
    return cannot('pack-unknown', 'pack', `Expected the pack hot, raw or none; found “${process.pack}”.`);
  const facts = cannerFacts(canner);
  const scheduleOn = (on: CalendarDate) =>
    scheduleFor(process, packed.data, household.altitudeFt ?? 0, facts, on, reference);
  const now = scheduleOn(kitchen.asOf);
  if (!now.ok) return { ok: false, reasons: now.problems };
  const schedule = longest(now.value, reference);
  const perLoad = jarsPerLoad(facts, sizeOf(process.jarKind), reference.cannerFacts);
  if (!perLoad.ok) return { ok: false, reasons: perLoad.problems };
  if (perLoad.value < 1)
    return cannot(
      'jar-does-not-fit',
      'canner',
      `${canner.name} holds no ${sizeOf(process.jarKind)} jars. Choose another jar or canner, or write down how many it holds.`,
    );
  return {
    ok: true,
    schedules: now.value,
    allowed:
      canner.gauge === 'dial'
        ? kitchen.weeks.map((week) => scheduleOn(addDays(mondayOf(week), kitchen.sessionWeekday - 1)).ok)
        : null,
    processing: {
      cannerId: canner.id,
      scheduleKey: schedule.rowKey,
      lowAcid: schedule.acidity === 'low-acid',
      minutes: schedule.minutes,
      psi: schedule.psi,
      jarsPerLoad: perLoad.value,
      loadMinutes: loadMinutes(schedule, reference.cannerFacts),
      attendedMinutes: attendedMinutes(schedule.method, reference.cannerFacts),
    },
  };
}

/** Of printed alternatives the plan counts on the longest load, so that whichever is chosen on the day fits. */
const longest = (
  [first, ...others]: readonly [Schedule, ...Schedule[]],
  { cannerFacts: facts }: ReferenceTables,
): Schedule =>
  others.reduce(
    (long, other) => (loadMinutes(other, facts) > loadMinutes(long, facts) ? other : long),
    first,
  );

const scheduleFor = (
  process: NonNullable<Recipe['process']>,
  packed: Pack,
  altitudeFt: number,
  canner: CannerFacts,
  on: CalendarDate,
  reference: ReferenceTables,
) =>
  schedulesInCanner(
    reference,
    {
      foodKey: process.food,
      style: process.style,
      pack: packed,
      jar: sizeOf(process.jarKind),
      altitudeFt,
    },
    canner,
    on,
  );

const cannot = (code: string, field: string, message: string): Processed => ({
  ok: false,
  reasons: [{ code, path: [field], message }],
});

/** The household's canner as the preserving rules know it: what was counted wins over what is published. */
export const cannerFacts = (canner: Canner): CannerFacts => ({
  method: canner.method === 'steam' ? 'atmospheric-steam' : canner.method,
  gauge: canner.gauge,
  uprightQuarts: canner.holds.quarts,
  gaugeCheckedOn: canner.gaugeCheckedOn,
  counted: {
    quart: canner.holds.quarts,
    pint: canner.holds.pints,
    'half-pint': canner.holds.halfPints,
  },
});

function plannedRecipe(
  recipe: Recipe,
  item: Item,
  { weeks }: Kitchen,
  processing: PlannedProcessing | null,
  allowed: readonly boolean[] | null,
): PlannedRecipe {
  const { season } = recipe;
  return {
    id: recipe.id,
    name: recipe.name,
    itemId: recipe.itemId,
    jarKind: recipe.jarKind,
    yieldLowUnits: recipe.yieldLow * unitsPerJar(item, recipe.jarKind),
    yieldHighJars: recipe.yieldHigh,
    produce: recipe.produce,
    gives: recipe.gives,
    uses: recipe.uses,
    supplies: recipe.supplies,
    handsOnMinutes: recipe.handsOnMinutes,
    processing,
    readyAfterWeeks: Math.ceil(recipe.readyAfterDays / 7),
    crock:
      recipe.crock === null ? null : { quarts: recipe.crock.quarts, weeks: Math.ceil(recipe.crock.days / 7) },
    allowedByWeek:
      season === null && allowed === null
        ? null
        : weeks.map((week, at) => isInMonths(week, season) && (allowed?.[at] ?? true)),
  };
}

const unitsPerJar = (item: Item, jarKind: JarKind | null): number =>
  item.usualJar === null || jarKind === null ? 1 : inUsualJars(sizeOf(jarKind), sizeOf(item.usualJar));
