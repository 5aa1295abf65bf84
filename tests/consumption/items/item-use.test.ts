import { describe, expect, test } from 'vitest';
import type { ItemId } from '../../../shared/ids.ts';
import { addDays, asDate, weekOf } from '../../../shared/week.ts';
import { itemUses } from '../../../src/consumption/items/item-use.ts';
import type { HouseholdFacts } from '../../../src/household/facts.ts';
import { event } from './ledger-event.ts';

// How much is eaten of salsa in pints and of oats, by what a household says and what its book shows, looked at on June 17, a Wednesday.

const asOf = asDate('2026-06-17');
const salsa = 'salsa' as ItemId;
const items = [
  { id: salsa, usualJar: 'pint/regular', servingsPerUnit: 4 },
  { id: 'oats', usualJar: null, servingsPerUnit: null },
];
const say = (amount: number, over: object = {}) => ({
  itemId: salsa,
  sinceOn: '2026-06-03',
  amount,
  per: 'week',
  countedIn: 'units',
  people: null,
  mealsPerWeek: null,
  restartsFilter: false,
  ...over,
});
/** Put up in January, one jar taken every Wednesday since. */
const weekly = (units = 1) => [
  event('put up', 60, asDate('2026-01-07')),
  ...Array.from({ length: 22 }, (_, week) => event('taken', -units, addDays(asDate('2026-01-14'), 7 * week))),
];
const usesOf = (over: object = {}) =>
  itemUses(
    {
      household: { timeZone: 'America/Denver', recordedSince: null },
      items,
      events: [],
      counts: [],
      lots: [],
      declaredUses: new Map(),
      seasonMultipliers: new Map(),
      ordinaryUse: new Map(),
      occasions: [],
      daysOff: { away: [], schoolHolidays: [] },
      ...over,
    } as unknown as HouseholdFacts,
    asOf,
    52,
  );
const useOf = (over: object = {}) => {
  const use = usesOf(over).get(salsa);
  if (use === undefined) throw new Error('expected the use of salsa');
  return use;
};
const saying = (use: object) => ({ declaredUses: new Map([[salsa, use]]) });

describe('of what nobody spoke of', () => {
  test('nothing is forecast while nothing was seen', () => {
    expect(useOf()).toEqual({
      declared: null,
      declaredPerWeek: 0,
      dated: [],
      history: [],
      checked: { tapped: 0, takenUnsaid: 0 },
      recordedSince: null,
      forecast: null,
    });
  });

  test('nothing is forecast before four weeks of it, nor while none of it is eaten', () => {
    const from = (on: string) => [
      event('put up', 20, asDate(on)),
      event('taken', -1, addDays(asDate(on), 1)),
      event('taken', -1, asDate('2026-06-10')),
    ];

    expect(useOf({ events: from('2026-05-25') }).forecast).toBeNull();
    expect(useOf({ events: from('2026-05-25') }).history.length).toBeGreaterThan(0);
    expect(useOf({ events: from('2026-05-04') }).forecast).not.toBeNull();
    expect(useOf({ events: [event('put up', 20, asDate('2026-01-05'))] }).forecast).toBeNull();
  });

  test('it is forecast by what was seen, and nothing is said to be declared', () => {
    const use = useOf({ events: weekly() });

    expect(use.forecast?.perWeek).toBeGreaterThan(0.7);
    expect(use.forecast?.perWeek).toBeLessThan(1.2);
    expect(use.declaredPerWeek).toBe(0);
    expect(use.recordedSince).toBe('2026-01-07');
    expect(use.history[0]?.week).toBe(weekOf(asDate('2026-01-07')));
  });

  test('it follows the months the household gave it', () => {
    const multipliers = [0, 0, 0, 0, 0, 2, 2, 2, 2, 2, 2, 0];
    const forecast = (seasonMultipliers: ReadonlyMap<ItemId, readonly number[]>) =>
      useOf({ events: weekly(), seasonMultipliers }).forecast?.weeks.filter(({ week }) =>
        week.startsWith('2027-W0'),
      );

    const expected = (weeks: ReturnType<typeof forecast>) =>
      (weeks ?? []).reduce((sum, { mean }) => sum + mean, 0);
    expect(expected(forecast(new Map([[salsa, multipliers]])))).toBe(0);
    expect(expected(forecast(new Map()))).toBeGreaterThan(1);
  });
});

