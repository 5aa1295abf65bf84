import type { ItemId, SourceId } from '../../shared/ids.ts';
import { addDays, asDate, type CalendarDate, daysBetween, laterOf, yearOf } from '../../shared/week.ts';
import { yieldPerPlant } from '../consumption/plants-for-produce.ts';
import type { GardenYield } from '../household/garden-yield.ts';
import type { HarvestWindow, Source } from '../household/source.ts';
import { type AccountEvent, accountOf, type ItemAccount, standingEvents } from '../shelf/account.ts';

/** Units of one item on the shelf at the end of a day. */
export interface Level {
  readonly on: CalendarDate;
  readonly units: number;
}

/** Whether an item was there all year: a running year can only have lasted so far. */
export type Lasting = 'lasted' | 'lasts so far' | 'ran out' | 'not known';

/** A calendar year of one item; the running year up to today. */
export interface FoodYear {
  readonly year: number;
  readonly account: ItemAccount;
  readonly lasting: Lasting;
  /** On the first and sixteenth of each month from the first day anything is known, and on the last day of the year or today. */
  readonly levels: readonly Level[];
}

/** One item through the years, the earliest first. */
export interface FoodYears {
  readonly itemId: ItemId;
  readonly years: readonly FoodYear[];
  /** Whole years of which enough is known to say, and those of them in which it lasted. */
  readonly judged: number;
  readonly lasted: number;
}

/** Of a year at least this share of days must be known before it may be said to have lasted. */
const leastKnown = 0.9;

/**
 * Every item that moved, through all calendar years since its first movement, units of the item's own jar. A year lasted when
 * on none of its known days the shelf had none and at least nine in ten of its days are known; it ran out when on one there
 * was none. Only years that are over are judged.
 *
 * @param knownFrom First day of which the book knows what was eaten of an item, null where it knows none yet.
 */
export function foodYears(
  events: readonly AccountEvent[],
  asOf: CalendarDate,
  knownFrom: (itemId: string) => CalendarDate | null,
): readonly FoodYears[] {
  const counting = standingEvents(events).filter(({ occurredOn }) => occurredOn <= asOf);
  const first = counting.map(({ occurredOn }) => occurredOn).toSorted()[0];
  if (first === undefined) return [];
  const byItem = new Map<string, FoodYear[]>();
  for (let year = yearOf(first); year <= yearOf(asOf); year += 1) {
    const period = { from: newYear(year), until: addDays(lastDayOf(year, asOf), 1) };
    for (const account of accountOf(counting, period, knownFrom)) {
      const moves = counting.filter(({ itemId }) => itemId === account.itemId);
      byItem.set(account.itemId, [
        ...(byItem.get(account.itemId) ?? []),
        {
          year,
          account,
          lasting: lastingOf(account, year, asOf),
          levels: levelsOf(moves, year, asOf),
        },
      ]);
    }
  }
  return [...byItem].map(([itemId, years]) => {
    const judged = years.filter(({ year, lasting }) => year < yearOf(asOf) && lasting !== 'not known');
    return {
      itemId: itemId as ItemId,
      years,
      judged: judged.length,
      lasted: judged.filter(({ lasting }) => lasting === 'lasted').length,
    };
  });
}

/** Units of each item that were put up in a year. */
export const putUpIn =
  (foods: readonly FoodYears[], year: number) =>
  (item: ItemId): number =>
    foods.find(({ itemId }) => itemId === item)?.years.find((one) => one.year === year)?.account.putUp ?? 0;

const newYear = (year: number): CalendarDate => asDate(`${year}-01-01`);

const lastDayOf = (year: number, asOf: CalendarDate): CalendarDate =>
  year === yearOf(asOf) ? asOf : asDate(`${year}-12-31`);

function lastingOf({ daysWithout, days }: ItemAccount, year: number, asOf: CalendarDate): Lasting {
  if (daysWithout > 0) return 'ran out';
  const daysPassed = daysBetween(newYear(year), addDays(lastDayOf(year, asOf), 1));
  if (days < leastKnown * daysPassed) return 'not known';
  return year === yearOf(asOf) ? 'lasts so far' : 'lasted';
}

