import { cell, entry } from '../../lookup.ts';
import { reserveHeld } from '../../planning-year.ts';
import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';
import { terms } from '../terms.ts';

/**
 * What a year wants of an item it makes takes so many whole batches, unless wishes give way. It forbids nothing that the
 * other constraints allow: said outright, it lets the solver see that 2.1 batches means 3.
 *
 * Over the year `yield × total_batches + missing >= use + handed over (+ reserve) - opening`, units, where `missing` is
 * every shortage of the item and what is bought of it; rounded (mixed-integer rounding, Nemhauser and Wolsey 1988, from memory) that is
 * `total_batches + missing / (yield × f) >= whole batches`, with `f` the part of the last batch that is wanted. Only for
 * items whose recipes give the same yield.
 */
export function yearNeed(draft: Draft): void {
  const { sets, parameters, columns, writer } = draft;
  sets.items.forEach((item, at) => {
    const recipes = entry(sets.recipesByItem, at, 'recipesByItem');
    const [unitsPerBatch = 0, ...others] = new Set(
      recipes.map((recipe) => entry(sets.recipes, recipe, 'recipes').yieldLowUnits),
    );
    const totals = terms(
      recipes.map((recipe) => entry(columns.totals, recipe, 'totals')),
      1,
    );
    if (others.length > 0 || totals.length === 0) return;
    const sumOf = (byWeek: readonly number[]) => byWeek.reduce((sum, units) => sum + units, 0);
    const opening = sumOf(entry(parameters.opening, at, 'opening').readyByWeek);
    const use = sumOf(entry(parameters.useByWeek, at, 'useByWeek'));
    const yearEndShortage = entry(columns.yearEndShortage, at, 'yearEndShortage');
    const reserveShortage = entry(columns.reserveAtEndShortage, at, 'reserveAtEndShortage');
    const missing = [
      ...item.packs.flatMap(({ units }, pack) =>
        terms(cell(columns.purchases, at, pack, 'purchases'), units),
      ),
      ...terms([...entry(columns.shortage, at, 'shortage'), yearEndShortage], 1),
    ];
    const row = (name: string, wanted: number, slack: readonly Entry[]) => {
      const batches = (wanted - opening) / unitsPerBatch;
      const lastBatch = batches - Math.floor(batches);
      if (batches <= 0 || lastBatch < 0.02) return;
      writer.row(
        `${name}[${item.id}]`,
        Math.ceil(batches),
        [...totals, ...slack.map(([column, units]): Entry => [column, units / (unitsPerBatch * lastBatch)])],
        Number.POSITIVE_INFINITY,
      );
    };
    row('year_need', use + (yearEndShortage === null ? 0 : item.yearEndUnits), missing);
    if (reserveShortage !== null)
      row('year_need_reserve', use + (yearEndShortage === null ? 0 : item.yearEndUnits) + reserveHeld(item), [
        ...missing,
        [reserveShortage, 1],
      ]);
  });
}
