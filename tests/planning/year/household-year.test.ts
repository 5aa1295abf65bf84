import { describe, expect, test } from 'vitest';
import { asDate, weeksFrom } from '../../../shared/week.ts';
import type { Material, Supply } from '../../../src/household/supplies.ts';
import { crockQuartsFree } from '../../../src/planning/planning-year.ts';
import { copyOf, itemOf } from '../../preserving/own-kitchen.ts';
import {
  asOf,
  berries,
  berryBatch,
  eaten,
  factsOf,
  fetchedOf,
  lotOf,
  oats,
  orchard,
  patch,
  peachBatch,
  peaches,
  season,
  sourceOf,
  yearOf,
} from './orchard-street.ts';

const weekAt = (change: object, id: string) => {
  const item = yearOf(change).year.items.find((one) => one.id === id);
  if (item === undefined) throw new Error(`${id} is not planned`);
  return item;
};
const harvest = (change: object, id: string, on = asOf) => {
  const { year } = yearOf(change, on);
  const source = year.sources.find((one) => one.id === id);
  return Object.fromEntries(
    year.weeks.flatMap((week, at) => {
      const lb = source?.lbByWeek[at];
      return lb ? [[week, Math.round(lb * 1e6) / 1e6]] : [];
    }),
  );
};

describe('the weeks of a household’s year', () => {
  test('are the 52 from the one of today on', () => {
    expect(yearOf().year.weeks).toEqual(weeksFrom('2026-W32' as never, 52));
    expect(yearOf().year.asOf).toBe('2026-08-05');
  });

  test('begin with the week to come on a Sunday, where weeks begin on Sundays', () => {
    const sundays = { household: { ...factsOf().household, weekStartsOn: 'sunday' } };
    expect(yearOf(sundays, asDate('2026-08-08')).year.weeks[0]).toBe('2026-W32');
    expect(yearOf(sundays, asDate('2026-08-09')).year.weeks[0]).toBe('2026-W33');
    expect(yearOf({}, asDate('2026-08-09')).year.weeks[0]).toBe('2026-W32');
  });

  test('are as many in every list of the year', () => {
    const { year } = yearOf({
      daysOff: { away: [{ fromOn: '2026-12-20', untilOn: '2027-01-05' }], schoolHolidays: [] },
      hours: {
        ...factsOf().hours,
        who: ['Ada', 'Bo'],
        weeks: [{ week: '2026-W35', sessions: 2, hoursPerSession: 3, reason: null }],
      },
      recipes: [{ ...peachBatch, season: { fromMonth: 8, untilMonth: 9 } }, berryBatch],
    });
    const lists = Object.entries({
      ...year.time,
      ...Object.fromEntries(year.recipes.map((recipe) => [recipe.id, recipe.allowedByWeek])),
      ...Object.fromEntries(year.items.map((item) => [item.id, item.useByWeek])),
      ...Object.fromEntries(year.items.map((item) => [`${item.id} given`, item.givenByWeek])),
      ...Object.fromEntries(year.sources.map((source) => [source.id, source.lbByWeek])),
      ...Object.fromEntries(year.sources.map((source) => [`${source.id} last`, source.lastUseWeekByWeek])),
      fund: year.fund.setAsideByWeek,
    }).flatMap(([name, list]) => (Array.isArray(list) ? [{ name, weeks: list.length }] : []));
    expect(lists.length).toBeGreaterThan(9);
    for (const { name, weeks } of lists) expect({ name, weeks }).toEqual({ name, weeks: 52 });
  });
});

describe('its canning days', () => {
  test('of unlike length count with their mean, and the longest bounds a batch', () => {
    const wednesday = { id: 'short', weekday: 3, which: 'every', hours: 2 };
    const saturday = { id: 'long', weekday: 6, which: 'every', hours: 6 };
    const held = (...rules: readonly object[]) => yearOf({ hours: { ...factsOf().hours, rules } }).year.time;

    expect(new Set(held(wednesday, saturday).hoursPerSessionByWeek)).toEqual(new Set([4]));
    expect(held(wednesday, saturday).longestSessionByWeek).toEqual(Array.from({ length: 52 }, () => 6));
    expect(held(saturday)).not.toHaveProperty('longestSessionByWeek');
  });
});

