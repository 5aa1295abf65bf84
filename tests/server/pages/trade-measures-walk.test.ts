import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { loadPlanningYear } from '../../../server/year/load-year.ts';
import { askedForms } from '../../builders/asked-fields.ts';
import { settledQuinceYard } from '../../builders/planned-quince-yard.ts';
import { keepPlanOf } from '../../builders/planned-week.ts';
import { quinceYard, today } from '../../builders/quince-yard.ts';
import type { QuinceYardPages } from '../../builders/quince-yard-pages.ts';
import { Thing } from '../../builders/thing.ts';
import { type Answer, wordsOf } from '../../builders/visitor.ts';

// Wherever an amount of produce, or its price, is typed, it may be typed in the trade measures of its crop: chosen beside the
// field, or written behind the amount. Plums: a bushel 56 lb, a peck 14 lb (USDA Complete Guide 2, p2-21); peaches: a
// bushel 48 lb, a peck 12 lb (Guide 2, p2-19); beans: a bushel
// 30 lb (Guide 4, p4-8). No weight of a flat is published here, nor of a lug of plums.

const reference = loadReferenceTables();
let pages: QuinceYardPages;
let own: { readonly item: string; readonly recipe: string };
beforeEach(async () => {
  pages = await settledQuinceYard();
  await pages.db
    .updateTable('source')
    .set({ kind: 'market', price_cents_per_lb: 45 })
    .where('id', '=', 'plum-tree')
    .execute();
  own = await ownWay({ name: 'Plums on a tray', crop: 'plum', lb: '6', lbUnit: 'lb' });
  await keepPlanOf(pages.db, quinceYard, { '2026-W34': [{ recipe: 'plum-jam-batch', batches: 2 }] });
});
afterEach(() => pages.close());

const uncanned = (fill: Readonly<Record<string, string>>) =>
  pages.visitor.submitOn('/items/new?kind=uncanned', {
    form: '/items',
    fill: {
      keeping: 'frozen',
      family: 'stone-fruit',
      units: '4',
      unit: 'bag',
      handsOnMinutes: '40',
      freezerQuarts: '1',
      ...fill,
    },
  });
async function ownWay(fill: Readonly<Record<string, string>>) {
  const { location } = await uncanned(fill);
  const item = /^\/items\/([^?]+)/.exec(location)?.[1] ?? '';
  const { id } = await pages.db
    .selectFrom('recipe')
    .select('id')
    .where('item_id', '=', item)
    .executeTakeFirstOrThrow();
  return { item, recipe: id };
}

const plumTree = () =>
  pages.db.selectFrom('source').selectAll().where('id', '=', 'plum-tree').executeTakeFirstOrThrow();
const lbOfRecipe = async (recipe: string, crop: string): Promise<number | undefined> =>
  (
    await pages.db
      .selectFrom('recipe_produce')
      .select('lb')
      .where('recipe_id', '=', recipe)
      .where('crop', '=', crop)
      .executeTakeFirst()
  )?.lb;

/** Pounds of a peck. */
const peckOf = { plum: 14, peach: 12, bean: 7.5 } as const;

/** A form in which produce is typed: where it stands, how it is sent, and the pounds (or cents a pound) that came of it. */
interface Door {
  readonly page: () => string;
  readonly form: () => string;
  readonly field: string;
  readonly unitField: string;
  readonly isPrice?: true;
  /** What else the form needs. */
  readonly fill?: Readonly<Record<string, string>>;
  readonly crop?: 'peach' | 'bean';
  readonly came: (answer: Answer) => Promise<number | undefined>;
}

