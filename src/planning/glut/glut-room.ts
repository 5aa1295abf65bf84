import { compare } from '../../../shared/compare.ts';
import type { ItemId } from '../../../shared/ids.ts';
import { entry, found, orNone } from '../lookup.ts';
import { crockQuartsFree, type PlannedRecipe } from '../planning-year.ts';
import { minutesInCanner, minutesInWeek } from '../year/recipe-time.ts';
import { stageWeeks } from '../year/stage-weeks.ts';
import { type GlutKitchen, type MixWay, worthOf } from './glut-ways.ts';

/** Batches of one way, begun in one week. */
export interface Taken {
  readonly way: MixWay;
  /** The week in which they are begun, by its place. */
  readonly week: number;
  readonly batches: number;
}

/** What goes in together, and what it asks and is worth. */
export interface Mix {
  readonly taken: readonly Taken[];
  readonly lb: number;
  readonly minutes: number;
  readonly worth: number;
}

/** The same order on every machine. */
export const steady = (one: MixWay, other: MixWay): number => compare(one.recipe.id, other.recipe.id);

/** What still fits: pounds, hours, canners, crocks and freezer, and what is in so far. */
export class Room {
  readonly #kitchen: GlutKitchen;
  readonly #ways: readonly MixWay[];
  readonly #counts: ReadonlyMap<MixWay, number[]>;
  readonly #workLeft: number[];
  readonly #cannerLeft: Map<string, number>;
  readonly #unitsByItem = new Map<ItemId, number>();
  readonly #loadedIn: number[];
  #lbLeft: number;
  #freezerLeft: number;
  #crockLeft: number;
  readonly #lb: number;

  constructor(kitchen: GlutKitchen, ways: readonly MixWay[], lb: number) {
    const { year, sets, parameters, weeks } = kitchen;
    this.#kitchen = kitchen;
    this.#ways = ways;
    this.#lb = lb;
    this.#lbLeft = lb;
    this.#counts = new Map(ways.map((way) => [way, Array.from({ length: weeks }, () => 0)]));
    this.#freezerLeft = kitchen.freezerQuarts;
    this.#crockLeft = crockQuartsFree(year.storage, 0);
    this.#loadedIn = sets.weekIndexes.map(() => 0);
    this.#workLeft = sets.weekIndexes.map(
      (week) =>
        entry(parameters.mostSessionsByWeek, week, 'mostSessionsByWeek') *
        entry(parameters.handsByWeek, week, 'handsByWeek') *
        (entry(parameters.sessionMinutesByWeek, week, 'sessionMinutesByWeek') - year.time.setUpMinutes),
    );
    this.#cannerLeft = new Map(
      year.canners.flatMap(({ id }) =>
        sets.weekIndexes.map((week): [string, number] => [
          `${id} ${week}`,
          entry(parameters.mostSessionsByWeek, week, 'mostSessionsByWeek') *
            entry(parameters.sessionMinutesByWeek, week, 'sessionMinutesByWeek'),
        ]),
      ),
    );
    for (const kept of year.kept) {
      const week = sets.weekIndex.get(kept.week);
      const at = sets.recipesById.get(kept.recipeId)?.[0];
      if (week === undefined || at === undefined || kept.decision === 'ruled-out') continue;
      this.#occupy(entry(sets.recipes, at, 'recipes'), week, kept.batches);
    }
  }

  /** Takes work and canner of batches loaded in a week; gives them back where the batches are negative. */
  #occupy(recipe: PlannedRecipe, loadWeek: number, batches: number): void {
    for (let before = 0; before <= Math.min(loadWeek, stageWeeks(recipe)); before += 1)
      this.#workLeft[loadWeek - before] =
        entry(this.#workLeft, loadWeek - before, 'workLeft') - batches * minutesInWeek(recipe, before);
    if (recipe.processing === null) return;
    const key = `${recipe.processing.cannerId} ${loadWeek}`;
    this.#cannerLeft.set(key, orNone(this.#cannerLeft.get(key)) - batches * minutesInCanner(recipe));
  }

  /** Whether the year wants at least half of one more batch. */
  isWanted({ recipe, walk }: MixWay): boolean {
    const have = orNone(this.#unitsByItem.get(recipe.itemId));
    return walk !== null && have + recipe.yieldLowUnits / 2 <= walk.toCome + 1e-9;
  }

  /** Puts one batch in, in the earliest week in which it fits; answers that week, null where it fits none. */
  add(way: MixWay): number | null {
    const { recipe, lb, quarts } = way;
    if (lb > this.#lbLeft + 1e-9 || quarts > this.#freezerLeft + 1e-9) return null;
    if (orNone(recipe.crock?.quarts) > this.#crockLeft + 1e-9) return null;
    const counts = found(this.#counts, way, 'counts');
    const week = counts.findIndex(
      (count, at) => count < entry(way.most, at, 'most') && this.#fits(recipe, at),
    );
    if (week < 0) return null;
    this.#change(way, week, 1);
    return week;
  }

  remove(way: MixWay, week: number): void {
    this.#change(way, week, -1);
  }

  #fits(recipe: PlannedRecipe, week: number): boolean {
    const load = week + stageWeeks(recipe);
    for (let before = 0; before <= stageWeeks(recipe); before += 1)
      if (minutesInWeek(recipe, before) > orNone(this.#workLeft[load - before]) + 1e-9) return false;
    return (
      recipe.processing === null ||
      minutesInCanner(recipe) <= orNone(this.#cannerLeft.get(`${recipe.processing.cannerId} ${load}`)) + 1e-9
    );
  }

  #change(way: MixWay, week: number, batches: number): void {
    const { recipe, lb, quarts } = way;
    const counts = found(this.#counts, way, 'counts');
    counts[week] = entry(counts, week, 'counts') + batches;
    this.#lbLeft -= batches * lb;
    this.#freezerLeft -= batches * quarts;
    this.#crockLeft -= batches * orNone(recipe.crock?.quarts);
    this.#unitsByItem.set(
      recipe.itemId,
      orNone(this.#unitsByItem.get(recipe.itemId)) + batches * recipe.yieldLowUnits,
    );
    const load = week + stageWeeks(recipe);
    this.#occupy(recipe, load, batches);
    this.#loadedIn[load] = entry(this.#loadedIn, load, 'loadedIn') + batches;
  }

  /** What is in, as a mix. */
  mix(): Mix {
    const taken = this.#ways.flatMap((way) =>
      found(this.#counts, way, 'counts').flatMap((batches, week) =>
        batches > 0 ? [{ way, week, batches }] : [],
      ),
    );
    const sessions = this.#loadedIn.filter((batches) => batches > 0).length;
    const walks = new Map(this.#ways.map(({ recipe, walk }) => [recipe.itemId, walk]));
    return {
      taken: taken.toSorted((one, other) => one.week - other.week || steady(one.way, other.way)),
      lb: this.#lb - this.#lbLeft,
      minutes:
        taken.reduce((sum, { way, batches }) => sum + batches * way.minutes, 0) +
        sessions * this.#kitchen.year.time.setUpMinutes,
      worth: [...walks].reduce(
        (sum, [item, walk]) => sum + worthOf(walk, orNone(this.#unitsByItem.get(item))),
        0,
      ),
    };
  }
}
