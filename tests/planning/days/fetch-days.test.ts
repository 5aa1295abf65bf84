import { describe, expect, it } from 'vitest';
import type { CropKey, ItemId, RecipeId, SourceId } from '../../../shared/ids.ts';
import { asCents } from '../../../shared/money.ts';
import { addDays, asDate, daysBetween, weekOf } from '../../../shared/week.ts';
import type { KitchenHours } from '../../../src/household/kitchen.ts';
import { type FetchAsked, fetchDays, freshToBuy } from '../../../src/planning/days/fetch-days.ts';
import type { Plan, PlannedPurchase, PlannedSession, PlannedWeek } from '../../../src/planning/plan.ts';

const hours = (change: Partial<KitchenHours> = {}): KitchenHours => ({
  sessionsPerWeek: 1,
  hoursPerSession: 5,
  setUpMinutes: 30,
  stoveBurners: 4,
  sessionWeekday: 6,
  weeks: [],
  ...change,
});
const session = (recipe: string, change: Partial<PlannedSession> = {}): PlannedSession => ({
  recipe: recipe as RecipeId,
  batches: 1,
  jars: [],
  units: 7,
  handsOnMinutes: 90,
  canner: null,
  loads: 1,
  ...change,
});
const line = (kind: PlannedPurchase['kind'], what: string, quantity: number): PlannedPurchase => ({
  kind,
  what,
  quantity,
  unit: 'lb',
  packs: null,
  cost: asCents(100),
});
const weekWith = (monday: string, change: Partial<PlannedWeek>): PlannedWeek => ({
  week: weekOf(asDate(monday)),
  sessions: [],
  purchases: [],
  materials: [],
  kitchenSessions: 1,
  kitchenMinutes: 120,
  spend: asCents(0),
  fundAfter: asCents(0),
  ...change,
});
const recipe = (id: string, change: object) =>
  ({ id, name: id, itemId: id as ItemId, jarKind: null, produce: [], supplies: [], ...change }) as never;
const asked = (
  weeks: readonly PlannedWeek[],
  kitchen: KitchenHours = hours(),
  weekStartsOn: FetchAsked['weekStartsOn'] = 'monday',
): FetchAsked => ({
  plan: { weeks } as Plan,
  year: {
    sources: [
      ['plums', 'plum', 3],
      ['corn', 'corn', 1],
      ['apples', 'apple', 14],
    ].map(([id, crop, useByDays]) => ({ id: id as SourceId, crop: crop as CropKey, useByDays }) as never),
    supplies: [
      { id: 'frames', name: 'Chicken frames', freshDays: 2 },
      { id: 'sugar', name: 'Sugar' },
    ] as never,
    recipes: [
      recipe('stock', { supplies: [{ supplyId: 'frames', quantity: 10 }] }),
      recipe('jam', {
        produce: [{ crop: 'plum', lb: 6, mayBeFrozen: false }],
        supplies: [{ supplyId: 'sugar', quantity: 7 }],
      }),
      recipe('kernels', { produce: [{ crop: 'corn', lb: 20, mayBeFrozen: false }] }),
      recipe('butter', { produce: [{ crop: 'apple', lb: 8, mayBeFrozen: false }] }),
    ],
  },
  hours: kitchen,
  weekStartsOn,
});
const days = (purchase: PlannedPurchase, week: PlannedWeek, how: FetchAsked) =>
  fetchDays(purchase, week, how).map(({ quantity, notBefore, by }) => ({ quantity, notBefore, by }));

