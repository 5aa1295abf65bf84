import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';

/**
 * Ferments occupy their crock for their weeks.
 *
 * `sum over batches begun within their crock weeks of quarts × batches[r,v] <= crock quarts`, quarts, in each week.
 */
export function crockSpace({ sets, columns, writer }: Draft): void {
  sets.weekIndexes.forEach((week) => {
    const entries = sets.recipes.flatMap((recipe, at): Entry[] => {
      const { crock } = recipe;
      if (crock === null) return [];
      const begun = columns.batches[at]?.slice(Math.max(0, week - crock.weeks + 1), week + 1) ?? [];
      return begun.flatMap((column): Entry[] => (column === null ? [] : [[column, crock.quarts]]));
    });
    if (entries.length > 0)
      writer.row(
        `crock_space[${sets.year.weeks[week]}]`,
        Number.NEGATIVE_INFINITY,
        entries,
        sets.year.storage.crockQuarts,
      );
  });
}
