import type { FreezeNormalRow } from '../../shared/schemas/reference/freeze-normal.ts';
import type { StatedGround } from '../household/ground.ts';
import type { Household } from '../household/household.ts';
import { type Climate, climateAt, middleClimate, type PlaceOnEarth, regionClimate } from './climate.ts';
import { dayNumber } from './day-of-season.ts';
import { climateAtHeight } from './find-station.ts';
import type { Ground, SeasonTables } from './ground.ts';
import { type LocalWindowAnswer, localWindow } from './local-window.ts';
import { nearestRow } from './near-regions.ts';
import { publishedBegin } from './published-days.ts';
import { isInRegion, regionOfSpot } from './region.ts';

/** From what the climate of a household's ground is known, the surest first. */
export type GroundFrom =
  | { readonly kind: 'own-frost' }
  | { readonly kind: 'strawberries' }
  | { readonly kind: 'station'; readonly station: FreezeNormalRow }
  /** The middle of the stations of its region or state; of those at its height where there are some. */
  | { readonly kind: 'stations'; readonly isAtHeight: boolean; readonly stations: number }
  | { readonly kind: 'nothing' };

export interface KnownGround {
  readonly ground: Ground;
  readonly from: GroundFrom;
  readonly station: FreezeNormalRow | null;
}

/** The regions of the season tables. */
export const seasonRegions = ({ harvestWindows }: SeasonTables): readonly string[] => [
  ...new Set(harvestWindows.map(({ region }) => region)),
];

type HouseholdGround = Pick<Household, 'region' | 'altitudeFt'>;

/** What is known of where a household gardens: its own dates before its station, that before the stations of its region. */
export function groundOf(
  { region: said, altitudeFt }: HouseholdGround,
  stated: StatedGround,
  tables: SeasonTables,
): KnownGround {
  const { freezeNormals } = tables;
  const station = freezeNormals.find((one) => one.station === stated.station) ?? null;
  const region = said ?? (station === null ? null : regionOfSpot(station, seasonRegions(tables)));
  const isIn = (one: FreezeNormalRow) =>
    region === null ? one.state === stated.state : isInRegion(region, one);
  const level =
    station !== null || (region === null && stated.state === null)
      ? null
      : climateAtHeight(freezeNormals, isIn, altitudeFt);
  const base = station === null ? (level?.climate ?? null) : climateAt(station);
  const spot: PlaceOnEarth | null =
    station ?? (region === null ? middleOf(freezeNormals.filter(isIn)) : null);
  const known: GroundFrom =
    station !== null
      ? { kind: 'station', station }
      : level !== null
        ? { kind: 'stations', isAtHeight: level.isAtHeight, stations: level.stations }
        : { kind: 'nothing' };
  const withoutDates: Ground = { region, spot, climate: base, strawberriesLater: null };
  return { station, ...withOwnDates(withoutDates, known, stated, tables) };
}

function withOwnDates(
  ground: Ground,
  from: GroundFrom,
  { lastFrost, firstFrost, strawberriesFrom }: StatedGround,
  tables: SeasonTables,
): { readonly ground: Ground; readonly from: GroundFrom } {
  const row = strawberriesFrom === null ? null : nearestRow('strawberry', ground, tables);
  const later =
    row === null || strawberriesFrom === null ? null : dayNumber(strawberriesFrom) - publishedBegin(row);
  const spring = row === null ? null : (regionClimate(row.region, tables.freezeNormals)?.early ?? null);
  if (lastFrost === null && firstFrost === null && later === null) return { ground, from };
  const like: Climate = ground.climate ??
    spring ??
    middleClimate(tables.freezeNormals.map(climateAt)) ?? {
      lastFreeze: 1,
      firstFreeze: null,
      heatPerDay: 15,
    };
  const bySpring = later === null || spring === null ? like.lastFreeze : spring.lastFreeze + later;
  return {
    ground: {
      ...ground,
      strawberriesLater: later,
      climate: {
        ...like,
        lastFreeze: lastFrost === null ? bySpring : dayNumber(lastFrost),
        firstFreeze: firstFrost === null ? like.firstFreeze : dayNumber(firstFrost),
      },
    },
    from: lastFrost === null && firstFrost === null ? { kind: 'strawberries' } : { kind: 'own-frost' },
  };
}

function middleOf(stations: readonly FreezeNormalRow[]): PlaceOnEarth | null {
  if (stations.length === 0) return null;
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  return {
    latitude: mean(stations.map(({ latitude }) => latitude)),
    longitude: mean(stations.map(({ longitude }) => longitude)),
  };
}

/** The season guessed for a source on a ground. */
export const guessedSeason = (
  source: { readonly crop: string; readonly kind: 'garden' | 'pick-your-own' | 'market' },
  { ground }: KnownGround,
  tables: SeasonTables,
): LocalWindowAnswer => localWindow(source.crop, source.kind, ground, tables);
