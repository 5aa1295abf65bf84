import { openDatabase } from '../../../server/database/database.ts';
import { makeDemoHousehold } from '../../../server/demo/make-demo.ts';
import { householdFacts } from '../../../server/year/household-facts.ts';
import type { ItemId } from '../../../shared/ids.ts';
import { mouthOf } from '../../../shared/jar.ts';
import { asCents } from '../../../shared/money.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { addDays, asDate, type CalendarDate } from '../../../shared/week.ts';
import { isAway } from '../../../src/harvest/source-years.ts';
import { noPreparations } from '../../../src/household/begun.ts';
import type { HouseholdFacts } from '../../../src/household/facts.ts';
import type { Item } from '../../../src/household/item.ts';
import type { Source } from '../../../src/household/source.ts';
import { entry, orNone } from '../../../src/planning/lookup.ts';
import type { Random } from '../../../src/shelf/draws.ts';
import { type Opening, usualUnitCents, worldOf } from './household-world.ts';
import { between, factorAround, luckOf, someOf, wholeBetween } from './luck.ts';
import { drawProcess, drawUse, type UseProcess } from './use-process.ts';
import type { World, WorldItem } from './world.ts';

/** A household about to live a year: what it has said and done so far, and how it eats, which it does not know itself. */
export interface LivedHousehold {
  readonly name: string;
  readonly facts: HouseholdFacts;
  readonly world: World;
  readonly processes: readonly UseProcess[];
  /** [item]: units taken in each of the 52 weeks before, oldest first. */
  readonly takenBefore: readonly (readonly number[])[];
  readonly startsOn: CalendarDate;
}

export type LimitClass = 'relaxed' | 'tight';

const firstStart = asDate('2026-04-06');
let kept: Promise<HouseholdFacts> | null = null;

/** Everything households of the bench are cut from: kitchen, items, recipes and sources of the invented household. */
export function catalog(): Promise<HouseholdFacts> {
  kept ??= (async () => {
    const db = await openDatabase(':memory:');
    try {
      const id = await makeDemoHousehold(db, firstStart);
      return await householdFacts(db, id, firstStart);
    } finally {
      await db.destroy();
    }
  })();
  return kept;
}

export const historyWeeks = 52;

/** A Monday in spring, by the seed of a household. */
const startOf = (seed: number): CalendarDate =>
  addDays(firstStart, 7 * wholeBetween(luckOf(seed, 'start'), 0, 7));

/** How large a household is cut: items to put up, and to buy. */
export interface HouseholdSize {
  readonly preserves: readonly [least: number, most: number];
  readonly staples: readonly [least: number, most: number];
}

const usualSize: HouseholdSize = { preserves: [4, 7], staples: [3, 5] };