describe('batches begun on an earlier day', () => {
  const jars = itemOf('Sauerkraut', { id: 'kraut-jars' as never });
  const kraut = copyOf('sauerkraut', {}, { id: 'kraut' as never, itemId: jars.id });
  const begun = (recipeId: string) => ({
    id: 'standing',
    recipeId,
    batches: 2,
    begun: [{ position: 1, way: 'at 70 to 75 F', begunAt: '2026-07-20T10:00' }],
    isThrownAway: false,
  });
  const inYear = (recipes: readonly object[], ...batches: readonly object[]) =>
    yearOf({ items: [peaches, jars], recipes, preparations: { batches, filled: [] } }).year.begun;

  test('are in the year with their recipe; where none stand, or the recipe is not planned, the year has none', () => {
    expect(inYear([peachBatch, kraut], begun('kraut'))).toMatchObject([
      { recipeId: 'kraut', batches: 2, begunOn: '2026-07-20' },
    ]);
    expect(inYear([peachBatch, kraut])).toBeUndefined();
    // Kraut in jars called peaches is left out of the year.
    expect(inYear([peachBatch, { ...kraut, itemId: peaches.id }], begun('kraut'))).toBeUndefined();
  });
});

describe('what its sources give', () => {
  test('is by the days of their season, the last day counted', () => {
    expect(harvest({}, 'orchard')).toEqual({
      '2026-W33': 70,
      '2026-W34': 70,
      '2026-W35': 70,
      '2026-W36': 70,
    });
    const toMonday = sourceOf('orchard', 'peach', [season('2026-08-10', '2026-08-17', 70)]);
    expect(harvest({ sources: [toMonday] }, 'orchard')).toEqual({ '2026-W33': 70, '2026-W34': 10 });
  });

  test('is on the days on which it is picked most, where they were said, the last of them counted', () => {
    const mostActive = { fromOn: asDate('2026-08-17'), untilOn: asDate('2026-08-25') };
    const short = sourceOf('orchard', 'peach', [season('2026-08-10', '2026-09-06', 70, { mostActive })]);
    expect(harvest({ sources: [short] }, 'orchard')).toEqual({ '2026-W34': 70, '2026-W35': 10 });
  });

  test('is nothing while nobody is at home, and of a crop that runs late so much later', () => {
    const away = { away: [{ fromOn: '2026-08-12', untilOn: '2026-08-24' }], schoolHolidays: [] };
    expect(harvest({ daysOff: away }, 'orchard')).toEqual({ '2026-W33': 20, '2026-W35': 70, '2026-W36': 70 });
    const lateness = [{ year: 2026, crop: 'peach', days: 7 }];
    expect(Object.keys(harvest({ lateness }, 'orchard'))).toEqual([
      '2026-W34',
      '2026-W35',
      '2026-W36',
      '2026-W37',
    ]);
    expect(Object.keys(harvest({ lateness }, 'patch'))).toEqual(Object.keys(harvest({}, 'patch')));
  });

  test('in a year nobody wrote down is what an ordinary year gives', () => {
    const failed = sourceOf('patch', 'strawberry', [
      season('2026-06-07', '2026-06-27', 0, { usualLbPerWeek: 21 as never }),
    ]);
    expect(harvest({ sources: [failed] }, 'patch')).toEqual({
      '2027-W23': 21,
      '2027-W24': 21,
      '2027-W25': 21,
    });
  });

  test('is less what was fetched from it in that week, and never less than nothing', () => {
    const on = asDate('2026-08-12');
    const fetched = (lb: number, change: object = {}) => [fetchedOf({ on, lb, lbLeft: 0, ...change })];
    expect(harvest({ fetched: fetched(30) }, 'orchard')['2026-W33']).toBe(40);
    expect(harvest({ fetched: [...fetched(30), ...fetched(25)] }, 'orchard')['2026-W33']).toBe(15);
    expect(harvest({ fetched: fetched(90) }, 'orchard')['2026-W33']).toBeUndefined();
    expect(harvest({ fetched: fetched(30) }, 'orchard')['2026-W34']).toBe(70);
    expect(harvest({ fetched: fetched(30, { sourceId: 'patch' }) }, 'orchard')['2026-W33']).toBe(70);
    // Weeks that begin on Sundays: Sunday, August 16 is of week 34.
    const sundays = { household: { ...factsOf().household, weekStartsOn: 'sunday' } };
    const late = fetched(30, { on: asDate('2026-08-16') });
    expect(harvest({ ...sundays, fetched: late }, 'orchard')['2026-W34']).toBe(
      (harvest(sundays, 'orchard')['2026-W34'] as number) - 30,
    );
  });

  test('costs its price in every week and keeps as it was said', () => {
    const risky = { ...orchard, poorYearChance: 0.2, poorYearShare: 0.5, fallBack: 'buy' };
    const source = yearOf({ sources: [risky] }).year.sources[0];
    expect(source).toMatchObject({
      poorYearChance: 0.2,
      poorYearShare: 0.5,
      fallBack: 'buy',
      useByDays: 3,
      kind: 'market',
    });
    expect(new Set(source?.priceCentsPerLbByWeek)).toEqual(new Set([150]));
    expect(source?.priceCentsPerLbByWeek).toHaveLength(52);
  });
});

