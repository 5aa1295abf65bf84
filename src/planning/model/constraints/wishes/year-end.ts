import { entry } from '../../../lookup.ts';
import type { Draft } from '../../draft.ts';
import { termIn } from '../../terms.ts';

/**
 * The last week hands over what is needed until the next supply.
 *
 * `stock[i,last] + year_end_shortage[i] >= yearEndUnits`, units.
 */
export function yearEnd({ sets, columns, writer }: Draft): void {
  sets.items.forEach((item, at) => {
    const shortage = entry(columns.yearEndShortage, at, 'yearEndShortage');
    if (shortage === null) return;
    writer.row(
      `year_end[${item.id}]`,
      item.yearEndUnits,
      [...termIn(columns.stock, at, sets.weekCount - 1, 1), [shortage, 1]],
      Number.POSITIVE_INFINITY,
    );
  });
}
