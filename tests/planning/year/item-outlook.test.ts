import { describe, expect, test } from 'vitest';
import { addDays, asDate, mondayOf } from '../../../shared/week.ts';
import type { PlanPath } from '../../../src/planning/answer/plan-path.ts';
import { yearWithout } from '../../../src/planning/explanation/without-harvest.ts';
import type { Plan } from '../../../src/planning/plan.ts';
import {
  type ItemAhead,
  itemOutlook,
  type OutlookPlace,
  outlookUnder,
  projectAnew,
} from '../../../src/planning/year/item-outlook.ts';
import { walkOfItem } from '../../../src/planning/year/year-walk.ts';
import { asOf, eaten, factsOf, lotOf, oats, orchard, patch, peaches, yearOf } from './orchard-street.ts';

// A pint of peaches a week; the next can be put up in week 33, and in the year after again from week 32 on.
const noWeeks = Array.from({ length: 52 }, () => 0);
const pathOf = (item: string, change: Partial<PlanPath> = {}): PlanPath =>
  ({
    item,
    madeByWeek: noWeeks,
    readyByWeek: noWeeks,
    boughtByWeek: noWeeks,
    takenByWeek: noWeeks,
    missedByWeek: noWeeks,
    stockByWeek: noWeeks,
    olderByWeek: noWeeks,
    ...change,
  }) as PlanPath;
const at = (...entries: readonly (readonly [week: number, units: number])[]) => {
  const byWeek = [...noWeeks];
  for (const [week, units] of entries) byWeek[week] = units;
  return byWeek;
};
/** What the projection is asked for an item. */
const askedOf = (change: object, item = peaches, path: PlanPath | null = null, on = asOf) => {
  const loaded = yearOf(change, on);
  let asked: (ItemAhead & { readonly place: OutlookPlace }) | undefined;
  itemOutlook(loaded, item, path && { path, weeks: loaded.year.weeks }, (place, forecast, ahead) => {
    asked = { place, ...ahead };
    return projectAnew(place, forecast, ahead);
  });
  if (asked === undefined) throw new Error('expected a projection');
  return asked;
};

describe('the shelf of one item over the year', () => {
  test('begins with what stands, in its usual jar, and what is thrown away when', () => {
    const lots = [
      lotOf('pints'),
      lotOf('quarts', { jar: 'quart', unitsLeft: 3, madeOn: asDate('2025-11-30') }),
      lotOf('empty', { unitsLeft: 0 }),
      lotOf('aside', { setAside: { at: 0, reason: 'x' } }),
      lotOf('oats', { of: oats, jar: null }),
    ];
    expect(askedOf({ lots }).lots).toEqual([
      // Eighteen months after it was put up.
      {
        lotId: 'pints',
        units: 10,
        readyFrom: '2026-01-10',
        bestQualityUntil: '2027-01-10',
        discardOn: '2027-07-10',
      },
      expect.objectContaining({ lotId: 'quarts', units: 6, discardOn: '2027-05-30' }),
    ]);
    expect(askedOf({ lots }, oats).lots).toMatchObject([{ lotId: 'oats', discardOn: null }]);
    const cold = { ...peaches, keeping: 'refrigerated', bestQualityDays: 30 } as const;
    const recipes = [{ ...factsOf().recipes[0], process: null, basedOn: 'own' }];
    expect(askedOf({ lots, recipes, items: [cold] }, cold).lots[0]?.discardOn).toBe('2026-02-09');
  });

  test('leaves out what stays for an emergency, and fills that first', () => {
    const kept = { ...peaches, emergencyUnits: 4 };
    const lots = [lotOf('pints')];
    expect(askedOf({ lots, items: [kept] }, kept).lots).toMatchObject([{ units: 6 }]);
    const short = { ...peaches, emergencyUnits: 13 };
    const path = pathOf('peaches', { readyByWeek: at([1, 9]) });
    expect(askedOf({ lots, items: [short] }, short, path)).toMatchObject({
      lots: [],
      incoming: [{ units: 6 }],
    });
  });

  test('under a plan what it makes and buys comes too, each with its dates', () => {
    const path = pathOf('peaches', { readyByWeek: at([1, 9], [2, 9]), boughtByWeek: at([2, 1]) });
    const { incoming } = askedOf({}, peaches, path);
    const monday = mondayOf('2026-W33' as never);
    expect(incoming).toEqual([
      {
        week: '2026-W33',
        units: 9,
        readyFrom: monday,
        bestQualityUntil: addDays(monday, 365),
        discardOn: '2028-02-10',
      },
      expect.objectContaining({ week: '2026-W34', units: 10 }),
    ]);
    expect(askedOf({}, oats, pathOf('oats', { boughtByWeek: at([3, 5]) })).incoming).toMatchObject([
      { units: 5, discardOn: null },
    ]);
    expect(askedOf({}).incoming).toEqual([]);
  });

  test('is kept apart by household, item and whether it is under a plan', () => {
    const places = [askedOf({}), askedOf({}, oats), askedOf({}, peaches, pathOf('peaches'))].map(
      ({ place }) => JSON.stringify(place),
    );
    expect(new Set(places).size).toBe(3);
    expect(places[0]).toContain('orchard-street');
  });

  test('as it stands lasts to the next supply; under a plan to the next season', () => {
    expect(askedOf({}).nextSupplyWeek).toBe('2026-W33');
    const inSeason = asDate('2026-08-19');
    expect(askedOf({}, peaches, null, inSeason).nextSupplyWeek).toBe('2026-W34');
    expect(askedOf({}, peaches, pathOf('peaches'), inSeason).nextSupplyWeek).toBe('2027-W32');
    expect(askedOf({ recipes: [] }).nextSupplyWeek).toBeNull();
  });

  test('looks ahead as far as the season can be late, or fail, and at the year in any case', () => {
    const times = askedOf({}).supplyTimes ?? [];
    expect(times.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1, 12);
    expect(askedOf({}).weeks).toBe(52);
    const inSeason = asDate('2026-08-19');
    // From week 34 the next season, in week 32, is 51 weeks ahead, two weeks late at most.
    expect(askedOf({}, peaches, pathOf('peaches'), inSeason).weeks).toBe(53);
    const failing = { sources: [{ ...orchard, poorYearChance: 0.2, poorYearShare: 0 }, patch] };
    const asked = askedOf(failing, peaches, pathOf('peaches'), inSeason);
    expect(asked.supplyTimes?.at(-1)?.chance).toBeCloseTo(0.2, 12);
    expect(asked.weeks).toBe(103);
    // What runs already and what is bought come when they are planned.
    expect(askedOf({}, peaches, null, inSeason)).not.toHaveProperty('supplyTimes');
    expect(askedOf({}, oats)).not.toHaveProperty('supplyTimes');
    expect(askedOf({ recipes: [] })).toMatchObject({ weeks: 52 });
  });

  test('shows the year, and nothing of what nobody eats', () => {
    const loaded = yearOf({ lots: [lotOf('pints')] }, asDate('2026-08-19'));
    const shown = itemOutlook(loaded, peaches, { path: pathOf('peaches'), weeks: loaded.year.weeks });
    expect(shown?.weeks.map(({ week }) => week)).toEqual(loaded.year.weeks);
    expect(shown?.runOut.p50).not.toBeNull();
    expect(itemOutlook(yearOf({ declaredUses: new Map() }), peaches, null)).toBeNull();
  });
});

