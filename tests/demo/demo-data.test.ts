import { describe, expect, test } from 'vitest';
import { windowOf } from '../../server/demo/demo-calendar.ts';
import { type DemoRecipe, loadDemoData } from '../../server/demo/demo-data.ts';
import { schedulesOf } from '../../server/demo/household-story.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { nominalMl, sizeOf } from '../../shared/jar.ts';
import { daysBetween } from '../../shared/week.ts';

const data = loadDemoData();
const tables = loadReferenceTables();
const { household } = data;
const schedules = schedulesOf(data, tables);

const quartMl = nominalMl.quart;
const ids = (rows: readonly { readonly id: string }[]): string[] => rows.map((row) => row.id);
const unknown = (used: readonly string[], known: readonly string[]): string[] =>
  used.filter((id) => !known.includes(id));
const cannerOf = (recipe: DemoRecipe) => household.canners.find((canner) => canner.id === recipe.canner);
const jarsPerLoad = (recipe: DemoRecipe): number => {
  const canner = cannerOf(recipe);
  const size = recipe.jar_kind && sizeOf(recipe.jar_kind);
  if (!canner || !size) return Number.POSITIVE_INFINITY;
  return { quart: canner.quartJars, pint: canner.pintJars, 'half-pint': canner.halfPintJars }[size as 'pint'];
};
/** Jars of the recipe's size in one quart. */
const jarsInQuart = (recipe: DemoRecipe): number =>
  recipe.jar_kind ? quartMl / nominalMl[sizeOf(recipe.jar_kind)] : 1;

describe('the demo household is whole', () => {
  test('every name used in one file is explained in another', () => {
    expect(
      unknown(
        data.recipes.map((recipe) => recipe.item),
        ids(data.items),
      ),
    ).toEqual([]);
    expect(
      unknown(
        data.recipeProduce.map((need) => need.recipe),
        ids(data.recipes),
      ),
    ).toEqual([]);
    expect(
      unknown(
        data.recipeSupplies.map((need) => need.recipe),
        ids(data.recipes),
      ),
    ).toEqual([]);
    expect(
      unknown(
        data.recipeSupplies.map((need) => need.supply),
        ids(data.supplies),
      ),
    ).toEqual([]);
    expect(
      unknown(
        data.packs.map((pack) => pack.item),
        ids(data.items),
      ),
    ).toEqual([]);
    expect(
      unknown(
        data.occasions.map((due) => due.item),
        ids(data.items),
      ),
    ).toEqual([]);
    expect(
      unknown(
        data.items.map((item) => item.place),
        ids(household.places),
      ),
    ).toEqual([]);
    expect(
      unknown(
        household.groups.flatMap((group) => group.items),
        ids(data.items),
      ),
    ).toEqual([]);
    expect(
      unknown(
        household.stages.map((stage) => stage.recipe),
        ids(data.recipes),
      ),
    ).toEqual([]);
    expect(
      unknown(
        data.recipeProduce.map((need) => need.crop),
        data.sources.map((source) => source.crop),
      ),
    ).toEqual([]);
  });

  test('it makes two things of what other batches leave, in amounts of its own, on the days on which they are left', () => {
    const takers = data.recipeByProducts.filter(({ direction }) => direction === 'uses');
    expect(takers.length).toBeGreaterThanOrEqual(2);
    for (const { recipe, by_product, quantity } of takers) {
      const giver = data.recipeByProducts.find(
        (part) => part.direction === 'gives' && part.by_product === by_product,
      );
      const byId = (id: string | undefined) => data.recipes.find((one) => one.id === id);
      expect(giver?.quantity, by_product).toBeGreaterThanOrEqual(quantity);
      expect(byId(recipe)?.made_around, recipe).toEqual(byId(giver?.recipe)?.made_around);
      expect(byId(recipe)?.canner, recipe).toBeNull();
      // Its way stands in the book, and is made of it.
      const way = tables.uncannedWays.find(({ wayKey }) => byId(recipe)?.based_on === `uncanned:${wayKey}`);
      expect(
        way?.material?.split('; ').map((name) => name.replaceAll(' ', '-')),
        recipe,
      ).toContain(by_product);
    }
    expect(
      unknown(
        data.recipeByProducts.map(({ by_product }) => by_product),
        ids(data.byProducts),
      ),
    ).toEqual([]);
    expect(
      unknown(
        data.recipeByProducts.map(({ recipe }) => recipe),
        ids(data.recipes),
      ),
    ).toEqual([]);
  });

  test('it keeps some two dozen preserves, in every keeping, and fifteen staples', () => {
    const preserves = data.items.filter((item) => item.kind === 'preserve');

    expect(preserves.length).toBeGreaterThanOrEqual(18);
    expect(preserves.length).toBeLessThanOrEqual(26);
    expect(data.items.length - preserves.length).toBe(15);
    expect([...new Set(data.items.map((item) => item.keeping))].sort()).toEqual([
      'bought',
      'canned',
      'cellar',
      'dried',
      'fermented',
      'frozen',
    ]);
  });

  test('every preserve can be made and every staple bought', () => {
    const made = data.recipes.map((recipe) => recipe.item);
    const sold = data.packs.map((pack) => pack.item);

    expect(data.items.filter((item) => item.kind === 'preserve' && !made.includes(item.id))).toEqual([]);
    expect(data.items.filter((item) => item.kind === 'staple' && !sold.includes(item.id))).toEqual([]);
  });

  test('every jar it fills is a jar it owns, and every lid has a price', () => {
    const owned = household.jars.map((jar) => jar.kind);
    const kinds = data.recipes.flatMap((recipe) => recipe.jar_kind ?? []);

    expect(kinds.filter((kind) => !owned.includes(kind))).toEqual([]);
    expect(household.lids.map((lid) => lid.mouth).sort()).toEqual(['regular', 'wide']);
  });

  test('promises 24 half-pints in December', () => {
    const promised = data.occasions.filter((due) => due.kind === 'promised');

    expect(promised.reduce((jars, due) => jars + due.units, 0)).toBe(24);
    expect(promised.filter((due) => !due.month_day.startsWith('12-'))).toEqual([]);
  });
});

