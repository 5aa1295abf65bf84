import { mouthOf } from '../../../../shared/jar.ts';
import { entry } from '../../lookup.ts';
import type { Draft } from '../draft.ts';
import { columnIn, termIn, terms } from '../terms.ts';
import { broughtHome } from './supply-balance.ts';

/**
 * A new lid of the right mouth for every jar filled, and spares for seals that fail.
 *
 * `lids[m,w] = lids[m,w-1] + box × bought before w - (1 + spare share) × sum(high-yield jars × batches[r,w])`, lids.
 */
export function lids({ sets, columns, writer }: Draft): void {
  sets.year.lids.forEach((holding, at) => {
    sets.weekIndexes.forEach((week) => {
      const left = columnIn(columns.lidsLeft, at, week);
      if (left === null) return;
      const onHand = week === 0 ? holding.onHand : 0;
      writer.row(
        `lids[${holding.mouth},${sets.year.weeks[week]}]`,
        onHand,
        [
          [left, 1],
          ...termIn(columns.lidsLeft, at, week - 1, -1),
          ...terms([broughtHome(entry(columns.lidsBought, at, 'lidsBought'), week)], -holding.box),
          ...sets.recipes.flatMap(({ jarKind, yieldHighJars }, recipe) =>
            jarKind !== null && mouthOf(jarKind) === holding.mouth
              ? termIn(columns.batches, recipe, week, lidsPerBatch(yieldHighJars))
              : [],
          ),
        ],
        onHand,
      );
    });
  });
}

/** Spare lids for failed seals, as a share of the jars filled. Common practice, no source. */
const spareLidShare = 0.05;

/** Lids to have ready for one batch: one a jar and its spares, which need not be whole for one batch. */
export function lidsPerBatch(jars: number): number {
  return jars * (1 + spareLidShare);
}
