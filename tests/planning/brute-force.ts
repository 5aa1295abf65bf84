import type { PlannedItem, PlannedRecipe, PlanningYear } from '../../src/planning/planning-year.ts';

/** What each wish and each tie-breaker is priced at: the only thing taken from the planner. */
export interface PriceList {
  readonly sessionCents: number;
  readonly olderCentsPerUnitWeek: number;
  readonly variety: number;
  readonly reserve: number;
  readonly use: number;
  readonly firstJars: number;
  readonly group: number;
  readonly pinned: number;
}

/**
 * Tries every number of whole batches in every week of a tiny year and plays each out by hand: cheapest produce first,
 * oldest jar first, sugar, jars and lids bought as far as they run short. Shares no code with the model.
 *
 * Knows tiny years only: produce that keeps less than a week, at most one week of waiting by-product, an ample fund, one
 * kind of jar, bought items with a long best quality.
 */
export function cheapestByTrying(year: PlanningYear, prices: PriceList): TriedPlan {
  return bestByTrying(
    year,
    prices,
    ([one = 0], [other = 0]) => one - other,
    ({ total }) => [total],
  );
}

/**
 * The same in the strict order of wishes: pins, then minimums and groups, first jars, use, reserve, variety, and money only among
 * plans that serve all of these equally well.
 */
export function bestInOrderOfWishes(year: PlanningYear, prices: PriceList): TriedPlan {
  const inOrder = (one: readonly number[], other: readonly number[]) => {
    const rung = one.findIndex((missed, at) => Math.abs(missed - (other[at] ?? 0)) > 1e-6);
    return rung < 0 ? 0 : (one[rung] ?? 0) - (other[rung] ?? 0);
  };
  return bestByTrying(year, prices, inOrder, ({ rungs, total }) => [...rungs, total]);
}

export interface TriedPlan {
  readonly cost: number;
  /** Units missed of pins, minimums and groups, first jars, use, reserve, variety. */
  readonly rungs: readonly number[];
  readonly batches: number[][];
}

function bestByTrying(
  given: PlanningYear,
  prices: PriceList,
  compare: (one: readonly number[], other: readonly number[]) => number,
  worth: (tried: Pick<TriedPlan, 'rungs'> & { readonly total: number }) => readonly number[],
): TriedPlan {
  const year = withBegun(given);
  const most = year.recipes.map((recipe) => year.weeks.map((_, week) => mostBatches(year, recipe, week)));
  const slots = year.recipes.flatMap((_, recipe) =>
    year.weeks.flatMap((_week, week) => ((most[recipe]?.[week] ?? 0) > 0 ? [{ recipe, week }] : [])),
  );
  const batches = year.recipes.map(() => year.weeks.map(() => 0));
  let best: (TriedPlan & { readonly worth: readonly number[] }) | null = null;
  const tryFrom = (slot: number) => {
    const place = slots[slot];
    if (place === undefined) {
      const tried = costOf(year, prices, most, batches);
      if (tried === null) return;
      const value = worth({ rungs: tried.rungs, total: tried.cost });
      if (best === null || compare(value, best.worth) < -1e-9)
        best = { ...tried, batches: batches.map((row) => [...row]), worth: value };
      return;
    }
    const row = batches[place.recipe] ?? [];
    for (let count = 0; count <= (most[place.recipe]?.[place.week] ?? 0); count += 1) {
      row[place.week] = count;
      tryFrom(slot + 1);
    }
    row[place.week] = 0;
  };
  tryFrom(0);
  return best ?? { cost: Number.POSITIVE_INFINITY, rungs: [], batches };
}

type TriedRecipe = PlannedRecipe & {
  /** Batches begun before the year: nothing more is taken for them, and their crock is full until their load. */
  readonly begun?: number;
};
type TriedYear = Omit<PlanningYear, 'recipes'> & { readonly recipes: readonly TriedRecipe[] };

