import { type WeekKey, weeksBetween } from '../../../shared/week.ts';
import { type Gap, gapsAt } from '../../shelf/likely-gaps.ts';
import type { ShelfProjection } from '../../shelf/shelf-projection.ts';

/**
 * The stretches of the coming year in which an item likely has none (`gapsAt`): under a plan until the plan brings more; without
 * one until it can be had again, and none where that is the week after or before.
 */
export function itemGaps(
  projection: ShelfProjection | null,
  isPlanned: boolean,
  nextSupplyWeek: WeekKey | null,
): readonly Gap[] {
  const weeks = projection?.weeks ?? [];
  const [first] = weeks;
  const gaps = gapsAt(weeks, 'p50');
  if (isPlanned || nextSupplyWeek === null || first === undefined) return gaps;
  const comes = Math.max(0, weeksBetween(first.week, nextSupplyWeek));
  return gaps
    .map(({ from, until }) => ({ from, until: Math.min(until, comes) }))
    .filter(({ from, until }) => until - from > 1);
}
