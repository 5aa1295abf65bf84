import type { HarvestWindowRow } from '../../shared/schemas/reference/harvest-window.ts';
import { middleOfRegion, milesBetween, type PlaceOnEarth, regionClimate } from './climate.ts';
import type { Ground, SeasonTables } from './ground.ts';
import { publishedWindow } from './published-window.ts';

/** The row of the region, or of the nearest region that has the crop; null where nothing tells which is near. */
export function nearestRow(
  crop: string,
  { region, spot, climate }: Ground,
  { harvestWindows, freezeNormals }: SeasonTables,
): HarvestWindowRow | null {
  const own = region === null ? undefined : publishedWindow(harvestWindows, region, crop);
  if (own) return own;
  const home = region === null ? null : regionClimate(region, freezeNormals);
  const spring = (climate ?? home?.early)?.lastFreeze;
  const from = spot ?? (region === null ? null : middleOfRegion(region, freezeNormals));
  if (spring === undefined) return null;
  return likeRegions(crop, { from, spring }, { harvestWindows, freezeNormals })[0]?.row ?? null;
}

/** The rows of a crop by how near their region is; one that says when its spring is and not where it lies goes by the spring alone. */
export function likeRegions(
  crop: string,
  { from, spring }: { readonly from: PlaceOnEarth | null; readonly spring: number },
  { harvestWindows, freezeNormals }: Pick<SeasonTables, 'harvestWindows' | 'freezeNormals'>,
): readonly { readonly row: HarvestWindowRow; readonly miles: number }[] {
  const regions = [...new Set(harvestWindows.map((row) => row.region))].flatMap((region) => {
    const row = publishedWindow(harvestWindows, region, crop);
    const middle = middleOfRegion(region, freezeNormals);
    const early = regionClimate(region, freezeNormals)?.early;
    if (row === undefined || middle === null || early === undefined) return [];
    const away = from === null ? 0 : milesBetween(from, middle);
    return [{ row, miles: away + milesPerDayOfSpring * Math.abs(spring - early.lastFreeze) }];
  });
  return regions.sort((one, other) => one.miles - other.miles);
}

/**
 * A region is near when it is not far and its spring comes at about the same time: a day of spring counts as many miles as
 * it takes northward. Four days for a degree of latitude, 69 miles: A. D. Hopkins, Periodical events and natural law as guides
 * to agricultural research and practice, 1918 (general knowledge, not read).
 */
const milesPerDayOfSpring = 69 / 4;
