import { entry, found } from '../../../lookup.ts';
import type { Draft } from '../../draft.ts';
import type { Entry } from '../../model.ts';
import { yearSupply } from '../../year-supply.ts';

/**
 * Items that stand in for each other are enough together, whichever of them there are.
 *
 * `sum(group units × year's supply[i]) + group_shortage[g] >= totalUnits`, group units.
 */
export function groupTotal(draft: Draft): void {
  const { sets, columns, writer } = draft;
  sets.year.groups.forEach((group, at) => {
    const entries: Entry[] = [[entry(columns.groupShortage, at, 'groupShortage'), 1]];
    let opening = 0;
    for (const { itemId, groupUnitsPerUnit } of group.members) {
      const supply = yearSupply(draft, found(sets.itemIndex, itemId, 'itemIndex'));
      opening += groupUnitsPerUnit * supply.opening;
      for (const [column, units] of supply.entries) entries.push([column, groupUnitsPerUnit * units]);
    }
    writer.row(`group_total[${group.id}]`, group.totalUnits - opening, entries, Number.POSITIVE_INFINITY);
  });
}
