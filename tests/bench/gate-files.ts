import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import { testedRecipes } from '../../src/preserving/recipes/tested-recipes.ts';
import type { Dice, Saved, SavedRow } from './spoilt-files.ts';

// Household files that look right row by row and lie about what is canned: the process of one food on another, names, crops,
// canners, jars, gauges, altitudes, yields, stages and their times. Each value is mostly one that a form would take.

const extremes: readonly unknown[] = [
  1e6,
  1e308,
  -1e308,
  Number.NaN,
  -1,
  0,
  null,
  '',
  '1e6',
  500,
  0.01,
  499.5,
];
const altitudes: readonly unknown[] = [
  ...[-1500, -1, 0, 999, 1000, 1000.5, 1001, 2000, 2001, 3000, 3001, 4000, 4001, 6000, 6001, 8000, 8001],
  ...[10_000, 20_000, 20_001, 1e6, 1e308, Number.NaN, null, '1240', '1.240'],
];
const gauges: readonly unknown[] = [null, -15, -2.5, -2, -1, 0, 0.5, 1, 2, 2.1, 15, 16, '0'];
const jars = [
  'half-pint/regular',
  'pint/regular',
  'pint/wide',
  'quart/wide',
  'half-gallon/wide',
  '250ml/regular',
];
const names = [
  'Pumpkin butter',
  'Garlic in oil',
  'White peaches',
  'Figs in syrup',
  'Elderberry jelly',
  'Kürbismus',
  'Beurre de potiron',
  'Sweet corn',
  'Our best',
  'Strawberry jam',
  'Canned butter',
];
const crops = ['peach', 'sweet-corn', 'pumpkin', 'elderberry', 'garlic', 'plum', 'fig', 'cucumber', 'banana'];
const times = [
  '2026-08-17T06:00',
  '2026-08-16T21:00',
  '2026-08-01T08:00',
  '2026-07-01T08:00',
  '2026-08-18T09:00',
  '2026-12-01T08:00',
  '2000-01-01T00:00',
  '2026-03-08T02:30',
  '2026-08-17T25:00',
  '',
];

/** The canning day on which every recipe of the household stands. */
export const dayOfAll = '2026-08-22';

/** A household of which everything that decides a processing time may be changed: recipes, canners and stages, no ledger. */
export function gateBase(text: string): Saved & { readonly format: string; readonly version: number } {
  const saved = JSON.parse(text) as Saved & { format: string; version: number };
  const kept = new Set([
    ...[
      'place',
      'canner',
      'kitchen_time',
      'jar_holding',
      'lid_price',
      'lid_box',
      'item',
      'declared_use',
      'recipe',
    ],
    ...['recipe_produce', 'supply', 'recipe_supply', 'recipe_stage', 'material', 'recipe_material', 'source'],
    ...['harvest_window', 'shop_pack', 'season_fund'],
  ]);
  const tables = Object.fromEntries(Object.entries(saved.tables).filter(([name]) => kept.has(name)));
  tables.canning_session = [
    {
      session_on: dayOfAll,
      setting_json: JSON.stringify({ by: 'start', time: '09:00', people: 2, burners: 4, rows: {} }),
      work_json: JSON.stringify((tables.recipe ?? []).map(({ id }) => ({ recipeId: id, batches: 1 }))),
      opened_at: 1_785_000_000_000,
    },
  ];
  tables.stage_event = [];
  return { ...saved, tables };
}

