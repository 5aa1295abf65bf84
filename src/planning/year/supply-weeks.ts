import { entry, orNone } from '../lookup.ts';
/** A way to make an item, as far as its season goes. */
export interface MakingSeason {
  /** Pounds needed of each crop for one batch. */
  readonly produce: readonly { readonly crop: string; readonly lb: number }[];
  readonly readyAfterWeeks: number;
  /** Where a batch is begun weeks before its canner load: how many, and in which weeks of the load that is possible. */
  readonly stages?: { readonly weeks: number; readonly possibleByWeek: readonly boolean[] | null };
  /** Weeks in which it may be made, apart from its produce; null means any. */
  readonly allowedByWeek: readonly boolean[] | null;
}

/**
 * Weeks in which something new of an item can be ready: a batch may be loaded `readyAfterWeeks` earlier, there is a
 * session that week, and the crops of the week in which it is begun give enough for one batch. `lbByWeek` holds pounds by crop and week; crops the
 * household has no source for give nothing.
 */
export function supplyWeeks(
  ways: readonly MakingSeason[],
  lbByWeek: ReadonlyMap<string, readonly number[]>,
  sessionsByWeek: readonly number[],
): readonly boolean[] {
  const canLoad = (way: MakingSeason, week: number): boolean => {
    const begunIn = week - orNone(way.stages?.weeks);
    return (
      begunIn >= 0 &&
      entry(sessionsByWeek, week, 'sessionsByWeek') > 0 &&
      (way.allowedByWeek?.[week] ?? true) &&
      (way.stages?.possibleByWeek?.[week] ?? true) &&
      way.produce.every(({ crop, lb }) => gatheredLb(lbByWeek.get(crop), begunIn) >= lb - 1e-9)
    );
  };
  return sessionsByWeek.map((_, week) =>
    ways.some((way) => week >= way.readyAfterWeeks && canLoad(way, week - way.readyAfterWeeks)),
  );
}

/** A small harvest is gathered for up to two weeks before there is enough for a batch. */
const gatheringWeeks = 2;

/** Pounds that can lie together in a week: its own harvest and that of the week before. */
export const gatheredLb = (lbByWeek: readonly number[] | undefined, week: number): number =>
  (lbByWeek ?? [])
    .slice(Math.max(0, week + 1 - gatheringWeeks), week + 1)
    .reduce((pounds, lb) => pounds + lb, 0);

/** Weeks without supply that part two seasons of making. */
const seasonGapWeeks = 8;

/**
 * Index of the week in which the next season begins: the first week with supply after at least eight weeks without; the
 * first supply of all when the year starts outside a season. Null when none comes, or when supply never pauses.
 *
 * Example: supply in weeks 0..3 and 48..52 gives 48; supply from week 30 on gives 30.
 */
export function nextSeasonStart(canArrive: readonly boolean[]): number | null {
  const start = canArrive.findIndex(
    (arrives, week) =>
      arrives &&
      week > 0 &&
      canArrive.slice(Math.max(0, week - seasonGapWeeks), week).every((earlier) => !earlier),
  );
  return start < 0 ? null : start;
}
