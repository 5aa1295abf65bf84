import { handsIn } from '../days/hands-in-week.ts';
import { cell, entry, found, noneBeyond } from '../lookup.ts';
import type { PlannedRecipe } from '../planning-year.ts';
import { type OpeningShelf, openingShelf } from '../year/opening-shelf.ts';
import { loadsPerBatch, minutesInCanner, minutesInWeek } from '../year/recipe-time.ts';
import { stageWeeks } from '../year/stage-weeks.ts';
import { type FirstJars, firstJars } from './first-jars.ts';
import { type GardenCrop, gardenCrops } from './garden-crop.ts';
import { type MostBatches, mostByMaterial } from './reachable-material.ts';
import type { PlanningSets, RecipeInSets } from './sets.ts';

/** Numbers worked out once before the model is built. `…ByWeek` lists run over the weeks of the year, oldest first. */
export interface PlanningParameters {
  /** Minutes of one session in each week, 0 when none can be held. */
  readonly sessionMinutesByWeek: readonly number[];
  /** Pairs of hands at table and stove; a canner's day is as long with one as with several. */
  readonly handsByWeek: readonly number[];
  readonly mostSessionsByWeek: readonly number[];
  /** [recipe][week]: most whole batches that produce, time and canner could ever allow; 0 where it cannot be made. */
  readonly mostBatches: readonly (readonly number[])[];
  /** [recipe][week]: most batches per session of that week; below 1 when one batch takes several sessions. */
  readonly batchesPerSession: readonly (readonly number[])[];
  /** [recipe][week]: batches already made, a fact. */
  readonly doneBatches: readonly (readonly number[])[];
  /** By item: the first week in which anything new can stand on the shelf; `weekCount` when nothing ever can. */
  readonly firstSupplyWeek: readonly number[];
  /** By item: what the opening lots give and how far they carry. */
  readonly opening: readonly OpeningShelf[];
  /** [item][week]: use the model can still serve; what no plan could serve is left out and reported on its own. */
  readonly useByWeek: readonly (readonly number[])[];
  /** [item][week]: use that falls before anything can be made or bought and that the opening lots do not cover. */
  readonly missedByWeek: readonly (readonly number[])[];
  /** By item: weeks at whose end the reserve should stand. */
  readonly reserveWeeks: readonly (readonly number[])[];
  /** Cents the fund keeps back at each week's end: so that rounding a bill to whole cents never overdraws it, and for whole packs. */
  readonly fundFloorByWeek: readonly number[];
  /** By item: what its first jars are shares of; null where none are wanted or none could come. */
  readonly firstJars: readonly (FirstJars | null)[];
  /** Crops of our own garden that the year could use. */
  readonly gardenCrops: readonly GardenCrop[];
}

/** At most this much is kept back for rounding, cents. */
const roundingCents = 200;