describe('produce at hand', () => {
  const atHand = (...fetched: readonly ReturnType<typeof fetchedOf>[]) =>
    yearOf({ fetched }).year.sources.filter(({ isAtHand }) => isAtHand);

  test('is a source that gives it now and only now, for nothing, until its last day', () => {
    expect(atHand(fetchedOf({ lbLeft: 12 }))).toMatchObject([
      {
        id: 'peach--at-hand-until-2026-08-09',
        name: 'peach at hand',
        crop: 'peach',
        kind: 'market',
        useByDays: 4,
        poorYearChance: 0,
        poorYearShare: 1,
        fallBack: 'do-without',
        isAtHand: true,
      },
    ]);
    const [source] = atHand(fetchedOf({ lbLeft: 12 }));
    expect(source?.lbByWeek).toEqual([12, ...Array.from({ length: 51 }, () => 0)]);
    expect(new Set(source?.priceCentsPerLbByWeek)).toEqual(new Set([0]));
    // Canning days are Saturdays: August 8 is the last before Sunday, August 9.
    expect(source?.lastUseWeekByWeek).toEqual(Array.from({ length: 52 }, (_, at) => at));
    expect(atHand(fetchedOf({ useBy: asDate('2026-08-15') }))[0]?.lastUseWeekByWeek?.[0]).toBe(1);
    expect(atHand(fetchedOf({ useBy: asDate('2026-08-07') }))[0]?.lastUseWeekByWeek?.[0]).toBe(-1);
  });

  test('of one crop with one last day is one, of another day another', () => {
    const sources = atHand(
      fetchedOf({ lbLeft: 12 }),
      fetchedOf({ lbLeft: 8, sourceId: 'patch' as never }),
      fetchedOf({ lbLeft: 5, useBy: asDate('2026-08-20') }),
      fetchedOf({ lbLeft: 3, crop: 'strawberry' as never }),
    );
    expect(sources.map(({ id, lbByWeek }) => [id, lbByWeek[0]])).toEqual([
      ['peach--at-hand-until-2026-08-09', 20],
      ['peach--at-hand-until-2026-08-20', 5],
      ['strawberry--at-hand-until-2026-08-09', 3],
    ]);
  });

  test('is none of what was taken, or what is past its last day; on its last day it still is', () => {
    expect(atHand(fetchedOf({ lbLeft: 0 }))).toEqual([]);
    expect(atHand(fetchedOf({ useBy: asDate('2026-08-04') }))).toEqual([]);
    expect(atHand(fetchedOf({ useBy: asDate('2026-08-05') }))).toHaveLength(1);
  });

  test('what keeps longer than the year waits to its end and no further', () => {
    const [source] = atHand(fetchedOf({ useBy: asDate('2028-01-01') }));
    expect(source?.lastUseWeekByWeek?.[0]).toBe(51);
  });

  test('lets a recipe be begun out of its months while it keeps', () => {
    const allowed = (fetched: readonly ReturnType<typeof fetchedOf>[]) =>
      yearOf({ fetched, recipes: [{ ...peachBatch, season: { fromMonth: 9, untilMonth: 9 } }] }).year
        .recipes[0]?.allowedByWeek;
    expect(allowed([])?.[0]).toBe(false);
    expect(allowed([fetchedOf({ lbLeft: 12 })])?.slice(0, 3)).toEqual([true, false, false]);
    expect(allowed([fetchedOf({ lbLeft: 12, useBy: asDate('2026-08-15') })])?.slice(0, 3)).toEqual([
      true,
      true,
      false,
    ]);
    expect(allowed([fetchedOf({ lbLeft: 0 })])?.[0]).toBe(false);
    expect(allowed([fetchedOf({ lbLeft: 12, crop: 'strawberry' as never })])?.[0]).toBe(false);
    expect(allowed([fetchedOf({ lbLeft: 12, useBy: asDate('2026-08-04') })])?.[0]).toBe(false);
  });
});