const newest = async (crop: string): Promise<number | undefined> => {
  const { id } = await pages.db
    .selectFrom('recipe')
    .select('id')
    .orderBy('rowid' as never, 'desc')
    .executeTakeFirstOrThrow();
  return lbOfRecipe(id, crop);
};
const doors: Readonly<Record<string, Door>> = {
  'the price of a source': {
    page: () => '/harvest/plum-tree',
    form: () => '/harvest/plum-tree',
    field: 'pricePerLb',
    unitField: 'priceUnit',
    isPrice: true,
    came: async () => (await plumTree()).price_cents_per_lb,
  },
  'what a plant gives': {
    page: () => '/harvest/plum-tree',
    form: () => '/harvest/plum-tree',
    field: 'lbPerPlant',
    unitField: 'plantUnit',
    came: async () => (await plumTree()).lb_per_plant ?? undefined,
  },
  'what a source gives a week': {
    page: () => '/harvest/plum-tree',
    form: () => '/harvest/plum-tree/windows/2026',
    field: 'lbPerWeek',
    unitField: 'amountUnit',
    came: async () => {
      const { lb_per_week } = await pages.db
        .selectFrom('harvest_window')
        .select('lb_per_week')
        .where('source_id', '=', 'plum-tree')
        .where('year', '=', 2026)
        .executeTakeFirstOrThrow();
      return lb_per_week;
    },
  },
  'a line of the shopping list': {
    page: () => '/buying',
    form: () => '/buying/lines',
    field: 'amount',
    unitField: 'amountUnit',
    fill: { kind: 'produce', what: 'plum-tree', pack: '', answer: 'bought' },
    came: async () => {
      const { quantity } = await pages.db.selectFrom('bought').select('quantity').executeTakeFirstOrThrow();
      return quantity;
    },
  },
  'a line of this week': {
    page: () => `/?other=${encodeURIComponent('2026-W34 produce plum-tree')}`,
    form: () => '/buying/week/lines',
    field: 'amount',
    unitField: 'amountUnit',
    fill: { kind: 'produce', what: 'plum-tree', pack: '', answer: 'bought' },
    came: async () => {
      const { quantity } = await pages.db.selectFrom('bought').select('quantity').executeTakeFirstOrThrow();
      return quantity;
    },
  },
  'a batch of the recipe book': {
    page: () => '/items/new?recipe=peach-jam-powder',
    form: () => '/items',
    field: 'lb-peach',
    unitField: 'lb-peachUnit',
    crop: 'peach',
    came: () => newest('peach'),
  },
  'a batch of one’s own way': {
    page: () => '/items/new?kind=uncanned',
    form: () => '/items',
    field: 'lb',
    unitField: 'lbUnit',
    fill: {
      name: 'Plums by halves',
      crop: 'plum',
      units: '4',
      unit: 'bag',
      handsOnMinutes: '40',
      keeping: 'frozen',
    },
    came: () => newest('plum'),
  },
  'the same batch, changed': {
    page: () => `/items/${own.item}`,
    form: () => `/items/${own.item}/recipes/${own.recipe}`,
    field: 'lb-plum',
    unitField: 'lb-plumUnit',
    came: () => lbOfRecipe(own.recipe, 'plum'),
  },
  'what the garden gave in a year': {
    page: () => '/look-back/years',
    form: () => '/look-back/years/garden',
    field: 'lb',
    unitField: 'amountUnit',
    crop: 'bean',
    fill: { sourceId: 'bean-rows', year: '2025' },
    came: async () => {
      const { lb } = await pages.db.selectFrom('garden_yield').select('lb').executeTakeFirstOrThrow();
      return lb;
    },
  },
  'a glut': {
    page: () => '/glut',
    form: () => '/glut',
    field: 'amount',
    unitField: 'unit',
    fill: { crop: 'plum' },
    came: async ({ body }) => Number(/([\d,]+(?:\.\d+)?) lb of plums/.exec(wordsOf(body))?.[1]),
  },
};

async function send({ page, form, fill = {}, field, unitField }: Door, amount: string, unit: string) {
  const typed = { ...fill, [field]: amount, [unitField]: unit };
  if (page() === '/glut') return pages.visitor.open(`/glut?${new URLSearchParams(typed)}`);
  const shown = await pages.visitor.open(page());
  const week = [
    ...shown.body.matchAll(/name="week" value="([^"]+)"[^>]*>\s*<input[^>]*name="kind" value="produce"/g),
  ][0]?.[1];
  return pages.visitor.submit(shown, {
    form: form(),
    fill: { ...typed, ...(week === undefined ? {} : { week }) },
  });
}
const said = async (door: Door, amount: string, unit: string): Promise<number | undefined> => {
  const answer = await send(door, amount, unit);
  expect([200, 303], wordsOf(answer.body).slice(0, 1500)).toContain(answer.status);
  return door.came(answer);
};

/** Pages of the household with a number somebody types; of oats nothing is produce, they are a staple counted in pounds. */
const everyPage = () => [
  ...[
    '/',
    '/buying',
    '/shelf',
    '/shelf/put-up',
    '/shelf/count',
    '/glut',
    '/harvest',
    '/harvest/new',
    '/harvest/plum-tree',
  ],
  ...['/kitchen', '/items/new?kind=uncanned', '/items/new?kind=staple', '/items/new?recipe=peach-jam-powder'],
  ...[`/items/${own.item}`, '/items/plum-jam', '/targets/plum-jam', '/supplies/sugar', '/canning-day'],
];