function withBegun(year: PlanningYear): TriedYear {
  const begun = (year.begun ?? []).flatMap((batches): TriedRecipe[] => {
    const recipe = year.recipes.find(({ id }) => id === batches.recipeId);
    if (recipe === undefined) return [];
    const { stages, ...rest } = recipe;
    return [
      {
        ...rest,
        produce: [],
        supplies: [],
        uses: [],
        gives: [],
        handsOnMinutes: stages?.handsOnByWeek.at(-1) ?? recipe.handsOnMinutes,
        allowedByWeek: batches.mayLoadByWeek,
        begun: batches.batches,
      },
    ];
  });
  return { ...year, recipes: [...year.recipes, ...begun] };
}

/** Weeks from beginning a batch to its canner load. */
const before = ({ stages }: PlannedRecipe) => stages?.weeks ?? 0;
/** Hands-on minutes of a batch so many weeks before its load. */
const handsOn = (recipe: PlannedRecipe, weeksBefore: number) =>
  recipe.stages === undefined
    ? weeksBefore === 0
      ? recipe.handsOnMinutes
      : 0
    : (recipe.stages.handsOnByWeek[before(recipe) - weeksBefore] ?? 0);

const sum = (list: readonly number[]) => list.reduce((total, amount) => total + amount, 0);

function stoveMinutes(recipe: PlannedRecipe) {
  return handsOn(recipe, 0) + loads(recipe) * (recipe.processing?.attendedMinutes ?? 0);
}
function loads(recipe: PlannedRecipe) {
  if (recipe.processing === null) return 0;
  const { jarsPerLoad } = recipe.processing;
  const jars = Math.ceil(recipe.yieldHighJars);
  // A last jar that would be alone in a load of its own is kept cold or not filled.
  const isAlone = jars > jarsPerLoad && jarsPerLoad > 1 && jars % jarsPerLoad === 1;
  return Math.ceil(jars / jarsPerLoad) - (isAlone ? 1 : 0);
}
function cannerMinutes(recipe: PlannedRecipe) {
  return loads(recipe) * (recipe.processing?.loadMinutes ?? 0);
}

/** Most batches that time and produce allow; a recipe of by-product, what the most batches that give it would leave. */
function mostBatches(year: TriedYear, recipe: TriedRecipe, loadWeek: number): number {
  if (recipe.allowedByWeek?.[loadWeek] !== true || recipe.stages?.possibleByWeek?.[loadWeek] === false)
    return 0;
  const week = loadWeek - before(recipe);
  if (week < 0) return 0;
  const lb = sum(year.sources.map(({ lbByWeek }) => lbByWeek[week] ?? 0));
  const leftBy = (givenIn: number, materialId: string) =>
    givenIn < 0
      ? 0
      : sum(
          year.recipes.map((giver) =>
            sum(
              giver.gives.filter((gives) => gives.materialId === materialId).map(({ quantity }) => quantity),
            ) === 0
              ? 0
              : mostBatches(year, giver, givenIn + before(giver)) *
                sum(
                  giver.gives
                    .filter((gives) => gives.materialId === materialId)
                    .map(({ quantity }) => quantity),
                ),
          ),
        );
  const byMaterial = Math.min(
    99,
    ...recipe.produce.map((need) => Math.floor(lb / need.lb)),
    ...recipe.uses.map(({ materialId, quantity }) => {
      const keepsAWeek = (year.materials.find(({ id }) => id === materialId)?.keepsDaysCold ?? 0) >= 7;
      return Math.floor(
        (leftBy(week, materialId) + (keepsAWeek ? leftBy(week - 1, materialId) : 0)) / quantity + 1e-9,
      );
    }),
  );
  const sessions = year.time.maxSessionsByWeek[loadWeek] ?? 0;
  return Math.min(
    recipe.begun ?? 99,
    byMaterial,
    Math.floor(sessions * perSession(year, recipe, loadWeek) + 1e-9),
    ...Array.from({ length: before(recipe) }, (_, at) => at + 1)
      .filter((weeksBefore) => handsOn(recipe, weeksBefore) > 0)
      .map((weeksBefore) => {
        const inWeek = loadWeek - weeksBefore;
        const minutes =
          ((year.time.hoursPerSessionByWeek[inWeek] ?? 0) * 60 - year.time.setUpMinutes) *
          handsThere(year, inWeek);
        return Math.floor(
          (minutes * (year.time.maxSessionsByWeek[inWeek] ?? 0)) / handsOn(recipe, weeksBefore) + 1e-9,
        );
      }),
  );
}

