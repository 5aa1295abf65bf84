import type { HarvestWindowRow } from '../../shared/schemas/reference/harvest-window.ts';
import { daysApart, middleOfRegion, regionClimate } from './climate.ts';
import { dayNumber, daysInYear } from './day-of-season.ts';
import type { SeasonTables } from './ground.ts';
import { likeRegions } from './near-regions.ts';
import {
  bounded,
  isSaidFiner,
  lastDayMoved,
  leastActiveDays,
  type PublishedDays,
  publishedDays,
} from './published-days.ts';

/** Further away than this no region says more about another one. Our own judgement. */
const farthestNeighbor = 700;

/**
 * The dates of a row, and where it leaves them open what the nearest region prints that says them, moved to the row's own region
 * by its climate: the day of the month on which the season begins, where only the month is known (within that month, never
 * before its middle), and the days on which most is picked. Example: Michigan prints May to July for strawberries; New York,
 * from May 20 and mostly from June 5 on, has them begin in Michigan at the end of May and mostly in June.
 */
export function finerDates(
  row: HarvestWindowRow,
  crop: string,
  tables: SeasonTables,
): { readonly dates: PublishedDays; readonly finer: HarvestWindowRow | null } {
  const dates = publishedDays(row);
  const home = regionClimate(row.region, tables.freezeNormals)?.early;
  const from = middleOfRegion(row.region, tables.freezeNormals);
  if (home === undefined || from === null) return { dates, finer: null };
  const near = likeRegions(crop, { from, spring: home.lastFreeze }, tables).filter(
    (other) => other.row.region !== row.region && other.miles <= farthestNeighbor,
  );
  const moved = (other: HarvestWindowRow) => {
    const there = regionClimate(other.region, tables.freezeNormals)?.early ?? home;
    const own = publishedDays(other);
    return { own, days: bounded(daysApart(own.beginsOn, home, there)) };
  };
  const opens = isSaidFiner(row, row.beginsOn)
    ? undefined
    : near.find((other) => isSaidFiner(other.row, other.row.beginsOn));
  const mostly =
    row.mostActiveFrom === null
      ? near.find((other) => publishedDays(other.row).mostActive !== null)
      : undefined;
  const beginsOn = opens === undefined ? dates.beginsOn : withinMonth(row, dates.beginsOn, moved(opens.row));
  const mostActive =
    mostly === undefined ? dates.mostActive : activeMoved(moved(mostly.row), beginsOn, dates.endsOn);
  return {
    dates: { ...dates, beginsOn, mostActive },
    finer: (mostActive === dates.mostActive ? opens : mostly)?.row ?? null,
  };
}

interface MovedDates {
  readonly own: PublishedDays;
  readonly days: number;
}

/** Never out of the month that is printed, and never before its middle. */
const withinMonth = (row: HarvestWindowRow, middle: number, { own, days }: MovedDates): number =>
  Math.max(middle, Math.min(own.beginsOn + days, lastOfMonth(row.beginsOn)));

const lastOfMonth = (monthDay: string): number =>
  monthDay.startsWith('12')
    ? daysInYear
    : dayNumber(`${String(Number(monthDay.slice(0, 2)) + 1).padStart(2, '0')}-01`) - 1;

/** As far as they lie in a season; none where they leave too little to plan on. */
function activeMoved(
  { own: { mostActive }, days }: MovedDates,
  begins: number,
  ends: number,
): PublishedDays['mostActive'] {
  if (mostActive === null) return null;
  const from = Math.max(begins, mostActive.from + days);
  const to = Math.min(ends, lastDayMoved(mostActive.to, days));
  return to - from < leastActiveDays ? null : { from, to };
}
