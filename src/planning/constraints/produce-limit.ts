import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';

/**
 * No more is put up than the sources give: batches of a week use what is picked or bought in it.
 *
 * `sum over sources of produce[s,w] = sum(lb × batches[r,w])` for each crop, lb; `produce[s,w] <= lb the source gives`
 * is the column's bound, less what batches already done have used.
 */
export function produceLimit({ sets, columns, writer }: Draft): void {
  sets.crops.forEach((crop, cropAt) => {
    sets.weekIndexes.forEach((week) => {
      const entries: Entry[] = [];
      sets.recipes.forEach((recipe, at) => {
        const batches = columns.batches[at]?.[week];
        if (batches == null) return;
        for (const need of recipe.produce) if (need.crop === crop) entries.push([batches, -need.lb]);
      });
      for (const source of sets.sourcesByCrop[cropAt] ?? []) {
        const taken = columns.produce[source]?.[week];
        if (taken != null) entries.push([taken, 1]);
      }
      writer.row(`produce_limit[${crop},${sets.year.weeks[week]}]`, 0, entries, 0);
    });
  });
}