describe('how long things last under a plan', () => {
  test('is asked item by item, letting others go on before each', async () => {
    let paused = 0;
    const loaded = yearOf({ lots: [lotOf('pints')] });
    const ask = outlookUnder(loaded, projectAnew, async () => {
      paused += 1;
    });
    const lasting = await ask(pathOf('peaches'));
    const shown = itemOutlook(loaded, peaches, { path: pathOf('peaches'), weeks: loaded.year.weeks });
    expect(lasting).toEqual({ runOutWeek: shown?.runOut, chanceOfLasting: shown?.chanceOfLasting });
    expect(paused).toBe(1);
    expect(await ask(pathOf('gone'))).toMatchObject({ runOutWeek: { p50: null }, chanceOfLasting: 1 });
    const silent = outlookUnder(yearOf({ declaredUses: new Map() }), projectAnew, async () => {});
    expect(await silent(pathOf('peaches'))).toMatchObject({ chanceOfLasting: 1 });
  });
});

describe('the year without a harvest', () => {
  const lots = [lotOf('pints', { unitsLeft: 4 }), lotOf('oats', { of: oats, jar: null, unitsLeft: 200 })];
  const planOf = (...spend: readonly number[]) =>
    ({ weeks: spend.map((cents) => ({ spend: cents })) }) as unknown as Plan;
  const under = (paths: readonly PlanPath[], ...spend: readonly number[]) => ({
    plan: planOf(...spend),
    paths,
  });
  const without = (now: ReturnType<typeof under>, instead: ReturnType<typeof under>) => {
    const loaded = yearOf({ lots });
    return yearWithout(loaded, loaded.year.weeks, { now, instead });
  };

  test('tells what is put up and bought less, and in how many weeks more there is likely none', () => {
    const full = pathOf('peaches', { madeByWeek: at([1, 60]), readyByWeek: at([1, 60]) });
    const { items, spend } = without(
      under([full, pathOf('oats')], 500, 700),
      under([pathOf('peaches'), pathOf('oats')], 200),
    );
    expect(spend).toEqual({ now: 1200, instead: 200 });
    expect(items).toHaveLength(1);
    expect(items[0]).toMatchObject({
      item: { id: 'peaches' },
      now: { putUp: 60, bought: 0, weeksWithout: 0 },
      instead: { putUp: 0 },
    });
    // Four pints at one a week: likely gone in the fifth week, and none for the rest of the year.
    expect(items[0]?.instead.weeksWithout).toBeGreaterThan(44);
  });

  test('leaves out what differs by less than half a unit and no week', () => {
    const near = (units: number) => pathOf('oats', { boughtByWeek: at([1, units]) });
    expect(without(under([near(10)]), under([near(10.4)])).items).toEqual([]);
    expect(without(under([near(10)]), under([near(10.5)])).items).toMatchObject([
      { item: { id: 'oats' }, now: { bought: 10 }, instead: { bought: 10.5 } },
    ]);
    const made = (units: number) => pathOf('oats', { madeByWeek: at([1, units]) });
    expect(without(under([made(10)]), under([made(9.5)])).items).toHaveLength(1);
    expect(without(under([made(10)]), under([made(9.6)])).items).toEqual([]);
  });

  test('puts first what loses most weeks, then what is put up less, then by name', () => {
    const berries = pathOf('berries', { madeByWeek: at([44, 8]) });
    const peachPath = pathOf('peaches', { madeByWeek: at([1, 60]), readyByWeek: at([1, 60]) });
    const oatPath = pathOf('oats', { madeByWeek: at([1, 8]) });
    const order = (now: readonly PlanPath[]) =>
      without(under(now), under(now.map(({ item }) => pathOf(item)))).items.map(({ item }) => item.name);
    expect(order([oatPath, berries, peachPath])[0]).toBe('Peaches');
    expect(order([berries, oatPath]).slice(0, 2)).toEqual(['Oats', 'Strawberries']);
    expect(order([{ ...berries, madeByWeek: at([44, 9]) }, oatPath]).slice(0, 2)).toEqual([
      'Strawberries',
      'Oats',
    ]);
  });

  test('has nothing of what no plan speaks of, or what is no longer kept', () => {
    expect(without(under([]), under([])).items).toEqual([]);
    const retired = yearOf({ items: factsOf().items.map((item) => ({ ...item, retiredOn: asOf })) });
    const full = pathOf('peaches', { madeByWeek: at([1, 60]) });
    expect(
      yearWithout(retired, retired.year.weeks, { now: under([full]), instead: under([]) }).items,
    ).toEqual([]);
  });
});

