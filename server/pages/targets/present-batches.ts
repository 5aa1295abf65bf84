import { counted, isOrAre, wordFor } from '../../../shared/counting.ts';
import { plantsFor } from '../../../src/consumption/plants-for-produce.ts';
import { cropName } from '../../../src/harvest/crop-name.ts';
import { formatNumber, formatQuantity } from '../../../views/words/format.ts';
import { amountOf } from '../../words/shelf-units.ts';
import type { TargetPicture } from './target-picture.ts';

/** So many batches of a recipe, and the produce they take. */
export interface Batches {
  readonly name: string;
  readonly batches: string;
  readonly crops: readonly {
    readonly name: string;
    readonly amount: string;
    readonly lb: number;
    readonly crop: string;
  }[];
}

/** What so many units are in batches and pounds, by the item's first recipe; nothing for what is only bought. */
export function batchesFor(
  { item, loaded, published, reading }: TargetPicture,
  units: number,
): readonly Batches[] {
  const [recipe] = loaded.recipes.planned.filter((own) => own.itemId === item.id);
  if (!recipe || units <= 0) return [];
  const batches = Math.ceil(units / recipe.yieldLowUnits - 1e-9);
  return [
    {
      name: recipe.name,
      batches: formatNumber(batches, reading),
      crops: recipe.produce.map(({ crop, lb }) => ({
        crop,
        lb: batches * lb,
        name: cropName(published, crop).toLowerCase(),
        amount: formatQuantity(batches * lb, 'lb', reading),
      })),
    },
  ];
}
/** "68 pints are 8 batches of Peach halves: 168 lb of peaches." And the plants that give them. */
export function produceLines(picture: TargetPicture, units: number): readonly string[] {
  const { item, loaded, reading } = picture;
  return batchesFor(picture, units).flatMap(({ name, batches, crops }) => {
    const amounts = crops.map((crop) => `${crop.amount} of ${crop.name}`);
    const batch = `${amountOf(item, units, reading)} ${isOrAre(units)} ${counted(batches, 'batch')} of ${name}${amounts.length === 0 ? '' : `: ${amounts.join(', ')}`}.`;
    const plants = crops.flatMap(({ crop, lb, name: cropWords }) => {
      const garden = loaded.facts.sources.find(
        (source) => source.crop === crop && source.kind === 'garden' && source.lbPerPlant !== null,
      );
      if (garden?.lbPerPlant == null) return [];
      const wanted = plantsFor(lb, garden.lbPerPlant);
      const has =
        garden.plants === null ? '' : `; ${garden.name} has ${formatNumber(garden.plants, reading)}`;
      return [
        `At ${formatQuantity(garden.lbPerPlant, 'lb', reading)} a plant that takes ${formatNumber(wanted, reading)} ${wordFor(wanted, 'plant')} of ${cropWords}${has}.`,
      ];
    });
    return [batch, ...plants];
  });
}