/** A household by its seed, of a class of limits; the invented household itself is all of the catalog. Both classes of one seed eat alike. */
export function cutHousehold(
  all: HouseholdFacts,
  { seed, isDemo, limits, size = usualSize }: HouseholdCut,
  reference: ReferenceTables,
): LivedHousehold {
  const startsOn = startOf(seed);
  const random = luckOf(seed, 'household');
  const kept = isDemo ? all.items.filter(hasOneJar(all)) : someItems(all, size, random);
  const items = kept.map((item) => ({ ...item, familyMinimumUnits: null }));
  const ids = new Set(items.map(({ id }) => id));
  const recipes = all.recipes.filter(
    ({ itemId, uses, gives }) => ids.has(itemId) && uses.length === 0 && gives.length === 0,
  );
  const crops = new Set(recipes.flatMap(({ produce }) => produce.map(({ crop }) => crop)));
  const dearer = isDemo ? 1 : between(random, 0.85, 1.2);
  const rates = items.map((item) => {
    const yearly = yearlyOf(all, item);
    return (yearly * (isDemo ? 1 : Math.min(1.8, Math.max(0.4, factorAround(random, 0.45))))) / 52;
  });
  const rateOf = new Map(items.map(({ id }, at) => [id, entry(rates, at, 'rates')]));
  const sources = all.sources
    .filter(({ crop }) => crops.has(crop))
    .map((source) => (isDemo ? source : cutSource(source, dearer, random)));
  const packs = new Map(
    [...all.packs]
      .filter(([id]) => ids.has(id))
      .map(([id, ofItem]) => [
        id,
        ofItem.map((pack) => ({
          ...pack,
          price: asCents(pack.price * dearer),
          sale: pack.sale === null ? null : { ...pack.sale, price: asCents(pack.sale.price * dearer) },
        })),
      ]),
  );
  const supplyIds = new Set(recipes.flatMap(({ supplies }) => supplies.map(({ supplyId }) => supplyId)));
  const processes = items.map((item, at) =>
    drawProcess(luckOf(seed, `process ${item.id}`), entry(rates, at, 'rates')),
  );
  const cut: HouseholdFacts = {
    ...all,
    household: {
      ...all.household,
      weekStartsOn: 'monday',
      timeZone: 'UTC',
      currency: 'USD',
      storedTimeZone: 'UTC',
    },
    items,
    lots: [],
    events: [],
    counts: [],
    declaredUses: new Map(
      items.map((item, at) => [
        item.id,
        {
          itemId: item.id,
          sinceOn: addDays(startsOn, -7 * historyWeeks),
          amount: Math.max(0.5, Math.round(52 * entry(rates, at, 'rates') * factorAround(random, 0.25))),
          per: 'year' as const,
          countedIn: 'units' as const,
          people: null,
          mealsPerWeek: null,
          restartsFilter: false,
        },
      ]),
    ),
    seasonMultipliers: new Map(),
    occasions: [],
    handTargets: new Map(),
    jarWishes: new Map(),
    ordinaryUse: new Map(),
    groups: [],
    packs,
    recipes,
    supplies: all.supplies.filter(({ id }) => supplyIds.has(id)),
    materials: [],
    sources,
    lateness: [],
    kept: [],
    purchases: [],
    fetched: [],
    preparations: noPreparations,
    hours: { ...all.hours, weeks: [], pauses: [] },
    daysOff: { ...all.daysOff, away: isDemo ? all.daysOff.away : awayDays(startsOn, random) },
  };
  const limited = withLimits(cut, { limits, isDemo, rateOf, startsOn });
  return withHistory(limited, { seed, isDemo, startsOn, processes, reference, random });
}

export interface HouseholdCut {
  readonly seed: number;
  readonly isDemo: boolean;
  readonly limits: LimitClass;
  readonly size?: HouseholdSize;
}

const hasOneJar =
  ({ recipes, packs }: HouseholdFacts) =>
  (item: Item): boolean => {
    const own = recipes.filter(({ itemId }) => itemId === item.id);
    const isSimple = own.every(
      ({ jarKind, uses, gives }) => jarKind === item.usualJar && uses.length === 0 && gives.length === 0,
    );
    return isSimple && own.length > 0 !== orNone(packs.get(item.id)?.length) > 0;
  };

function someItems(all: HouseholdFacts, { preserves, staples }: HouseholdSize, random: Random): Item[] {
  const simple = all.items.filter(hasOneJar(all));
  const of = (kind: Item['kind'], [least, most]: readonly [number, number]) =>
    someOf(
      random,
      simple.filter((item) => item.kind === kind),
      wholeBetween(random, least, most),
    );
  return [...of('preserve', preserves), ...of('staple', staples)];
}

/** Units a year as the household of the catalog says it eats. */
function yearlyOf({ declaredUses }: HouseholdFacts, { id, servingsPerUnit }: Item): number {
  const said = declaredUses.get(id);
  if (said === undefined) return 8;
  const perYear = { week: 52, month: 12, year: 1, meal: 52, 'school-week': 38 }[said.per];
  const servings =
    said.countedIn === 'servings' ? orNone(said.people ?? 4) / Math.max(1, servingsPerUnit ?? 1) : 1;
  return Math.max(2, said.amount * perYear * (said.mealsPerWeek ?? 1) * servings);
}