describe('of what somebody spoke of', () => {
  test('a word is enough to go by', () => {
    const use = useOf(saying(say(3)));

    expect(use.declared).toMatchObject({ amount: 3 });
    expect(use.declaredPerWeek).toBe(3);
    expect(use.forecast?.perWeek).toBeCloseTo(3, 5);
  });

  test('servings are so many of a unit', () => {
    expect(useOf(saying(say(6, { countedIn: 'servings' }))).declaredPerWeek).toBe(1.5);
  });

  test('servings of what has none to a unit cannot be gone by', () => {
    const use = itemUses(
      {
        household: { timeZone: 'America/Denver', recordedSince: null },
        items,
        events: [],
        counts: [],
        lots: [],
        declaredUses: new Map([['oats', say(6, { itemId: 'oats', countedIn: 'servings' })]]),
        seasonMultipliers: new Map(),
        ordinaryUse: new Map(),
        occasions: [],
        daysOff: { away: [], schoolHolidays: [] },
      } as unknown as HouseholdFacts,
      asOf,
      52,
    ).get('oats' as ItemId);

    expect(use).toMatchObject({ declaredPerWeek: 0, forecast: null });
  });

  test('what is said not to be eaten is not forecast, whatever was taken', () => {
    const use = useOf({ events: weekly(), ...saying(say(0)) });

    expect(use).toMatchObject({ declared: { amount: 0 }, declaredPerWeek: 0, history: [], forecast: null });
  });

  test('“from now on” forgets what was before', () => {
    const before = useOf({ events: weekly(), ...saying(say(6)) });
    const fromNow = useOf({ events: weekly(), ...saying(say(6, { restartsFilter: true })) });

    expect(before.history[0]?.week).toBe('2026-W02');
    expect(fromNow.history[0]?.week).toBe(weekOf(asDate('2026-06-03')));
    expect(fromNow.forecast?.perWeek).toBeGreaterThan(before.forecast?.perWeek ?? Number.NaN);
  });

  test('what is eaten in school weeks is not forecast for the holidays', () => {
    const juneOf = (daysOff: object) =>
      useOf({ ...saying(say(4, { per: 'school-week' })), daysOff })
        .forecast?.weeks.slice(0, 6)
        .map(({ mean }) => mean);
    const away: readonly object[] = [];

    // Nothing entered: from June 15 to the end of August is assumed.
    expect(juneOf({ away, schoolHolidays: [] })?.slice(1)).toEqual([0, 0, 0, 0, 0]);
    const entered = [{ fromOn: '2026-07-01', untilOn: '2026-09-01' }];
    expect(juneOf({ away, schoolHolidays: entered })?.[1]).toBeGreaterThan(3);
    expect(juneOf({ away, schoolHolidays: entered })?.[4]).toBe(0);
  });

  test('nothing is eaten while nobody is at home', () => {
    const away = [{ fromOn: '2026-07-06', untilOn: '2026-07-20' }];
    const weeks = useOf({ ...saying(say(3)), daysOff: { away, schoolHolidays: [] } }).forecast?.weeks;

    expect(weeks?.find(({ week }) => week === '2026-W28')?.mean).toBe(0);
    expect(weeks?.find(({ week }) => week === '2026-W30')?.mean).toBeGreaterThan(2);
  });
});

describe('of what the book holds', () => {
  test('what was undone is not seen', () => {
    const undone = weekly().map((one) => ({ ...one, isReversed: true }));
    const reversal = event('reversed', 1, asDate('2026-06-10'));

    expect(useOf({ events: [...undone, reversal] })).toMatchObject({ history: [], recordedSince: null });
  });

  test('other foods are not looked at', () => {
    const others = weekly().map((one) => ({ ...one, itemId: 'oats' }));

    expect(useOf({ events: others }).history).toEqual([]);
    expect(usesOf({ events: others }).get('oats' as ItemId)?.history.length).toBeGreaterThan(10);
  });

  test('a week called ordinary is marked so, and no other', () => {
    const ordinaryUse = new Map([[salsa, { weeks: new Set(['2026-W10']), isAllYearAlike: false }]]);

    expect(
      useOf({ events: weekly(), ordinaryUse })
        .history.filter(({ isOrdinary }) => isOrdinary === true)
        .map(({ week }) => week),
    ).toEqual(['2026-W10']);
  });
});