describe('the days on which something is fetched', () => {
  it('raw meat for a Saturday is bought on the Thursday or Friday before it', () => {
    const week = weekWith('2026-03-16', { sessions: [session('stock')] });

    expect(days(line('supply', 'frames', 10), week, asked([week]))).toEqual([
      { quantity: 10, notBefore: '2026-03-19', by: '2026-03-20' },
    ]);
  });

  it('raw meat for a Monday is bought on the Saturday or Sunday before it, in the week before', () => {
    const week = weekWith('2026-03-16', { sessions: [session('stock')] });

    expect(days(line('supply', 'frames', 10), week, asked([week], hours({ sessionWeekday: 1 })))).toEqual([
      { quantity: 10, notBefore: '2026-03-14', by: '2026-03-15' },
    ]);
  });

  it('sugar is bought by the Thursday, whatever it is for', () => {
    const week = weekWith('2026-08-17', { sessions: [session('jam')] });

    expect(days(line('supply', 'sugar', 9), week, asked([week]))).toEqual([
      { quantity: 9, notBefore: null, by: '2026-08-20' },
    ]);
  });

  it('sweet corn that stands a day is picked on the day before, plums that stand three by the Thursday', () => {
    const week = weekWith('2026-08-17', { sessions: [session('jam'), session('kernels')] });

    expect(days(line('produce', 'corn', 20), week, asked([week]))).toEqual([
      { quantity: 20, notBefore: '2026-08-21', by: '2026-08-21' },
    ]);
    expect(days(line('produce', 'plums', 6), week, asked([week]))).toEqual([
      { quantity: 6, notBefore: '2026-08-19', by: '2026-08-20' },
    ]);
  });

  it('what waits for the week after is picked late enough to keep until then, apart from the rest', () => {
    const apples = { what: 'apple', unit: 'lb', freeze: 0, thaw: 0, waiting: 8, frozen: 0, lost: 0 };
    const first = weekWith('2026-10-05', { sessions: [session('butter')], materials: [apples] });
    const second = weekWith('2026-10-12', { sessions: [session('butter')] });

    // By Thursday the 8th for Saturday the 10th; the rest keeps from there to Saturday the 17th: nine days of fourteen.
    expect(days(line('produce', 'apples', 16), first, asked([first, second]))).toEqual([
      { quantity: 16, notBefore: '2026-10-03', by: '2026-10-08' },
    ]);

    const plums = { ...apples, what: 'plum', waiting: 6 };
    const early = weekWith('2026-08-17', { sessions: [session('jam')], materials: [plums] });
    const late = weekWith('2026-08-24', { sessions: [session('jam')] });
    expect(days(line('produce', 'plums', 12), early, asked([early, late]))).toEqual([
      { quantity: 6, notBefore: '2026-08-19', by: '2026-08-20' },
      { quantity: 6, notBefore: '2026-08-26', by: '2026-08-27' },
    ]);
  });

  it('what is begun days before its load is fetched for the day on which it is begun', () => {
    const begin = { week: weekOf(asDate('2026-08-17')), on: asDate('2026-08-19') };
    const begunIn = weekWith('2026-08-17', {});
    const loaded = weekWith('2026-08-24', { sessions: [session('kernels', { begin })] });

    expect(days(line('produce', 'corn', 20), begunIn, asked([begunIn, loaded]))).toEqual([
      { quantity: 20, notBefore: '2026-08-18', by: '2026-08-18' },
    ]);
  });

  it('nobody is sent while away', () => {
    const away = [{ fromOn: asDate('2026-03-20'), untilOn: asDate('2026-03-21') }];
    const week = weekWith('2026-03-16', { sessions: [session('stock')] });

    expect(days(line('supply', 'frames', 10), week, asked([week], hours({ away })))).toEqual([
      { quantity: 10, notBefore: '2026-03-19', by: '2026-03-19' },
    ]);
  });

  it('what is for the pantry, or used by nothing, is fetched by the last day of its week at home', () => {
    const week = weekWith('2026-08-17', { sessions: [session('jam')] });
    const on = (purchase: PlannedPurchase, how = asked([week])) => days(purchase, week, how);
    expect(on(line('item', 'oats', 5))).toEqual([{ quantity: 5, notBefore: null, by: '2026-08-23' }]);
    const away = [{ fromOn: asDate('2026-08-22'), untilOn: asDate('2026-08-24') }];
    expect(on(line('item', 'oats', 5), asked([week], hours({ away })))).toEqual([
      { quantity: 5, notBefore: null, by: '2026-08-21' },
    ]);
    // Weeks that begin on Sundays end on Saturdays.
    expect(on(line('item', 'oats', 5), asked([week], hours(), 'sunday'))[0]?.by).toBe('2026-08-22');
    expect(on(line('supply', 'frames', 5))).toEqual([{ quantity: 5, notBefore: null, by: '2026-08-23' }]);
    const nothing = weekWith('2026-08-17', {});
    expect(days(line('supply', 'sugar', 5), nothing, asked([nothing]))).toEqual([
      { quantity: 5, notBefore: null, by: '2026-08-23' },
    ]);
  });

  it('jars, lids and produce of a source nobody knows keep, and are fetched by the shopping day', () => {
    const week = weekWith('2026-08-17', { sessions: [session('jam')] });
    for (const purchase of [
      line('jars', 'pint/regular', 12),
      line('lids', 'regular', 12),
      line('produce', 'gone', 3),
    ])
      expect(days(purchase, week, asked([week]))).toEqual([
        { quantity: purchase.quantity, notBefore: null, by: '2026-08-20' },
      ]);
  });

  it('what is frozen, or left of an older plan, goes with the last of its own week', () => {
    const plums = { what: 'plum', unit: 'lb', freeze: 6, thaw: 0, waiting: 6, frozen: 6, lost: 0 };
    const week = weekWith('2026-08-17', { sessions: [session('jam')], materials: [plums] });
    expect(days(line('produce', 'plums', 12), week, asked([week]))).toEqual([
      { quantity: 12, notBefore: '2026-08-19', by: '2026-08-20' },
    ]);
  });

  it('waits for no week further than nine ahead', () => {
    const plums = { what: 'plum', unit: 'lb', freeze: 0, thaw: 0, waiting: 6, frozen: 0, lost: 0 };
    const first = weekWith('2026-08-17', { sessions: [session('jam')], materials: [plums] });
    const empty = (at: number) => weekWith(addDays(asDate('2026-08-17'), 7 * at), {});
    const nextUsedIn = (weeks: number) => [
      first,
      ...Array.from({ length: weeks - 1 }, (_, at) => empty(at + 1)),
      weekWith(addDays(asDate('2026-08-17'), 7 * weeks), { sessions: [session('jam')] }),
    ];
    expect(days(line('produce', 'plums', 12), first, asked(nextUsedIn(9)))).toHaveLength(2);
    expect(days(line('produce', 'plums', 12), first, asked(nextUsedIn(10)))).toHaveLength(1);
  });

  it('what was begun already needs nothing fetched for it', () => {
    const begun = { id: 'a', on: asDate('2026-08-15') };
    const week = weekWith('2026-08-17', { sessions: [session('jam', { begun }), session('kernels')] });
    expect(days(line('produce', 'plums', 6), week, asked([week]))).toEqual([
      { quantity: 6, notBefore: null, by: '2026-08-23' },
    ]);
    expect(days(line('produce', 'corn', 20), week, asked([week]))).toHaveLength(1);
  });

  it('a crop of two recipes on two days is fetched once where it keeps, twice where it does not', () => {
    const kitchen = hours({
      sessionsPerWeek: 2,
      sessionWeekday: 6,
      rules: [
        { id: 'a', weekday: 2, which: 'every', hours: 3 },
        { id: 'b', weekday: 6, which: 'every', hours: 3 },
      ],
    } as Partial<KitchenHours>);
    const two = (id: string) =>
      weekWith('2026-08-17', {
        kitchenSessions: 2,
        sessions: [session(id, { handsOnMinutes: 150 }), session(id, { handsOnMinutes: 150 })],
      });
    const apples = fetchDays(line('produce', 'apples', 16), two('butter'), asked([two('butter')], kitchen));
    expect(apples.map(({ quantity }) => quantity)).toEqual([16]);
    const corn = fetchDays(line('produce', 'corn', 40), two('kernels'), asked([two('kernels')], kitchen));
    expect(corn.reduce((sum, { quantity }) => sum + quantity, 0)).toBeCloseTo(40, 9);
    for (const { by, forDay } of corn)
      if (forDay !== null) expect(daysBetween(by, forDay)).toBeLessThanOrEqual(1);
  });

  it('is told with the day it is first worked up on', () => {
    const week = weekWith('2026-08-17', { sessions: [session('jam')] });
    const forDays = (purchase: PlannedPurchase) =>
      fetchDays(purchase, week, asked([week])).map(({ forDay }) => forDay);
    expect(forDays(line('produce', 'plums', 6))).toEqual(['2026-08-22']);
    expect(forDays(line('supply', 'sugar', 6))).toEqual(['2026-08-22']);
    expect(forDays(line('item', 'oats', 6))).toEqual([null]);
  });
});

