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

describe('what spoils and is no produce', () => {
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
