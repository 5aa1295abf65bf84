import { entry } from '../../lookup.ts';
import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';
import { sumOver } from '../spans.ts';

/**
 * What was there plus what came and is ready is what is taken plus what is left.
 *
 * `stock[i,w] = stock[i,w-1] + opening units ready in w + sum(low yield × batches[r, w - ready after]) + sum(pack units ×
 * purchases[i,p,w]) - (use[i,w] - shortage[i,w])`, units of the
 * item; over a span of joined weeks each amount is the sum of its weeks.
 */
export function stockBalance({ sets, parameters, spans, columns, writer }: Draft): void {
  sets.items.forEach((item, at) => {
    sets.weekIndexes.forEach((week) => {
      const span = spans[at]?.[week];
      const stock = columns.stock[at]?.[week];
      if (!span || stock == null) return;
      const entries: Entry[] = [[stock, 1]];
      const before = columns.stock[at]?.[span.from - 1];
      if (before != null) entries.push([before, -1]);
      const shortage = columns.shortage[at]?.[week];
      if (shortage != null) entries.push([shortage, -1]);
      for (let within = span.from; within <= week; within += 1)
        for (const [column, units] of arrivals({ sets, columns }, at, within)) entries.push([column, -units]);
      const given =
        sumOver(parameters.opening[at]?.readyByWeek ?? [], span) -
        sumOver(parameters.useByWeek[at] ?? [], span);
      writer.row(`stock_balance[${item.id},${sets.year.weeks[week]}]`, given, entries, given);
    });
  });
}

/** Columns that bring units of an item to the shelf in a week, with the units each of their units brings. */
function arrivals({ sets, columns }: Pick<Draft, 'sets' | 'columns'>, item: number, week: number): Entry[] {
  const made = (sets.recipesByItem[item] ?? []).flatMap((recipe): Entry[] => {
    const { readyAfterWeeks, yieldLowUnits } = entry(sets.recipes, recipe, 'recipes');
    const batches = columns.batches[recipe]?.[week - readyAfterWeeks];
    return batches == null ? [] : [[batches, yieldLowUnits]];
  });
  const bought = (sets.items[item]?.packs ?? []).flatMap((pack, packAt): Entry[] => {
    const purchases = columns.purchases[item]?.[packAt]?.[week];
    return purchases == null ? [] : [[purchases, pack.units]];
  });
  return [...made, ...bought];
}
