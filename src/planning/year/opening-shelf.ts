import { compare } from '../../../shared/compare.ts';
import type { JarKind } from '../../../shared/jar.ts';
import type { WeekKey } from '../../../shared/week.ts';
import { entry, orNone } from '../lookup.ts';
import type { PlannedItem } from '../planning-year.ts';

/** What the lots on the shelf give over the year, taken first-expired first and never before they are ready. */
export interface OpeningShelf {
  /** Units that become ready in each week; what is ready already counts in week 0. */
  readonly readyByWeek: readonly number[];
  /** Units ready by the end of each week that are then still within best quality, whatever has been taken. */
  readonly freshByWeek: readonly number[];
  /** Units past best quality at the end of each week if use is taken as expected, first-expired first. */
  readonly olderByWeek: readonly number[];
  /** Use before `firstSupplyWeek` that no unit is there for. */
  readonly missedByWeek: readonly number[];
  /** Units taken from the opening lots in each week if use is taken as expected. */
  readonly takenByWeek: readonly number[];
  /** Jars emptied in each week by that use, by kind. */
  readonly emptiedByWeek: readonly ReadonlyMap<JarKind, number>[];
}

interface StandingLot {
  readonly readyWeek: number;
  /** At the end of this week and later the lot counts as older. */
  readonly olderFromWeek: number;
  readonly jarsPerUnit: number;
  readonly jarKind: JarKind | null;
  left: number;
}

/**
 * Plays expected use against the opening lots alone. Weeks from `firstSupplyWeek` on may be served by new units too:
 * there the opening lots still go first, and what they do not cover is not counted as missed.
 */
export function openingShelf(
  item: PlannedItem,
  weeks: readonly WeekKey[],
  firstSupplyWeek: number,
): OpeningShelf {
  const position = (key: WeekKey) => positionOf(weeks, key);
  const lots: StandingLot[] = item.openingLots
    .toSorted(
      (one, other) =>
        compare(one.bestQualityUntil, other.bestQualityUntil) || compare(one.lotId, other.lotId),
    )
    .map((lot) => ({
      readyWeek: Math.max(0, position(lot.readyFrom)),
      olderFromWeek: position(lot.bestQualityUntil),
      jarsPerUnit: lot.units > 0 ? lot.jars / lot.units : 0,
      jarKind: lot.jarKind,
      left: lot.units,
    }));
  const sumOf = (of: readonly StandingLot[]) => of.reduce((sum, lot) => sum + lot.left, 0);
  const readyByWeek = weeks.map((_, week) => sumOf(lots.filter((lot) => lot.readyWeek === week)));
  const freshByWeek = weeks.map((_, week) =>
    sumOf(lots.filter((lot) => lot.readyWeek <= week && lot.olderFromWeek > week)),
  );
  const played = weeks.map((_, week) => {
    const wanted = entry(item.useByWeek, week, 'useByWeek');
    let open = wanted;
    const emptied = new Map<JarKind, number>();
    for (const lot of lots.filter(({ readyWeek }) => readyWeek <= week)) {
      const taken = Math.min(open, lot.left);
      lot.left -= taken;
      open -= taken;
      if (lot.jarKind !== null)
        emptied.set(lot.jarKind, orNone(emptied.get(lot.jarKind)) + taken * lot.jarsPerUnit);
    }
    return {
      taken: wanted - open,
      missed: week < firstSupplyWeek ? open : 0,
      emptied,
      older: sumOf(lots.filter((lot) => lot.readyWeek <= week && lot.olderFromWeek <= week)),
    };
  });
  return {
    readyByWeek,
    freshByWeek,
    olderByWeek: played.map(({ older }) => older),
    missedByWeek: played.map(({ missed }) => missed),
    takenByWeek: played.map(({ taken }) => taken),
    emptiedByWeek: played.map(({ emptied }) => emptied),
  };
}

/** Position of a week in the year; below 0 before it, beyond its length after it. */
function positionOf(weeks: readonly WeekKey[], key: WeekKey): number {
  const at = weeks.indexOf(key);
  if (at >= 0) return at;
  return weeks[0] !== undefined && key < weeks[0] ? -1 : weeks.length;
}
