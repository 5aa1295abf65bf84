import type { FreezeNormalRow } from '../../shared/schemas/reference/freeze-normal.ts';

type Spot = Pick<FreezeNormalRow, 'state' | 'latitude' | 'longitude'>;

/** Parts of states that have a season table of their own; the lines between them are our own judgement. */
const parts: Readonly<Record<string, (spot: Spot) => boolean>> = {
  'CA-N': ({ latitude }) => latitude >= 38,
  'CA-S': ({ latitude }) => latitude < 38,
  MI: ({ latitude }) => latitude < 45.8,
  'OR-NW': ({ latitude, longitude }) => latitude >= 44 && longitude <= -122,
  WA: ({ longitude }) => longitude <= -121,
};

const stateOf = (region: string): string => region.slice(0, 2);

/** Whether a station stands where the season table of a region was made for. */
export const isInRegion = (region: string, spot: Spot): boolean =>
  spot.state === stateOf(region) && (parts[region]?.(spot) ?? true);

/**
 * The region of the season tables a place belongs to, of those there are; a place elsewhere in a state with a table belongs
 * to that as well. Null where the state has none.
 */
export function regionOfSpot(spot: Spot, regions: readonly string[]): string | null {
  const ofState = regions.filter((region) => stateOf(region) === spot.state);
  return ofState.find((region) => isInRegion(region, spot)) ?? ofState[0] ?? null;
}
