import { entry } from '../../../lookup.ts';
import type { Draft } from '../../draft.ts';
import type { GardenCrop } from '../../garden-crop.ts';
import type { Entry } from '../../model.ts';
import { needOf } from '../../raw-materials.ts';
import { terms } from '../../terms.ts';

/**
 * Our own garden's crop is not lost while the year could use it, and is put up only as far as it will be eaten in time.
 *
 * `sum over own sources and weeks of produce[s,w] + garden_lost[crop] >= pounds the year could use`, lb. Where a crop may
 * become several items, each counts only up to what the year wants of it: `garden_used[crop,item] <= lb × batches of its
 * recipes`, `garden_used[crop,item] <= pounds the item wants`, `sum of garden_used + garden_lost[crop] >= pounds the year
 * could use`.
 */
export function gardenCrop(draft: Draft): void {
  const { sets, parameters, columns, writer } = draft;
  parameters.gardenCrops.forEach((crop, at) => {
    const lost = entry(columns.gardenLost, at, 'gardenLost');
    if (lost === null) return;
    const taken = crop.sources.flatMap((source) => terms(entry(columns.produce, source, 'produce'), 1));
    writer.row(
      `garden_crop[${entry(sets.rawMaterials, crop.rawMaterial, 'rawMaterials').key}]`,
      crop.wantedLb,
      [...taken, [lost, 1]],
      Number.POSITIVE_INFINITY,
    );
    if (crop.uses.length > 0) usedAsWanted(draft, crop, lost);
  });
}

function usedAsWanted({ sets, columns, writer }: Draft, crop: GardenCrop, lost: number): void {
  const rawMaterial = entry(sets.rawMaterials, crop.rawMaterial, 'rawMaterials');
  const used = crop.uses.map(({ item, ways, wantedLb }): Entry => {
    const key = `${rawMaterial.key},${entry(sets.items, item, 'items').id}`;
    const column = writer.column(`garden_used[${key}]`, { lower: 0, upper: wantedLb });
    const batches = ways.flatMap((way) => {
      const { any } = needOf(entry(sets.recipes, way, 'recipes'), rawMaterial);
      return terms(entry(columns.batches, way, 'batches'), -any);
    });
    writer.row(`garden_used[${key}]`, Number.NEGATIVE_INFINITY, [[column, 1], ...batches], 0);
    return [column, 1];
  });
  const name = `garden_crop[${rawMaterial.key},as wanted]`;
  writer.row(name, crop.wantedLb, [...used, [lost, 1]], Number.POSITIVE_INFINITY);
}
