import { asJarKind, type JarSize } from '../../../shared/jar.ts';
import { asDate, type CalendarDate } from '../../../shared/week.ts';
import type { HouseholdFacts } from '../../../src/household/facts.ts';
import type { Item } from '../../../src/household/item.ts';
import type { LotOnShelf } from '../../../src/household/lot.ts';
import type { FetchedProduce } from '../../../src/household/purchase.ts';
import type { HarvestWindow, Source } from '../../../src/household/source.ts';
import { type HouseholdYear, planningYearOf } from '../../../src/planning/year/household-year.ts';
import {
  copyOf,
  householdAt,
  itemOf,
  kettle,
  ownRecipe,
  pressureCanner,
} from '../../preserving/own-kitchen.ts';
import { tables } from '../../preserving/tables.ts';

// A household of three at 5,300 ft, looked at on Wednesday, August 5, 2026 (week 32): peaches in pints of an orchard that is
// picked for four weeks from Monday, August 10 on, strawberries frozen in June, and oats from a store.

export const asOf = asDate('2026-08-05');

export const peaches = itemOf('Peaches', { id: 'peaches' as never });
export const berries = itemOf('Strawberries', {
  id: 'berries' as never,
  keeping: 'frozen',
  family: 'berries',
  unit: 'bag',
  usualJar: null,
  freezerQuarts: 1.5,
});
export const oats = itemOf('Oats', {
  id: 'oats' as never,
  kind: 'staple',
  keeping: 'bought',
  family: 'dry-goods',
  unit: 'lb',
  usualJar: null,
});

export const peachBatch = copyOf('peaches-pints', {}, { id: 'peach-batch' as never, itemId: peaches.id });
export const berryBatch = ownRecipe('Frozen strawberries', {
  id: 'berry-batch' as never,
  itemId: berries.id,
  jarKind: null,
  yieldLow: 4,
  yieldHigh: 4,
  readyAfterDays: 0,
  produce: [{ crop: 'strawberry' as never, lb: 6, mayBeFrozen: false }],
});

/** A season of a source from its first day to its last. */
export const season = (first: string, last: string, lbPerWeek: number, change: Partial<HarvestWindow> = {}) =>
  ({
    year: Number(first.slice(0, 4)),
    beginsOn: asDate(first),
    endsOn: asDate(new Date(Date.parse(last) + 86_400_000).toISOString().slice(0, 10)),
    mostActive: null,
    lbPerWeek,
    usualLbPerWeek: null,
    datesGuessed: false,
    firstPickedOn: null,
    ...change,
  }) as HarvestWindow;

export const sourceOf = (
  id: string,
  crop: string,
  windows: readonly HarvestWindow[],
  change: Partial<Source> = {},
): Source =>
  ({
    id,
    crop,
    name: id,
    kind: 'market',
    pricePerLb: 150,
    pricedIn: null,
    plants: null,
    lbPerPlant: null,
    useByDays: 3,
    poorYearChance: 0,
    poorYearShare: 1,
    fallBack: 'do-without',
    windows,
    ...change,
  }) as Source;

export const orchard = sourceOf('orchard', 'peach', [season('2026-08-10', '2026-09-06', 70)]);
export const patch = sourceOf('patch', 'strawberry', [season('2026-06-08', '2026-06-28', 21)], {
  kind: 'garden',
});

export const lotOf = (
  id: string,
  {
    of = peaches,
    jar = 'pint',
    ...change
  }: Partial<Omit<LotOnShelf, 'id'>> & {
    readonly of?: Item;
    readonly jar?: JarSize | null;
  } = {},
): LotOnShelf =>
  ({
    id,
    itemId: of.id,
    batchCode: id,
    jarKind: jar === null ? null : asJarKind(jar, 'regular'),
    origin: 'put-up',
    madeOn: '2026-01-10',
    readyFrom: '2026-01-10',
    bestQualityUntil: '2027-01-10',
    place: null,
    recipeId: null,
    setAside: null,
    madeUnits: 10,
    unitsLeft: 10,
    ...change,
  }) as LotOnShelf;

export const fetchedOf = (change: Partial<FetchedProduce> = {}): FetchedProduce =>
  ({
    sourceId: 'orchard',
    crop: 'peach',
    on: '2026-08-04',
    useBy: '2026-08-09',
    lb: 30,
    lbLeft: 30,
    ...change,
  }) as FetchedProduce;

/** Somebody says that so many units of it are eaten in a week. */
export const eaten = (item: Item, amount: number, since = '2026-07-01') =>
  [
    item.id,
    {
      itemId: item.id,
      sinceOn: asDate(since),
      amount,
      per: 'week',
      countedIn: 'units',
      people: null,
      mealsPerWeek: null,
      restartsFilter: false,
    },
  ] as const;

export const factsOf = (change: object = {}): HouseholdFacts =>
  ({
    household: householdAt(5300, {
      id: 'orchard-street' as never,
      weekStartsOn: 'monday',
      discardCeilingMonths: 18,
      crockQuarts: 20,
      freezerQuartsPerDay: 6,
      recordedSince: null,
    }),
    items: [peaches, berries, oats],
    lots: [],
    events: [],
    counts: [],
    declaredUses: new Map([eaten(peaches, 1), eaten(berries, 0.5), eaten(oats, 2)]),
    seasonMultipliers: new Map(),
    occasions: [],
    ordinaryUse: new Map(),
    handTargets: new Map(),
    jarWishes: new Map(),
    groups: [],
    packs: new Map([
      [
        oats.id,
        [
          {
            itemId: oats.id,
            id: 'bag',
            units: 5,
            price: 499,
            buyAtOrBelow: null,
            sale: null,
            isPlanned: true,
          },
        ],
      ],
    ]),
    storePacks: new Map(),
    recipes: [peachBatch, berryBatch],
    supplies: [],
    materials: [],
    sources: [orchard, patch],
    lateness: [],
    canners: [kettle, pressureCanner],
    places: [],
    hours: {
      sessionsPerWeek: 1,
      hoursPerSession: 6,
      setUpMinutes: 20,
      stoveBurners: 4,
      sessionWeekday: 6,
      weeks: [],
    },
    daysOff: { away: [], schoolHolidays: [] },
    fund: null,
    jars: [],
    lids: [],
    kept: [],
    purchases: [],
    fetched: [],
    preparations: { batches: [], filled: [] },
    ...change,
  }) as unknown as HouseholdFacts;

export const yearOf = (change: object = {}, on: CalendarDate = asOf): HouseholdYear =>
  planningYearOf(factsOf(change), on, tables);