export function planningParameters(sets: PlanningSets): PlanningParameters {
  const { year, items, recipes, weekIndexes } = sets;
  const sessionMinutesByWeek = weekIndexes.map((week) =>
    entry(year.time.maxSessionsByWeek, week, 'maxSessionsByWeek') > 0
      ? entry(year.time.hoursPerSessionByWeek, week, 'hoursPerSessionByWeek') * 60
      : 0,
  );
  const handsByWeek = weekIndexes.map((week) => handsIn(year.time, week));
  const mostSessionsByWeek = weekIndexes.map((week) =>
    entry(sessionMinutesByWeek, week, 'sessionMinutesByWeek') > year.time.setUpMinutes
      ? entry(year.time.maxSessionsByWeek, week, 'maxSessionsByWeek')
      : 0,
  );
  const doneBatches = recipes.map((recipe) => doneByWeek(sets, recipe));
  const longestMinutes = (week: number): number =>
    entry(mostSessionsByWeek, week, 'mostSessionsByWeek') > 0
      ? (year.time.longestSessionByWeek?.[week] ??
          entry(year.time.hoursPerSessionByWeek, week, 'hoursPerSessionByWeek')) * 60
      : entry(sessionMinutesByWeek, week, 'sessionMinutesByWeek');
  const batchesPerSession = recipes.map((recipe) =>
    weekIndexes.map((week) =>
      perSession(
        recipe,
        longestMinutes(week),
        year.time.setUpMinutes,
        entry(handsByWeek, week, 'handsByWeek'),
      ),
    ),
  );
  const workMinutesByWeek = weekIndexes.map(
    (week) =>
      entry(mostSessionsByWeek, week, 'mostSessionsByWeek') *
      (entry(sessionMinutesByWeek, week, 'sessionMinutesByWeek') - year.time.setUpMinutes) *
      entry(handsByWeek, week, 'handsByWeek'),
  );
  const mostGiven = (known: MostBatches): MostBatches => {
    const mostOf = mostByMaterial(sets, known);
    return recipes.map((recipe, at) =>
      weekIndexes.map((week) => {
        const byTime = Math.min(
          entry(mostSessionsByWeek, week, 'mostSessionsByWeek') *
            cell(batchesPerSession, at, week, 'batchesPerSession'),
          mostByStageTime(recipe, week, workMinutesByWeek),
        );
        if (!mayBeMade(sets, recipe, week)) return 0;
        const byMaterial = recipe.begun?.batches ?? mostOf(recipe, week - stageWeeks(recipe));
        const most = Math.min(byTime, byMaterial);
        return recipe.setUp === undefined
          ? Math.floor(most + 1e-9)
          : Math.min(most, useFrom(sets, recipe, week));
      }),
    );
  };
  // By-products come from batches, so recipes that use them are counted once those that give them are.
  const withoutByProducts = mostGiven(recipes.map(() => []));
  const mostBatches = recipes.some(({ uses }) => uses.length > 0)
    ? mostGiven(mostGiven(withoutByProducts))
    : withoutByProducts;
  const firstSupplyWeek = items.map((item, at) =>
    Math.min(
      item.packs.length > 0 ? 0 : sets.weekCount,
      ...entry(sets.recipesByItem, at, 'recipesByItem').map((recipe) => {
        const first = entry(mostBatches, recipe, 'mostBatches').findIndex((batches) => batches > 0);
        return first < 0 ? sets.weekCount : first + entry(recipes, recipe, 'recipes').readyAfterWeeks;
      }),
    ),
  );
  const opening = items.map((item, at) =>
    openingShelf(item, year.weeks, entry(firstSupplyWeek, at, 'firstSupplyWeek')),
  );
  const missedByWeek = opening.map(({ missedByWeek: missed }) => missed);
  const useByWeek = items.map((item, at) =>
    weekIndexes.map(
      (week) => entry(item.useByWeek, week, 'useByWeek') - cell(missedByWeek, at, week, 'missedByWeek'),
    ),
  );
  return {
    sessionMinutesByWeek,
    handsByWeek,
    mostSessionsByWeek,
    mostBatches,
    batchesPerSession,
    doneBatches,
    firstSupplyWeek,
    opening,
    missedByWeek,
    useByWeek,
    firstJars: firstJars(sets, useByWeek, firstSupplyWeek),
    reserveWeeks: items.map((_, at) => reserveWeeksOf(sets, mostBatches, firstSupplyWeek, at)),
    gardenCrops: gardenCrops(sets, mostBatches),
    fundFloorByWeek: weekIndexes.map((week) =>
      Math.min(
        roundingCents + noneBeyond(year.fund.keptForPacksByWeek ?? [], week),
        setAsideThrough(sets, week),
      ),
    ),
  };
}

function setAsideThrough({ year }: PlanningSets, week: number): number {
  return year.fund.setAsideByWeek
    .slice(0, week + 1)
    .reduce<number>((sum, cents) => sum + cents, year.fund.opening);
}

/** Most batches whose work in the weeks before their load fits all sessions of those weeks. */
function mostByStageTime(recipe: PlannedRecipe, week: number, workMinutesByWeek: readonly number[]): number {
  let most = Number.POSITIVE_INFINITY;
  for (let before = 1; before <= stageWeeks(recipe); before += 1) {
    const minutes = minutesInWeek(recipe, before);
    if (minutes > 0) most = Math.min(most, noneBeyond(workMinutesByWeek, week - before) / minutes);
  }
  return most;
}

function doneByWeek({ year, weekIndexes }: PlanningSets, { id, jarKind, begun }: RecipeInSets): number[] {
  if (begun !== undefined) return weekIndexes.map(() => 0);
  const firstOfId = year.recipes.find((recipe) => recipe.id === id);
  return weekIndexes.map((week) =>
    year.kept
      .filter(
        (kept) => kept.recipeId === id && kept.week === year.weeks[week] && firstOfId?.jarKind === jarKind,
      )
      .reduce((sum, kept) => sum + (kept.decision === 'done' ? kept.batches : 0), 0),
  );
}

/** Batches that the use from a week on could still take; a set-up recipe never makes more. */
function useFrom(
  { items, itemIndex }: PlanningSets,
  { itemId, yieldLowUnits }: PlannedRecipe,
  week: number,
): number {
  const { useByWeek } = entry(items, found(itemIndex, itemId, 'itemIndex'), 'items');
  return useByWeek.slice(week).reduce((sum, units) => sum + units, 0) / yieldLowUnits;
}

