import { cell, entry } from '../../lookup.ts';
import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';
import { columnIn, termIn, terms } from '../terms.ts';

/**
 * Units older than their date are counted, and priced: what stands at the week's end beyond everything that came within
 * its best quality must be older, because the earliest-dated jar is eaten first.
 *
 * `stock[i,w] - older[i,w] <= fresh opening units + sum over made or bought within bestQualityWeeks of units`, units.
 *
 * For what is thrown away past its days (`neverPastDays`) `older[i,w]` is bounded by what of the opening lots may be past them.
 *
 * Exact as long as lots on the shelf are dated before those made later, and an item's recipes are ready after the same
 * time; otherwise it may count too few older units, never too many.
 */
export function bestQuality({ sets, parameters, columns, writer }: Draft): void {
  sets.items.forEach((item, at) => {
    sets.weekIndexes.forEach((week) => {
      const older = columnIn(columns.older, at, week);
      if (older === null) return;
      const firstFreshWeek = Math.max(0, week - item.bestQualityWeeks + 1);
      writer.row(
        `best_quality[${item.id},${sets.year.weeks[week]}]`,
        Number.NEGATIVE_INFINITY,
        [
          ...termIn(columns.stock, at, week, 1),
          [older, -1],
          ...madeOrBought({ sets, columns }, at, firstFreshWeek, week),
        ],
        entry(entry(parameters.opening, at, 'opening').freshByWeek, week, 'freshByWeek'),
      );
    });
  });
}

/** Columns made or bought from one week to another and ready by the second, less their units. */
function madeOrBought(
  { sets, columns }: Pick<Draft, 'sets' | 'columns'>,
  item: number,
  from: number,
  to: number,
): Entry[] {
  const made = entry(sets.recipesByItem, item, 'recipesByItem').flatMap((recipe) => {
    const { readyAfterWeeks, yieldLowUnits } = entry(sets.recipes, recipe, 'recipes');
    const inWeeks = entry(columns.batches, recipe, 'batches').slice(
      from,
      Math.max(from, to - readyAfterWeeks + 1),
    );
    return terms(inWeeks, -yieldLowUnits);
  });
  const bought = entry(sets.items, item, 'items').packs.flatMap(({ units }, pack) =>
    terms(cell(columns.purchases, item, pack, 'purchases').slice(from, to + 1), -units),
  );
  return [...made, ...bought];
}
