import { entry, orNone } from '../../lookup.ts';
import { crockQuartsFree } from '../../planning-year.ts';
import { stageWeeks } from '../../year/stage-weeks.ts';
import type { Draft } from '../draft.ts';
import { terms } from '../terms.ts';

/**
 * Ferments occupy their crock for their weeks, from the one in which they are begun; batches begun already until their load.
 *
 * `sum over batches begun within their crock weeks of quarts × batches[r, v + stage weeks] <= crock quarts - those taken by ferments put up
 * before`, quarts, in each week. Where more stands begun than the crocks are said to hold, that is how much they hold.
 */
export function crockSpace({ sets, columns, writer }: Draft): void {
  const quartsBegun = sets.recipes.reduce(
    (sum, { begun, crock }) => sum + orNone(begun?.batches) * orNone(crock?.quarts),
    0,
  );
  sets.weekIndexes.forEach((week) => {
    const entries = sets.recipes.flatMap((recipe, at) => {
      const { crock } = recipe;
      if (crock === null) return [];
      const loads = entry(columns.batches, at, 'batches');
      const firstLoad = Math.max(0, week - crock.weeks + 1) + stageWeeks(recipe);
      const standing =
        recipe.begun === undefined
          ? loads.slice(firstLoad, week + stageWeeks(recipe) + 1)
          : loads.slice(week);
      return terms(standing, crock.quarts);
    });
    writer.row(
      `crock_space[${sets.year.weeks[week]}]`,
      Number.NEGATIVE_INFINITY,
      entries,
      Math.max(crockQuartsFree(sets.year.storage, week), quartsBegun),
    );
  });
}