describe('the day by which something fresh is fetched', () => {
  const corn = (quantity: number) => line('produce', 'corn', quantity);
  const away = (fromOn: string, untilOn: string) => ({
    away: [{ fromOn: asDate(fromOn), untilOn: asDate(untilOn) }],
  });
  const jamWeek = weekWith('2026-08-17', { sessions: [session('jam')] });
  const twoDays = (weekdays: readonly [number, number]) =>
    hours({
      sessionsPerWeek: 2,
      rules: weekdays.map((weekday) => ({ id: `${weekday}`, weekday, which: 'every' as const, hours: 3 })),
    });
  const plumsOnTwoDays = (weekdays: readonly [number, number], quantity = 12) => {
    const week = weekWith('2026-08-17', {
      kitchenSessions: 2,
      sessions: [session('jam', { handsOnMinutes: 150 }), session('jam', { handsOnMinutes: 150 })],
    });
    return days(line('produce', 'plums', quantity), week, asked([week], twoDays(weekdays)));
  };

  it('is the day itself of what keeps no day', () => {
    const how = asked([jamWeek]);
    const picked = { ...how.year, sources: [{ id: 'plums', crop: 'plum', useByDays: 0 } as never] };
    expect(days(line('produce', 'plums', 6), jamWeek, { ...how, year: picked })).toEqual([
      { quantity: 6, notBefore: '2026-08-22', by: '2026-08-22' },
    ]);
  });

  it('is a later one than usual where that serves what comes after too', () => {
    // Three days: from Thursday, August 20 to Sunday, August 23; from Wednesday the 19th to Saturday the 22nd.
    expect(plumsOnTwoDays([6, 7])).toEqual([{ quantity: 12, notBefore: '2026-08-20', by: '2026-08-20' }]);
    expect(plumsOnTwoDays([5, 7])).toEqual([{ quantity: 12, notBefore: '2026-08-20', by: '2026-08-20' }]);
    expect(plumsOnTwoDays([4, 6])).toEqual([{ quantity: 12, notBefore: '2026-08-19', by: '2026-08-19' }]);
    // Too far apart for one way: the first for Monday, the second on the usual Thursday for Saturday.
    expect(plumsOnTwoDays([1, 6])).toEqual([
      { quantity: 6, notBefore: '2026-08-14', by: '2026-08-16' },
      { quantity: 6, notBefore: '2026-08-19', by: '2026-08-20' },
    ]);
  });

  it('is shared among its days as their batches need it', () => {
    const week = weekWith('2026-08-17', {
      kitchenSessions: 2,
      sessions: [
        session('kernels', { handsOnMinutes: 150, batches: 3 }),
        session('kernels', { handsOnMinutes: 140 }),
      ],
    });
    const found = days(corn(40), week, asked([week], twoDays([2, 6])));
    expect(found.map(({ quantity }) => quantity).toSorted()).toEqual([10, 30]);
  });

  it('is no day away, though the usual one is', () => {
    const plums = (kitchen: KitchenHours) =>
      days(line('produce', 'plums', 6), jamWeek, asked([jamWeek], kitchen));
    expect(plums(hours(away('2026-08-20', '2026-08-21')))[0]?.by).toBe('2026-08-19');
    expect(plums(hours(away('2026-08-05', '2026-08-21')))[0]?.by).toBe('2026-08-21');
    // Away from Thursday to Friday, corn that stands a day is picked on the day it is worked up.
    const week = weekWith('2026-08-17', { sessions: [session('kernels')] });
    expect(days(corn(20), week, asked([week], hours(away('2026-08-20', '2026-08-22'))))[0]?.by).toBe(
      '2026-08-21',
    );
  });

  it('of raw meat is never the usual one: it is bought as late as somebody can', () => {
    const week = weekWith('2026-08-17', { sessions: [session('stock')] });
    expect(days(line('supply', 'frames', 10), week, asked([week]))[0]?.by).toBe('2026-08-21');
    expect(
      days(line('supply', 'frames', 10), week, asked([week], hours(away('2026-08-21', '2026-08-22'))))[0]?.by,
    ).toBe('2026-08-20');
  });
});