// USDA Complete Guide to Home Canning, 2015, through seed-data/reference/process-times.csv.
describe('every canned recipe has one published schedule in its canner at 1,240 ft', () => {
  const canned = data.recipes.filter((recipe) => recipe.canner !== null);

  test('the kitchen lies above 1,000 ft', () => {
    expect(household.altitudeFt).toBeGreaterThan(1_000);
  });

  test.each(canned.map((recipe) => [recipe.id, recipe] as const))('%s', (id, recipe) => {
    const schedule = schedules.get(id);

    expect(schedule?.source.basis).toBe('read');
    expect(schedule?.printedJar).toBe(recipe.jar_kind && sizeOf(recipe.jar_kind));
    expect(schedule?.bandFromFt).toBeLessThanOrEqual(household.altitudeFt);
    expect(schedule?.bandToFt ?? Number.POSITIVE_INFINITY).toBeGreaterThanOrEqual(household.altitudeFt);
  });

  test('low-acid food goes into the pressure canner only', () => {
    const lowAcid = canned.filter((recipe) => schedules.get(recipe.id)?.acidity === 'low-acid');

    expect(lowAcid.map((recipe) => recipe.id).sort()).toEqual([
      'chicken-stock',
      'green-beans',
      'pinto-beans',
      'sweet-corn',
    ]);
    expect(lowAcid.filter((recipe) => cannerOf(recipe)?.method !== 'pressure')).toEqual([]);
  });

  test('whatever is kept canned has a canner, and nothing else has', () => {
    const keepingOf = new Map(data.items.map((item) => [item.id, item.keeping]));

    expect(
      data.recipes.filter((recipe) => (keepingOf.get(recipe.item) === 'canned') !== (recipe.canner !== null)),
    ).toEqual([]);
  });
});

