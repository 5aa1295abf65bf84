import { reserveHeld } from '../../../planning-year.ts';
import type { Draft } from '../../draft.ts';
import type { Entry } from '../../model.ts';

/**
 * What should still stand when the next supply comes is not planned away.
 *
 * `stock[i,w] + reserve_shortage[i] >= reserveHeld` in each week before a season begins; in the last week the reserve
 * stands on top of what that week hands over, `… + year_end_shortage[i] >= reserveHeld + yearEndUnits`, units.
 */
export function reserve({ sets, parameters, columns, writer }: Draft): void {
  const lastWeek = sets.weekCount - 1;
  sets.items.forEach((item, at) => {
    const shortage = columns.reserveShortage[at];
    if (shortage == null) return;
    const yearEndShortage = columns.yearEndShortage[at];
    for (const week of parameters.reserveWeeks[at] ?? []) {
      const stock = columns.stock[at]?.[week];
      if (stock == null) continue;
      const entries: Entry[] = [
        [stock, 1],
        [shortage, 1],
      ];
      if (week === lastWeek && yearEndShortage != null) entries.push([yearEndShortage, 1]);
      const wanted = reserveHeld(item) + (week === lastWeek ? item.yearEndUnits : 0);
      writer.row(`reserve[${item.id},${sets.year.weeks[week]}]`, wanted, entries, Number.POSITIVE_INFINITY);
    }
  });
}