describe('an item as it is planned', () => {
  test('is eaten as was said, today’s week for the days that are left of it', () => {
    const { useByWeek } = weekAt({}, 'peaches');
    expect(useByWeek[0]).toBeCloseTo(5 / 7, 9);
    expect(useByWeek.slice(1)).toEqual(Array.from({ length: 51 }, () => 1));
  });

  test.each([
    ['canned', 365, { bestQualityWeeks: 52 }],
    ['canned', 27, { bestQualityWeeks: 3 }],
    ['canned', 28, { bestQualityWeeks: 4 }],
    ['canned', 3, { bestQualityWeeks: 1 }],
    // Put up on a Saturday and eaten to a Sunday: a day more than the weeks.
    ['refrigerated', 28, { bestQualityWeeks: 3, neverPastDays: true }],
    ['refrigerated', 29, { bestQualityWeeks: 4, neverPastDays: true }],
    ['refrigerated', 3, { bestQualityWeeks: 1, neverPastDays: true }],
  ] as const)('%s for %i days keeps whole weeks: %j', (keeping, bestQualityDays, kept) => {
    const item = weekAt({ items: [{ ...peaches, keeping, bestQualityDays }], recipes: [] }, 'peaches');
    expect({
      bestQualityWeeks: item.bestQualityWeeks,
      ...('neverPastDays' in item ? { neverPastDays: item.neverPastDays } : {}),
    }).toEqual(kept);
  });

  test('takes room in the freezer only where it is frozen and its room was said', () => {
    expect(weekAt({}, 'berries').freezerQuartsPerUnit).toBe(1.5);
    expect(weekAt({}, 'peaches')).not.toHaveProperty('freezerQuartsPerUnit');
    expect(weekAt({ items: [{ ...berries, freezerQuarts: null }] }, 'berries')).not.toHaveProperty(
      'freezerQuartsPerUnit',
    );
    expect(weekAt({ items: [{ ...peaches, freezerQuarts: 2 }] }, 'peaches')).not.toHaveProperty(
      'freezerQuartsPerUnit',
    );
  });

  test('stands as its lots do: in its usual jar, by the weeks of their dates, none that is empty or set aside', () => {
    const lots = [
      lotOf('pints', { readyFrom: asDate('2026-08-20'), bestQualityUntil: asDate('2027-03-01') }),
      lotOf('quarts', { jar: 'quart', unitsLeft: 3 }),
      lotOf('empty', { unitsLeft: 0 }),
      lotOf('aside', { setAside: { at: 0, reason: 'x' } }),
      lotOf('oats-bag', { of: oats, jar: null, unitsLeft: 4 }),
    ];
    expect(weekAt({ lots }, 'peaches').openingLots).toEqual([
      {
        lotId: 'pints',
        units: 10,
        jars: 10,
        jarKind: 'pint/regular',
        readyFrom: '2026-W34',
        bestQualityUntil: '2027-W09',
      },
      expect.objectContaining({ lotId: 'quarts', units: 6, jars: 3, jarKind: 'quart/regular' }),
    ]);
    expect(weekAt({ lots }, 'oats').openingLots).toMatchObject([
      { lotId: 'oats-bag', units: 4, jars: 0, jarKind: null },
    ]);
  });

  test('keeps its least for the family and what stays for an emergency', () => {
    const items = [{ ...peaches, familyMinimumUnits: 20, emergencyUnits: 6 }, berries];
    expect(weekAt({ items }, 'peaches')).toMatchObject({ familyMinimumUnits: 20, emergencyUnits: 6 });
    expect(weekAt({ items }, 'berries')).not.toHaveProperty('emergencyUnits');
  });

  test('costs in each week what its pack costs then, a sale with its last month', () => {
    const sale = { fromMonth: 11, untilMonth: 12, price: 399 };
    const packs = new Map([[oats.id, [{ itemId: oats.id, id: 'bag', units: 5, price: 499, sale }]]]);
    const [pack] = weekAt({ packs }, 'oats').packs;
    expect(pack).toMatchObject({ id: 'bag', units: 5 });
    expect(pack?.priceByWeek).toHaveLength(52);
    const { weeks } = yearOf().year;
    const cheap = weeks.filter((_, at) => pack?.priceByWeek[at] === 399);
    expect(cheap[0]).toBe('2026-W45');
    expect(cheap.at(-1)).toBe('2026-W53');
    expect(new Set(pack?.priceByWeek)).toEqual(new Set([499, 399]));
    expect(weekAt({ packs }, 'peaches').packs).toEqual([]);
  });
});

