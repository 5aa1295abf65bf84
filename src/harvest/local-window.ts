import type { DaysToHarvestRow, Hardiness } from '../../shared/schemas/reference/days-to-harvest.ts';
import type { FreezeNormalRow } from '../../shared/schemas/reference/freeze-normal.ts';
import type { HarvestWindowRow } from '../../shared/schemas/reference/harvest-window.ts';
import {
  type Climate,
  middleOfRegion,
  milesBetween,
  type PlaceOnEarth,
  type RegionClimate,
  regionClimate,
} from './climate.ts';
import { dayNumber, daysInYear, monthDayOf, notBeforeMidMonth } from './day-of-season.ts';
import { publishedWindow } from './published-window.ts';
import type { HarvestWindow } from './season.ts';

export interface SeasonTables {
  readonly harvestWindows: readonly HarvestWindowRow[];
  readonly daysToHarvest: readonly DaysToHarvestRow[];
  readonly freezeNormals: readonly FreezeNormalRow[];
}

/** Where a household gardens and shops, as far as it is known. */
export interface Ground {
  /** Region of the season tables; null where its state has none or nothing is known. */
  readonly region: string | null;
  readonly spot: PlaceOnEarth | null;
  /** Null where neither a station nor dates of its own are known: then the region's own is taken. */
  readonly climate: Climate | null;
  /** Days its strawberries come after the date printed for its region (before: negative); null where nobody said. */
  readonly strawberriesLater: number | null;
}

/** A season for one crop and kind of source, with everything it was made from. Always a guess. */
export interface LocalWindow {
  readonly window: HarvestWindow;
  readonly row: HarvestWindowRow;
  /** The row is another region's. */
  readonly isBorrowed: boolean;
  /** Days the row's dates were moved, later when positive. */
  readonly shiftDays: number;
  /** The crop that is planted after this last freeze cannot be ripe before; null where that held nothing back. */
  readonly notBefore: { readonly lastFreeze: string; readonly row: DaysToHarvestRow } | null;
  /** Cut off by the first freeze of autumn. */
  readonly endsWithFreeze: boolean;
}

export type LocalWindowAnswer =
  | { readonly kind: 'window'; readonly local: LocalWindow }
  | { readonly kind: 'no-table' }
  /** Its first harvest would come only when it freezes again, or when its season is over. */
  | { readonly kind: 'too-short'; readonly row: HarvestWindowRow };

/** Days after the last freeze (before it: negative) on which a vegetable is planted at the earliest. */
const plantedAfter: Readonly<Record<Hardiness, number>> = {
  // CSU GardenNotes 720: two to four weeks, and zero to two weeks, before the average last frost.
  hardy: -28,
  'semi-hardy': -14,
  // The same guide: around the average last frost and later. Two weeks after the middle date about nine years in ten are free
  // of frost (half to nine tenths lie two weeks apart at most stations); two weeks for both is our own judgement.
  tender: 14,
  'very-tender': 14,
};

/** What the first freeze ends; our own judgement, common practice. */
const endsWithFreeze: ReadonlySet<Hardiness> = new Set(['tender', 'very-tender']);

/** Further than this a table says nothing about a place. Our own judgement. */
const longestShift = 42;

/**
 * When a crop can be had at a place, guessed from published tables.
 *
 * The row is that of the household's region, otherwise of the nearest region that has one. A date known by its month alone
 * begins in the middle of the month. A garden and a field where one picks oneself move with the place; a market brings in
 * what the whole region grows and stays.
 *
 * shift = (last freeze here − last freeze of the region's early places)
 *         + (published begin − last freeze there) · (heat a day there / heat a day here − 1), the second only for what begins
 *         after that freeze: the same warmth takes longer where days are cooler.
 *
 * So spring crops move by the last freeze alone, those of summer by the warmth as well. Within its own region nothing moves
 * to before the published begin: a whole region's season opens where it opens first. A date known by its month is never moved
 * earlier. A vegetable moreover cannot be ripe before it was planted long enough: last freeze + days until planting + days to
 * harvest of an early variety, unless a market's source names the day. The shift and what it leaves aside are our own
 * judgement, no source; the published dates, freezes and days keep theirs.
 */
