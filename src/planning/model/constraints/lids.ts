import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';
import { broughtHome } from './supply-balance.ts';

/**
 * A new lid of the right mouth for every jar filled, and spares for seals that fail.
 *
 * `lids[m,w] = lids[m,w-1] + box × bought before w - (1 + spare share) × sum(high-yield jars × batches[r,w])`, lids.
 */
export function lids({ sets, columns, writer }: Draft): void {
  sets.year.lids.forEach((holding, at) => {
    sets.weekIndexes.forEach((week) => {
      const left = columns.lidsLeft[at]?.[week];
      if (left == null) return;
      const entries: Entry[] = [[left, 1]];
      const before = week > 0 ? columns.lidsLeft[at]?.[week - 1] : null;
      if (before != null) entries.push([before, -1]);
      const bought = broughtHome(columns.lidsBought[at] ?? [], week);
      if (bought !== null) entries.push([bought, -holding.box]);
      sets.recipes.forEach((recipe, recipeAt) => {
        const batches = columns.batches[recipeAt]?.[week];
        if (batches != null && recipe.jarKind?.endsWith(`/${holding.mouth}`))
          entries.push([batches, lidsPerBatch(recipe.yieldHighJars)]);
      });
      const onHand = week === 0 ? holding.onHand : 0;
      writer.row(`lids[${holding.mouth},${sets.year.weeks[week]}]`, onHand, entries, onHand);
    });
  });
}

/** Spare lids for failed seals, as a share of the jars filled. Common practice, no source. */
const spareLidShare = 0.05;

/** Lids to have ready for one batch: one a jar and its spares, which need not be whole for one batch. */
export function lidsPerBatch(jars: number): number {
  return jars * (1 + spareLidShare);
}