describe('the week in which a line is used', () => {
  const plums = (quantity: number) => line('produce', 'plums', quantity);
  const waits = (waiting: number, what = 'plum') => [
    { what, unit: 'lb', freeze: 0, thaw: 0, waiting, frozen: 0, lost: 0 },
  ];

  it('is the one after where all of it waits', () => {
    const early = weekWith('2026-08-17', { sessions: [session('jam')], materials: waits(6) });
    const late = weekWith('2026-08-24', { sessions: [session('jam')] });
    expect(days(plums(6), early, asked([early, late]))).toEqual([
      { quantity: 6, notBefore: '2026-08-26', by: '2026-08-27' },
    ]);
    // More waits than was bought: the rest was there before.
    const more = weekWith('2026-08-17', { sessions: [session('jam')], materials: waits(60) });
    expect(days(plums(6), more, asked([more, late]))).toHaveLength(1);
    const pears = weekWith('2026-08-17', { sessions: [session('jam')], materials: waits(6, 'pear') });
    expect(days(plums(6), pears, asked([pears, late]))).toEqual([
      { quantity: 6, notBefore: '2026-08-19', by: '2026-08-20' },
    ]);
  });

  it('is the first after in which the crop is used, and one in which nothing of it is used waits on', () => {
    const first = weekWith('2026-08-17', {});
    const corn = weekWith('2026-08-24', { sessions: [session('kernels')] });
    const jam = weekWith('2026-08-31', { sessions: [session('jam')] });
    expect(days(plums(6), first, asked([first, corn, jam]))).toEqual([
      { quantity: 6, notBefore: '2026-09-02', by: '2026-09-03' },
    ]);
    // What was before it counts for nothing.
    const before = weekWith('2026-08-10', { sessions: [session('jam')] });
    expect(days(plums(6), first, asked([before, first]))).toEqual([
      { quantity: 6, notBefore: null, by: '2026-08-23' },
    ]);
  });

  it('of raw meat is its own: none of it waits', () => {
    const week = weekWith('2026-08-17', { sessions: [session('stock')], materials: waits(5, 'frames') });
    expect(days(line('supply', 'frames', 10), week, asked([week]))).toEqual([
      { quantity: 10, notBefore: '2026-08-20', by: '2026-08-21' },
    ]);
  });

  it('is that of a batch whose load comes months later', () => {
    const begin = { week: weekOf(asDate('2026-08-17')), on: asDate('2026-08-19') };
    const begunIn = weekWith('2026-08-17', {});
    const loaded = weekWith('2026-11-23', { sessions: [session('kernels', { begin })] });
    expect(days(line('produce', 'corn', 20), begunIn, asked([begunIn, loaded]))).toEqual([
      { quantity: 20, notBefore: '2026-08-18', by: '2026-08-18' },
    ]);
  });

  it('has its days in their order, whichever week their loads are in', () => {
    const begin = { week: weekOf(asDate('2026-08-17')), on: asDate('2026-08-19') };
    const week = weekWith('2026-08-17', { sessions: [session('kernels')] });
    const later = weekWith('2026-08-24', { sessions: [session('kernels', { begin })] });
    expect(days(line('produce', 'corn', 40), week, asked([week, later]))).toEqual([
      { quantity: 20, notBefore: '2026-08-18', by: '2026-08-18' },
      { quantity: 20, notBefore: '2026-08-21', by: '2026-08-21' },
    ]);
  });

  it('is that of a batch begun then, though others of its load’s week are begun in that', () => {
    const begin = { week: weekOf(asDate('2026-08-17')), on: asDate('2026-08-19') };
    const begunIn = weekWith('2026-08-17', {});
    const loaded = weekWith('2026-08-24', { sessions: [session('jam'), session('kernels', { begin })] });
    const how = asked([begunIn, loaded]);
    expect(days(line('produce', 'corn', 20), begunIn, how)[0]?.by).toBe('2026-08-18');
    expect(days(plums(6), loaded, how)[0]?.by).toBe('2026-08-27');
  });

  it('is none of a recipe in other jars, or one that is gone', () => {
    const jars = [{ kind: 'pint/regular', count: 8 }] as never;
    for (const other of [session('jam', { jars }), session('gone')]) {
      const week = weekWith('2026-08-17', { sessions: [other] });
      expect(days(plums(6), week, asked([week]))).toEqual([
        { quantity: 6, notBefore: null, by: '2026-08-23' },
      ]);
    }
  });
});