function cutSource(source: Source, dearer: number, random: Random): Source {
  const days = wholeBetween(random, -10, 10);
  const crop = Math.min(2, Math.max(0.5, factorAround(random, 0.3)));
  return {
    ...source,
    pricePerLb: asCents(source.pricePerLb * dearer),
    windows: source.windows.map((window) => ({
      ...window,
      ...shiftedDates(window, days),
      lbPerWeek: window.lbPerWeek * crop,
    })),
  };
}

export const shiftedDates = (window: Source['windows'][number], days: number) => ({
  beginsOn: addDays(window.beginsOn, days),
  endsOn: addDays(window.endsOn, days),
  mostActive:
    window.mostActive === null
      ? null
      : {
          fromOn: addDays(window.mostActive.fromOn, days),
          untilOn: addDays(window.mostActive.untilOn, days),
        },
});

/** A week away in the year that is lived, and one in the year before. */
function awayDays(startsOn: CalendarDate, random: Random): HouseholdFacts['daysOff']['away'] {
  return [-1, 0, 1].map((year) => {
    const fromOn = addDays(startsOn, 364 * year + 7 * wholeBetween(random, 8, 40));
    return { fromOn, untilOn: addDays(fromOn, 7) };
  });
}

/** Share of what a year costs that is set aside, hours, and jars beside those a year needs. */
const limitsOf = {
  relaxed: { money: 1.4, sessions: 2, hours: 5.5, jars: 1.2 },
  tight: { money: 0.62, sessions: 1, hours: 4.5, jars: 0.85 },
} as const;

function withLimits(
  facts: HouseholdFacts,
  {
    limits,
    isDemo,
    rateOf,
    startsOn,
  }: {
    readonly limits: LimitClass;
    readonly isDemo: boolean;
    readonly rateOf: ReadonlyMap<ItemId, number>;
    readonly startsOn: CalendarDate;
  },
): HouseholdFacts {
  const { money, sessions, hours, jars } = limitsOf[limits];
  const yearly = (item: Item) => 52 * orNone(rateOf.get(item.id));
  const cost = facts.items.reduce((sum, item) => sum + yearly(item) * usualUnitCents(facts, item), 0);
  const weekly = asCents((cost * money) / 52);
  const full = (kind: string) =>
    facts.items.reduce((sum, item) => (item.usualJar === kind ? sum + yearly(item) : sum), 0);
  const own = isDemo && limits === 'relaxed';
  return {
    ...facts,
    hours: own
      ? facts.hours
      : { ...facts.hours, rules: [], sessionsPerWeek: sessions, hoursPerSession: hours },
    fund: {
      balance: asCents(cost * money * 0.2),
      balanceOn: startsOn,
      weekly,
      spentSince: asCents(0),
    },
    jars: facts.jars
      .filter(({ kind }) => full(kind) > 0)
      .map((stock) => {
        const owned = Math.round(full(stock.kind) * jars);
        return { ...stock, owned, full: 0, empty: owned, away: 0 };
      }),
    lids: facts.lids.filter(({ mouth }) =>
      facts.jars.some(({ kind }) => mouthOf(kind) === mouth && full(kind) > 0),
    ),
  };
}

interface HistoryFrom {
  readonly seed: number;
  readonly isDemo: boolean;
  readonly startsOn: CalendarDate;
  readonly processes: readonly UseProcess[];
  readonly reference: ReferenceTables;
  readonly random: Random;
}

