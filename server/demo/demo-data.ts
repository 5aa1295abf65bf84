import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { family } from '../../shared/family.ts';
import {
  cannerId,
  cropKey,
  groupId,
  householdId,
  itemId,
  placeId,
  recipeId,
  sourceId,
} from '../../shared/ids.ts';
import { jarKind, mouth } from '../../shared/jar.ts';
import { cents } from '../../shared/money.ts';
import { ShelfwardError } from '../../shared/problems.ts';
import { monthDay, numberCell, optionalNumberCell } from '../../shared/schemas/reference/cells.ts';
import { programFile } from '../program.ts';
import { readTable } from '../reference/read-table.ts';

// The invented household as it stands in seed-data/demo/: its README is the dictionary.

const shippedFolder = programFile('seed-data/demo/');

const optionalText = z.string().transform((text) => (text === '' ? null : text));
const optional = <Schema extends z.ZodType<unknown, string>>(schema: Schema) =>
  optionalText.pipe(schema.nullable());
const centsCell = numberCell.pipe(cents);
const optionalCentsCell = optionalNumberCell.pipe(cents.nullable());

const monthDays = z
  .string()
  .transform((text) => text.split(' ').filter((part) => part !== ''))
  .pipe(z.array(monthDay));

const monthlyMultipliers = z
  .string()
  .transform((text) => text.split(' ').filter((part) => part !== ''))
  .pipe(z.array(numberCell))
  .refine((months) => months.length === 0 || months.length === 12, 'Expected no numbers or twelve');

const demoItem = z.object({
  id: itemId,
  name: z.string().min(1),
  kind: z.enum(['preserve', 'staple']),
  keeping: z.enum(['canned', 'frozen', 'dried', 'fermented', 'cellar', 'refrigerated', 'bought']),
  family,
  unit: z.enum(['jar', 'bag', 'lb', 'bin', 'each']),
  usual_jar: optional(jarKind),
  servings_per_unit: optionalNumberCell,
  shelf_life_key: optionalText,
  best_quality_days: numberCell,
  keep_cold_days: optionalNumberCell,
  chance_wanted: numberCell,
  family_minimum: optionalNumberCell,
  says_amount: numberCell,
  says_per: z.enum(['week', 'month', 'year', 'meal', 'school-week']),
  says_counted_in: z.enum(['units', 'servings']),
  says_people: optionalNumberCell,
  says_meals_per_week: optionalNumberCell,
  truly_per_week: numberCell,
  by_month: monthlyMultipliers,
  place: placeId,
});
export type DemoItem = Readonly<z.output<typeof demoItem>>;

const demoRecipe = z.object({
  id: recipeId,
  item: itemId,
  name: z.string().min(1),
  based_on: z.string().min(1),
  yield_from: z.string().min(1),
  process_food: optionalText,
  process_style: optionalText,
  process_pack: optional(z.enum(['hot', 'raw', 'none'])),
  canner: optional(cannerId),
  jar_kind: optional(jarKind),
  yield_low: numberCell,
  yield_high: numberCell,
  hands_on_minutes: numberCell,
  ready_after_days: numberCell,
  crock_quarts: optionalNumberCell,
  crock_days: optionalNumberCell,
  season_from_month: optionalNumberCell,
  season_until_month: optionalNumberCell,
  made_around: monthDays,
});
export type DemoRecipe = Readonly<z.output<typeof demoRecipe>>;

const recipeProduce = z.object({
  recipe: recipeId,
  crop: cropKey,
  lb: numberCell,
  may_be_frozen: z.enum(['0', '1']).transform(Number),
  lb_from: z.string().min(1),
});

const recipeSupply = z.object({
  recipe: recipeId,
  supply: z.string().min(1),
  quantity: numberCell,
  quantity_from: z.string().min(1),
});

/** What a batch leaves that another is made of, and how long it keeps cold. */
const byProduct = z.object({
  id: z.string().min(1),
  name: z.string().min(1),
  unit: z.string().min(1),
  keeps_days_cold: numberCell,
});

const recipeByProduct = z.object({
  recipe: recipeId,
  by_product: z.string().min(1),
  direction: z.enum(['gives', 'uses']),
  quantity: numberCell,
});

const supply = z.object({
  id: z.string().min(1),
  name: z.string().min(1),
  unit: z.string().min(1),
  pack_quantity: numberCell,
  pack_price_cents: centsCell,
  on_hand: numberCell,
});

const demoSource = z.object({
  id: sourceId,
  crop: cropKey,
  name: z.string().min(1),
  kind: z.enum(['garden', 'pick-your-own', 'market']),
  price_cents_per_lb: centsCell,
  plants: optionalNumberCell,
  lb_per_plant: optionalNumberCell,
  use_by_days: numberCell,
  poor_year_chance: numberCell,
  poor_year_share: numberCell,
  fall_back: z.enum(['buy', 'substitute', 'do-without']),
  lb_per_week: numberCell,
  own_from: optional(monthDay),
  own_until: optional(monthDay),
  last_year_late_days: optionalNumberCell,
  last_year_lb: optionalNumberCell,
});
export type DemoSource = Readonly<z.output<typeof demoSource>>;