/**
 * Batches of one recipe that a session takes: by its canner, and by so many pairs of hands, of which each batch takes one pair from
 * beginning to end.
 */
function perSession(
  recipe: PlannedRecipe,
  sessionMinutes: number,
  setUpMinutes: number,
  hands: number,
): number {
  const workMinutes = sessionMinutes - setUpMinutes;
  if (workMinutes <= 0) return 0;
  if (recipe.setUp !== undefined) return (workMinutes - recipe.setUp.minutes) / recipe.handsOnMinutes;
  return Math.min(
    hands * timesWithin(workMinutes, minutesInWeek(recipe, 0)),
    timesWithin(sessionMinutes, minutesInCanner(recipe)),
  );
}

/** How often minutes fit into a session, or the part of them that one session does; 20 of what takes none. */
function timesWithin(session: number, minutes: number): number {
  const share = minutes / session;
  if (share <= 1e-9) return 20;
  return share <= 1 ? Math.floor(1 / share + 1e-9) : 1 / Math.ceil(share - 1e-9);
}

function mayBeMade({ year }: PlanningSets, recipe: PlannedRecipe, week: number): boolean {
  const ruledOut = year.kept.some(
    (kept) => kept.recipeId === recipe.id && kept.week === year.weeks[week] && kept.decision === 'ruled-out',
  );
  const hasCanner =
    recipe.processing === null || year.canners.some(({ id }) => id === recipe.processing?.cannerId);
  const fitsLoad = recipe.processing === null || loadsPerBatch(recipe) > 0;
  const { allowedByWeek, stages } = recipe;
  const mayBeStaged = week >= stageWeeks(recipe) && (stages?.possibleByWeek?.[week] ?? true);
  return !ruledOut && hasCanner && fitsLoad && mayBeStaged && (allowedByWeek?.[week] ?? true);
}

/** A crop's making is over when nothing could arrive for so many weeks: what comes after is its next season. */
const seasonGapWeeks = 8;
/** The first week in which anything may be bought. */
const firstAtHome = ({ weeks, time }: PlanningSets['year']): number =>
  weeks.findIndex((_, week) => time.awayByWeek?.[week] !== true);

/** In a season of making the reserve is looked at so often, from a full turn after its first week on. */
const reserveTurnWeeks = 4;

/**
 * The reserve stands when the next supply comes: at the end of the week before each season of making begins, every fourth
 * week of a season from its second month on, and at the end of the year. What can be bought may be wanted before the next walk to
 * the shop in any week, so its reserve stands at the end of every one from the first in which somebody can shop.
 */
function reserveWeeksOf(
  { year, weekCount, items, recipesByItem, recipes, weekIndexes }: PlanningSets,
  mostBatches: readonly (readonly number[])[],
  firstSupplyWeek: readonly number[],
  item: number,
): number[] {
  const last = weekCount - 1;
  const first = entry(firstSupplyWeek, item, 'firstSupplyWeek');
  const isTurn = (weeksIn: number) => weeksIn % reserveTurnWeeks === reserveTurnWeeks - 1;
  if (entry(items, item, 'items').packs.length > 0)
    return weekIndexes.filter((week) => week >= firstAtHome(year) || week === last);
  const canArrive = weekIndexes.map((week) =>
    entry(recipesByItem, item, 'recipesByItem').some(
      (recipe) =>
        noneBeyond(
          entry(mostBatches, recipe, 'mostBatches'),
          week - entry(recipes, recipe, 'recipes').readyAfterWeeks,
        ) > 0,
    ),
  );
  const beforeSeason = weekIndexes.filter(
    (week) =>
      week >= first &&
      canArrive[week + 1] === true &&
      canArrive.slice(Math.max(0, week + 1 - seasonGapWeeks), week + 1).every((arrives) => !arrives),
  );
  const arrivalsAfter = weekIndexes.map((week) => canArrive.indexOf(true, week + 1));
  let seasonBegan = first;
  const inSeason = weekIndexes.filter((week) => {
    if (week < first) return false;
    if (beforeSeason.includes(week)) seasonBegan = week + 1;
    const next = entry(arrivalsAfter, week, 'arrivalsAfter');
    return week >= seasonBegan && next > 0 && next - week <= seasonGapWeeks && isTurn(week - seasonBegan);
  });
  return [...new Set([...beforeSeason, ...inSeason, last])].sort((one, other) => one - other);
}