/** The year before, written down well: what was taken, from a lot that is eaten up, and what stands now. */
function withHistory(facts: HouseholdFacts, from: HistoryFrom): LivedHousehold {
  const { seed, isDemo, startsOn, processes, reference, random } = from;
  const span = useSpan(facts, startsOn);
  const takenBefore = facts.items.map((item, at) =>
    drawUse(
      entry(processes, at, 'processes'),
      { ...span, firstWeek: -historyWeeks, weeks: historyWeeks },
      luckOf(seed, `history ${item.id}`),
    ),
  );
  const openings = facts.items.map((item, at) =>
    openingLot(facts, item, { startsOn, perWeek: entry(processes, at, 'processes').perWeek, random }),
  );
  let seq = 0;
  const lots: HouseholdFacts['lots'][number][] = [];
  const events: HouseholdFacts['events'][number][] = [];
  facts.items.forEach((item, at) => {
    const taken = entry(takenBefore, at, 'takenBefore');
    const eaten = taken.reduce((sum, units) => sum + units, 0);
    const before = addDays(startsOn, -7 * historyWeeks - 14);
    const opening = entry(openings, at, 'openings');
    const origin = item.kind === 'preserve' ? ('put-up' as const) : ('bought' as const);
    const write = (lot: (typeof lots)[number]) => {
      lots.push(lot);
      seq += 1;
      events.push(
        eventOf(lot, item, {
          seq,
          kind: origin === 'put-up' ? 'put up' : 'bought',
          units: lot.madeUnits,
          on: lot.madeOn,
        }),
      );
    };
    // One unit more than was eaten stood until yesterday: no shelf was bare in the year before, whoever reads of it.
    const old = lotOf(item, { id: `${item.id}-before`, madeOn: before, units: eaten + 1, left: 0, origin });
    write(old);
    if (opening.units > 0) write(lotOf(item, { ...opening, left: opening.units, origin }));
    taken.forEach((units, week) => {
      if (units === 0) return;
      seq += 1;
      const on = addDays(startsOn, 7 * (week - historyWeeks) + ((week + at) % 7));
      events.push(eventOf(old, item, { seq, kind: 'taken', units: -units, on }));
    });
    seq += 1;
    events.push(eventOf(old, item, { seq, kind: 'discarded', units: -1, on: addDays(startsOn, -1) }));
  });
  const written: HouseholdFacts = {
    ...facts,
    lots,
    events: events
      .toSorted((one, other) =>
        one.occurredOn < other.occurredOn ? -1 : one.occurredOn > other.occurredOn ? 1 : one.seq - other.seq,
      )
      .map((event, at) => ({ ...event, seq: at + 1 })),
    jars: facts.jars.map((stock) => {
      const full = openings.reduce(
        (sum, { units }, at) => (facts.items[at]?.usualJar === stock.kind ? sum + units : sum),
        0,
      );
      const owned = Math.max(stock.owned, full);
      return { ...stock, owned, full, empty: owned - full };
    }),
  };
  const world = worldOf(written, { openings, startsOn, reference, random });
  return {
    name: isDemo ? 'demo' : `household ${seed}`,
    facts: {
      ...written,
      items: written.items.map((item, at) => ({ ...item, chanceWanted: wishOf(item, world.items[at]) })),
    },
    processes,
    takenBefore,
    startsOn,
    world,
  };
}

/**
 * How often a household wants a preserve to last: as often as makes one unit more just worth what it costs, (miss - cost) / (miss - left),
 * in years of twenty as the program asks it (10 to 19). Staples keep the wish of the catalog.
 */
export function wishOf(
  { kind, chanceWanted }: Pick<Item, 'kind' | 'chanceWanted'>,
  worth: Pick<WorldItem, 'missCents' | 'costCents' | 'leftCents'> | undefined,
): number {
  if (kind === 'staple' || worth === undefined) return chanceWanted;
  const { missCents, costCents, leftCents } = worth;
  const chance = (missCents - costCents) / Math.max(1, missCents - leftCents);
  return Math.min(19, Math.max(10, Math.round(20 * chance))) / 20;
}

