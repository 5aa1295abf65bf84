import type { Family } from '../../../shared/family.ts';
import type { UncannedKeeping } from '../../../shared/schemas/item.ts';
import type { ShelfLifeRow } from '../../../shared/schemas/reference/shelf-life.ts';
import type { Citation } from '../citation.ts';
import { type LinesOfCrops, lineForCrop } from '../foods/line-for-crop.ts';

/** How long something keeps its quality, as published. */
export interface UncannedLife {
  readonly shelfLifeKey: string;
  readonly leastDays: number;
  readonly mostDays: number;
  /** What the line is about and where it was kept: `Strawberries, frozen`, `0F`. */
  readonly food: string;
  readonly kept: string;
  readonly source: Citation;
}

const frozenLines: LinesOfCrops<string> = [
  [/^strawberry/, 'frozen_strawberry'],
  [/^raspberry/, 'frozen_raspberry'],
  [/^blueberry/, 'frozen_blueberry'],
  [/^cherry/, 'frozen_cherry'],
  [/^cranberry/, 'frozen_cranberry'],
  [/^apple/, 'frozen_apples'],
  [/^tomato/, 'frozen_tomato'],
  [/^asparagus/, 'frozen_asparagus'],
  [/^(green-bean|peas?(-|$))/, 'frozen_green_bean'],
  [/^carrot/, 'frozen_carrot'],
];
const cellarLines: LinesOfCrops<string> = [
  [/^potato/, 'fresh_potato'],
  [/^onion/, 'fresh_onion'],
  [/^garlic/, 'fresh_garlic'],
  [/^pumpkin/, 'fresh_pumpkin'],
  [/^winter-squash/, 'fresh_winter_squash_pantry'],
  [/^apple/, 'fresh_apple'],
  [/^carrot/, 'fresh_carrot'],
  [/^beet/, 'fresh_beet'],
  [/^cabbage/, 'fresh_cabbage'],
];
const fruit: ReadonlySet<Family> = new Set(['berries', 'stone-fruit', 'apples-pears']);
const vegetables: ReadonlySet<Family> = new Set(['tomatoes', 'greens-beans', 'roots']);

/**
 * The published line for a crop (its key, empty where none is named) kept so; null where the table has none. What is dried is
 * taken to stand at 60 °F, what is frozen at 0 °F. A matter of quality, never of safety.
 *
 * Example: strawberries, frozen: 243 to 365 days. Source: the table shelf-life, line by line.
 */
export function uncannedLife(
  keeping: UncannedKeeping,
  crop: string,
  family: Family,
  shelfLives: readonly ShelfLifeRow[],
): UncannedLife | null {
  return lifeOfKey(lineOf(keeping, crop, family), shelfLives);
}

/** A line of the table by its key; null where the table has none of it. */
export function lifeOfKey(key: string | null, shelfLives: readonly ShelfLifeRow[]): UncannedLife | null {
  const row = shelfLives.find(({ itemKey, state }) => itemKey === key && state === 'unopened');
  return row === undefined
    ? null
    : {
        shelfLifeKey: row.itemKey,
        leastDays: row.minDays,
        mostDays: row.maxDays,
        food: row.item,
        kept: row.temperatureNote,
        source: { sourceId: row.sourceId, locator: row.locator, basis: row.basis },
      };
}

function lineOf(keeping: UncannedKeeping, crop: string, family: Family): string | null {
  switch (keeping) {
    case 'frozen':
      return lineForCrop(frozenLines, crop) ?? lineOfFamily(family, 'frozen_fruit_home', 'frozen_fruit_veg');
    case 'dried':
      return lineOfFamily(family, 'dried_fruit_60f', 'dried_veg_60f');
    case 'cellar':
      return lineForCrop(cellarLines, crop) ?? null;
    case 'fermented':
    case 'refrigerated':
      return null;
  }
}

/** Broth, sauces and pickles are neither: the lines for fruit and vegetables say nothing of them. */
const lineOfFamily = (family: Family, ofFruit: string, ofVegetables: string): string | null =>
  fruit.has(family) ? ofFruit : vegetables.has(family) ? ofVegetables : null;
