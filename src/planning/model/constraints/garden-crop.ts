import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';

/**
 * Our own garden's crop is not lost while the year could use it.
 *
 * `sum over own sources and weeks of produce[s,w] + garden_lost[crop] >= pounds the year could use`, lb.
 */
export function gardenCrop({ sets, parameters, columns, writer }: Draft): void {
  parameters.gardenCrops.forEach((crop, at) => {
    const lost = columns.gardenLost[at];
    if (lost == null) return;
    const taken = crop.sources.flatMap((source) =>
      (columns.produce[source] ?? []).flatMap((column): Entry[] => (column === null ? [] : [[column, 1]])),
    );
    writer.row(
      `garden_crop[${sets.stuffs[crop.stuff]?.key}]`,
      crop.wantedLb,
      [...taken, [lost, 1]],
      Number.POSITIVE_INFINITY,
    );
  });
}