describe('the walk of one item of a household', () => {
  const walk = (change: object = {}, paths: readonly PlanPath[] | null = null, item = peaches) => {
    const loaded = yearOf({
      lots: [lotOf('pints'), lotOf('quarts', { jar: 'quart', unitsLeft: 3 })],
      ...change,
    });
    return walkOfItem(loaded, item.id, paths && { paths, year: loaded.year });
  };

  test('counts what stands in its own jar, and says what of it stands in others', () => {
    const aside = lotOf('aside', { jar: 'half-pint', setAside: { at: 0, reason: 'x' } });
    const empty = lotOf('empty', { jar: 'half-pint', unitsLeft: 0 });
    const quarts = [3, 2].map((unitsLeft, at) => lotOf(`q${at}`, { jar: 'quart', unitsLeft }));
    expect(walk({ lots: [lotOf('pints'), ...quarts, aside, empty] })).toMatchObject({
      standing: 20,
      otherJars: [{ kind: 'quart/regular', jars: 5 }],
    });
    expect(walk({ lots: [lotOf('pints')] })?.otherJars).toEqual([]);
    expect(walk({ lots: [lotOf('oats', { of: oats, jar: null })] }, null, oats)?.otherJars).toEqual([]);
  });

  test('counts what a plan still makes and buys from this week on', () => {
    const path = pathOf('peaches', { madeByWeek: at([0, 9], [3, 18]), boughtByWeek: at([5, 2]) });
    expect(walk({}, [path])?.planned).toBe(29);
    expect(walk({}, [pathOf('oats', { madeByWeek: at([3, 18]) })])?.planned).toBe(0);
    expect(walk()?.planned).toBe(0);
    const loaded = yearOf({}, asDate('2026-08-19'));
    const earlier = { paths: [path], year: yearOf().year };
    // The plan of two weeks ago: its first two weeks are over.
    expect(walkOfItem(loaded, peaches.id, earlier)?.planned).toBe(20);
  });

  test('is in whole units, in tenths of what is weighed', () => {
    const uses = (amount: number) => ({
      declaredUses: new Map([eaten(oats, amount), eaten(peaches, 1)]),
      lots: [lotOf('oats', { of: oats, jar: null, unitsLeft: 3.25 })],
    });
    expect(walk(uses(2), null, oats)?.standing).toBe(3.3);
    const counted = { ...oats, unit: 'bag' as const };
    expect(walk({ ...uses(2), items: [counted] }, null, counted)?.standing).toBe(3);
  });

  test('is none of what is no longer kept or not there', () => {
    expect(walk({ items: [{ ...peaches, retiredOn: asOf }] })).toBeNull();
    expect(walk({ items: [oats] })).toBeNull();
  });
});
