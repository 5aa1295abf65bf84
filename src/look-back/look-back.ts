import type { ItemId } from '../../shared/ids.ts';
import { asCents, type Cents } from '../../shared/money.ts';
import { addDays, addMonths, type CalendarDate, daysBetween, weekOf } from '../../shared/week.ts';
import { type ForecastRecord, forecastRecord, pastForecasts } from '../consumption/forecast-record.ts';
import { batchCost, unitsPerBatch } from '../household/batch-cost.ts';
import type { BatchResult } from '../household/batch-result.ts';
import type { Item } from '../household/item.ts';
import type { JarEvent } from '../household/ledger.ts';
import { unitsStanding, usualUnits } from '../household/lot.ts';
import { storePrice } from '../household/store-price.ts';
import type { OldestPlan } from '../planning/stored-plan.ts';
import type { HouseholdYear } from '../planning/year/household-year.ts';
import type { ItemYear } from '../planning/year/item-year.ts';
import { type AccountEvent, accountOf, type ItemAccount } from '../shelf/account.ts';
import { type MonthsPutUp, monthsPutUp } from './months-put-up.ts';
import { type NextYearAdvice, nextYearAdvice } from './next-year-advice.ts';
import { type WhoTook, whoTook } from './who-took.ts';
import { type Worth, worthOf } from './worth.ts';

/** One item's year, with what to do about the next. */
export interface ItemLookBack {
  readonly item: Item;
  readonly account: ItemAccount;
  readonly advice: NextYearAdvice;
  /** The target set by hand; null when it follows from use. */
  readonly handTarget: number | null;
  /** What was paid for it ready-made, and what its batches took at this year's prices. */
  readonly money: Cents;
  /** Of that, what was paid ready-made in the shop. */
  readonly moneyInShops: Cents;
  /** Hands-on minutes of its batches: as written down, else as its recipe says. */
  readonly minutes: number;
}

/** Batches the oldest kept plan wanted in weeks that have passed, and batches done in them. */
export interface PlanRecord {
  readonly madeOn: CalendarDate;
  readonly weeks: number;
  readonly planned: number;
  readonly done: number;
}

export interface LookBack {
  readonly from: CalendarDate;
  /** The day after the last. */
  readonly until: CalendarDate;
  readonly items: readonly ItemLookBack[];
  readonly forecast: ForecastRecord;
  readonly plan: PlanRecord | null;
  /** Money and work by the month in which jars were filled. */
  readonly months: MonthsPutUp;
  readonly worth: Worth;
  /** Null where no take of the year says who. */
  readonly whoTook: WhoTook | null;
  /** What a store asks for what is on the shelf today, of the items it is known for. */
  readonly shelf: { readonly store: Cents; readonly items: number };
}

/** A household's year as it stands on a day. */
export interface YearToDate {
  readonly asOf: CalendarDate;
  readonly loaded: HouseholdYear;
  readonly items: readonly ItemYear[];
}

/** What was read besides the year itself. */
export interface LookBackFacts {
  readonly results: readonly BatchResult[];
  readonly paid: ReadonlyMap<string, Cents>;
  readonly oldestPlan: OldestPlan | null;
  /** An amount of an item as its readers write it, without its unit; left out, in what it is counted in. */
  readonly figureOf?: (item: Item, units: number) => string;
}

/** The ledger as accounts read it, in units of each item's own jar. */
export function accountEvents(items: readonly Item[], events: readonly JarEvent[]): readonly AccountEvent[] {
  const itemById = new Map<string, Item>(items.map((item) => [item.id, item]));
  return events.flatMap((event) => accountEvent(itemById.get(event.itemId), event));
}

const accountKinds: readonly string[] = [
  'put up',
  'bought',
  'received',
  'taken',
  'given away',
  'discarded',
  'seal failed',
  'counted',
  'reversed',
] satisfies readonly AccountEvent['kind'][];

/** The twelve months up to and with a day. */
export const twelveMonthsTo = (asOf: CalendarDate) => ({
  from: addDays(addMonths(asOf, -12), 1),
  until: addDays(asOf, 1),
});

