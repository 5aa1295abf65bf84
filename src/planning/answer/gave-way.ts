import { entry, found, orNone } from '../lookup.ts';
import type { PlanningParameters } from '../model/parameters.ts';
import type { PlanningSets } from '../model/sets.ts';
import type { GaveWay } from '../plan.ts';
import type { PlanDecision } from '../solving/decision.ts';
import type { PlanPath } from './plan-path.ts';

/** Amounts below this are rounding, units. */
const worthSaying = 0.05;

/** Wishes about one item that a plan does not meet: minimum, use and what the year hands over, reserve, freshness. */
export function itemWishes(
  sets: PlanningSets,
  parameters: PlanningParameters,
  paths: readonly PlanPath[],
): GaveWay[] {
  const last = sets.weekCount - 1;
  return sets.items.flatMap((item, at): GaveWay[] => {
    const path = entry(paths, at, 'paths');
    const missed = path.missedByWeek.reduce((sum, units) => sum + units, 0);
    const atEnd = entry(path.stockByWeek, last, 'stockByWeek');
    const missingAtEnd = Math.max(0, item.yearEndUnits - atEnd);
    const lacking = orNone(item.emergency?.missing);
    const missingReserve = Math.max(
      0,
      ...entry(parameters.reserveWeeks, at, 'reserveWeeks').map((week) =>
        week === last
          ? item.reserveUnits + item.yearEndUnits - atEnd - missingAtEnd
          : item.reserveUnits + lacking - entry(path.stockByWeek, week, 'stockByWeek'),
      ),
    );
    const belowMinimum =
      orNone(item.familyMinimumUnits) - path.takenByWeek.reduce((sum, units) => sum + units, 0);
    const older = Math.max(
      0,
      ...path.olderByWeek.map(
        (units, week) =>
          units - entry(entry(parameters.opening, at, 'opening').olderByWeek, week, 'olderByWeek'),
      ),
    );
    return [
      ...said('family minimum', item.id, belowMinimum, 'units'),
      ...said('use', item.id, missed + missingAtEnd, 'units'),
      ...said('reserve', item.id, missingReserve, 'units'),
      ...said('freshness', item.id, older, 'units'),
    ];
  });
}

/** Pounds of our own garden's crop that the year could have used and the plan leaves. */
export function gardenWishes(
  sets: PlanningSets,
  { gardenCrops }: PlanningParameters,
  { buying }: PlanDecision,
): GaveWay[] {
  return gardenCrops.flatMap(({ rawMaterial, sources, wantedLb }) => {
    const taken = sources.reduce(
      (sum, source) =>
        sum + entry(buying.produceLb, source, 'produceLb').reduce((lb, inWeek) => lb + inWeek, 0),
      0,
    );
    return said(
      'garden crop',
      entry(sets.rawMaterials, rawMaterial, 'rawMaterials').key,
      wantedLb - taken,
      'lb',
    );
  });
}

/** Groups that are too few together, have too few kinds, or lean too much on one of them. */
export function groupWishes(sets: PlanningSets, paths: readonly PlanPath[]): GaveWay[] {
  return sets.year.groups.flatMap((group): GaveWay[] => {
    const supplies = group.members.map(({ itemId, groupUnitsPerUnit }) => {
      const at = found(sets.itemIndex, itemId, 'itemIndex');
      const opening = entry(sets.items, at, 'items').openingLots.reduce((sum, { units }) => sum + units, 0);
      const { madeByWeek, boughtByWeek } = entry(paths, at, 'paths');
      const added = [...madeByWeek, ...boughtByWeek];
      return groupUnitsPerUnit * added.reduce((sum, units) => sum + units, opening);
    });
    const total = supplies.reduce((sum, supply) => sum + supply, 0);
    const kinds = supplies.filter((supply) => supply >= 1 - worthSaying).length;
    const over = Math.max(0, ...supplies.map((supply) => supply - group.largestShare * total));
    return [
      ...said('group', group.id, group.totalUnits - total, 'units'),
      ...said('variety', group.id, group.leastKinds - kinds, 'kinds'),
      ...said('variety', group.id, over, 'units'),
    ];
  });
}

function said(rung: GaveWay['rung'], what: string, amount: number, unit: string): GaveWay[] {
  return amount < worthSaying ? [] : [{ rung, what, amount: Math.round(amount * 100) / 100, unit }];
}
