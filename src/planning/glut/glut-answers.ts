import type { CropKey, ItemId, RecipeId } from '../../../shared/ids.ts';
import type { JarKind } from '../../../shared/jar.ts';
import type { WeekKey } from '../../../shared/week.ts';
import { entry, orNone } from '../lookup.ts';
import { type PlanningParameters, planningParameters } from '../model/parameters.ts';
import { type PlanningSets, planningSets } from '../model/sets.ts';
import type { PlannedRecipe, PlanningYear } from '../planning-year.ts';
import { minutesAtStove, minutesInCanner, minutesInWeek } from '../year/recipe-time.ts';
import { stageWeeks } from '../year/stage-weeks.ts';
import type { YearWalk } from '../year/year-walk.ts';
import type { Glut, WalkOf } from './glut.ts';
import { type ToBuyFor, toBuyFor } from './to-buy-for.ts';

/** What an answer is best at: serving what the year lacks, using the glut up, or the least work for a pound. */
export const glutAims = ['what the year lacks', 'all of it', 'least work'] as const;
export type GlutAim = (typeof glutAims)[number];

/** Batches of one recipe, in the week of their canner load. */
export interface GlutMake {
  readonly recipe: RecipeId;
  readonly name: string;
  readonly item: ItemId;
  readonly jarKind: JarKind | null;
  readonly week: WeekKey;
  readonly batches: number;
  /** Units to count on, low yield. */
  readonly units: number;
}

/** One mix of recipes that a glut can go into, and what it asks and leaves. */
export interface GlutAnswer {
  /** What it is best at, one thing or more. */
  readonly aims: readonly GlutAim[];
  readonly makes: readonly GlutMake[];
  readonly lbUsed: number;
  readonly lbLeft: number;
  /** Work at table and stove, with a set-up for each week in which something is made. */
  readonly minutes: number;
  /** Jars to have ready, high yield, and how many of them are not there. */
  readonly jars: { readonly count: number; readonly missing: number };
  readonly toBuy: ToBuyFor;
  /** Units the year still wants of what is made of the crop, once these stand. */
  readonly lacks: readonly { readonly item: ItemId; readonly units: number }[];
  /** Units beyond what the year wants. */
  readonly over: readonly { readonly item: ItemId; readonly units: number }[];
}

/**
 * The mixes worth comparing, the one a practitioner would choose first: what serves most of what the year lacks, a jar of
 * one food held against another's by its share of that food's year; what leaves the least of the glut; one recipe with
 * the least work for a pound. Mixes that are the same are one answer with several aims. All of them fit the sessions,
 * the canners, the crocks and the freezer of the weeks for which the produce keeps, beside what is pinned there.
 * Empty where no batch fits.
 *
 * Mixes are looked at up to a fixed count, the likeliest first, so that every machine gives the same answers.
 *
 * @param year The household's year with the glut at hand in its first week.
 * @param weeks In how many weeks, the first included, a batch of it may be begun.
 */
export function glutAnswers(
  year: PlanningYear,
  glut: Glut,
  { weeks, walkOf }: { readonly weeks: number; readonly walkOf: WalkOf },
): readonly GlutAnswer[] {
  const kitchen = kitchenFor(year, weeks);
  const ways = waysOf(kitchen, glut.crop, walkOf);
  const wanted = bestMix(kitchen, byWorth(ways), glut.lb, {
    isWanted: true,
    isBetter: (one, other) =>
      moreThan(one.worth, other.worth) ?? moreThan(other.minutes, one.minutes) ?? moreThan(one.lb, other.lb),
  });
  const all = bestMix(kitchen, byPounds(ways), glut.lb, {
    isWanted: false,
    isBetter: (one, other) =>
      moreThan(one.lb, other.lb) ?? moreThan(one.worth, other.worth) ?? moreThan(other.minutes, one.minutes),
  });
  const quick = quickest(kitchen, ways, glut.lb);
  const found: readonly (readonly [GlutAim, Mix | null])[] = wanted
    ? [
        ['what the year lacks', wanted],
        ['all of it', all],
        ['least work', quick],
      ]
    : [
        ['least work', quick],
        ['all of it', all],
      ];
  const byKey = new Map<string, { readonly aims: GlutAim[]; readonly mix: Mix }>();
  for (const [aim, mix] of found) {
    if (mix === null) continue;
    const key = mix.taken.map(({ way, week, batches }) => `${way.at} ${week} ${batches}`).join();
    const known = byKey.get(key);
    if (known) known.aims.push(aim);
    else byKey.set(key, { aims: [aim], mix });
  }
  return [...byKey.values()].map(({ aims, mix }) => answerOf(kitchen, ways, glut, aims, mix, walkOf));
}