describe('gifts, occasions and what nobody said', () => {
  const occasion = (kind: string, on: string, units: number, itemId = peaches.id) => ({
    id: `${kind}-${on}`,
    itemId,
    kind,
    on: asDate(on),
    units,
    note: '',
    isYearly: false,
  });
  const occasions = [
    occasion('gift', '2026-12-20', 4),
    occasion('promised', '2026-12-16', 2),
    occasion('occasion', '2026-12-18', 3),
    occasion('gift', '2026-12-21', 5, berries.id),
  ];

  test('gifts and promises leave in their week with their jars, an occasion is eaten', () => {
    const item = weekAt({ occasions }, 'peaches');
    const at = yearOf().year.weeks.indexOf('2026-W51' as never);
    expect(item.givenByWeek?.[at]).toBe(6);
    expect(item.givenByWeek?.reduce((sum, units) => sum + units, 0)).toBe(6);
    expect(item.useByWeek[at]).toBeCloseTo(1 + 9, 9);
    expect(weekAt({ occasions }, 'berries').givenByWeek?.[at + 1]).toBe(5);
  });

  test('of what nobody says they eat only they are planned, and it has no target of its own', () => {
    const silent = { occasions, declaredUses: new Map([eaten(berries, 0.5)]) };
    const item = weekAt(silent, 'peaches');
    expect(item.useByWeek.reduce((sum, units) => sum + units, 0)).toBe(9);
    expect(item.yearlyTarget).toBe(9);
    expect(item.reserveUnits).toBe(0);
    expect(yearOf(silent).targetByItem.has(peaches.id)).toBe(false);
    const handTargets = new Map([[peaches.id, { units: 26, setOn: asOf }]]);
    expect(weekAt({ ...silent, handTargets }, 'peaches').yearlyTarget).toBe(26);
    expect(weekAt({ ...silent, handTargets, occasions: [] }, 'peaches').useByWeek[7]).toBeCloseTo(26 / 52, 9);
  });

  test('a target set by hand is the year’s, its use scaled with it', () => {
    const handTargets = new Map([[peaches.id, { units: 30, setOn: asOf }]]);
    const item = weekAt({ handTargets }, 'peaches');
    expect(item.yearlyTarget).toBe(30);
    expect(item.reserveUnits + item.useByWeek.reduce((sum, units) => sum + units, 0)).toBeCloseTo(30, 9);
  });

  test('of a reserve what is not worth a batch is let go, of no target set by hand and of nothing that is bought', () => {
    const { targetByItem } = yearOf();
    const letGo = targetByItem.get(peaches.id)?.notWorthABatch ?? 0;
    expect(letGo).toBeGreaterThan(0);
    expect(weekAt({}, 'peaches').reserveNotWorthABatch).toBe(letGo);
    const handTargets = new Map([[peaches.id, { units: 30, setOn: asOf }]]);
    expect(weekAt({ handTargets }, 'peaches').reserveNotWorthABatch).toBeUndefined();
    expect(weekAt({}, 'oats').reserveNotWorthABatch).toBeUndefined();
  });

  test('the target is what a year’s use and the reserve of its parts come to', () => {
    const { targetByItem } = yearOf();
    const { parts, fromForecast, units } = targetByItem.get(peaches.id) ?? { parts: undefined };
    const item = weekAt({}, 'peaches');
    expect(parts?.use).toBeCloseTo(51 + 5 / 7, 9);
    expect(item.reserveUnits).toBeCloseTo((parts?.hungryYear ?? 0) + (parts?.failedCrop ?? 0), 9);
    expect(fromForecast).toBeCloseTo((parts?.use ?? 0) + item.reserveUnits, 9);
    expect(item.yearlyTarget).toBe(units);
    expect(units).toBe(Math.ceil(fromForecast ?? 0));
  });
});