const shopPack = z.object({
  item: itemId,
  id: z.string().min(1),
  units: numberCell,
  price_cents: centsCell,
  buy_at_or_below_cents: optionalCentsCell,
  sale_from_month: optionalNumberCell,
  sale_until_month: optionalNumberCell,
  sale_price_cents: optionalCentsCell,
  is_planned: z.enum(['0', '1']).transform((one) => (one === '1' ? 1 : 0)),
});

const occasion = z.object({
  id: z.string().min(1),
  item: itemId,
  kind: z.enum(['occasion', 'gift', 'promised']),
  month_day: monthDay,
  units: numberCell,
  note: z.string(),
});

/** From the first day up to, not including, the second; wraps the year end when the second is earlier. */
const yearlySpan = z.object({ from: monthDay, until: monthDay });
export type YearlySpan = Readonly<z.output<typeof yearlySpan>>;

const share = z.number().min(0).max(1);

const household = z.object({
  id: householdId,
  name: z.string().min(1),
  people: z.number().int().min(1),
  members: z.array(z.string().min(1)).min(1),
  timeZone: z.string().min(1),
  region: z.string().min(1),
  altitudeFt: z.number(),
  storageTemperatureF: z.number(),
  crockQuarts: z.number(),
  freezerQuartsPerDay: z.number(),
  discardCeilingMonths: z.number().int(),
  emergency: z.object({
    days: z.number().int(),
    waterGallons: z.number(),
    filledMonthsAgo: z.number().int(),
  }),
  servingsWanted: z.object({
    fruit: z.number(),
    vegetable: z.number(),
    protein: z.number(),
    sweet: z.number(),
  }),
  places: z.array(
    z.object({
      id: placeId,
      name: z.string().min(1),
      kind: z.enum(['shelf', 'cellar', 'freezer', 'refrigerator']),
      capacityQuarts: z.number(),
    }),
  ),
  canners: z.array(
    z.object({
      id: cannerId,
      name: z.string().min(1),
      method: z.enum(['boiling-water', 'pressure']),
      gauge: z.enum(['dial', 'weighted']).nullable(),
      quartJars: z.number().int(),
      pintJars: z.number().int(),
      halfPintJars: z.number().int(),
    }),
  ),
  kitchenTime: z.object({
    sessionsPerWeek: z.number().int(),
    hoursPerSession: z.number(),
    setUpMinutes: z.number().int(),
    stoveBurners: z.number().int(),
    /** 1 Monday to 7 Sunday. */
    sessionWeekday: z.number().int(),
    secondWeekday: z.number().int(),
  }),
  closedWeeks: z.array(yearlySpan.extend({ reason: z.string().min(1) })),
  away: z.array(yearlySpan),
  schoolHolidays: z.array(yearlySpan),
  seasonFund: z.object({ weeklyCents: cents, balanceCentsByMonth: z.array(cents).length(12) }),
  jars: z.array(
    z.object({
      kind: jarKind,
      packPriceCents: cents,
      pack: z.number().int(),
      returnShare: share,
      spare: z.number().int(),
    }),
  ),
  lids: z.array(z.object({ mouth, box: z.number().int(), boxPriceCents: cents, onHand: z.number().int() })),
  groups: z.array(
    z.object({
      id: groupId,
      name: z.string().min(1),
      totalUnits: z.number(),
      unitJar: jarKind,
      leastKinds: z.number().int(),
      largestShare: share,
      items: z.array(itemId),
    }),
  ),
  handTargets: z.array(z.object({ item: itemId, units: z.number() })),
  habits: z.object({
    missedTapShare: share,
    missedStapleTapShare: share,
    takesJarAtFrontShare: share,
    staplesBoughtForWeeks: z.number(),
  }),
  stages: z.array(
    z.object({
      recipe: recipeId,
      name: z.string().min(1),
      afterDays: z.number().int(),
      handsOnMinutes: z.number().int(),
    }),
  ),
});

/** Reads the invented household; a table that does not fit stops the program with file, line and column named. */
export const loadDemoData = (folder: string = shippedFolder) => {
  const load = <Row>(file: string, schema: z.ZodType<Row>): readonly Row[] => {
    const outcome = readTable(file, readFileSync(`${folder}/${file}`, 'utf8'), schema);
    if (outcome.ok) return outcome.value;
    const listed = outcome.problems.slice(0, 20).map((problem) => problem.message);
    throw new ShelfwardError('demo-data-broken', listed.join('\n'));
  };
  return {
    household: household.parse(JSON.parse(readFileSync(`${folder}/household.json`, 'utf8'))),
    items: load('items.csv', demoItem),
    recipes: load('recipes.csv', demoRecipe),
    recipeProduce: load('recipe-produce.csv', recipeProduce),
    recipeSupplies: load('recipe-supplies.csv', recipeSupply),
    byProducts: load('by-products.csv', byProduct),
    recipeByProducts: load('recipe-by-products.csv', recipeByProduct),
    supplies: load('supplies.csv', supply),
    sources: load('sources.csv', demoSource),
    packs: load('packs.csv', shopPack),
    occasions: load('occasions.csv', occasion),
  };
};
export type DemoData = ReturnType<typeof loadDemoData>;
