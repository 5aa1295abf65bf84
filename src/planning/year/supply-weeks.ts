import { groupedBy } from '../../../shared/grouped-by.ts';
import { type CalendarDate, dayInWeek, laterOf, type WeekKey, type WeekStart } from '../../../shared/week.ts';
import type { Material } from '../../household/supplies.ts';
import { entry, orNone } from '../lookup.ts';
import type { PlannedMaterial } from '../planning-year.ts';

/** A crop by the sources that give it. */
export type CropAhead = readonly SourceAhead[];

/** Whole weeks something keeps after the week it came in. */
export const carryWeeksOf = (useByDays: number): number => Math.floor(useByDays / 7);

/** What a source gives week by week, and how long it waits. */
export interface SourceAhead {
  readonly lbByWeek: readonly number[];
  readonly useByDays: number;
  /** As in `PlannedSource`. */
  readonly lastUseWeekByWeek?: readonly number[];
}

/** The last week in which what a source gives in a week may be used; before that week where it cannot wait for its canning day. */
export const lastUseWeek = (
  { lastUseWeekByWeek, useByDays }: Pick<SourceAhead, 'lastUseWeekByWeek' | 'useByDays'>,
  week: number,
): number => lastUseWeekByWeek?.[week] ?? week + carryWeeksOf(useByDays);

/** What the sources give of each crop week by week, each waiting as long as it keeps, as in the model. */
export const cropsAhead = (
  sources: readonly (SourceAhead & { readonly crop: string })[],
): ReadonlyMap<string, CropAhead> => groupedBy(sources, ({ crop }) => crop);

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

type Moves = readonly { readonly materialId: string }[];

/**
 * Ways of which one takes what another batch leaves have the season of both: each with the produce of every recipe that leaves
 * it. Where nothing leaves it and none waits there is no way.
 *
 * @param there By-products of which something waits already.
 */
export const withGivers = (
  ways: readonly (MakingSeason & { readonly uses: Moves })[],
  recipes: readonly (Pick<MakingSeason, 'produce'> & { readonly gives: Moves; readonly uses: Moves })[],
  there: ReadonlySet<string>,
): readonly MakingSeason[] =>
  ways.flatMap((way) =>
    way.uses
      .filter(({ materialId }) => !there.has(materialId))
      .reduce<readonly MakingSeason[]>(
        (sofar, { materialId }) =>
          recipes
            .filter(
              ({ gives, uses }) => uses.length === 0 && gives.some((part) => part.materialId === materialId),
            )
            .flatMap(({ produce }) =>
              sofar.map((one) => ({ ...one, produce: [...one.produce, ...produce] })),
            ),
        [way],
      ),
  );

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
  (crop ?? []).reduce(
    (pounds, source) =>
      source.lbByWeek
        .slice(0, week + 1)
        .reduce((sum, lb, came) => (lastUseWeek(source, came) >= week ? sum + lb : sum), pounds),
    0,
  );

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

/**
 * A by-product as it is planned: of what waits only what may still be used on a canning day to come, each part until the last
 * usual canning day before its day; what is past it is in no plan.
 */
export function plannedMaterial(
  { waiting: _waiting, waitingBy, ...material }: Material,
  weeks: readonly WeekKey[],
  asOf: CalendarDate,
  { weekday, startsOn }: { readonly weekday: number; readonly startsOn: WeekStart },
): PlannedMaterial {
  const openingLasts = waitingBy.flatMap(({ quantity, useBy }) => {
    if (useBy === null) return [{ quantity, weeks: carryWeeksOf(material.keepsDaysCold) }];
    const last = weeks.findLastIndex(
      (week, at) =>
        (at === 0 ? laterOf(asOf, dayInWeek(week, weekday, startsOn)) : dayInWeek(week, weekday, startsOn)) <=
        useBy,
    );
    return last < 0 ? [] : [{ quantity, weeks: last }];
  });
  return {
    ...material,
    opening: openingLasts.reduce((sum, { quantity }) => sum + quantity, 0),
    ...(openingLasts.length === 0 ? {} : { openingLasts }),
  };
}