describe('when something new can come', () => {
  const supply = (change: object, id: string) => yearOf(change).supplyByItem.get(id as never);

  test('of what is bought, always, and next week', () => {
    expect(supply({}, 'oats')).toEqual({
      canArrive: Array.from({ length: 104 }, () => true),
      nextSupplyWeek: '2026-W33',
      nextSeasonWeek: '2026-W33',
      seasonAfterWeek: null,
      failsChance: 0,
      by: 'bought',
    });
  });

  test('of what is made, while its crop is ripe, next and in the season after', () => {
    const peach = supply({}, 'peaches');
    expect(peach).toMatchObject({
      nextSupplyWeek: '2026-W33',
      nextSeasonWeek: '2026-W33',
      seasonAfterWeek: '2027-W32',
      by: 'made',
    });
    expect(peach?.canArrive.slice(0, 6)).toEqual([false, true, true, true, true, false]);
    expect(supply({}, 'berries')).toMatchObject({ nextSupplyWeek: '2027-W23', seasonAfterWeek: '2028-W23' });
    // A season that runs already is not the next one.
    expect(yearOf({}, asDate('2026-08-19')).supplyByItem.get(peaches.id)).toMatchObject({
      nextSupplyWeek: '2026-W34',
      nextSeasonWeek: '2027-W32',
    });
  });

  test('of what nothing is made from, never', () => {
    expect(supply({ recipes: [berryBatch] }, 'peaches')).toMatchObject({
      nextSupplyWeek: null,
      nextSeasonWeek: null,
      seasonAfterWeek: null,
      failsChance: 0,
      by: 'made',
    });
  });

  test('not at all, with the chance that its crop fails', () => {
    const failing = { ...orchard, poorYearChance: 0.2, poorYearShare: 0 };
    expect(supply({ sources: [failing, patch] }, 'peaches')?.failsChance).toBeCloseTo(0.2, 12);
    expect(supply({ sources: [failing, patch] }, 'berries')?.failsChance).toBe(0);
    const reserve = weekAt({ sources: [failing, patch] }, 'peaches').reserveUnits;
    expect(
      yearOf({ sources: [failing, patch] }).targetByItem.get(peaches.id)?.parts.failedCrop,
    ).toBeGreaterThan(0);
    expect(reserve).toBeGreaterThan(weekAt({}, 'peaches').reserveUnits);
  });

  test('what is no longer kept is not bought again, and nothing of it is planned', () => {
    const retired = { items: [peaches, { ...oats, retiredOn: asOf }, { ...berries, retiredOn: asOf }] };
    expect(supply(retired, 'oats')).toMatchObject({ by: 'made', nextSupplyWeek: null });
    const { year, recipes, targetByItem } = yearOf(retired);
    expect(year.items.map(({ id }) => id)).toEqual(['peaches']);
    expect(recipes.planned.map(({ id }) => id)).toEqual(['peach-batch']);
    expect([...targetByItem.keys()]).toEqual(['peaches']);
  });

  test('the year hands over what is eaten until it comes again, two weeks of what is bought', () => {
    expect(weekAt({}, 'peaches').yearEndUnits).toBeCloseTo(1, 9);
    expect(weekAt({}, 'berries').yearEndUnits).toBeCloseTo(0.5 * 44, 9);
    expect(weekAt({}, 'oats').yearEndUnits).toBeCloseTo(4, 9);
    expect(weekAt({}, 'oats')).not.toHaveProperty('afterYear');
    expect(weekAt({}, 'peaches').afterYear).toMatchObject({
      seasonWeeks: [1],
      isRunning: false,
      failsChance: 0,
    });
  });
});