function levelsOf(events: readonly AccountEvent[], year: number, asOf: CalendarDate): readonly Level[] {
  const inOrder = events.toSorted((one, other) => (one.occurredOn < other.occurredOn ? -1 : 1));
  const [first] = inOrder;
  if (first === undefined) return [];
  const last = lastDayOf(year, asOf);
  const halfMonths = Array.from({ length: 24 }, (_, at) =>
    asDate(`${year}-${String(Math.floor(at / 2) + 1).padStart(2, '0')}-${at % 2 === 0 ? '01' : '16'}`),
  );
  const begin = laterOf(first.occurredOn, newYear(year));
  const days = new Set([begin, ...halfMonths.filter((day) => day > begin && day < last), last]);
  return [...days]
    .filter((day) => day <= last)
    .map((on) => ({
      on,
      units: inOrder.reduce((sum, { occurredOn, units }) => (occurredOn <= on ? sum + units : sum), 0),
    }));
}

/** When a season of a source began: its first picking beside the day its dates would have it begin. */
export interface SeasonBegun {
  readonly year: number;
  readonly firstPickedOn: CalendarDate;
  /** Days after the day that was written down or guessed for that year; negative before it. */
  readonly lateDays: number;
}

/** A source's seasons through the years, the earliest first. */
export interface SourceSeasons {
  readonly source: Source;
  readonly seasons: readonly SeasonBegun[];
  /** The mean of the late days; null where no first picking is known. */
  readonly usuallyLateDays: number | null;
}

/** How early or late the seasons of every source began that has a first picking. */
export const sourceSeasons = (sources: readonly Source[]): readonly SourceSeasons[] =>
  sources.flatMap((source) => {
    const seasons = source.windows.flatMap(seasonBegun).toSorted((one, other) => one.year - other.year);
    return seasons.length === 0
      ? []
      : [
          {
            source,
            seasons,
            usuallyLateDays: seasons.reduce((sum, { lateDays }) => sum + lateDays, 0) / seasons.length,
          },
        ];
  });

const seasonBegun = ({ year, beginsOn, firstPickedOn }: HarvestWindow): SeasonBegun[] =>
  firstPickedOn === null ? [] : [{ year, firstPickedOn, lateDays: daysBetween(beginsOn, firstPickedOn) }];

/** What a garden source gave through the years, the earliest first. */
export interface GardenYears {
  readonly source: Source;
  readonly years: readonly (GardenYield & {
    /** Pounds a plant; null where nobody said how many plants there were. */
    readonly lbPerPlant: number | null;
  })[];
  /** What a plant is to be counted on for; null where neither the source nor a year says. */
  readonly lbPerPlant: number | null;
}

/**
 * Every garden source with what it gave and what a plant of it gives: as the source says, moved towards what its own years
 * gave (`yieldPerPlant`); where the source says nothing, the mean of its years.
 */
export const gardenYears = (
  sources: readonly Source[],
  yields: readonly GardenYield[],
): readonly GardenYears[] =>
  sources
    .filter(({ kind }) => kind === 'garden')
    .map((source) => {
      const years = yields
        .filter(({ sourceId }) => sourceId === source.id)
        .toSorted((one, other) => one.year - other.year)
        .map((one) => ({ ...one, lbPerPlant: perPlant(one) }));
      const seen = years.flatMap(({ lbPerPlant }) => (lbPerPlant === null ? [] : [lbPerPlant]));
      return { source, years, lbPerPlant: countedOn(source.lbPerPlant, seen) };
    });

/** What a plant of each garden source is to be counted on for, pounds; sources of which nothing is known are left out. */
export const lbPerPlantBySource = (
  sources: readonly Source[],
  yields: readonly GardenYield[],
): ReadonlyMap<SourceId, number> =>
  new Map(
    gardenYears(sources, yields).flatMap(({ source, lbPerPlant }) =>
      lbPerPlant === null || lbPerPlant <= 0 ? [] : [[source.id, lbPerPlant] as const],
    ),
  );

const perPlant = ({ lb, plants }: GardenYield): number | null =>
  plants === null || plants === 0 ? null : lb / plants;

function countedOn(declaredLb: number | null, seen: readonly number[]): number | null {
  if (declaredLb !== null) return yieldPerPlant(declaredLb, seen);
  return seen.length === 0 ? null : seen.reduce((sum, lb) => sum + lb, 0) / seen.length;
}
