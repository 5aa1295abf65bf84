import type { RecipeKind } from '../../../shared/schemas/reference/recipe.ts';
import type { ShelfLifeRow } from '../../../shared/schemas/reference/shelf-life.ts';
import { publishedHomeCannedDays } from '../../shelf/best-quality.ts';
import { type KeepColdLimit, keepColdLimit, type OpenedFood } from '../afterwards/keep-cold-limit.ts';
import type { TestedRecipe } from './recipe-book.ts';

/** Days of best quality of a sealed jar as published, from the shorter figure to the longer. */
export interface PublishedLife {
  readonly least: number;
  readonly most: number;
}

export interface RecipeLife {
  /** Line of the shelf-life table for the sealed jar. */
  readonly shelfLifeKey: string;
  /** What a new item is kept for: the longer end of the range. */
  readonly bestQualityDays: number;
  readonly published: PublishedLife;
  /** How long an opened jar keeps cold. */
  readonly opened: KeepColdLimit;
}

// Which line of the table belongs to which kind of recipe is our own judgement; the days are the line's.
const linesOf: Readonly<Record<RecipeKind, { readonly sealed: string; readonly opened: OpenedFood }>> = {
  jam: { sealed: 'jam_home', opened: 'jam' },
  jelly: { sealed: 'jam_home', opened: 'jam' },
  spread: { sealed: 'jam_home_lowsugar', opened: 'jam-reduced-sugar' },
  butter: { sealed: 'fruit_butter_home', opened: 'fruit-butter' },
  syrup: { sealed: 'hc_general', opened: 'fruit' },
  fruit: { sealed: 'hc_fruit', opened: 'fruit' },
  'sauce-fruit': { sealed: 'hc_applesauce', opened: 'applesauce' },
  juice: { sealed: 'hc_juice', opened: 'juice' },
  'pie-filling': { sealed: 'hc_pie_filling', opened: 'pie-filling' },
  tomato: { sealed: 'hc_tomatoes', opened: 'tomatoes' },
  salsa: { sealed: 'hc_salsa', opened: 'salsa' },
  sauce: { sealed: 'hc_tomato_sauce', opened: 'tomato-sauce' },
  ketchup: { sealed: 'hc_general', opened: 'ketchup' },
  chutney: { sealed: 'hc_general', opened: 'chutney' },
  relish: { sealed: 'hc_general', opened: 'relish' },
  pickle: { sealed: 'pickle_home', opened: 'pickle' },
  ferment: { sealed: 'hc_sauerkraut', opened: 'sauerkraut' },
  vegetable: { sealed: 'hc_general', opened: 'low-acid-vegetable' },
  beans: { sealed: 'hc_dry_beans', opened: 'beans' },
  meal: { sealed: 'hc_meat', opened: 'meat' },
};

const isTomatoSauce = ({ processes }: TestedRecipe): boolean =>
  processes.some(({ foodKey }) => foodKey === 'tomato-sauce');

/**
 * The range of a line of the shelf-life table for sealed jars, never beyond the year published for all home-canned food; that
 * year where the key names no such line. Example: salsa, 9 to 12 months in the pantry: 274 to 365 days.
 */
export function publishedLife(
  shelfLifeKey: string | null,
  shelfLives: readonly ShelfLifeRow[],
): PublishedLife {
  const row = shelfLives.find(
    ({ itemKey, state, kind }) => itemKey === shelfLifeKey && state === 'unopened' && kind === 'quality',
  );
  const most = Math.min(publishedHomeCannedDays, row?.maxDays ?? publishedHomeCannedDays);
  return { least: Math.min(most, row?.minDays ?? most), most };
}

/**
 * How long a sealed jar of a recipe is at best quality, and an opened one keeps cold. Best quality is a matter of taste and the
 * household's own choice inside the published range; until it chooses, its longer end stands, so that nothing is called past its
 * best that the source still calls good.
 */
export const recipeLife = (recipe: TestedRecipe, shelfLives: readonly ShelfLifeRow[]): RecipeLife => {
  const lines = isTomatoSauce(recipe) ? linesOf.sauce : linesOf[recipe.kind];
  const published = publishedLife(lines.sealed, shelfLives);
  return {
    shelfLifeKey: lines.sealed,
    bestQualityDays: published.most,
    published,
    opened: keepColdLimit(lines.opened, shelfLives),
  };
};