export function localWindow(
  crop: string,
  kind: 'garden' | 'pick-your-own' | 'market',
  ground: Ground,
  tables: SeasonTables,
): LocalWindowAnswer {
  const row = nearestRow(crop, ground, tables);
  if (row === null) return { kind: 'no-table' };
  const there = regionClimate(row.region, tables.freezeNormals);
  const isBorrowed = row.region !== ground.region;
  const published = publishedDays(row);
  const home = ground.region === null ? null : regionClimate(ground.region, tables.freezeNormals);
  const isOwnGround = kind !== 'market';
  const here = climateOfSource(isOwnGround, ground, there, home);
  const shiftDays = shiftOf(row, published.beginsOn, { here, there, isBorrowed, ground, isOwnGround });
  const planted = there === null ? null : earliestRipe(crop, kind, row, { here, home, there, tables });
  const begins = Math.max(published.beginsOn + shiftDays, planted?.day ?? 0);
  const frost =
    kind === 'garden' && planted !== null && endsWithFreeze.has(planted.row.hardiness)
      ? (here?.firstFreeze ?? null)
      : null;
  const shifted = lastDayMoved(published.endsOn, shiftDays);
  const ends = frost === null ? shifted : Math.min(shifted, frost);
  if (begins >= ends && kind === 'market')
    return { kind: 'window', local: asPrinted(row, published, isBorrowed) };
  if (begins >= ends) return { kind: 'too-short', row };
  const active = activeWithin(published, shiftDays, begins, ends);
  return {
    kind: 'window',
    local: {
      window: {
        beginsOn: monthDayOf(begins),
        mostActiveFrom: active === null ? null : monthDayOf(active.from),
        mostActiveTo: active === null ? null : monthDayOf(active.to),
        endsOn: monthDayOf(ends),
      },
      row,
      isBorrowed,
      shiftDays,
      notBefore:
        planted !== null && planted.day > published.beginsOn + shiftDays
          ? { lastFreeze: monthDayOf(planted.lastFreeze), row: planted.row }
          : null,
      endsWithFreeze: frost !== null && frost < shifted,
    },
  };
}

/** What is brought to a market is sold in its season, ripe there or not: where moving leaves nothing of it, as printed. */
const asPrinted = (row: HarvestWindowRow, published: PublishedDays, isBorrowed: boolean): LocalWindow => ({
  window: {
    beginsOn: monthDayOf(published.beginsOn),
    mostActiveFrom: published.mostActive === null ? null : monthDayOf(published.mostActive.from),
    mostActiveTo: published.mostActive === null ? null : monthDayOf(published.mostActive.to),
    endsOn: monthDayOf(published.endsOn),
  },
  row,
  isBorrowed,
  shiftDays: 0,
  notBefore: null,
  endsWithFreeze: false,
});

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
  if (from === null || spring === undefined) return null;
  const others = [...new Set(harvestWindows.map((row) => row.region))].flatMap((other) => {
    const row = publishedWindow(harvestWindows, other, crop);
    const middle = middleOfRegion(other, freezeNormals);
    const early = regionClimate(other, freezeNormals)?.early;
    if (row === undefined || middle === null || early === undefined) return [];
    const miles = milesBetween(from, middle) + milesPerDayOfSpring * Math.abs(spring - early.lastFreeze);
    return [{ row, miles }];
  });
  return others.sort((one, other) => one.miles - other.miles)[0]?.row ?? null;
}

/**
 * A region is near when it is not far and its spring comes at about the same time: a day of spring counts as many miles as
 * it takes northward. Four days for a degree of latitude, 69 miles: A. D. Hopkins, Periodical events and natural law as guides
 * to agricultural research and practice, 1918 (general knowledge, not read).
 */
const milesPerDayOfSpring = 69 / 4;

interface PublishedDays {
  readonly beginsOn: number;
  readonly mostActive: { readonly from: number; readonly to: number } | null;
  /** Beyond 365 where the season goes on into the next year. */
  readonly endsOn: number;
}

/** The first day of a row's season, 1 to 365: in the middle of its month where the source says no more than the month. */
export const publishedBegin = (row: HarvestWindowRow): number => publishedDays(row).beginsOn;

