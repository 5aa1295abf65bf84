import type { FreezeNormalRow } from '../../shared/schemas/reference/freeze-normal.ts';
import { dayNumber, daysInYear } from './day-of-season.ts';
import { isInRegion } from './region.ts';

/** What a place's usual year is to a garden. Days are numbers of a year, 1 to 365. */
export interface Climate {
  /** In half of the years the last freeze of spring comes on this day or later; 1 where it hardly ever freezes. */
  readonly lastFreeze: number;
  /** In half of the years the first freeze of autumn has come by this day; null where it hardly ever freezes. */
  readonly firstFreeze: number | null;
  /** Growing degree days (°F above 50) of a day between the two, on average. */
  readonly heatPerDay: number;
}

// Where winters are mild a table may print a "last" freeze in December or a "first" one in January.
const midsummer = dayNumber('07-15');

/** The climate at a station. */
export function climateAt({ lastFreeze, firstFreeze, degreeDays }: FreezeNormalRow): Climate {
  const last = lastFreeze === null ? 1 : dayNumber(lastFreeze);
  const first = firstFreeze === null ? null : dayNumber(firstFreeze);
  const from = last > midsummer ? 1 : last;
  const to = first !== null && first < midsummer ? null : first;
  return {
    lastFreeze: from,
    firstFreeze: to,
    heatPerDay: degreeDays / Math.max(1, (to ?? daysInYear) - from),
  };
}

/** Days by which what begins on a day there begins later here: by the last freeze, and by the warmth a day of what comes after it. */
export function daysApart(begins: number, here: Climate, there: Climate): number {
  const warmed = Math.max(0, begins - there.lastFreeze);
  const slower = Math.max(0, there.heatPerDay / Math.max(1, here.heatPerDay) - 1);
  return here.lastFreeze - there.lastFreeze + warmed * slower;
}

/** The value in the middle, of an even count the upper of the two; `share` names another than the middle. */
const quantile = (values: readonly number[], share = 0.5): number => {
  const sorted = [...values].sort((one, other) => one - other);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
};

/** The middle of several climates, value by value; null of none. */
export function middleClimate(climates: readonly Climate[]): Climate | null {
  if (climates.length === 0) return null;
  const firsts = climates.map(({ firstFreeze }) => firstFreeze ?? daysInYear + 1);
  const first = quantile(firsts);
  return {
    lastFreeze: quantile(climates.map(({ lastFreeze }) => lastFreeze)),
    firstFreeze: first > daysInYear ? null : first,
    heatPerDay: quantile(climates.map(({ heatPerDay }) => heatPerDay)),
  };
}

/** What the seasons of a whole region were printed for. */
export interface RegionClimate {
  /** The middle of the earlier half of its stations: a season of a whole region begins where it begins first. */
  readonly early: Climate;
  /** Last freeze of its earliest places, one station in ten: before that nothing can be planted anywhere in it. */
  readonly earliestLastFreeze: number;
}

/**
 * The climate for which a region's published seasons stand. Our own judgement, no source: a calendar of a whole state opens
 * when its early places open, so it is held to be that of the earlier half of its stations. Null for a region without one.
 */
export const regionClimate = (region: string, stations: readonly FreezeNormalRow[]): RegionClimate | null =>
  ofRegion(stations, region).climate;

interface RegionPicture {
  readonly climate: RegionClimate | null;
  readonly middle: PlaceOnEarth | null;
}

// The table never changes while the program runs, and every page with a season asks for the same few regions.
const pictures = new WeakMap<readonly FreezeNormalRow[], Map<string, RegionPicture>>();

function ofRegion(stations: readonly FreezeNormalRow[], region: string): RegionPicture {
  const known = pictures.get(stations) ?? new Map<string, RegionPicture>();
  pictures.set(stations, known);
  const own = () => stations.filter((station) => isInRegion(region, station));
  const picture = known.get(region) ?? { climate: climateOf(own()), middle: middleOf(own()) };
  known.set(region, picture);
  return picture;
}

function climateOf(stations: readonly FreezeNormalRow[]): RegionClimate | null {
  const byFreeze = stations.map(climateAt).sort((one, other) => one.lastFreeze - other.lastFreeze);
  const early = middleClimate(byFreeze.slice(0, Math.ceil(byFreeze.length / 2)));
  if (early === null) return null;
  return {
    early,
    earliestLastFreeze: quantile(
      byFreeze.map(({ lastFreeze }) => lastFreeze),
      0.1,
    ),
  };
}

export interface PlaceOnEarth {
  readonly latitude: number;
  readonly longitude: number;
}

const milesPerDegree = 69.1;

/** Miles between two places, the earth taken as flat between them; good to a few percent within a country. */
export function milesBetween(one: PlaceOnEarth, other: PlaceOnEarth): number {
  const middle = ((one.latitude + other.latitude) / 2) * (Math.PI / 180);
  const north = one.latitude - other.latitude;
  const east = (one.longitude - other.longitude) * Math.cos(middle);
  return milesPerDegree * Math.hypot(north, east);
}

/** The middle of the stations of a region; null for a region without one. */
export const middleOfRegion = (region: string, stations: readonly FreezeNormalRow[]): PlaceOnEarth | null =>
  ofRegion(stations, region).middle;

function middleOf(own: readonly FreezeNormalRow[]): PlaceOnEarth | null {
  if (own.length === 0) return null;
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  return {
    latitude: mean(own.map(({ latitude }) => latitude)),
    longitude: mean(own.map(({ longitude }) => longitude)),
  };
}
