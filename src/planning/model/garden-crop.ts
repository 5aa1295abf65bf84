import { entry } from '../lookup.ts';
import { reserveHeld } from '../planning-year.ts';
import { byBeginning } from '../year/stage-weeks.ts';
import { lastUseWeek } from '../year/supply-weeks.ts';
import { needOf, type RawMaterial } from './raw-materials.ts';
import type { PlanningSets } from './sets.ts';

/** How much of a crop of our own the year could use, and what a pound of it is worth in units of the shelf. */
export interface GardenCrop {
  /** Position in `sets.rawMaterials`. */
  readonly rawMaterial: number;
  /** Sources that are our own garden. */
  readonly sources: readonly number[];
  /** Pounds that would be lost if the garden's crop were left; never more than whole batches for what the year wants. */
  readonly wantedLb: number;
  readonly unitsPerLb: number;
  /** What it may become, where that is more than one item. */
  readonly uses: readonly GardenUse[];
}

/** What of a garden crop may become one item. */
export interface GardenUse {
  /** Position in `sets.items`. */
  readonly item: number;
  /** Positions in `sets.recipes` that make the item of it. */
  readonly ways: readonly number[];
  /** Pounds for as many whole batches as the year wants of the item and will eat before its date. */
  readonly wantedLb: number;
}

/**
 * Our own crops that some recipe can use. A crop beyond what the year wants of its items is no loss: the wish is not to
 * lose what we would otherwise go without or buy.
 */
export function gardenCrops(sets: PlanningSets, mostBatches: readonly (readonly number[])[]): GardenCrop[] {
  return sets.rawMaterials.flatMap((rawMaterial, at): GardenCrop[] => {
    const sources = rawMaterial.sources.filter(
      (source) => entry(sets.sources, source, 'sources').kind === 'garden',
    );
    if (sources.length === 0) return [];
    const users = sets.recipes.flatMap((recipe, recipeAt) =>
      needOf(recipe, rawMaterial).any > 0 &&
      entry(mostBatches, recipeAt, 'mostBatches').some((most) => most > 0)
        ? [recipeAt]
        : [],
    );
    if (users.length === 0) return [];
    const batchLb = Math.min(...users.map((user) => lbOf(sets, user, rawMaterial)));
    const given = sources.reduce(
      (sum, source) => sum + usableLb(sets, rawMaterial, source, users, mostBatches, batchLb),
      0,
    );
    const uses = sets.items.flatMap((item, itemAt): GardenUse[] => {
      const ways = users.filter((user) => entry(sets.recipes, user, 'recipes').itemId === item.id);
      if (ways.length === 0) return [];
      const units = wishedUnits(sets, mostBatches, itemAt);
      const lbOfWholeBatches = ways.map((way) => {
        const { yieldLowUnits } = entry(sets.recipes, way, 'recipes');
        return Math.floor(units / yieldLowUnits + 1e-9) * lbOf(sets, way, rawMaterial);
      });
      return [{ item: itemAt, ways, wantedLb: Math.min(...lbOfWholeBatches) }];
    });
    const wished = uses.reduce((sum, use) => sum + use.wantedLb, 0);
    const wantedLb = Math.floor(Math.min(given, wished) / batchLb + 1e-9) * batchLb;
    const unitsPerLb = Math.max(
      ...users.map(
        (user) => entry(sets.recipes, user, 'recipes').yieldLowUnits / lbOf(sets, user, rawMaterial),
      ),
    );
    return wantedLb > 0
      ? [{ rawMaterial: at, sources, wantedLb, unitsPerLb, uses: uses.length > 1 ? uses : [] }]
      : [];
  });
}

function lbOf({ recipes }: PlanningSets, recipe: number, rawMaterial: RawMaterial): number {
  return needOf(entry(recipes, recipe, 'recipes'), rawMaterial).any;
}

/**
 * Pounds of one garden source that batches could use. What neither keeps nor can be topped up from elsewhere is used in
 * whole batches of its own week; the rest of that week's picking is nobody's loss.
 */
function usableLb(
  { sources, recipes, weekIndexes }: PlanningSets,
  rawMaterial: RawMaterial,
  source: number,
  users: readonly number[],
  mostBatches: readonly (readonly number[])[],
  batchLb: number,
): number {
  const from = entry(sources, source, 'sources');
  const reachFrom = (week: number): number => {
    const waits = lastUseWeek(from, week) - week;
    return rawMaterial.freezer === null || waits < 0 ? waits : Math.max(waits, rawMaterial.freezer.weeks);
  };
  const keepsNoWeek = rawMaterial.carryWeeks === 0 && rawMaterial.freezer === null;
  const onlyOwnWeek = keepsNoWeek && rawMaterial.sources.length === 1;
  const begunByUser = users.map((user) =>
    byBeginning(entry(mostBatches, user, 'mostBatches'), entry(recipes, user, 'recipes')),
  );
  return weekIndexes.reduce((sum, week) => {
    const batches = begunByUser.reduce(
      (most, begun) =>
        most +
        begun
          .slice(week, Math.max(week, week + reachFrom(week) + 1))
          .reduce((inWeeks, count) => inWeeks + count, 0),
      0,
    );
    const lb = batches > 0 ? entry(from.lbByWeek, week, 'lbByWeek') : 0;
    return sum + (onlyOwnWeek ? Math.min(Math.floor(lb / batchLb + 1e-9), batches) * batchLb : lb);
  }, 0);
}

/**
 * Units of an item the year wants beyond what stands at its beginning: use, what its end hands over and the reserve, and no
 * more than is eaten before best quality ends, from the first week in which it could be ready to the last one's date.
 */
function wishedUnits(
  { items, recipes, recipesByItem, weekCount }: PlanningSets,
  mostBatches: readonly (readonly number[])[],
  at: number,
): number {
  const item = entry(items, at, 'items');
  const ready = entry(recipesByItem, at, 'recipesByItem').flatMap((recipe) => {
    const { readyAfterWeeks } = entry(recipes, recipe, 'recipes');
    return entry(mostBatches, recipe, 'mostBatches').flatMap((most, week) =>
      most > 0 ? [week + readyAfterWeeks] : [],
    );
  });
  const lastDate = Math.max(...ready) + item.bestQualityWeeks;
  const use = item.useByWeek.reduce((sum, units) => sum + units, 0);
  const opening = item.openingLots.reduce((sum, { units }) => sum + units, 0);
  const wanted = use + item.yearEndUnits + reserveHeld(item) - opening;
  const eatenInTime = item.useByWeek
    .slice(Math.min(...ready), Math.max(0, lastDate))
    .reduce((sum, units) => sum + units, 0);
  const beyondYear = lastDate > weekCount ? item.yearEndUnits + reserveHeld(item) : 0;
  return Math.max(0, Math.min(wanted, eatenInTime + beyondYear));
}