describe('an amount of produce', () => {
  it('can be typed in a trade measure wherever pounds of a crop are asked, and those places are these', async () => {
    const found = new Set<string>();
    for (const address of new Set([...everyPage(), ...Object.values(doors).map(({ page }) => page())])) {
      const { body, status } = await pages.visitor.open(address);
      if (status === 404) continue;
      // A unit of weight that stands fixed behind a field leaves no other to be chosen.
      const forms = (body.match(/<form\b[\s\S]*?<\/form>/g) ?? []).filter((form) => !isOfNoCrop.test(form));
      const fixed = forms
        .flatMap((form) => [...form.matchAll(behindByWeight)].map(([, name = '']) => name))
        .filter((name) => !byProducts.has(name));
      expect([address, ...fixed]).toEqual([address]);
      for (const { action, fields } of askedForms(body))
        for (const [at, { options }] of fields.entries())
          if (options.includes('kg')) found.add(`${action.replace(/[#?].*$/, '')} ${fields[at - 1]?.name}`);
    }
    const known = Object.values(doors).map(({ form, field }) => `${form()} ${field}`);

    expect([...found].filter((one) => !known.includes(one) && !sameAs.has(one)).toSorted()).toEqual([]);
    expect(known.filter((one) => !found.has(one)).toSorted()).toEqual([]);
  });

  it.each(Object.entries(doors))('in %s is chosen, or written behind the amount', async (_name, door) => {
    const measure = 'peck';
    const lb = peckOf[door.crop ?? 'plum'];
    const expected = (amount: number) => (door.isPrice ? Math.round((amount * 100) / lb) : amount * lb);

    expect(await said(door, '1.5', measure)).toBeCloseTo(expected(1.5), 4);
  });

  it.each(Object.entries(doors))(
    'in %s, written behind it, goes before what is chosen',
    async (_name, door) => {
      const measure = 'peck';
      const lb = peckOf[door.crop ?? 'plum'];
      const typed = door.isPrice ? `$7 a ${measure}` : `½ ${measure}`;

      expect(await said(door, typed, 'lb')).toBeCloseTo(door.isPrice ? Math.round(700 / lb) : lb / 2, 4);
    },
  );

  it.each(Object.entries(doors))(
    'in %s is refused without a published weight, with what there is',
    async (_name, door) => {
      for (const [amount, unit] of [
        ['2', 'lug'],
        ['2 flats', 'lb'],
      ] as const) {
        const answer = await send(door, amount, unit);
        const peck = peckOf[door.crop ?? 'plum'];
        const measures = `a bushel (${peck * 4} lb), a half-bushel (${peck * 2} lb), a peck (${peck} lb)`;

        expect(answer.status).toBe(422);
        expect(wordsOf(answer.body)).toMatch(
          new RegExp(
            `We have no published weight for a (lug|flat) of [^.]+\\. Write pounds, or count in ${measures.replaceAll(/[()]/g, '\\$&')}\\.`,
          ),
        );
      }
    },
  );
});

/** A field with a weight fixed behind it. */
const behindByWeight =
  /<input[^>]*name="([^"]+)"[^>]*>(?:<datalist[\s\S]*?<\/datalist>)?<span class="unit">(?:lb|kg|pounds)\b/g;
/** What another batch leaves; no guide publishes a container of it. */
const byProducts = new Set(['materialLb', 'leavesAmount', 'takesAmount']);
/** Lines of what is only bought, by the pound as the household counts it: no crop of any season. */
const isOfNoCrop = /name="kind" value="(item|supply)"/;
/** The same forms where a source is new, and of the next year: read by the same reader. */
const sameAs = new Set([
  '/harvest pricePerLb',
  '/harvest lbPerPlant',
  '/harvest/plum-tree/windows/2027 lbPerWeek',
]);

describe('an amount to buy', () => {
  it('is shown in the trade measure beside the pounds, on every list that has room', async () => {
    const errand = /Plum tree[^.]*10 lb,? about ¾ of a peck|10 lb Plum tree About ¾ of a peck\. /;
    for (const address of ['/', '/buying']) {
      const words = wordsOf((await pages.visitor.open(address)).body);
      expect(words, address).toMatch(errand);
    }
    const thing = await Thing.of(pages.app, pages.db, quinceYard);
    expect(JSON.stringify((await thing.read('/week')).json)).toContain('10 lb, about ¾ of a peck');
  });

  it('of a garden is shown in whole containers alone', async () => {
    await pages.db.updateTable('source').set({ kind: 'garden' }).where('id', '=', 'plum-tree').execute();
    expect(wordsOf((await pages.visitor.open('/buying')).body)).not.toContain('about ¾ of a peck');
  });
});

