import { cell, entry, found } from '../../../lookup.ts';
import type { Draft } from '../../draft.ts';
import type { Entry } from '../../model.ts';
import { termIn, terms } from '../../terms.ts';
import { yearSupply } from '../../year-supply.ts';

/**
 * A group is more than its cheapest member: at least so many kinds, and none more than its share.
 *
 * `kind[g,i] <= year's supply[i]` and `sum of kinds + kinds_missing[g] >= leastKinds`, kinds;
 * `group units × supply[i] <= largestShare × sum(group units × supply) + share_over[g,i]`, group units.
 */
export function groupVariety(draft: Draft): void {
  const { sets, columns, writer } = draft;
  sets.year.groups.forEach((group, at) => {
    const supplies = group.members.map(({ itemId, groupUnitsPerUnit }) => {
      const { opening, entries } = yearSupply(draft, found(sets.itemIndex, itemId, 'itemIndex'));
      return {
        itemId,
        opening: groupUnitsPerUnit * opening,
        entries: entries.map(([column, units]): Entry => [column, groupUnitsPerUnit * units]),
      };
    });
    const missing = entry(columns.kindsMissing, at, 'kindsMissing');
    if (missing !== null) {
      supplies.forEach(({ opening, entries, itemId }, member) => {
        const supplied = entries.map(([column, units]): Entry => [column, -units]);
        writer.row(
          `group_variety[${group.id},${itemId}]`,
          Number.NEGATIVE_INFINITY,
          [...termIn(columns.kinds, at, member, 1), ...supplied],
          opening,
        );
      });
      const kinds = terms(entry(columns.kinds, at, 'kinds'), 1);
      writer.row(
        `group_variety[${group.id}]`,
        group.leastKinds,
        [[missing, 1], ...kinds],
        Number.POSITIVE_INFINITY,
      );
    }
    const total = supplies.reduce((sum, { opening }) => sum + opening, 0);
    supplies.forEach(({ opening, entries, itemId }, member) => {
      const over = cell(columns.shareOver, at, member, 'shareOver');
      if (over === null) return;
      const others = supplies.flatMap((supply) =>
        supply.entries.map(([column, units]): Entry => [column, -group.largestShare * units]),
      );
      writer.row(
        `group_share[${group.id},${itemId}]`,
        Number.NEGATIVE_INFINITY,
        [...entries, ...others, [over, -1]],
        group.largestShare * total - opening,
      );
    });
  });
}