/** The dates of a row as days, the first ones in the middle of their month where the source says no more than the month. */
function publishedDays(row: HarvestWindowRow): PublishedDays {
  const first = (monthDay: string): number =>
    dayNumber(isSaidFiner(row, monthDay) ? monthDay : notBeforeMidMonth(monthDay));
  const beginsOn = first(row.beginsOn);
  const after = (day: number): number => (day < beginsOn ? day + daysInYear : day);
  const { mostActiveFrom, mostActiveTo } = row;
  const to = mostActiveTo === null ? 0 : after(dayNumber(mostActiveTo));
  const from = mostActiveFrom === null ? 0 : after(first(mostActiveFrom));
  return {
    beginsOn,
    mostActive: mostActiveFrom === null || from > to ? null : { from, to },
    endsOn: after(dayNumber(row.endsOn)),
  };
}

/** A table in thirds of a month gives the first day also to what it knows by the month alone: then the month is all it says. */
const isSaidFiner = ({ precision }: HarvestWindowRow, monthDay: string): boolean =>
  precision === 'day' ||
  precision === 'week' ||
  (precision === 'third-of-month' && monthDay.slice(3) >= '15');

/** What decides when the source's own crop is ripe: the household's ground, or for a market the region it stands in. */
function climateOfSource(
  isOwnGround: boolean,
  { climate }: Ground,
  there: RegionClimate | null,
  home: RegionClimate | null,
): Climate | null {
  const region = (home ?? there)?.early ?? null;
  return isOwnGround ? (climate ?? region) : region;
}

interface Setting {
  readonly here: Climate | null;
  readonly there: RegionClimate | null;
  readonly isBorrowed: boolean;
  readonly ground: Ground;
  readonly isOwnGround: boolean;
}

function shiftOf(row: HarvestWindowRow, begins: number, setting: Setting): number {
  const { here, there, isBorrowed, ground, isOwnGround } = setting;
  const { strawberriesLater } = ground;
  if (isOwnGround && strawberriesLater !== null) return bounded(strawberriesLater);
  if (here === null || there === null) return 0;
  const freeze = here.lastFreeze - there.early.lastFreeze;
  const warmed = Math.max(0, begins - there.early.lastFreeze);
  const slower = Math.max(0, there.early.heatPerDay / Math.max(1, here.heatPerDay) - 1);
  const days = bounded(freeze + warmed * slower);
  return isBorrowed && row.precision === 'day' ? days : Math.max(0, days);
}

// Where spring comes later autumn does not: what ends after this day ends there. Our own judgement.
const autumn = dayNumber('09-01');
const lastDayMoved = (day: number, days: number): number => (day >= autumn ? day : day + days);

const bounded = (days: number): number => Math.round(Math.min(longestShift, Math.max(-longestShift, days)));

/** The first day on which a vegetable can be ripe; null for fruit and what no days are known of. */
function earliestRipe(
  crop: string,
  kind: 'garden' | 'pick-your-own' | 'market',
  row: HarvestWindowRow,
  setting: {
    readonly here: Climate | null;
    readonly home: RegionClimate | null;
    readonly there: RegionClimate;
    readonly tables: SeasonTables;
  },
): { readonly day: number; readonly lastFreeze: number; readonly row: DaysToHarvestRow } | null {
  const days = daysOf(crop, row, setting.tables.daysToHarvest);
  if (days === null) return null;
  const isMarket = kind === 'market';
  if (isMarket && row.precision === 'day') return null;
  const lastFreeze = isMarket
    ? (setting.home ?? setting.there).earliestLastFreeze
    : (setting.here?.lastFreeze ?? null);
  if (lastFreeze === null) return null;
  return { day: lastFreeze + plantedAfter[days.hardiness] + days.daysLow, lastFreeze, row: days };
}

/** The days of a crop, or of the crop it is a kind of: a hot pepper ripens like peppers. */
function daysOf(
  crop: string,
  row: HarvestWindowRow,
  days: readonly DaysToHarvestRow[],
): DaysToHarvestRow | null {
  for (const key of [crop.replaceAll('-', '_'), row.cropKey]) {
    const found = days.find(({ cropKey }) => key === cropKey || key.startsWith(`${cropKey}_`));
    if (found) return found;
  }
  return null;
}

/** The most active days inside the window; none where it leaves nothing of them. */
function activeWithin(
  { mostActive }: PublishedDays,
  shiftDays: number,
  begins: number,
  ends: number,
): { readonly from: number; readonly to: number } | null {
  if (mostActive === null) return null;
  const from = Math.max(begins, mostActive.from + shiftDays);
  const to = Math.min(ends, lastDayMoved(mostActive.to, shiftDays));
  return from < to ? { from, to } : null;
}