function perSession(year: TriedYear, recipe: PlannedRecipe, week: number): number {
  const minutes = (year.time.hoursPerSessionByWeek[week] ?? 0) * 60;
  const times = (share: number): number =>
    share <= 0 ? 20 : share <= 1 ? Math.floor(1 / share + 1e-9) : 1 / Math.ceil(share - 1e-9);
  // Nobody speeds up one batch; several people do several beside each other, while the canner takes its time.
  return Math.min(
    handsThere(year, week) * times(stoveMinutes(recipe) / (minutes - year.time.setUpMinutes)),
    times(cannerMinutes(recipe) / minutes),
  );
}

const handsThere = (year: TriedYear, week: number): number => year.time.handsByWeek?.[week] ?? 1;

/** Cents of one canning plan, or null where it cannot be carried out. */
function costOf(
  year: TriedYear,
  prices: PriceList,
  most: readonly (readonly number[])[],
  batches: readonly (readonly number[])[],
): Pick<TriedPlan, 'cost' | 'rungs'> | null {
  const count = (recipe: number, week: number) => batches[recipe]?.[week] ?? 0;
  let cost = 0;
  for (let week = 0; week < year.weeks.length; week += 1) {
    const sessions = sessionsNeeded(year, batches, week);
    if (sessions === null) return null;
    cost += sessions * prices.sessionCents;
    let need = sum(
      year.recipes.map(
        (recipe, at) => count(at, week + before(recipe)) * sum(recipe.produce.map(({ lb }) => lb)),
      ),
    );
    const byPrice = [...year.sources].sort(
      (one, other) => (one.priceCentsPerLbByWeek[week] ?? 0) - (other.priceCentsPerLbByWeek[week] ?? 0),
    );
    for (const source of byPrice) {
      const taken = Math.min(need, source.lbByWeek[week] ?? 0);
      cost += taken * (source.priceCentsPerLbByWeek[week] ?? 0);
      need -= taken;
    }
    if (need > 1e-9) return null;
    const inCrocks = sum(
      year.recipes.map((recipe, at) => {
        const { crock } = recipe;
        if (crock === null) return 0;
        return sum(
          year.weeks.map((_, loaded) => {
            const begun = loaded - before(recipe);
            const stands =
              recipe.begun === undefined ? begun <= week && week < begun + crock.weeks : week <= loaded;
            return stands ? crock.quarts * count(at, loaded) : 0;
          }),
        );
      }),
    );
    const begunQuarts = sum(year.recipes.map(({ begun = 0, crock }) => begun * (crock?.quarts ?? 0)));
    const freeQuarts = year.storage.crockQuarts - (year.storage.crockQuartsTakenByWeek?.[week] ?? 0);
    if (inCrocks > Math.max(freeQuarts, begunQuarts) + 1e-9) return null;
  }
  if (!byProductsReach(year, batches)) return null;

  for (const supply of year.supplies) {
    const used = sum(
      year.recipes.map((recipe, at) =>
        sum(
          recipe.supplies
            .filter(({ supplyId }) => supplyId === supply.id)
            .map(({ quantity }) => quantity * sum(batches[at] ?? [])),
        ),
      ),
    );
    cost += (Math.max(0, used - supply.onHand) * supply.packPrice) / supply.packQuantity;
  }
  const jars = sum(year.recipes.map((recipe, at) => recipe.yieldHighJars * sum(batches[at] ?? [])));
  const lid = year.lids[0];
  if (lid !== undefined) cost += (Math.max(0, jars * 1.05 - lid.onHand) * lid.boxPrice) / lid.box;

  const shelves = year.items.map((item) => playItem(year, item, most, batches));
  cost += jarCost(year, batches, shelves);
  const missed = { pins: 0, groups: 0, firstJars: 0, use: 0, reserve: 0, variety: 0 };
  const foods = shelves.flatMap((shelf, at) => {
    const wanted = shelf.servable + (year.items[at]?.yearEndUnits ?? 0);
    return shelf.mayCome && wanted > 1e-6 ? [wanted] : [];
  });
  shelves.forEach((shelf, at) => {
    const item = year.items[at];
    if (item === undefined) return;
    cost += shelf.boughtCents + shelf.olderUnitWeeks * prices.olderCentsPerUnitWeek;
    const missedUse = sum(shelf.missedByWeek);
    const yearEndShort = Math.max(0, item.yearEndUnits - shelf.atEnd);
    // The largest gap, and the year's end once more.
    const missingAtEnd = Math.max(0, item.reserveUnits + item.yearEndUnits - shelf.atEnd - yearEndShort);
    const reserveShort =
      Math.max(missingAtEnd, ...shelf.standingInSeason.map((units) => item.reserveUnits - units)) +
      missingAtEnd;
    missed.use += missedUse + yearEndShort;
    const wanted = shelf.servable + item.yearEndUnits;
    if (shelf.mayCome && wanted > 1e-6) {
      const had = wanted - missedUse - yearEndShort;
      // Of an average food so many units: one for each missing of the first half, two more for each of the first quarter.
      const short = Math.max(0, wanted / 2 - had) + 2 * Math.max(0, wanted / 4 - had);
      missed.firstJars += (short * (sum(foods) / foods.length)) / wanted;
    }
    if (item.reserveUnits > 0) missed.reserve += reserveShort;
    if (item.familyMinimumUnits !== null)
      missed.groups += Math.max(0, missedUse - Math.max(0, shelf.servable - item.familyMinimumUnits));
  });
  for (const group of year.groups) {
    const supplies = group.members.map(({ itemId, groupUnitsPerUnit }) => {
      const opening = sum(
        year.items.find(({ id }) => id === itemId)?.openingLots.map(({ units }) => units) ?? [],
      );
      const made = sum(
        year.recipes.map((recipe, at) =>
          recipe.itemId === itemId ? recipe.yieldLowUnits * sum(batches[at] ?? []) : 0,
        ),
      );
      return groupUnitsPerUnit * (opening + made);
    });
    const total = sum(supplies);
    missed.groups += Math.max(0, group.totalUnits - total);
    const kinds = supplies.filter((supply) => supply >= 1 - 1e-9).length;
    if (group.leastKinds > 1) missed.variety += Math.max(0, group.leastKinds - kinds);
    if (group.largestShare < 1)
      missed.variety += sum(supplies.map((supply) => Math.max(0, supply - group.largestShare * total)));
  }
  for (const [at, { begun }] of year.recipes.entries()) {
    if (begun === undefined) continue;
    const loaded = sum(batches[at] ?? []);
    if (loaded > begun) return null;
    missed.pins += begun - loaded;
  }
  for (const kept of year.kept) {
    if (kept.decision !== 'pinned') continue;
    const week = year.weeks.indexOf(kept.week);
    const planned = sum(year.recipes.map(({ id }, at) => (id === kept.recipeId ? count(at, week) : 0)));
    missed.pins += Math.max(0, kept.batches - planned);
  }
  cost +=
    missed.pins * prices.pinned +
    missed.groups * prices.group +
    missed.firstJars * prices.firstJars +
    missed.use * prices.use +
    missed.reserve * prices.reserve +
    missed.variety * prices.variety;
  return {
    cost,
    rungs: [missed.pins, missed.groups, missed.firstJars, missed.use, missed.reserve, missed.variety],
  };
}