// seed-data/reference/jam-batches.csv, yields.csv, canner-capacity.csv and shelf-life.csv.
describe('published quantities are taken over unchanged', () => {
  test('a tested batch gives the jars that are printed for it', () => {
    const batches = data.recipes.filter(
      (recipe) => recipe.yield_from.startsWith('batch:') && recipe.canner !== null,
    );

    for (const recipe of batches) {
      const [line] = tables.batchQuantities.filter(
        (row) => row.productKey === recipe.yield_from.slice('batch:'.length),
      );
      const ratio =
        line && recipe.jar_kind ? nominalMl[line.yieldJar] / nominalMl[sizeOf(recipe.jar_kind)] : 0;
      const printed = { low: (line?.yieldJars.low ?? 0) * ratio, high: (line?.yieldJars.high ?? 0) * ratio };
      expect([recipe.id, printed]).toEqual([recipe.id, { low: recipe.yield_low, high: recipe.yield_high }]);
    }
    expect(batches.length).toBeGreaterThanOrEqual(9);
  });

  test('a canner-load batch takes the printed pounds per load; its low yield is the printed one, its high one load', () => {
    const loads = data.recipes.filter((recipe) => recipe.yield_from.startsWith('yield:'));

    for (const recipe of loads) {
      const [, foodKey, form] = recipe.yield_from.split(':');
      const row = tables.yields.find((known) => known.foodKey === foodKey && known.form === form);
      const need = data.recipeProduce.find((produce) => produce.recipe === recipe.id);
      const perLoad = jarsInQuart(recipe) === 1 ? row?.lbPerSevenQuartLoad : row?.lbPerNinePintLoad;
      const lowJars =
        ((need?.lb ?? 0) / (row?.unitWeightLb ?? 0)) * (row?.yieldLowQuarts ?? 0) * jarsInQuart(recipe);

      expect([recipe.id, need?.lb, need?.lb_from]).toEqual([recipe.id, perLoad?.low, 'load']);
      expect([recipe.id, recipe.yield_low]).toEqual([recipe.id, Math.round(lowJars)]);
      expect([recipe.id, recipe.yield_high]).toEqual([recipe.id, jarsPerLoad(recipe)]);
    }
    expect(loads.length).toBeGreaterThanOrEqual(7);
  });

  test('sugar, vinegar, salt and pectin of a tested batch are as printed', () => {
    const inCups: Record<string, number> = { cup: 1, qt: 4, tbsp: 1 / 16, tsp: 1 / 48 };
    const inOwnUnit = new Set(['lb', 'package', 'pouch']);
    const spices = new Set(['ground-cinnamon', 'ground-cloves']);
    const ingredientOf: Record<string, RegExp> = {
      'canning-sugar': /^(white )?sugar$/,
      'brown-sugar': /^brown sugar/,
      'powdered-pectin': /^powdered pectin$/,
      'liquid-pectin': /^liquid pectin$/,
      'bottled-lemon-juice': /^lemon juice$/,
      'pickling-vinegar': /^vinegar/,
      'canning-salt': /salt$/,
      'apple-cider': /^cider$/,
      'ground-cinnamon': /^ground cinnamon$/,
      'ground-cloves': /^ground cloves$/,
      'yellow-onions': /^onions$/,
    };

    for (const need of data.recipeSupplies.filter((supply) => supply.quantity_from === 'batch')) {
      const recipe = data.recipes.find((known) => known.id === need.recipe);
      const line = tables.batchQuantities.find(
        (row) =>
          row.productKey === recipe?.yield_from.slice('batch:'.length) &&
          ingredientOf[need.supply]?.test(row.ingredient),
      );
      const asPrinted =
        inOwnUnit.has(line?.unit ?? '') || spices.has(need.supply)
          ? 1
          : (inCups[line?.unit ?? ''] ?? Number.NaN);
      expect([need.recipe, need.supply, need.quantity]).toEqual([
        need.recipe,
        need.supply,
        (line?.quantity.low ?? 0) * asPrinted,
      ]);
    }
  });

  test('a load of dry beans takes the printed pounds', () => {
    const row = tables.yields.find((known) => known.foodKey === 'beans-dried');
    const need = data.recipeSupplies.find((supply) => supply.supply === 'dry-pintos');

    expect(need?.quantity).toBe(row?.lbPerNinePintLoad?.low);
  });

  test('acid, syrup sugar and kraut salt follow the printed doses', () => {
    const fact = (key: string): number =>
      Number(tables.cannerFacts.find((row) => row.key === key)?.value ?? Number.NaN);
    const quantity = (recipe: string, supply: string): number | undefined =>
      data.recipeSupplies.find((need) => need.recipe === recipe && need.supply === supply)?.quantity;

    expect(quantity('crushed-tomatoes', 'bottled-lemon-juice')).toBe(
      (7 * fact('acidify.tomato.quart.bottled_lemon_juice')) / 16,
    );
    expect(quantity('tomato-sauce', 'bottled-lemon-juice')).toBe(
      (9 * fact('acidify.tomato.pint.bottled_lemon_juice')) / 16,
    );
    expect(quantity('peach-halves', 'canning-sugar')).toBe(fact('syrup.light.7qt_load.sugar'));
    expect(quantity('pear-halves', 'canning-sugar')).toBe(fact('syrup.light.7qt_load.sugar'));
    expect(quantity('sauerkraut', 'canning-salt')).toBe((3 * fact('ferment.sauerkraut.salt_per_5_lb')) / 16);
  });

  test('the crock holds the cabbage: a gallon for every five pounds', () => {
    const kraut = data.recipes.find((recipe) => recipe.id === 'sauerkraut');

    expect(kraut?.crock_quarts).toBe((15 / 5) * 4);
    expect(kraut?.crock_quarts).toBeLessThanOrEqual(household.crockQuarts);
  });

  test('best quality is the shorter published life, or the household says it is its own', () => {
    const own = ['sauerkraut', 'cellar-potatoes', 'coffee'];
    const lives = new Map(
      tables.shelfLives.filter((row) => row.state === 'unopened').map((row) => [row.itemKey, row]),
    );

    for (const item of data.items.filter((known) => !own.includes(known.id))) {
      const published = lives.get(item.shelf_life_key ?? '');
      expect([item.id, item.best_quality_days]).toEqual([item.id, Math.min(published?.minDays ?? 0, 3_650)]);
    }
    expect(data.items.filter((item) => own.includes(item.id) && item.shelf_life_key !== null)).toEqual([]);
  });
});

