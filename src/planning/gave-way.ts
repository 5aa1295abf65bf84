import type { PlanningParameters } from './parameters.ts';
import type { GaveWay } from './plan.ts';
import type { PlanPath } from './plan-path.ts';
import type { PlanningSets } from './sets.ts';

/** Amounts below this are rounding, units. */
const worthSaying = 0.05;

/** Wishes about one item that a plan does not meet, worked out from its path: use, what the year hands over, reserve. */
export function itemWishes(
  sets: PlanningSets,
  parameters: PlanningParameters,
  paths: readonly PlanPath[],
): GaveWay[] {
  const last = sets.weekCount - 1;
  return sets.items.flatMap((item, at): GaveWay[] => {
    const path = paths[at];
    if (path === undefined) return [];
    const missed = path.missedByWeek.reduce((sum, units) => sum + units, 0);
    const atEnd = path.stockByWeek[last] ?? 0;
    const missingAtEnd = Math.max(0, item.yearEndUnits - atEnd);
    const missingReserve = Math.max(
      0,
      ...(parameters.reserveWeeks[at] ?? []).map((week) =>
        week === last
          ? item.reserveUnits + item.yearEndUnits - atEnd - missingAtEnd
          : item.reserveUnits - (path.stockByWeek[week] ?? 0),
      ),
    );
    const said = (rung: GaveWay['rung'], amount: number): GaveWay[] =>
      amount < worthSaying
        ? []
        : [{ rung, what: item.id, amount: Math.round(amount * 100) / 100, unit: 'units' }];
    return [
      ...said('use', missed + missingAtEnd),
      ...(item.reserveUnits > 0 ? said('reserve', missingReserve) : []),
    ];
  });
}