function sessionsNeeded(
  year: TriedYear,
  batches: readonly (readonly number[])[],
  week: number,
): number | null {
  const minutes = (year.time.hoursPerSessionByWeek[week] ?? 0) * 60;
  const work = sum(
    year.recipes.map(
      (recipe, at) =>
        stoveMinutes(recipe) * (batches[at]?.[week] ?? 0) +
        sum(
          Array.from(
            { length: before(recipe) },
            (_, weeks) => handsOn(recipe, weeks + 1) * (batches[at]?.[week + weeks + 1] ?? 0),
          ),
        ),
    ),
  );
  const busy = sum(year.recipes.map((recipe, at) => cannerMinutes(recipe) * (batches[at]?.[week] ?? 0)));
  for (let sessions = 0; sessions <= (year.time.maxSessionsByWeek[week] ?? 0); sessions += 1) {
    const fits =
      work <= sessions * (minutes - year.time.setUpMinutes) * handsThere(year, week) + 1e-9 &&
      busy <= sessions * minutes + 1e-9 &&
      year.recipes.every(
        (recipe, at) => (batches[at]?.[week] ?? 0) <= perSession(year, recipe, week) * sessions + 1e-9,
      );
    if (fits) return sessions;
  }
  return null;
}

/** By-product used in a week comes from batches of the same week or, where it keeps a week, of the week before. */
function byProductsReach(year: TriedYear, batches: readonly (readonly number[])[]): boolean {
  return year.materials.every((material) => {
    const keepsAWeek = material.keepsDaysCold >= 7;
    let old = 0;
    return year.weeks.every((_, week) => {
      const amount = (list: 'gives' | 'uses') =>
        sum(
          year.recipes.map(
            (recipe, at) =>
              sum(
                recipe[list]
                  .filter(({ materialId }) => materialId === material.id)
                  .map(({ quantity }) => quantity),
              ) * (batches[at]?.[week + before(recipe)] ?? 0),
          ),
        );
      const given = amount('gives');
      const used = amount('uses');
      if (used > old + given + 1e-9) return false;
      old = keepsAWeek ? given - Math.max(0, used - old) : 0;
      return true;
    });
  });
}

