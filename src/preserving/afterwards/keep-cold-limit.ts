import { ShelfwardError } from '../../../shared/problems.ts';
import type { ShelfLifeRow } from '../../../shared/schemas/reference/shelf-life.ts';
import { type Citation, citationOf } from '../citation.ts';

/** What is in the opened jar, as far as keeping it cold goes. */
export const openedFoods = [
  'jam',
  'jam-reduced-sugar',
  'fruit-butter',
  'fruit',
  'applesauce',
  'pie-filling',
  'juice',
  'tomatoes',
  'tomato-sauce',
  'ketchup',
  'salsa',
  'pickle',
  'relish',
  'chutney',
  'sauerkraut',
  'low-acid-vegetable',
  'beans',
  'corn',
  'soup',
  'meat',
  'seafood',
  'marinated-in-oil',
] as const;
export type OpenedFood = (typeof openedFoods)[number];

/** Days an opened jar keeps at 40 °F or below, and where that stands. */
export interface KeepColdLimit {
  readonly days: number;
  /** `safety` for low-acid food: not a matter of taste. */
  readonly kind: 'quality' | 'safety';
  readonly itemKey: string;
  readonly source: Citation;
}

interface Figures {
  /** Figures for home-canned food of this kind, or the class it belongs to. */
  readonly home: readonly string[];
  /** Figures for shop goods, used only where no home-canned figure exists. */
  readonly shop: readonly string[];
}

// Which rows of the table apply to which food is our own judgement; the days are the rows'.
const figuresFor: Readonly<Record<OpenedFood, Figures>> = {
  jam: { home: ['jam_home'], shop: [] },
  'jam-reduced-sugar': { home: ['jam_home', 'jam_home_lowsugar'], shop: [] },
  'fruit-butter': { home: ['jam_home', 'jam_home_lowsugar'], shop: [] },
  fruit: { home: ['hc_fruit'], shop: [] },
  applesauce: { home: ['hc_applesauce', 'hc_fruit'], shop: [] },
  'pie-filling': { home: ['hc_fruit'], shop: [] },
  juice: { home: ['hc_fruit'], shop: [] },
  tomatoes: { home: ['hc_tomatoes'], shop: [] },
  'tomato-sauce': { home: ['hc_tomato_sauce', 'hc_tomatoes'], shop: [] },
  ketchup: { home: ['hc_tomatoes'], shop: ['ketchup'] },
  salsa: { home: ['hc_salsa', 'hc_tomatoes'], shop: ['can_salsa'] },
  pickle: { home: [], shop: ['pickle'] },
  relish: { home: [], shop: ['relish', 'pickle'] },
  chutney: { home: [], shop: ['pickle'] },
  sauerkraut: { home: [], shop: ['can_high_acid'] },
  'low-acid-vegetable': { home: ['hc_green_beans'], shop: [] },
  beans: { home: ['hc_green_beans'], shop: ['can_refried_beans'] },
  corn: { home: ['hc_corn'], shop: [] },
  soup: { home: ['hc_soup'], shop: [] },
  meat: { home: ['hc_meat'], shop: [] },
  seafood: { home: ['hc_meat'], shop: ['can_seafood'] },
  'marinated-in-oil': { home: ['marinated_veg_oil'], shop: [] },
};

/** Foods for which a shop figure shorter than the home one is still heeded, because spoilage is a danger there. */
const heedShorterShopFigure: ReadonlySet<OpenedFood> = new Set(['beans', 'seafood']);

/**
 * How long an opened jar of home-canned food keeps in the refrigerator: the shortest figure that applies. Home-canned
 * figures win over those of shop goods (shop relish claims 274 days, shop salsa 30); the home figure of the wider class
 * applies too, so home-canned applesauce follows opened fruit (5 days) and not the 21 days of fresh homemade sauce.
 * Of a published range the shorter end counts; on a tie a figure that was read wins over a remembered one.
 */
export const keepColdLimit = (food: OpenedFood, shelfLives: readonly ShelfLifeRow[]): KeepColdLimit => {
  const { home, shop } = figuresFor[food];
  const opened = (keys: readonly string[]): ShelfLifeRow[] =>
    shelfLives.filter((row) => row.state === 'opened-refrigerated' && keys.includes(row.itemKey));
  const applicable =
    home.length > 0 && !heedShorterShopFigure.has(food) ? opened(home) : opened([...home, ...shop]);
  const [shortest] = applicable.sort(
    (left, right) =>
      left.minDays - right.minDays || Number(left.basis === 'memory') - Number(right.basis === 'memory'),
  );
  if (!shortest) throw new ShelfwardError('keep-cold-missing', `keepColdLimit: no opened figure for ${food}`);
  return {
    days: shortest.minDays,
    kind: shortest.kind,
    itemKey: shortest.itemKey,
    source: citationOf(shortest),
  };
};
