import { entry } from '../lookup.ts';
import type { PlanningParameters } from './parameters.ts';
import type { PlanningSets } from './sets.ts';

/**
 * Weeks from now in which what is bought is on the table before anything is set aside for later: they are sure, and what is planned for
 * later is planned again every Monday. Judgement, no source.
 */
export const comingWeekCount = 4;

/** What a unit missing from the reserve of the coming weeks counts for, beside one of use: it may not be wanted. Judgement, no source. */
export const comingReserveShare = 1 / 3;

/** Whether a week's use of an item belongs to the coming weeks: what is bought alone, since nothing else can be had in time. */
export const isOfComingWeeks = (
  { items }: Pick<PlanningSets, 'items'>,
  item: number,
  week: number,
): boolean => week < comingWeekCount && entry(items, item, 'items').packs.length > 0;

/** Coming weeks at whose end the reserve of an item that is bought is looked at. */
export const comingReserveWeeks = (
  sets: Pick<PlanningSets, 'items' | 'weekCount'>,
  { reserveWeeks }: Pick<PlanningParameters, 'reserveWeeks'>,
  item: number,
): readonly number[] =>
  entry(reserveWeeks, item, 'reserveWeeks').filter(
    (week) => week < sets.weekCount - 1 && isOfComingWeeks(sets, item, week),
  );
