import type { Draft } from '../../draft.ts';

/**
 * The last week hands over what is needed until the next supply.
 *
 * `stock[i,last] + year_end_shortage[i] >= yearEndUnits`, units.
 */
export function yearEnd({ sets, columns, writer }: Draft): void {
  const lastWeek = sets.weekCount - 1;
  sets.items.forEach((item, at) => {
    const shortage = columns.yearEndShortage[at];
    const stock = columns.stock[at]?.[lastWeek];
    if (shortage == null || stock == null) return;
    writer.row(
      `year_end[${item.id}]`,
      item.yearEndUnits,
      [
        [stock, 1],
        [shortage, 1],
      ],
      Number.POSITIVE_INFINITY,
    );
  });
}
