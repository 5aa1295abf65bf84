import { cell, entry } from '../../lookup.ts';
import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';
import { sumOver } from '../spans.ts';
import { termIn } from '../terms.ts';

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
      const span = cell(spans, at, week, 'spans');
      if (span === null) return;
      const weeks = sets.weekIndexes.slice(span.from, week + 1);
      const given =
        sumOver(entry(parameters.opening, at, 'opening').readyByWeek, span) -
        sumOver(entry(parameters.useByWeek, at, 'useByWeek'), span);
      writer.row(
        `stock_balance[${item.id},${sets.year.weeks[week]}]`,
        given,
        [
          ...termIn(columns.stock, at, week, 1),
          ...termIn(columns.stock, at, span.from - 1, -1),
          ...termIn(columns.shortage, at, week, -1),
          ...weeks.flatMap((within) => arrivals({ sets, columns }, at, within)),
        ],
        given,
      );
    });
  });
}

/** Columns that bring units of an item to the shelf in a week, less the units each of their units brings. */
function arrivals({ sets, columns }: Pick<Draft, 'sets' | 'columns'>, item: number, week: number): Entry[] {
  const made = entry(sets.recipesByItem, item, 'recipesByItem').flatMap((recipe) => {
    const { readyAfterWeeks, yieldLowUnits } = entry(sets.recipes, recipe, 'recipes');
    return termIn(columns.batches, recipe, week - readyAfterWeeks, -yieldLowUnits);
  });
  const bought = entry(sets.items, item, 'items').packs.flatMap(({ units }, pack) =>
    termIn(entry(columns.purchases, item, 'purchases'), pack, week, -units),
  );
  return [...made, ...bought];
}