/** The base with one to four changes of what decides a processing time. */
export function liarHousehold(base: Saved, dice: Dice, reference: ReferenceTables): string {
  const saved = structuredClone(base);
  const { tables } = saved;
  const rows = (name: string): SavedRow[] => tables[name] ?? [];
  /** One of a table's rows; one of nowhere when an earlier change has emptied the table. */
  const oneRow = (name: string): SavedRow => (rows(name).length === 0 ? {} : dice.oneOf(rows(name)));
  const recipe = (): SavedRow => dice.oneOf(rows('recipe'));
  const printed = () => dice.oneOf(reference.processTimes);
  const changes: readonly (() => void)[] = [
    () => {
      const { foodKey, style, pack } = printed();
      Object.assign(recipe(), { process_food: foodKey, process_style: style, process_pack: pack });
    },
    () => {
      Object.assign(recipe(), { process_style: printed().style });
    },
    () => {
      Object.assign(recipe(), { process_pack: dice.oneOf(['hot', 'raw', 'none', 'cold']) });
    },
    () => {
      Object.assign(recipe(), {
        based_on: dice.oneOf([...testedRecipes(reference).map(({ key }) => key), printed().foodKey, '', 'x']),
      });
    },
    () => {
      Object.assign(recipe(), {
        canner_id: dice.oneOf([...rows('canner').map(({ id }) => id), null, 'none']),
      });
    },
    () => {
      Object.assign(recipe(), { jar_kind: dice.oneOf(jars) });
    },
    () => {
      saved.household.altitude_ft = dice.oneOf(altitudes);
    },
    () => {
      Object.assign(oneRow('canner'), {
        gauge: dice.oneOf(['dial', 'weighted', null]),
        gauge_checked_on: dice.oneOf(['2026-08-01', '2024-01-01', '2027-01-01', null]),
        gauge_off_at_5_psi: dice.oneOf(gauges),
        gauge_off_at_10_psi: dice.oneOf(gauges),
        gauge_off_at_15_psi: dice.oneOf(gauges),
      });
    },
    () => {
      Object.assign(oneRow('canner'), {
        method: dice.oneOf(['boiling-water', 'steam', 'pressure']),
        quart_jars: dice.oneOf([0, 1, 7, 40, 41, -1, 1e6]),
        pint_jars: dice.oneOf([0, 1, 9, 60, 61, 1e308]),
        half_pint_jars: dice.oneOf([0, 1, 12, 100, 101]),
      });
    },
    () => {
      const low = dice.oneOf(extremes);
      Object.assign(recipe(), {
        yield_low: low,
        yield_high: dice.below(2) === 0 ? low : dice.oneOf(extremes),
      });
    },
    () => {
      Object.assign(recipe(), { hands_on_minutes: dice.oneOf([0, 1, 1440, 1441, 1e6, -1, null]) });
    },
    () => {
      Object.assign(dice.oneOf([recipe(), oneRow('item')]), { name: dice.oneOf(names) });
    },
    () => {
      Object.assign(oneRow('recipe_produce'), { crop: dice.oneOf(crops) });
    },
    () => {
      Object.assign(recipe(), {
        changes_json: dice.oneOf([
          '[]',
          '["salt"]',
          '["thickener"]',
          '["less-acid"]',
          '{',
          '["vinegar"]',
          'null',
        ]),
      });
    },
    () => {
      tables.stage_event = Array.from({ length: 1 + dice.below(4) }, (_, at) => ({
        seq: at + 1,
        batch_id: `batch-${dice.below(2)}`,
        recipe_id: recipe().id,
        batches: dice.oneOf([1, 2, 40, 41, 0]),
        kind: dice.oneOf(['begun', 'begun', 'begun', 'taken back']),
        position: dice.oneOf([1, 1, 2, 3, 60, 61]),
        way: dice.oneOf([null, null, 'overnight soak', 'x']),
        begun_at: dice.oneOf(times),
        recorded_by: null,
        recorded_at: 1_785_000_000_000,
      })).map((event) => (event.kind === 'begun' ? event : { ...event, begun_at: null }));
    },
    () => {
      tables.recipe_stage = rows('recipe_stage').filter(() => dice.below(2) === 0);
    },
    () => {
      const [session] = rows('canning_session');
      if (session !== undefined)
        session.setting_json = JSON.stringify({
          by: dice.oneOf(['start', 'end']),
          time: dice.oneOf(['00:00', '09:00', '23:59']),
          people: dice.oneOf([1, 20, 21]),
          burners: dice.oneOf([1, 20, 0]),
          rows: { [String(recipe().id)]: `${printed().foodKey} hot` },
        });
    },
    () => {
      const [session] = rows('canning_session');
      if (session !== undefined)
        session.work_json = JSON.stringify(
          rows('recipe').map(({ id }) => ({ recipeId: id, batches: dice.oneOf([1, 40, 41]) })),
        );
    },
    () => {
      for (const window of rows('harvest_window'))
        Object.assign(window, { lb_per_week: dice.oneOf([0, 20_000, 20_001, 1e308, -1]) });
    },
    () => {
      for (const use of rows('declared_use'))
        Object.assign(use, { amount: dice.oneOf([0, 1000, 1001, 1e308]), per: dice.oneOf(['week', 'year']) });
    },
    () => {
      tables[dice.oneOf(['recipe_produce', 'recipe_supply', 'canner', 'declared_use', 'source'])] = [];
    },
  ];
  for (let change = 0; change <= dice.below(4); change += 1) dice.oneOf(changes)();
  // JSON has no NaN: as other programs write it, it would be no JSON at all.
  return JSON.stringify(saved, (_, value: unknown) =>
    typeof value === 'number' && Number.isNaN(value) ? null : value,
  );
}
