import type { RecipeId } from '../../../shared/ids.ts';
import { inUsualJars, type JarKind, sizeOf } from '../../../shared/jar.ts';
import type { Outcome, Problem } from '../../../shared/problems.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { addWeeks, type CalendarDate, dayInWeek, type WeekKey } from '../../../shared/week.ts';
import type { Household } from '../../household/household.ts';
import type { Item } from '../../household/item.ts';
import type { Canner, DaysOff } from '../../household/kitchen.ts';
import type { Recipe } from '../../household/recipe.ts';
import { askGate, type GateAnswer, isCanned, noonOf } from '../../preserving/ask-gate.ts';
import type { GaugeCheckPlannedOn } from '../../preserving/canner.ts';
import { attendedMinutes } from '../../preserving/day/attended-minutes.ts';
import { loadMinutes, loadsOfBatch } from '../../preserving/day/load-time.ts';
import type { Schedule } from '../../preserving/lookup/schedule.ts';
import { batchProblems } from '../../preserving/recipes/batch-bounds.ts';
import { crockOf } from '../../preserving/stages/crock-of.ts';
import { orNone } from '../lookup.ts';
import type { PlannedProcessing, PlannedRecipe } from '../planning-year.ts';
import { isInMonths } from './months.ts';
import { plannedStages } from './planned-stages.ts';

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
  readonly daysOff?: Pick<DaysOff, 'away'>;
  readonly reference: ReferenceTables;
  /** Of a plan alone: from this day on the yearly check of a dial gauge is counted on. A day at the stove counts on nothing. */
  readonly gaugeCheckPlannedOn?: GaugeCheckPlannedOn;
}

/** Every recipe as the planner sees it; a canned one only with a published schedule for this canner, jar and altitude. */
export function recipesHere(recipes: readonly Recipe[], kitchen: Kitchen): RecipesHere {
  const planned: PlannedRecipe[] = [];
  const leftOut: LeftOutRecipe[] = [];
  const schedules = new Map<RecipeId, readonly [Schedule, ...Schedule[]]>();
  for (const recipe of recipes) {
    const item = kitchen.items.find((candidate) => candidate.id === recipe.itemId);
    if (!item || item.retiredOn !== null) continue;
    if (!isCanned(recipe, item)) {
      const reasons = batchProblems(recipe);
      if (reasons.length > 0) leftOut.push({ recipeId: recipe.id, name: recipe.name, reasons });
      else planned.push(plannedRecipe(recipe, item, kitchen, null, null));
      continue;
    }
    const gate = gateOfPlan(recipe, item, kitchen);
    if (gate.ok) {
      const { processing, allowed } = processed(recipe, item, kitchen, gate.value);
      planned.push(plannedRecipe(recipe, item, kitchen, processing, allowed));
      schedules.set(recipe.id, gate.value.schedules);
    } else leftOut.push({ recipeId: recipe.id, name: recipe.name, reasons: gate.problems });
  }
  return { planned, schedules, leftOut };
}

/** Asked for today; where only a gauge check that is to come opens it, for the day from which that is counted on. */
function gateOfPlan(recipe: Recipe, item: Item, kitchen: Kitchen): Outcome<GateAnswer> {
  const { asOf, gaugeCheckPlannedOn = null } = kitchen;
  const today = askGate(recipe, item, kitchen, { at: noonOf(asOf), prepared: 'as-planned' });
  if (today.ok || gaugeCheckPlannedOn === null) return today;
  const later = { at: noonOf(gaugeCheckPlannedOn), prepared: 'as-planned', gaugeCheckPlannedOn } as const;
  const checked = askGate(recipe, item, kitchen, later);
  return checked.ok && checked.value.countsOnGaugeCheck ? checked : today;
}

/** How a recipe that may be processed here is planned. */
function processed(
  recipe: Recipe,
  item: Item,
  kitchen: Kitchen,
  { canner, schedules, jarsPerLoad }: GateAnswer,
): { readonly processing: PlannedProcessing; readonly allowed: readonly boolean[] | null } {
  const { cannerFacts: facts } = kitchen.reference;
  const schedule = longest(schedules, kitchen.reference);
  return {
    allowed:
      canner.gauge === 'dial'
        ? kitchen.weeks.map(
            (week) =>
              askGate(recipe, item, kitchen, {
                at: noonOf(dayInWeek(week, kitchen.sessionWeekday, kitchen.household.weekStartsOn)),
                prepared: 'as-planned',
                gaugeCheckPlannedOn: kitchen.gaugeCheckPlannedOn ?? null,
              }).ok,
          )
        : null,
    processing: {
      cannerId: canner.id,
      scheduleKey: schedule.rowKey,
      lowAcid: schedule.acidity === 'low-acid',
      minutes: schedule.minutes,
      psi: schedule.psi,
      jarsPerLoad,
      loadMinutes: loadMinutes(schedule, facts),
      attendedMinutes: attendedMinutes(schedule.method, facts),
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

/** What a batch is sure to give: its low yield, and no jar that is set aside because alone it would need a load. */
function jarsCanned({ yieldLow, yieldHigh }: Recipe, processing: PlannedProcessing | null): number {
  if (processing === null) return yieldLow;
  const { loads, jarsAside } = loadsOfBatch(yieldHigh, processing.jarsPerLoad);
  return jarsAside === 0 ? yieldLow : Math.min(yieldLow, loads * processing.jarsPerLoad);
}

function plannedRecipe(
  recipe: Recipe,
  item: Item,
  kitchen: Kitchen,
  processing: PlannedProcessing | null,
  allowed: readonly boolean[] | null,
): PlannedRecipe {
  const { season } = recipe;
  const { weeks, daysOff } = kitchen;
  const stages = plannedStages(recipe, {
    ...kitchen,
    weekStartsOn: kitchen.household.weekStartsOn,
    away: daysOff?.away ?? [],
  });
  const crock = crockOf(recipe, kitchen.reference);
  return {
    id: recipe.id,
    name: recipe.name,
    itemId: recipe.itemId,
    jarKind: recipe.jarKind,
    yieldLowUnits: jarsCanned(recipe, processing) * unitsPerJar(item, recipe.jarKind),
    yieldHighJars: recipe.yieldHigh,
    produce: recipe.produce,
    gives: recipe.gives,
    uses: recipe.uses,
    supplies: recipe.supplies,
    handsOnMinutes: recipe.handsOnMinutes,
    ...(stages === undefined ? {} : { stages }),
    processing,
    readyAfterWeeks: Math.ceil(recipe.readyAfterDays / 7),
    // What is canned leaves its crock in the week of its load.
    crock:
      crock === null
        ? null
        : {
            quarts: crock.quarts,
            weeks: stages === undefined ? Math.ceil(crock.days / 7) : stages.weeks + 1,
          },
    allowedByWeek:
      season === null && allowed === null
        ? null
        : weeks.map(
            (week, at) =>
              isInMonths(addWeeks(week, -orNone(stages?.weeks)), season) && (allowed?.[at] ?? true),
          ),
  };
}

const unitsPerJar = (item: Item, jarKind: JarKind | null): number =>
  item.usualJar === null || jarKind === null ? 1 : inUsualJars(sizeOf(jarKind), sizeOf(item.usualJar));
