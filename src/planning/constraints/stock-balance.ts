import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';

/**
 * What was there plus what came and is ready is what is taken plus what is left.
 *
 * `stock[i,w] = stock[i,w-1] + opening units ready in w + sum(low yield × batches[r, w - ready after]) + sum(pack units ×
 * purchases[i,p,w]) - (use[i,w] - shortage[i,w])`, units of the item.
 */
export function stockBalance({ sets, parameters, columns, writer }: Draft): void {
  sets.items.forEach((item, at) => {
    sets.weekIndexes.forEach((week) => {
      const entries: Entry[] = [[columns.stock[at]?.[week] ?? -1, 1]];
      if (week > 0) entries.push([columns.stock[at]?.[week - 1] ?? -1, -1]);
      const shortage = columns.shortage[at]?.[week];
      if (shortage != null) entries.push([shortage, -1]);
      for (const [column, units] of arrivals({ sets, columns }, at, week)) entries.push([column, -units]);
      const given =
        (parameters.opening[at]?.readyByWeek[week] ?? 0) - (parameters.useByWeek[at]?.[week] ?? 0);
      writer.row(`stock_balance[${item.id},${sets.year.weeks[week]}]`, given, entries, given);
    });
  });
}

/** Columns that bring units of an item to the shelf in a week, with the units each of their units brings. */
export function arrivals(
  { sets, columns }: Pick<Draft, 'sets' | 'columns'>,
  item: number,
  week: number,
): Entry[] {
  const made = (sets.recipesByItem[item] ?? []).flatMap((recipe): Entry[] => {
    const { readyAfterWeeks = 0, yieldLowUnits = 0 } = sets.recipes[recipe] ?? {};
    const batches = columns.batches[recipe]?.[week - readyAfterWeeks];
    return batches == null ? [] : [[batches, yieldLowUnits]];
  });
  const bought = (sets.items[item]?.packs ?? []).flatMap((pack, packAt): Entry[] => {
    const purchases = columns.purchases[item]?.[packAt]?.[week];
    return purchases === undefined ? [] : [[purchases, pack.units]];
  });
  return [...made, ...bought];
}