/** The year's account of a household, and what it says about the next year. */
export function lookBack(
  picture: YearToDate,
  { from, until }: { readonly from: CalendarDate; readonly until: CalendarDate },
  facts: LookBackFacts,
): LookBack {
  const { items, events, handTargets } = picture.loaded.facts;
  const { figureOf } = facts;
  const walks = new Map(picture.items.map(({ item, walk }) => [item.id, walk]));
  const itemById = new Map<string, Item>(items.map((item) => [item.id, item]));
  const moves = accountEvents(items, events);
  const knownFrom = (itemId: string) => picture.loaded.useByItem.get(itemId as ItemId)?.recordedSince ?? null;
  const lines = accountOf(moves, { from, until }, knownFrom).flatMap((account): ItemLookBack[] => {
    const item = itemById.get(account.itemId);
    return item === undefined
      ? []
      : [
          {
            item,
            account,
            advice: nextYearAdvice(
              account,
              walks.get(item.id) ?? null,
              item,
              figureOf && ((units) => figureOf(item, units)),
            ),
            handTarget: handTargets.get(item.id)?.units ?? null,
            ...spentOn(picture, item, account, facts),
          },
        ];
  });
  const priced = lines.map((line) => ({
    ...line,
    price: storePrice(picture.loaded.facts.storePacks.get(line.item.id) ?? [], {
      units: line.account.bought,
      cents: line.moneyInShops,
    }),
  }));
  return {
    from,
    until,
    items: lines,
    whoTook: whoTook(events, { from, until }),
    months: monthsPutUp(
      moves,
      lines.flatMap(({ item, account, money, moneyInShops, minutes }) =>
        account.putUp <= 0
          ? []
          : [
              {
                itemId: item.id,
                cents: (money - moneyInShops) / account.putUp,
                minutes: minutes / account.putUp,
              },
            ],
      ),
      new Map(priced.flatMap(({ item, price }) => (price === null ? [] : [[item.id, price.centsEach]]))),
      { from, until },
    ),
    worth: worthOf(
      priced
        .filter(({ item }) => item.kind === 'preserve')
        .map(({ item, account, money, moneyInShops, minutes, price }) => ({
          item,
          units: account.putUp,
          home: asCents(money - moneyInShops),
          minutes,
          price,
        })),
    ),
    shelf: shelfWorth(picture, priced),
    forecast: recordOf(picture),
    plan: planRecord(picture, facts.oldestPlan),
  };
}

function shelfWorth(
  { loaded }: YearToDate,
  priced: readonly { readonly item: Item; readonly price: ReturnType<typeof storePrice> }[],
): LookBack['shelf'] {
  const worth = priced.flatMap(({ item, price }) => {
    const units = unitsStanding(
      item,
      loaded.facts.lots.filter(({ itemId }) => itemId === item.id),
    );
    return price === null || units <= 0 ? [] : [units * price.centsEach];
  });
  return { store: asCents(worth.reduce((sum, cents) => sum + cents, 0)), items: worth.length };
}

function accountEvent(item: Item | undefined, event: JarEvent): AccountEvent[] {
  if (item === undefined || !accountKinds.includes(event.kind)) return [];
  return [
    {
      seq: event.seq,
      itemId: item.id,
      kind: event.kind as AccountEvent['kind'],
      units: usualUnits(item, event.jarKind, event.units),
      trainsUse: event.trainsUse,
      reason: event.reason,
      occurredOn: event.occurredOn,
      reversesSeq: event.reversesSeq,
    },
  ];
}

/** A batch's money at the prices of now: produce at its cheapest source, supplies by the pack's share, one lid a jar. */
function spentOn(
  { loaded }: YearToDate,
  item: Item,
  account: ItemAccount,
  { results, paid }: LookBackFacts,
): Pick<ItemLookBack, 'money' | 'moneyInShops' | 'minutes'> {
  const bought = paid.get(item.id) ?? asCents(0);
  const recipe = loaded.facts.recipes.find(({ itemId }) => itemId === item.id);
  if (recipe === undefined || account.putUp === 0) return { money: bought, moneyInShops: bought, minutes: 0 };
  const batches = account.putUp / unitsPerBatch(item, recipe);
  const written = results.filter(({ recipeId }) => recipeId === recipe.id);
  const writtenBatches = written.reduce((sum, result) => sum + result.batches, 0);
  const writtenMinutes = written.reduce(
    (sum, result) => sum + (result.minutesTaken ?? recipe.handsOnMinutes * result.batches),
    0,
  );
  return {
    moneyInShops: bought,
    money: asCents(bought + batches * batchCost(loaded.facts, recipe).cents),
    minutes: writtenMinutes + Math.max(0, batches - writtenBatches) * recipe.handsOnMinutes,
  };
}

/** Forecasts of the last year, made again from what was known at the time. */
function recordOf({ asOf, items, loaded }: YearToDate): ForecastRecord {
  const judgedFrom = weekOf(addMonths(asOf, -12));
  const away = loaded.facts.daysOff.away.map(({ fromOn, untilOn }) => ({ from: fromOn, until: untilOn }));
  return forecastRecord(
    items.flatMap(({ use }) =>
      use.forecast === null || use.declaredPerWeek <= 0
        ? []
        : pastForecasts(
            // The running week is not over yet.
            use.history.filter(({ week }) => week < weekOf(asOf)),
            { perWeek: use.declaredPerWeek, weight: 6, pattern: use.forecast.pattern, occasions: [] },
            judgedFrom,
            { away, schoolHolidays: [] },
          ),
    ),
  );
}

/** A plan must be at least this old before it is held against what was done. */
const leastPlanDays = 28;

function planRecord({ asOf, loaded }: YearToDate, oldest: OldestPlan | null): PlanRecord | null {
  if (oldest === null || daysBetween(oldest.asOf, asOf) < leastPlanDays) return null;
  const passed = oldest.plan.weeks.filter(({ week }) => week >= weekOf(oldest.asOf) && week < weekOf(asOf));
  const weeks = new Set(passed.map(({ week }) => week));
  return {
    madeOn: oldest.asOf,
    weeks: passed.length,
    planned: passed.reduce(
      (sum, { sessions }) => sum + sessions.reduce((batches, session) => batches + session.batches, 0),
      0,
    ),
    done: loaded.facts.kept.reduce(
      (sum, kept) => sum + (kept.decision === 'done' && weeks.has(kept.week) ? (kept.batches ?? 0) : 0),
      0,
    ),
  };
}
