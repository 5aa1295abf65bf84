import { entry, orNone } from '../lookup.ts';
/** A crop as all its sources together give it. */
export interface CropAhead {
  /** Pounds by week. */
  readonly lbByWeek: readonly number[];
  /** Whole weeks it keeps after the week it was picked or bought in. */
  readonly carryWeeks: number;
}

/** Whole weeks something keeps after the week it came in. */
export const carryWeeksOf = (useByDays: number): number => Math.floor(useByDays / 7);

/** What the sources give of each crop week by week; of sources that keep unlike long the longest counts, as in the model. */
export function cropsAhead(
  sources: readonly {
    readonly crop: string;
    readonly lbByWeek: readonly number[];
    readonly useByDays: number;
  }[],
): ReadonlyMap<string, CropAhead> {
  const ahead = new Map<string, CropAhead>();
  for (const { crop, lbByWeek, useByDays } of sources) {
    const before = ahead.get(crop);
    ahead.set(crop, {
      lbByWeek: lbByWeek.map((lb, week) => lb + orNone(before?.lbByWeek[week])),
      carryWeeks: Math.max(orNone(before?.carryWeeks), carryWeeksOf(useByDays)),
    });
  }
  return ahead;
}

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
 * session that week, and the crops of the week in which it is begun give enough for one batch. Crops that are not among
 * `crops` give nothing.
 */
export function supplyWeeks(
  ways: readonly MakingSeason[],
  crops: ReadonlyMap<string, CropAhead>,
  sessionsByWeek: readonly number[],
): readonly boolean[] {
  const canLoad = (way: MakingSeason, week: number): boolean => {
    const begunIn = week - orNone(way.stages?.weeks);
    return (
      begunIn >= 0 &&
      entry(sessionsByWeek, week, 'sessionsByWeek') > 0 &&
      (way.allowedByWeek?.[week] ?? true) &&
      (way.stages?.possibleByWeek?.[week] ?? true) &&
      way.produce.every(({ crop, lb }) => gatheredLb(crops.get(crop), begunIn) >= lb - 1e-9)
    );
  };
  return sessionsByWeek.map((_, week) =>
    ways.some((way) => week >= way.readyAfterWeeks && canLoad(way, week - way.readyAfterWeeks)),
  );
}

/** Pounds that can lie together in a week: its own harvest and what still keeps of the weeks before, as the model has it. */
export const gatheredLb = (crop: CropAhead | undefined, week: number): number =>
  crop === undefined
    ? 0
    : crop.lbByWeek
        .slice(Math.max(0, week - crop.carryWeeks), week + 1)
        .reduce((pounds, lb) => pounds + lb, 0);

/** Weeks without supply that part two seasons of making. */
const seasonGapWeeks = 8;

/**
 * Indexes of the weeks in which a season begins that is still to come: a week with supply after at least eight weeks without; the
 * first supply of all when the year starts outside a season. Empty when none comes, or when supply never pauses.
 *
 * Example: supply in weeks 0..3 and 48..52 gives 48; supply from week 30 on gives 30.
 */
export const seasonStarts = (canArrive: readonly boolean[]): readonly number[] =>
  canArrive.flatMap((arrives, week) =>
    arrives &&
    week > 0 &&
    canArrive.slice(Math.max(0, week - seasonGapWeeks), week).every((earlier) => !earlier)
      ? [week]
      : [],
  );