describe('what is counted by the pound', () => {
  // Potatoes, a bushel 50 lb (NCHFP, approximate yields).
  it('is put up in the trade measures of its crop', async () => {
    await uncanned({
      name: 'Potatoes in the cellar',
      keeping: 'cellar',
      family: 'roots',
      crop: 'potato',
      lb: '50',
      lbUnit: 'lb',
      units: '50',
      unit: 'lb',
    });
    const put = (units: string) =>
      pages.visitor.submitOn('/shelf/put-up', {
        form: '/shelf/lots',
        fill: {
          itemId: 'potatoes-in-the-cellar',
          origin: 'put-up',
          units,
          jarKind: '',
          madeOn: '2026-08-16',
        },
      });
    expect((await put('1½ bushels')).status).toBe(303);
    const { units } = await pages.db
      .selectFrom('jar_event')
      .select('units')
      .orderBy('seq', 'desc')
      .executeTakeFirstOrThrow();
    expect(units).toBeCloseTo(75, 6);

    const refusal = wordsOf((await put('2 crates')).body);
    expect(refusal).toContain('We have no published weight for a crate of potatoes.');
    expect(wordsOf((await put('lots of bushels')).body)).toContain('“lots of bushels”');
  });
});

describe('a price by the bushel', () => {
  const priced = (fill: Readonly<Record<string, string>>) =>
    pages.visitor.submitOn('/harvest/plum-tree', { form: '/harvest/plum-tree', fill });

  it('stays as it was said, beside the pound', async () => {
    await priced({ pricePerLb: '32', priceUnit: 'bushel' });
    const form = askedForms((await pages.visitor.open('/harvest/plum-tree')).body).find(
      ({ action }) => action === '/harvest/plum-tree',
    );

    expect(Object.fromEntries(form?.values ?? [])).toMatchObject({ pricePerLb: '32', priceUnit: 'bushel' });
    expect(wordsOf((await pages.visitor.open('/harvest')).body)).toContain('$32.00 a bushel, $0.57 a lb');
    await priced({});
    expect(await plumTree()).toMatchObject({
      price_cents_per_lb: 57,
      price_measure: 'bushel',
      price_measure_cents: 3200,
    });
  });

  it('gives way to what was paid since, and to a price by weight', async () => {
    await priced({ pricePerLb: '32', priceUnit: 'bushel' });
    await pages.db
      .updateTable('source')
      .set({ price_cents_per_lb: 80 })
      .where('id', '=', 'plum-tree')
      .execute();
    expect(wordsOf((await pages.visitor.open('/harvest')).body)).toContain('price $0.80 a lb');

    await priced({ pricePerLb: '0.60', priceUnit: 'lb' });
    expect(await plumTree()).toMatchObject({
      price_cents_per_lb: 60,
      price_measure: null,
      price_measure_cents: null,
    });
  });
});

describe('a metric household', () => {
  beforeEach(async () => {
    await pages.db.updateTable('household').set({ units: 'metric' }).execute();
  });

  it('reads kilograms alone, types them first, and is refused in kilograms', async () => {
    const list = wordsOf((await pages.visitor.open('/buying')).body);
    expect(list).toMatch(/\d kg/);
    expect(list).not.toMatch(/\d lb|about [\d¼½¾]+ (of a )?(bushel|peck)/);

    const item = await pages.visitor.open(`/items/${own.item}`);
    const form = askedForms(item.body).find(({ action }) => action.endsWith(own.recipe));
    // 6 lb are 2.7216 kg; with three decimals it may be read as thousands, and was kept as 2.722 lb.
    expect(Object.fromEntries(form?.values ?? [])).toMatchObject({
      'lb-plum': '2.7216',
      'lb-plumUnit': 'kg',
    });
    await pages.visitor.submit(item, { form: form?.action ?? '' });
    expect(await lbOfRecipe(own.recipe, 'plum')).toBeCloseTo(6, 3);

    const refused = await uncanned({ name: 'Plums, dried', crop: 'plum', lb: '2', lbUnit: 'crate' });
    expect(wordsOf(refused.body)).toContain('Write kilograms, or count in a bushel (25.4 kg)');
  });

  it('plans from as many pounds as an American one that says the same', async () => {
    await uncanned({ name: 'Plums, dried', crop: 'plum', lb: '5', lbUnit: 'kg' });
    const { year } = await loadPlanningYear(pages.db, quinceYard, today, reference);

    expect(year.recipes.find(({ name }) => name === 'Plums, dried')?.produce[0]?.lb).toBeCloseTo(11.0231, 3);
  });
});