describe('dated units', () => {
  const feast = { id: 'f', itemId: salsa, kind: 'occasion', on: '2024-12-24', units: 5, note: 'Christmas' };
  const datesOf = (over: object) => useOf({ occasions: [{ ...feast, ...over }] }).dated;

  test('of one day stand on that day', () => {
    expect(datesOf({ isYearly: false })).toEqual([
      { on: '2024-12-24', units: 5, name: 'Christmas', kind: 'occasion' },
    ]);
  });

  test('of every year stand since their first, or last year’s where they begin later, and two years on', () => {
    expect(datesOf({ isYearly: true }).map(({ on }) => on)).toEqual([
      '2024-12-24',
      '2025-12-24',
      '2026-12-24',
      '2027-12-24',
      '2028-12-24',
    ]);
    expect(datesOf({ isYearly: true, on: '2026-12-24' }).map(({ on }) => on)).toEqual([
      '2025-12-24',
      '2026-12-24',
      '2027-12-24',
      '2028-12-24',
    ]);
  });

  test('of other foods are not looked at', () => {
    expect(datesOf({ itemId: 'oats', isYearly: false })).toEqual([]);
  });
});

describe('of two things on one shelf', () => {
  const count = (itemId: string, countedUnits: number) => ({
    itemId,
    countedOn: '2026-06-10',
    countedUnits,
  });

  test('what was counted of one says nothing of the other', () => {
    const old = { events: [event('put up', 20, asDate('2026-01-07'), { writtenOn: '2026-05-01' })] };
    expect(useOf({ ...old, counts: [count('salsa', 19)] }).recordedSince).toBe('2026-05-01');
    expect(useOf({ ...old, counts: [count('oats', 19)] }).recordedSince).toBeNull();
  });
});

describe('of what was looked at before', () => {
  const known = {
    household: { timeZone: 'America/Denver', recordedSince: null as string | null },
    items,
    events: [...weekly(), ...weekly().map((each) => ({ ...each, itemId: 'oats', lotId: 'sack' }))],
    counts: [] as object[],
    lots: [] as object[],
    declaredUses: new Map([[salsa, say(1)]]) as ReadonlyMap<unknown, object>,
    seasonMultipliers: new Map() as ReadonlyMap<unknown, readonly number[]>,
    ordinaryUse: new Map() as ReadonlyMap<unknown, object>,
    occasions: [] as object[],
    daysOff: { away: [] as object[], schoolHolidays: [] as object[] },
  };
  /** A use without its functions, so that two can be held against each other. */
  const said = (use: unknown) => JSON.stringify(use);
  const fresh = (facts: object) => usesOf(structuredClone(facts)).get(salsa);

  test('it is the very same use while nothing new is known of it', () => {
    const before = usesOf(known);
    const after = usesOf({
      ...known,
      events: [...known.events, event('taken', -1, asDate('2026-06-16'))],
    });
    expect(after.get('oats' as ItemId)).toBe(before.get('oats' as ItemId));
    expect(after.get(salsa)).not.toBe(before.get(salsa));
    expect(after.get(salsa)?.history.at(-1)?.taken).toBe(1);
  });

  test.each([
    ['a jar taken', { events: [...known.events, event('taken', -3, asDate('2026-06-16'))] }],
    ['a taking undone', { events: known.events.slice(0, 20) }],
    ['a count', { counts: [{ itemId: salsa, countedOn: '2026-06-10', countedUnits: 5 }] }],
    ['a day from which all is recorded', { household: { ...known.household, recordedSince: '2026-03-02' } }],
    ['another word', { declaredUses: new Map([[salsa, say(9, { restartsFilter: true })]]) }],
    ['a season', { seasonMultipliers: new Map([[salsa, [0, 0, 0, 1, 2, 3, 3, 2, 1, 0, 0, 0]]]) }],
    [
      'ordinary weeks',
      { ordinaryUse: new Map([[salsa, { weeks: new Set(['2026-W20']), isAllYearAlike: true }]]) },
    ],
    [
      'an occasion',
      {
        occasions: [
          { itemId: salsa, on: '2026-07-04', units: 6, note: '', kind: 'occasion', isYearly: true },
        ],
      },
    ],
    [
      'weeks away',
      { daysOff: { ...known.daysOff, away: [{ fromOn: '2026-04-01', untilOn: '2026-05-01' }] } },
    ],
    ['another jar', { items: [{ ...items[0], usualJar: 'quart/regular' }, items[1]] }],
    ['a lot ready later', { lots: [{ id: 'lot', itemId: salsa, readyFrom: '2026-03-02' }] }],
  ] as const)('%s is known at once', (_what, change) => {
    const changed = { ...known, ...change };
    usesOf(known);
    expect(said(usesOf(changed).get(salsa))).toBe(said(fresh(changed)));
    expect(said(usesOf(known).get(salsa))).toBe(said(fresh(known)));
    expect(said(fresh(changed))).not.toBe(said(fresh(known)));
  });
});