/** One above the other by more than rounding; null where they are the same. */
const moreThan = (one: number, other: number): boolean | null =>
  Math.abs(one - other) < 1e-6 ? null : one > other;

interface Kitchen {
  readonly year: PlanningYear;
  readonly sets: PlanningSets;
  readonly parameters: PlanningParameters;
  /** Weeks in which a batch may be begun. */
  readonly weeks: number;
  readonly freezerQuarts: number;
}

/** A recipe of the crop in one jar kind, with what one batch asks. */
interface Way {
  /** Its place among the recipes of the sets. */
  readonly at: number;
  readonly recipe: PlannedRecipe;
  readonly lb: number;
  readonly minutes: number;
  /** By the week of beginning: most batches. */
  readonly most: readonly number[];
  readonly walk: YearWalk | null;
  readonly quarts: number;
}

interface Taken {
  readonly way: Way;
  /** The week in which they are begun, by its place. */
  readonly week: number;
  readonly batches: number;
}

interface Mix {
  readonly taken: readonly Taken[];
  readonly lb: number;
  readonly minutes: number;
  readonly worth: number;
}

function kitchenFor(year: PlanningYear, weeks: number): Kitchen {
  const sets = planningSets(year);
  const frozen = year.items.reduce(
    (sum, { freezerQuartsPerUnit, openingLots }) =>
      sum + orNone(freezerQuartsPerUnit) * openingLots.reduce((units, lot) => units + lot.units, 0),
    0,
  );
  return {
    year: sets.year,
    sets,
    parameters: planningParameters(sets),
    weeks: Math.min(weeks, year.weeks.length),
    freezerQuarts: Math.max(0, year.storage.freezerQuarts - frozen),
  };
}

/** Each recipe of the crop once: in the jars that are there, its item's own first. */
function waysOf(kitchen: Kitchen, crop: CropKey, walkOf: WalkOf): readonly Way[] {
  const { year, sets, parameters, weeks } = kitchen;
  const best = new Map<RecipeId, Way & { readonly rank: readonly [number, number] }>();
  sets.recipes.forEach((recipe, at) => {
    const lb = recipe.produce.filter((need) => need.crop === crop).reduce((sum, need) => sum + need.lb, 0);
    if (lb <= 0 || recipe.begun !== undefined) return;
    const byLoad = entry(parameters.mostBatches, at, 'mostBatches');
    const most = Array.from({ length: weeks }, (_, week) => orNone(byLoad[week + stageWeeks(recipe)]));
    if (most.every((batches) => batches < 1)) return;
    const item = year.items.find(({ id }) => id === recipe.itemId);
    const empty = year.jars.find(({ kind }) => kind === recipe.jarKind)?.empty;
    const way = {
      at,
      recipe,
      lb,
      minutes: minutesAtStove(recipe),
      most,
      walk: walkOf(recipe.itemId),
      quarts: orNone(item?.freezerQuartsPerUnit) * recipe.yieldLowUnits,
      rank: [
        recipe.jarKind === null ? 0 : Math.max(0, recipe.yieldHighJars - orNone(empty)),
        recipe.jarKind === item?.jarKind ? 0 : 1,
      ] as const,
    };
    const known = best.get(recipe.id);
    const isBetter =
      known === undefined ||
      way.rank[0] < known.rank[0] ||
      (way.rank[0] === known.rank[0] && way.rank[1] < known.rank[1]);
    if (isBetter) best.set(recipe.id, way);
  });
  return [...best.values()];
}

/** What units of an item are worth to the year: their share of what it wants, what nothing is planned for twice. */
function worthOf(walk: YearWalk | null, units: number): number {
  if (walk === null) return 0;
  const year = walk.need + walk.carryOver;
  return year <= 0 ? 0 : (Math.min(units, walk.toCome) + Math.min(units, walk.missing)) / year;
}

const worthOfBatch = ({ walk, recipe }: Way): number => worthOf(walk, recipe.yieldLowUnits);
const perMinute = (amount: number, { minutes }: Way): number => amount / Math.max(1, minutes);
const steady = (one: Way, other: Way): number => (one.recipe.id < other.recipe.id ? -1 : 1);
const byWorth = (ways: readonly Way[]): readonly Way[] =>
  ways.toSorted(
    (one, other) =>
      perMinute(worthOfBatch(other), other) - perMinute(worthOfBatch(one), one) || steady(one, other),
  );