describe('the shopping day for what keeps', () => {
  const sugar = line('supply', 'sugar', 7);

  it('is before the soak of a batch, where that begins before the first canning of its week', () => {
    const begin = { week: weekOf(asDate('2026-08-17')), on: asDate('2026-08-20') };
    const week = weekWith('2026-08-17', { sessions: [session('jam')] });
    const later = weekWith('2026-08-24', { sessions: [session('butter', { begin })] });
    const fetched = (...weeks: readonly PlannedWeek[]) =>
      fetchDays(sugar, week, asked(weeks)).map(({ by, forDay }) => [by, forDay]);
    expect(fetched(week, later)).toEqual([['2026-08-13', '2026-08-20']]);
    expect(fetched(week)).toEqual([['2026-08-20', '2026-08-22']]);
  });

  it('is that of a supply nobody knows too', () => {
    const week = weekWith('2026-08-17', { sessions: [session('jam')] });
    expect(days(line('supply', 'gone', 1), week, asked([week]))).toEqual([
      { quantity: 1, notBefore: null, by: '2026-08-20' },
    ]);
  });
});

describe('what is made of what spoils', () => {
  it('names every recipe it goes into once, and no other', () => {
    const frames = line('supply', 'frames', 30);
    const how = asked([
      weekWith('2026-03-16', {
        sessions: [session('stock'), session('soup'), session('jam'), session('soup', { batches: 2 })],
        purchases: [frames],
      }),
    ]);
    const supplies = ['sugar', 'frames'].map((supplyId) => ({ supplyId, quantity: 5 }));
    const year = { ...how.year, recipes: [...how.year.recipes, recipe('soup', { supplies })] };
    expect(freshToBuy({ ...how, year }).map(({ makes }) => makes.toSorted())).toEqual([['soup', 'stock']]);
  });

  const frames = line('supply', 'frames', 10);
  const withPurchases = (monday: string, ...purchases: readonly PlannedPurchase[]) =>
    weekWith(monday, { sessions: [session('stock'), session('jam')], purchases });

  it('stands in the order of its days, with how long it keeps and what is made of it', () => {
    const weeks = [
      withPurchases('2026-03-23', frames),
      withPurchases('2026-03-16', frames, line('supply', 'sugar', 7), line('produce', 'plums', 6)),
    ];
    const found = freshToBuy(asked(weeks));
    expect(found.map(({ week, keepsDays, makes, fetch }) => [week, keepsDays, makes, fetch.by])).toEqual([
      ['2026-W12', 2, ['stock'], '2026-03-20'],
      ['2026-W13', 2, ['stock'], '2026-03-27'],
    ]);
    expect(found[0]?.purchase).toBe(frames);
  });

  it('is nothing where nothing of it is planned', () => {
    expect(freshToBuy(asked([withPurchases('2026-03-16', line('supply', 'sugar', 7))]))).toEqual([]);
    expect(freshToBuy(asked([]))).toEqual([]);
  });
});