// seed-data/reference/harvest-windows.csv, region PA-regional.
describe('every source gives its crop when its region does', () => {
  test.each(data.sources.map((source) => [source.id, source] as const))('%s', (_id, source) => {
    const window = windowOf(source, tables.harvestWindows, household.region, 2027);

    expect(window.active).not.toBeNull();
    expect(window.active?.from && window.active.from >= window.begins).toBe(true);
    expect(window.active?.until && window.active.until <= window.ends).toBe(true);
  });

  test('what the plants bear is what the weeks of the garden give, some of it eaten fresh', () => {
    for (const source of data.sources.filter((known) => known.kind === 'garden')) {
      const { active } = windowOf(source, tables.harvestWindows, household.region, 2027);
      const weeks = active ? daysBetween(active.from, active.until) / 7 : 0;
      const borne = (source.plants ?? 0) * (source.lb_per_plant ?? 0);
      const share = (weeks * source.lb_per_week) / borne;
      expect([source.id, share > 0.6 && share < 1.25]).toEqual([source.id, true]);
    }
  });

  test('a week of some source gives enough for a batch of each recipe', () => {
    for (const need of data.recipeProduce) {
      const weekly = Math.max(
        ...data.sources.filter((source) => source.crop === need.crop).map((source) => source.lb_per_week),
      );
      expect([need.recipe, need.crop, weekly >= need.lb]).toEqual([need.recipe, need.crop, true]);
    }
  });

  test('crops of one recipe can be had in the same week', () => {
    const salsa = data.recipeProduce.filter((need) => need.recipe === 'chile-salsa').map((need) => need.crop);
    const active = salsa.map((crop) => {
      const source = data.sources.find((known) => known.crop === crop);
      return source && windowOf(source, tables.harvestWindows, household.region, 2027).active;
    });
    const latestStart =
      active
        .map((span) => span?.from ?? '')
        .sort()
        .at(-1) ?? '';
    const earliestEnd = active.map((span) => span?.until ?? '').sort()[0] ?? '';

    expect(latestStart < earliestEnd).toBe(true);
  });
});
