import type { DaysToHarvestRow, Hardiness } from '../../shared/schemas/reference/days-to-harvest.ts';
import type { HarvestWindowRow } from '../../shared/schemas/reference/harvest-window.ts';
import { type Climate, daysApart, type RegionClimate, regionClimate } from './climate.ts';
import { monthDayOf } from './day-of-season.ts';
import { finerDates } from './finer-dates.ts';
import type { Ground, SeasonTables } from './ground.ts';
import { nearestRow } from './near-regions.ts';
import { bounded, lastDayMoved, leastActiveDays, type PublishedDays } from './published-days.ts';
import type { HarvestWindow } from './season.ts';

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
  /** The row of a near region that says more finely when in the month the season begins, or when most is picked; null where none was asked. */
  readonly finer: HarvestWindowRow | null;
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
 * harvest of an early variety, unless a market's source names the day; of our own most is picked from the day on which a variety
 * in the middle of those printed is ripe. Where the row leaves open when in its month it begins, or when most is picked, a near
 * region that prints it says it (`finerDates`). The shift and what it leaves aside are our own judgement, no source; the
 * published dates, freezes and days keep theirs.
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
  const { dates: published, finer } = finerDates(row, crop, tables);
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
    return { kind: 'window', local: asPrinted(row, published, isBorrowed, finer) };
  if (begins >= ends) return { kind: 'too-short', row };
  const inQuantity = kind === 'market' ? null : (planted?.inQuantity ?? null);
  const active = activeWithin(published, shiftDays, { begins, ends, inQuantity });
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
      finer,
    },
  };
}

/** What is brought to a market is sold in its season, ripe there or not: where moving leaves nothing of it, as printed. */
const asPrinted = (
  row: HarvestWindowRow,
  published: PublishedDays,
  isBorrowed: boolean,
  finer: HarvestWindowRow | null,
): LocalWindow => ({
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
  finer,
});

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
  const days = bounded(daysApart(begins, here, there.early));
  return isBorrowed && row.precision === 'day' ? days : Math.max(0, days);
}

interface RipeVegetable {
  /** The first day on which an early variety is ripe. */
  readonly day: number;
  /** The day on which a variety in the middle of those printed is ripe: from then on there is enough to fill jars. Our own judgement. */
  readonly inQuantity: number;
  readonly lastFreeze: number;
  readonly row: DaysToHarvestRow;
}

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
): RipeVegetable | null {
  const days = daysOf(crop, row, setting.tables.daysToHarvest);
  if (days === null) return null;
  const isMarket = kind === 'market';
  if (isMarket && row.precision === 'day') return null;
  const lastFreeze = isMarket
    ? (setting.home ?? setting.there).earliestLastFreeze
    : (setting.here?.lastFreeze ?? null);
  if (lastFreeze === null) return null;
  const plantedOn = lastFreeze + plantedAfter[days.hardiness];
  return {
    day: plantedOn + days.daysLow,
    inQuantity: plantedOn + Math.round((days.daysLow + days.daysHigh) / 2),
    lastFreeze,
    row: days,
  };
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

/** The days on which most is picked, inside the window; none where it leaves too little of them. */
function activeWithin(
  { mostActive }: PublishedDays,
  shiftDays: number,
  {
    begins,
    ends,
    inQuantity,
  }: { readonly begins: number; readonly ends: number; readonly inQuantity: number | null },
): { readonly from: number; readonly to: number } | null {
  if (mostActive === null && inQuantity === null) return null;
  const to = mostActive === null ? ends : Math.min(ends, lastDayMoved(mostActive.to, shiftDays));
  const moved = mostActive === null ? begins : Math.max(begins, mostActive.from + shiftDays);
  // Its first day moves with spring, its last stays with autumn: what is left is no less than what a season can be planned on.
  const least =
    mostActive === null ? leastActiveDays : Math.min(leastActiveDays, mostActive.to - mostActive.from);
  const latest = Math.max(begins, to - least);
  const from = Math.min(Math.max(moved, inQuantity ?? moved), latest);
  return from < to ? { from, to } : null;
}