const byPounds = (ways: readonly Way[]): readonly Way[] =>
  ways.toSorted((one, other) => perMinute(other.lb, other) - perMinute(one.lb, one) || steady(one, other));

/** So many mixes are looked at for an aim; a household's glut rarely has a tenth of them. */
const mostMixes = 40_000;

interface Aim {
  /** A batch counts only where the year wants at least half of it. */
  readonly isWanted: boolean;
  readonly isBetter: (one: Mix, other: Mix) => boolean | null;
}

/** The best mix by an aim, as many batches of the likeliest way first; null where no batch fits. */
function bestMix(kitchen: Kitchen, ways: readonly Way[], lb: number, aim: Aim): Mix | null {
  const room = new Room(kitchen, ways, lb);
  let best: Mix | null = null;
  let looked = 0;
  const look = (from: number): void => {
    if (looked >= mostMixes) return;
    looked += 1;
    const mix = room.mix();
    if (mix.taken.length > 0 && (best === null || aim.isBetter(mix, best) === true)) best = mix;
    for (let at = from; at < ways.length; at += 1) {
      const way = entry(ways, at, 'ways');
      if (aim.isWanted && !room.isWanted(way)) continue;
      const week = room.add(way);
      if (week === null) continue;
      look(at);
      room.remove(way, week);
    }
  };
  look(0);
  return best;
}

/** A way by itself, as far as the year wants it or else as far as it goes: the least work for a pound used. */
function quickest(kitchen: Kitchen, ways: readonly Way[], lb: number): Mix | null {
  const mixes = ways.flatMap((way): Mix[] => {
    const room = new Room(kitchen, ways, lb);
    const isBounded = room.isWanted(way);
    while ((!isBounded || room.isWanted(way)) && room.add(way) !== null);
    const mix = room.mix();
    return mix.taken.length > 0 ? [mix] : [];
  });
  // A jar or two out of a bushel is no answer to it.
  const most = Math.max(0, ...mixes.map((mix) => mix.lb));
  return mixes
    .filter((mix) => mix.lb >= most / 2)
    .reduce<Mix | null>(
      (best, mix) =>
        best === null || moreThan(best.minutes / best.lb, mix.minutes / mix.lb) === true ? mix : best,
      null,
    );
}

/** What still fits: pounds, hours, canners, crocks and freezer, and what is in so far. */
class Room {
  readonly #kitchen: Kitchen;
  readonly #ways: readonly Way[];
  readonly #counts: ReadonlyMap<Way, number[]>;
  readonly #workLeft: number[];
  readonly #cannerLeft: Map<string, number>;
  readonly #unitsByItem = new Map<ItemId, number>();
  readonly #begunIn: number[];
  #lbLeft: number;
  #freezerLeft: number;
  #crockLeft: number;
  readonly #lb: number;