describe('what else the planner is told', () => {
  test('room in all freezers, and in no shelf or cellar', () => {
    const places = [
      { id: 'a', name: 'A', kind: 'freezer', capacityQuarts: 100 },
      { id: 'b', name: 'B', kind: 'freezer', capacityQuarts: 20 },
      { id: 'c', name: 'C', kind: 'freezer', capacityQuarts: null },
      { id: 'd', name: 'D', kind: 'cellar', capacityQuarts: 500 },
    ];
    expect(yearOf({ places }).year.storage).toEqual({
      freezerQuarts: 120,
      freezerQuartsPerDay: 6,
      crockQuarts: 20,
    });
    const nobodySaid = { household: { ...factsOf().household, freezerQuartsPerDay: null } };
    expect(yearOf(nobodySaid).year.storage.freezerQuartsPerDay).toBe(0);
  });

  test('crocks that are full: a ferment that stands in one since last week leaves the rest of them, until its weeks are over', () => {
    const ferment = { ...berryBatch, crock: { quarts: 8, days: 21 } };
    const lot = lotOf('kraut', {
      of: berries,
      jar: null,
      recipeId: ferment.id,
      madeOn: asDate('2026-07-30'),
      readyFrom: asDate('2026-08-20'),
      madeUnits: ferment.yieldHigh,
      unitsLeft: ferment.yieldHigh,
    });
    const { storage } = yearOf({ recipes: [peachBatch, ferment], lots: [lot] }).year;
    expect(storage.crockQuartsTakenByWeek?.slice(0, 4)).toEqual([8, 8, 0, 0]);
    expect(crockQuartsFree(storage, 1)).toBe(12);
  });

  test('groups count in one jar: a quart of peaches is two pints, a bag is one', () => {
    const groups = [
      {
        id: 'fruit',
        name: 'Fruit',
        totalUnits: 60,
        unitJar: 'pint/wide',
        leastKinds: 2,
        largestShare: 0.6,
        members: ['peaches', 'berries', 'gone'],
      },
      {
        id: 'all',
        name: 'All',
        totalUnits: 60,
        unitJar: null,
        leastKinds: 1,
        largestShare: 1,
        members: ['peaches'],
      },
    ];
    const items = [{ ...peaches, usualJar: 'quart/regular' }, berries];
    expect(yearOf({ groups, items }).year.groups).toEqual([
      {
        id: 'fruit',
        name: 'Fruit',
        totalUnits: 60,
        leastKinds: 2,
        largestShare: 0.6,
        members: [
          { itemId: 'peaches', groupUnitsPerUnit: 2 },
          { itemId: 'berries', groupUnitsPerUnit: 1 },
          { itemId: 'gone', groupUnitsPerUnit: 1 },
        ],
      },
      expect.objectContaining({ members: [{ itemId: 'peaches', groupUnitsPerUnit: 1 }] }),
    ]);
  });

  test('what spoils is bought fresh: raw chicken at most two days before, sugar whenever', () => {
    const supply = (name: string) =>
      ({ id: name, name, unit: 'lb', packQuantity: 1, packPrice: 100, onHand: 0 }) as unknown as Supply;
    const { supplies } = yearOf({ supplies: [supply('chicken'), supply('sugar')] }).year;
    expect(supplies).toMatchObject([{ id: 'chicken', freshDays: 2 }, { id: 'sugar' }]);
    expect(supplies[1]).not.toHaveProperty('freshDays');
  });

  test('decisions about what is planned here, and of what is bought those from this week on', () => {
    const kept = [
      { recipeId: 'peach-batch', week: '2026-W34', decision: 'pinned', batches: 2 },
      { recipeId: 'of-before', week: '2026-W34', decision: 'ruled-out' },
    ];
    const line = (id: string, week: string, decision: string) => ({
      id,
      week,
      kind: 'supply',
      what: id,
      pack: null,
      decision,
    });
    const purchases = [
      line('old', '2026-W31', 'skipped'),
      line('now', '2026-W32', 'bought'),
      line('next', '2026-W33', 'skipped'),
    ];
    const { year } = yearOf({ kept, purchases });
    expect(year.kept).toEqual([kept[0]]);
    expect(year.purchasesKnown).toEqual(['now', 'next']);
    expect(year.skipped).toEqual([{ week: '2026-W33', kind: 'supply', what: 'next' }]);
    expect(yearOf({ purchases: [line('old', '2026-W31', 'skipped')] }).year).not.toHaveProperty(
      'purchasesKnown',
    );
    expect(yearOf({ purchases: [line('now', '2026-W32', 'bought')] }).year).not.toHaveProperty('skipped');
  });

  test('of by-products what may still be used on a canning day', () => {
    const material = (waitingBy: Material['waitingBy']) =>
      ({
        id: 'pulp',
        name: 'Pulp',
        unit: 'lb',
        keepsDaysCold: 3,
        keepsMonthsFrozen: null,
        quartsPerUnit: 1,
        waiting: 9,
        waitingBy,
      }) as Material;
    const opening = (...waitingBy: Material['waitingBy']) => {
      const [planned] = yearOf({ materials: [material(waitingBy)] }).year.materials;
      expect(planned).not.toHaveProperty('waiting');
      return { opening: planned?.opening, lasts: planned?.openingLasts };
    };
    const until = (day: string, quantity: number) => ({ quantity, useBy: asDate(day) });
    // Saturdays are canning days: August 8, 15, 22.
    expect(opening(until('2026-08-07', 2), until('2026-08-08', 3), until('2026-08-15', 4))).toEqual({
      opening: 7,
      lasts: [
        { quantity: 3, weeks: 0 },
        { quantity: 4, weeks: 1 },
      ],
    });
    expect(opening({ quantity: 5, useBy: null })).toEqual({ opening: 5, lasts: [{ quantity: 5, weeks: 0 }] });
    expect(opening(until('2026-08-07', 2))).toEqual({ opening: 0, lasts: undefined });
  });

  test('without a season fund money limits nothing; with one it begins with what it holds', () => {
    const fund = { balance: 20_000, balanceOn: asDate('2026-07-20'), weekly: 1500, spentSince: 4000 };
    expect(yearOf({ fund }).year.fund.opening).toBe(20_000 + 2 * 1500 - 4000);
    expect(yearOf({ fund }).year.fund.setAsideByWeek.slice(0, 3)).toEqual([0, 1500, 1500]);
  });

  test('canners by their ids, and items that are another household’s are none', () => {
    expect(yearOf().year.canners).toEqual([
      { id: 'kettle', name: 'Kettle', method: 'boiling-water' },
      { id: 'pressure', name: 'Pressure canner', method: 'pressure' },
    ]);
    expect(yearOf({ items: [itemOf('Jam', { id: 'jam' as never })] }).year.recipes).toEqual([]);
  });
});