/** The calendar of a household's use. */
export function useSpan(facts: HouseholdFacts, startsOn: CalendarDate) {
  return {
    calendarWeek: Math.floor((Number(startsOn.slice(5, 7)) - 1) * 4.345),
    isAway: (week: number) => isAway(addDays(startsOn, 7 * week + 3), facts.daysOff.away),
  };
}

/** What stands at the start: of a preserve enough for some of the time until it comes again, of a staple for some weeks. */
function openingLot(
  facts: HouseholdFacts,
  item: Item,
  {
    startsOn,
    perWeek,
    random,
  }: { readonly startsOn: CalendarDate; readonly perWeek: number; readonly random: Random },
): Opening {
  const id = `${item.id}-opening`;
  const share = between(random, 0.4, 1.3);
  if (item.kind === 'staple')
    return { id, madeOn: addDays(startsOn, -14), units: Math.round(6 * perWeek * share) };
  const season = weeksToSeason(facts, item, startsOn);
  const age = Math.max(8, 44 - season);
  const madeOn = addDays(startsOn, -7 * age);
  const isPast = addDays(madeOn, item.bestQualityDays) <= startsOn;
  return { id, madeOn, units: isPast ? 0 : Math.round(season * perWeek * share) };
}

function weeksToSeason(facts: HouseholdFacts, item: Item, startsOn: CalendarDate): number {
  const crops = new Set(
    facts.recipes
      .filter(({ itemId }) => itemId === item.id)
      .flatMap(({ produce }) => produce.map(({ crop }) => crop)),
  );
  const begins = facts.sources
    .filter(({ crop }) => crops.has(crop))
    .flatMap(({ windows }) => windows.map(({ mostActive, beginsOn }) => mostActive?.fromOn ?? beginsOn))
    .filter((day) => day >= startsOn)
    .toSorted()[0];
  if (begins === undefined) return 4;
  return Math.max(1, Math.round((Date.parse(begins) - Date.parse(startsOn)) / (7 * 86_400_000)));
}

/** A lot as the household's book has it. */
export function lotOf(
  item: Item,
  lot: {
    readonly id: string;
    readonly madeOn: CalendarDate;
    readonly units: number;
    readonly left: number;
    readonly origin: 'put-up' | 'bought';
    readonly readyFrom?: CalendarDate;
  },
): HouseholdFacts['lots'][number] {
  return {
    id: lot.id as never,
    itemId: item.id,
    batchCode: lot.id,
    jarKind: item.usualJar,
    origin: lot.origin,
    madeOn: lot.madeOn,
    readyFrom: lot.readyFrom ?? lot.madeOn,
    bestQualityUntil: addDays(lot.madeOn, item.bestQualityDays),
    place: null,
    recipeId: null,
    setAside: null,
    madeUnits: lot.units,
    unitsLeft: lot.left,
    keptUntil: null,
  };
}

/** An event of a lot, written down on its day. */
export function eventOf(
  lot: HouseholdFacts['lots'][number],
  item: Item,
  event: {
    readonly seq: number;
    readonly kind: HouseholdFacts['events'][number]['kind'];
    readonly units: number;
    readonly on: CalendarDate;
    readonly reason?: string;
  },
): HouseholdFacts['events'][number] {
  return {
    seq: event.seq,
    entryId: `entry-${event.seq}-${lot.id}`,
    lotId: lot.id,
    batchCode: lot.batchCode,
    jarKind: lot.jarKind,
    itemId: item.id,
    itemName: item.name,
    kind: event.kind,
    units: event.units,
    trainsUse: event.kind === 'taken' || event.kind === 'counted',
    reason: event.reason ?? null,
    occurredOn: event.on,
    recordedAt: Date.parse(`${event.on}T12:00:00Z`),
    recordedBy: null,
    takenBy: null,
    reversesSeq: null,
    isReversed: false,
    move: null,
  };
}