  constructor(kitchen: Kitchen, ways: readonly Way[], lb: number) {
    const { year, sets, parameters, weeks } = kitchen;
    this.#kitchen = kitchen;
    this.#ways = ways;
    this.#lb = lb;
    this.#lbLeft = lb;
    this.#counts = new Map(ways.map((way) => [way, Array.from({ length: weeks }, () => 0)]));
    this.#freezerLeft = kitchen.freezerQuarts;
    this.#crockLeft = year.storage.crockQuarts;
    this.#begunIn = sets.weekIndexes.map(() => 0);
    this.#workLeft = sets.weekIndexes.map(
      (week) =>
        entry(parameters.mostSessionsByWeek, week, 'mostSessionsByWeek') *
        Math.max(
          0,
          entry(parameters.sessionMinutesByWeek, week, 'sessionMinutesByWeek') - year.time.setUpMinutes,
        ),
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
    for (let before = 0; before <= stageWeeks(recipe); before += 1) {
      const week = loadWeek - before;
      if (week >= 0 && week < this.#workLeft.length)
        this.#workLeft[week] = orNone(this.#workLeft[week]) - batches * minutesInWeek(recipe, before);
    }
    if (recipe.processing === null) return;
    const key = `${recipe.processing.cannerId} ${loadWeek}`;
    this.#cannerLeft.set(key, orNone(this.#cannerLeft.get(key)) - batches * minutesInCanner(recipe));
  }

  /** Whether the year wants at least half of one more batch. */
  isWanted({ recipe, walk }: Way): boolean {
    const have = orNone(this.#unitsByItem.get(recipe.itemId));
    return walk !== null && have + recipe.yieldLowUnits / 2 <= walk.toCome + 1e-9;
  }

  /** Puts one batch in, in the earliest week in which it fits; answers that week, null where it fits none. */
  add(way: Way): number | null {
    const { recipe, lb, quarts } = way;
    if (lb > this.#lbLeft + 1e-9 || quarts > this.#freezerLeft + 1e-9) return null;
    if (orNone(recipe.crock?.quarts) > this.#crockLeft + 1e-9) return null;
    const counts = this.#counts.get(way) ?? [];
    const week = counts.findIndex((count, at) => count < orNone(way.most[at]) && this.#fits(recipe, at));
    if (week < 0) return null;
    this.#change(way, week, 1);
    return week;
  }

  remove(way: Way, week: number): void {
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

  #change(way: Way, week: number, batches: number): void {
    const { recipe, lb, quarts } = way;
    const counts = this.#counts.get(way);
    if (counts !== undefined) counts[week] = orNone(counts[week]) + batches;
    this.#lbLeft -= batches * lb;
    this.#freezerLeft -= batches * quarts;
    this.#crockLeft -= batches * orNone(recipe.crock?.quarts);
    this.#unitsByItem.set(
      recipe.itemId,
      orNone(this.#unitsByItem.get(recipe.itemId)) + batches * recipe.yieldLowUnits,
    );
    const load = week + stageWeeks(recipe);
    this.#occupy(recipe, load, batches);
    this.#begunIn[load] = orNone(this.#begunIn[load]) + batches;
  }

  /** What is in, as a mix. */
  mix(): Mix {
    const taken = this.#ways.flatMap((way) =>
      (this.#counts.get(way) ?? []).flatMap((batches, week) => (batches > 0 ? [{ way, week, batches }] : [])),
    );
    const sessions = this.#begunIn.filter((batches) => batches > 0).length;
    const walks = new Map(this.#ways.map(({ recipe, walk }) => [recipe.itemId, walk]));
    return {
      taken: taken.toSorted((one, other) => one.week - other.week || steady(one.way, other.way)),
      lb: this.#lb - this.#lbLeft,
      minutes:
        taken.reduce((sum, { way, batches }) => sum + batches * way.minutes, 0) +
        sessions * this.#kitchen.year.time.setUpMinutes,
      worth: [...this.#unitsByItem].reduce(
        (sum, [item, units]) => sum + worthOf(walks.get(item) ?? null, units),
        0,
      ),
    };
  }
}

function answerOf(
  { year }: Kitchen,
  ways: readonly Way[],
  { crop, lb }: Glut,
  aims: readonly GlutAim[],
  mix: Mix,
  walkOf: WalkOf,
): GlutAnswer {
  const unitsOf = (item: ItemId): number =>
    mix.taken
      .filter(({ way }) => way.recipe.itemId === item)
      .reduce((sum, { way, batches }) => sum + batches * way.recipe.yieldLowUnits, 0);
  const items = [...new Set(ways.map(({ recipe }) => recipe.itemId))];
  const jars = new Map<JarKind, number>();
  for (const { way, batches } of mix.taken)
    if (way.recipe.jarKind !== null)
      jars.set(way.recipe.jarKind, orNone(jars.get(way.recipe.jarKind)) + batches * way.recipe.yieldHighJars);
  return {
    aims,
    makes: mix.taken.map(({ way: { recipe }, week, batches }) => ({
      recipe: recipe.id,
      name: recipe.name,
      item: recipe.itemId,
      jarKind: recipe.jarKind,
      week: entry(year.weeks, week + stageWeeks(recipe), 'weeks'),
      batches,
      units: batches * recipe.yieldLowUnits,
    })),
    lbUsed: mix.lb,
    lbLeft: Math.max(0, lb - mix.lb),
    minutes: mix.minutes,
    jars: {
      count: [...jars.values()].reduce((sum, count) => sum + count, 0),
      missing: [...jars].reduce(
        (sum, [kind, count]) =>
          sum + Math.max(0, count - orNone(year.jars.find((holding) => holding.kind === kind)?.empty)),
        0,
      ),
    },
    toBuy: toBuyFor(
      year,
      crop,
      mix.taken.map(({ way, week, batches }) => ({ recipe: way.recipe, week, batches })),
    ),
    lacks: items.flatMap((item) => {
      const units = orNone(walkOf(item)?.toCome) - unitsOf(item);
      return units > 1e-6 ? [{ item, units }] : [];
    }),
    over: items.flatMap((item) => {
      const units = unitsOf(item) - orNone(walkOf(item)?.toCome);
      return units > 1e-6 ? [{ item, units }] : [];
    }),
  };
}
