import type { RecipeStageRow, StagePlace, StageVessel } from '../../../shared/schemas/reference/recipe.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { type Citation, citationOf } from '../citation.ts';

/** Something done by hand, and the wait after it before the next position may begin. */
export interface RecipeStage {
  /** 1 is the first; positions go up, and not every way has every position. */
  readonly position: number;
  /** Which printed way it belongs to, `quick soak`; `null` where all ways share it. */
  readonly way: string | null;
  readonly what: string;
  /** 0: the next position follows at once, or may. */
  readonly leastHours: number;
  /** `null` where the source prints no upper limit. */
  readonly mostHours: number | null;
  /** By the date: `on the third day` and `overnight` hold at any hour of that day. By the hours: `let stand 12 hours`. */
  readonly counted: 'hours' | 'date';
  readonly place: StagePlace;
  /** Printed temperature of the place; either end may be missing. */
  readonly temperatureF: { readonly from: number | null; readonly to: number | null };
  readonly occupies: StageVessel | null;
  readonly source: Citation;
}

/** Hours from the first work to the beginning of a position. */
export interface StageStart {
  readonly stage: RecipeStage;
  readonly leastHours: number;
  /** `null` where a wait before it has no printed upper limit. */
  readonly mostHours: number | null;
}

const hoursPerDay = 24;

const stageOf = (row: RecipeStageRow): RecipeStage => ({
  position: row.position,
  way: row.way,
  what: row.what,
  leastHours: row.leastHours,
  mostHours: row.mostHours,
  counted: row.counted,
  place: row.place,
  temperatureF: { from: row.tempFromF, to: row.tempToF },
  occupies: row.occupies,
  source: citationOf(row),
});

/** The stages of one key of the table, all printed ways, in order; empty for what is made in one go. */
export const stagesOfKey = (
  tables: Pick<ReferenceTables, 'recipeStages'>,
  key: string,
): readonly RecipeStage[] =>
  tables.recipeStages
    .filter((row) => row.recipeKey === key)
    .map(stageOf)
    .sort((left, right) => left.position - right.position);

/**
 * The stages that a food's process asks for where only the food is known, as with a recipe of the household's own.
 *
 * A food of the book has them only when each recipe of it has (grape jelly from frozen concentrate need not stand): then
 * those of the recipe that bears the food's name, or of the first. A food outside the book has the rows under its key.
 */
export const stagesOfFood = (
  tables: Pick<ReferenceTables, 'recipeStages' | 'recipeProcesses'>,
  foodKey: string,
): readonly RecipeStage[] => {
  const recipes = [
    ...new Set(
      tables.recipeProcesses.filter((row) => row.foodKey === foodKey).map(({ recipeKey }) => recipeKey),
    ),
  ];
  const staged = recipes.map((key) => stagesOfKey(tables, key));
  if (staged.some((stages) => stages.length === 0)) return [];
  const named = stagesOfKey(tables, foodKey);
  return named.length > 0 ? named : (staged[0] ?? []);
};

/** The printed ways of a recipe, the first of the table first; one `null` where there is only one. */
export const waysOf = (stages: readonly RecipeStage[]): readonly [string | null, ...(string | null)[]] => {
  const [first, ...others] = new Set(stages.flatMap(({ way }) => (way === null ? [] : [way])));
  return first === undefined ? [null] : [first, ...others];
};

/** The stages of one way, in order: its own, and those that all ways share. Without a way, the first. */
export const stagesOfWay = (
  stages: readonly RecipeStage[],
  way: string | null = waysOf(stages)[0],
): readonly RecipeStage[] => stages.filter((stage) => stage.way === null || stage.way === way);

/**
 * When each position of one way may begin, in hours from the first work; the last of them is when the jars are filled.
 *
 * A wait by the hours is added. A wait by the date counts from the day on which its stage is done, so the six hours
 * before it on that day do not add. A wait of no least hours (a finished ferment that may be kept cold) is not counted:
 * it is allowed, not needed.
 *
 * Example: quick dills stand 12 hours: filled after 12 hours at the earliest and the latest.
 */
export const startsOf = (stages: readonly RecipeStage[]): readonly StageStart[] => {
  const starts: StageStart[] = [];
  let least = 0;
  let most: number | null = 0;
  for (const stage of stages) {
    starts.push({ stage, leastHours: least, mostHours: most });
    if (stage.leastHours === 0) continue;
    const byDate = stage.counted === 'date';
    least = (byDate ? dayBegun(least) : least) + stage.leastHours;
    most =
      most === null || stage.mostHours === null ? null : (byDate ? dayBegun(most) : most) + stage.mostHours;
  }
  return starts;
};

const dayBegun = (hours: number): number => Math.floor(hours / hoursPerDay) * hoursPerDay;

/** Fewest hours from the first work to filling the jars, over all printed ways; 0 for what is made in one go. */
export const leastHoursBefore = (stages: readonly RecipeStage[]): number =>
  Math.min(...waysOf(stages).map((way) => startsOf(stagesOfWay(stages, way)).at(-1)?.leastHours ?? 0));

/**
 * Most hours from the first work to filling the jars, over all printed ways, an unlimited wait counted at its least.
 * What may wait longer in the cold is left out.
 */
export const mostHoursBefore = (stages: readonly RecipeStage[]): number =>
  Math.max(
    ...waysOf(stages).map((way) => {
      const last = startsOf(stagesOfWay(stages, way)).at(-1);
      return last?.mostHours ?? last?.leastHours ?? 0;
    }),
  );

/** Days to plan for so many hours: to the nearest day; half a day goes on to the morning after (12 hours are one day). */
export const daysFor = (hours: number): number => Math.round(hours / hoursPerDay);
