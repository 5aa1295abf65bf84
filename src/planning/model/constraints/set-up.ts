import { cell, entry, found } from '../../lookup.ts';
import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';
import { recipeLabel } from '../sets.ts';
import { columnIn, termIn } from '../terms.ts';

/**
 * A recipe with a set-up is made only in weeks that pay for it. Published lot-sizing instances are stated so; a
 * household has none.
 *
 * `batches[r,w] <= most × makes[r,w]`, and, share by share, `serves[r,w,u] <= use[i,u] × makes[r,w]` with
 * `batches[r,w] × yield = sum over later weeks u of serves[r,w,u]`: the facility-location form of lot sizing
 * (Krarup and Bilde 1977, from memory), which proves far better bounds than stock balances alone.
 */
export function setUp(draft: Draft): void {
  const { sets, parameters, columns, writer } = draft;
  const servedBy = sets.items.map(() => sets.weekIndexes.map((): Entry[] => []));
  sets.recipes.forEach((recipe, at) => {
    if (recipe.setUp === undefined) return;
    const item = found(sets.itemIndex, recipe.itemId, 'itemIndex');
    const use = entry(parameters.useByWeek, item, 'useByWeek');
    const { bestQualityWeeks } = entry(sets.items, item, 'items');
    sets.weekIndexes.forEach((week) => {
      const makes = columnIn(columns.makes, at, week);
      if (makes === null) return;
      const key = sets.year.weeks[week];
      const shares: Entry[] = [];
      for (let served = week; served < Math.min(sets.weekCount, week + bestQualityWeeks + 1); served += 1) {
        const wanted = entry(use, served, 'use');
        if (wanted <= 0) continue;
        const serves = writer.column(`serves[${recipeLabel(recipe)},${key},${sets.year.weeks[served]}]`, {
          lower: 0,
        });
        shares.push([serves, -1]);
        cell(servedBy, item, served, 'servedBy').push([serves, 1]);
        writer.row(
          `set_up[${recipeLabel(recipe)},${key},${sets.year.weeks[served]}]`,
          Number.NEGATIVE_INFINITY,
          [
            [serves, 1],
            [makes, -wanted],
          ],
          0,
        );
      }
      writer.row(
        `set_up[${recipeLabel(recipe)},${key}]`,
        0,
        [...termIn(columns.batches, at, week, recipe.yieldLowUnits), ...shares],
        0,
      );
      writer.row(
        `set_up_most[${recipeLabel(recipe)},${key}]`,
        Number.NEGATIVE_INFINITY,
        [
          ...termIn(columns.batches, at, week, 1),
          [makes, -cell(parameters.mostBatches, at, week, 'mostBatches')],
        ],
        0,
      );
    });
  });
  servedBy.forEach((weeks, item) => {
    weeks.forEach((entries, served) => {
      const wanted = cell(parameters.useByWeek, item, served, 'useByWeek');
      if (entries.length > 0)
        writer.row(
          `served[${entry(sets.items, item, 'items').id},${sets.year.weeks[served]}]`,
          wanted,
          entries,
          wanted,
        );
    });
  });
}