interface PlayedItem {
  readonly missedByWeek: readonly number[];
  readonly openingTakenByWeek: readonly number[];
  /** Use a plan could serve: what falls before anything can come and is not on the shelf is nobody's fault. */
  readonly servableByWeek: readonly number[];
  readonly servable: number;
  /** It can be made or bought in time for at least one week. */
  readonly mayCome: boolean;
  readonly atEnd: number;
  /** Of what is made: what stands at the end of every fourth week of making, while more can still come. */
  readonly standingInSeason: readonly number[];
  readonly olderUnitWeeks: number;
  readonly boughtCents: number;
}

function playItem(
  year: TriedYear,
  item: PlannedItem,
  most: readonly (readonly number[])[],
  batches: readonly (readonly number[])[],
): PlayedItem {
  const ways = year.recipes.flatMap((recipe, at) => (recipe.itemId === item.id ? [{ recipe, at }] : []));
  const firstWeek = Math.min(
    item.packs.length > 0 ? 0 : year.weeks.length,
    ...ways.map(({ recipe, at }) => {
      const first = (most[at] ?? []).findIndex((count) => count > 0);
      return first < 0 ? year.weeks.length : first + recipe.readyAfterWeeks;
    }),
  );
  const lots = item.openingLots.map(({ units, bestQualityUntil }) => ({
    ready: 0,
    older: year.weeks.includes(bestQualityUntil) ? year.weeks.indexOf(bestQualityUntil) : year.weeks.length,
    units,
    isOpening: true,
  }));
  for (const { recipe, at } of ways)
    year.weeks.forEach((_, week) => {
      const made = recipe.yieldLowUnits * (batches[at]?.[week] ?? 0);
      if (made > 0)
        lots.push({
          ready: week + recipe.readyAfterWeeks,
          older: week + item.bestQualityWeeks,
          units: made,
          isOpening: false,
        });
    });
  lots.sort((one, other) => one.older - other.older || one.ready - other.ready);
  const arrivals = year.weeks.flatMap((_, week) =>
    ways.some(({ recipe, at }) => (most[at]?.[week - recipe.readyAfterWeeks] ?? 0) > 0) ? [week] : [],
  );
  const standingInSeason: number[] = [];
  const onlyOpening = item.openingLots.reduce((units, lot) => units + lot.units, 0);
  let openingLeft = onlyOpening;
  let olderUnitWeeks = 0;
  let boughtUnits = 0;
  const missedByWeek: number[] = [];
  const openingTakenByWeek: number[] = [];
  const servableByWeek: number[] = [];
  for (let week = 0; week < year.weeks.length; week += 1) {
    const wanted = item.useByWeek[week] ?? 0;
    const couldServe = week < firstWeek ? Math.min(wanted, openingLeft) : wanted;
    openingTakenByWeek.push(Math.min(wanted, openingLeft));
    openingLeft -= Math.min(wanted, openingLeft);
    servableByWeek.push(couldServe);
    let open = couldServe;
    for (const lot of lots.filter(({ ready }) => ready <= week)) {
      const taken = Math.min(open, lot.units);
      lot.units -= taken;
      open -= taken;
    }
    const standing = sum(lots.filter(({ ready }) => ready <= week).map(({ units }) => units));
    const isInSeason = item.packs.length === 0 && arrivals.some((arrives) => arrives > week);
    if (isInSeason && week >= firstWeek && (week - firstWeek) % 4 === 3) standingInSeason.push(standing);
    if (item.packs.length > 0) {
      // Bought just in time: for use, for the reserve in the weeks it is looked at, and for what the year hands over.
      const isLast = week === year.weeks.length - 1;
      const wish = item.reserveUnits + (isLast ? item.yearEndUnits : 0);
      const buy = open + Math.max(0, wish - standing);
      boughtUnits += buy;
      if (buy > open)
        lots.push({ ready: week, older: year.weeks.length + 52, units: buy - open, isOpening: false });
      missedByWeek.push(0);
    } else missedByWeek.push(open);
    olderUnitWeeks += sum(
      lots.filter(({ ready, older }) => ready <= week && older <= week).map(({ units }) => units),
    );
  }
  const pack = item.packs[0];
  return {
    missedByWeek,
    openingTakenByWeek,
    servableByWeek,
    servable: sum(servableByWeek),
    mayCome: firstWeek < year.weeks.length,
    atEnd: sum(lots.filter(({ ready }) => ready < year.weeks.length).map(({ units }) => units)),
    standingInSeason,
    olderUnitWeeks,
    boughtCents: pack === undefined ? 0 : (boughtUnits * (pack.priceByWeek[0] ?? 0)) / pack.units,
  };
}

/** Jars bought: the most that filling so far ever exceeds what was empty and what eating had emptied by the week before. */
function jarCost(
  year: TriedYear,
  batches: readonly (readonly number[])[],
  shelves: readonly PlayedItem[],
): number {
  const holding = year.jars[0];
  if (holding === undefined) return 0;
  let filled = 0;
  let emptied = 0;
  let bought = 0;
  year.weeks.forEach((_, week) => {
    filled += sum(year.recipes.map((recipe, at) => recipe.yieldHighJars * (batches[at]?.[week] ?? 0)));
    bought = Math.max(bought, filled - holding.empty - emptied);
    shelves.forEach((shelf, at) => {
      const item = year.items[at];
      emptied += shelf.openingTakenByWeek[week] ?? 0;
      const isMadeOnly = item?.packs.length === 0;
      if (isMadeOnly)
        emptied +=
          (shelf.servableByWeek[week] ?? 0) -
          (shelf.openingTakenByWeek[week] ?? 0) -
          (shelf.missedByWeek[week] ?? 0);
    });
  });
  return (bought * holding.packPrice) / holding.pack;
}
