import { compare } from '../../../shared/compare.ts';
import type { CropKey, RecipeId } from '../../../shared/ids.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import {
  addDays,
  type CalendarDate,
  dayInWeek,
  daysBetween,
  type WeekKey,
  type WeekStart,
} from '../../../shared/week.ts';
import { isAway, lastDayAtHome } from '../../harvest/source-years.ts';
import type { KitchenHours } from '../../household/kitchen.ts';
import { entry, orNone } from '../lookup.ts';
import type { Plan, PlannedPurchase, PlannedSession, PlannedWeek } from '../plan.ts';
import type { PlannedRecipe, PlanningYear } from '../planning-year.ts';
import { shoppingDayBefore } from './buy-by.ts';
import { plannedDays } from './week-sessions.ts';

/** Part of a line of the shopping list that is fetched on one way. */
export interface Fetch {
  /** Of the line's quantity, in its unit. */
  readonly quantity: number;
  /** Not fetched before this day, since it would not keep; null for what keeps. */
  readonly notBefore: CalendarDate | null;
  /** The last day for it: the day before its batch is made where there is one. */
  readonly by: CalendarDate;
  /** The first day on which it is worked up; null where nothing is made of it. */
  readonly forDay: CalendarDate | null;
}

/** What the days of buying are worked out from. */
export interface FetchAsked {
  readonly plan: Plan;
  readonly year: Pick<PlanningYear, 'sources' | 'supplies' | 'recipes'>;
  readonly hours: KitchenHours;
  readonly weekStartsOn: WeekStart;
}

/** A day on which some of a line is used, and how much. */
interface Use {
  readonly on: CalendarDate;
  readonly quantity: number;
}

/**
 * On which days a line of a week is fetched, the first way first; never empty.
 *
 * What keeps is fetched by the shopping day (`shoppingDayBefore`) before the first canning of the week or the soak before it, what is
 * for the pantry by the last day of the week at home. What spoils (produce, and supplies with `freshDays`) is fetched at most as many days before it is used as it
 * keeps: by the usual day where that is near enough, else by the day before. What one way cannot serve is a way of its own.
 *
 * Example: raw chicken for a Saturday, which stands two days: on Thursday or Friday.
 */
export const fetchDays = (
  purchase: PlannedPurchase,
  week: PlannedWeek,
  { plan, year, hours, weekStartsOn }: FetchAsked,
): readonly [Fetch, ...Fetch[]] => fetchesOf({ purchase, week, plan, year, hours, weekStartsOn });

// Several pages ask for the days of the same lines, as long as a plan stands.
const fetchesOf = whileTheSame('purchase', waysOfLine);

function waysOfLine({
  purchase,
  week,
  ...asked
}: FetchAsked & { readonly purchase: PlannedPurchase; readonly week: PlannedWeek }): readonly [
  Fetch,
  ...Fetch[],
] {
  const { hours, weekStartsOn } = asked;
  const { away = [] } = hours;
  const began = dayInWeek(week.week, weekStartsOn === 'monday' ? 1 : 7, weekStartsOn);
  const weekEnd = lastDayAtHome(addDays(began, 6), away, began);
  const whole = (by: CalendarDate, forDay: CalendarDate | null): readonly [Fetch] => [
    { quantity: purchase.quantity, notBefore: null, by, forDay },
  ];
  if (purchase.kind === 'item') return whole(weekEnd, null);
  const keeps = keepsDays(purchase, asked);
  if (keeps === null) {
    const first = firstCanning(week, asked);
    if (first === null) return whole(weekEnd, null);
    return whole(shoppingDayBefore(first, hours), first);
  }
  let rest = usesOf(purchase, week, asked);
  if (rest.length === 0) return whole(weekEnd, null);
  const ways: Fetch[] = [];
  while (rest[0] !== undefined) {
    const way = nextWay(rest as readonly [Use, ...Use[]], keeps, away, purchase.kind === 'produce');
    ways.push(way.fetch);
    rest = rest.slice(way.served);
  }
  return ways as unknown as readonly [Fetch, ...Fetch[]];
}

/** Days a line keeps before it is worked up; null for what is not fresh. */
function keepsDays({ kind, what }: PlannedPurchase, { year }: FetchAsked): number | null {
  if (kind === 'produce') return year.sources.find(({ id }) => id === what)?.useByDays ?? null;
  if (kind === 'supply') return year.supplies.find(({ id }) => id === what)?.freshDays ?? null;
  return null;
}

/** One way that serves as many of the uses as what it brings can wait for. */
function nextWay(
  uses: readonly [Use, ...Use[]],
  keeps: number,
  away: NonNullable<KitchenHours['away']>,
  isProduce: boolean,
): { readonly fetch: Fetch; readonly served: number } {
  const [first] = uses;
  const servedBy = (day: CalendarDate) => uses.filter(({ on }) => daysBetween(day, on) <= keeps).length;
  const usual = shoppingDayBefore(first.on, { away });
  const latest = lastDayAtHome(addDays(first.on, -Math.min(1, keeps)), away, addDays(first.on, -keeps));
  // A later day serves more of what comes after, as long as it is still before the first.
  const isUsual = isProduce && !isAway(usual, away) && servedBy(usual) >= servedBy(latest);
  const by = isUsual ? usual : latest;
  const served = uses.slice(0, servedBy(by));
  return {
    served: served.length,
    fetch: {
      quantity: served.reduce((sum, { quantity }) => sum + quantity, 0),
      notBefore: addDays(entry(served, served.length - 1, 'served').on, -keeps),
      by,
      forDay: first.on,
    },
  };
}

/** When a line of a week is used: by the batches begun in it, and of a crop that waits by those of the weeks after. */
function usesOf(purchase: PlannedPurchase, week: PlannedWeek, asked: FetchAsked): readonly Use[] {
  const own = ownUses(purchase, week, asked);
  const needed = own.reduce((sum, { quantity }) => sum + quantity, 0);
  const waiting = purchase.kind === 'produce' ? carried(purchase, week, asked) : 0;
  const inOwnWeek = own.length === 0 ? 0 : purchase.quantity - waiting;
  const later = purchase.quantity - inOwnWeek;
  const next = later > 1e-6 ? laterUse(purchase, week, asked) : [];
  const all = [
    ...own.map(({ on, quantity }) => ({ on, quantity: (quantity / needed) * inOwnWeek })),
    ...next.map((on) => ({ on, quantity: later })),
  ].filter(({ quantity }) => quantity > 1e-6);
  const last = all.at(-1);
  // What no week after uses is frozen, or of an older plan: it goes with the last of its own week.
  return last === undefined || next.length > 0
    ? all
    : [...all.slice(0, -1), { ...last, quantity: last.quantity + later }];
}

/** The crop a source gives. */
const cropOf = ({ what }: PlannedPurchase, { sources }: FetchAsked['year']): CropKey | undefined =>
  sources.find(({ id }) => id === what)?.crop;

/** Pounds of a line that wait for the week after. */
function carried(purchase: PlannedPurchase, { materials }: PlannedWeek, { year }: FetchAsked): number {
  const crop = cropOf(purchase, year);
  return Math.min(purchase.quantity, orNone(materials.find(({ what }) => what === crop)?.waiting));
}

/** The first day in the weeks after on which the crop is used again. */
function laterUse(purchase: PlannedPurchase, week: PlannedWeek, asked: FetchAsked): readonly CalendarDate[] {
  for (const later of asked.plan.weeks.filter((one) => one.week > week.week).slice(0, weeksLookedAhead)) {
    const [use] = ownUses(purchase, later, asked);
    if (use !== undefined) return [use.on];
  }
  return [];
}

const weeksLookedAhead = 9;

/** Uses in a week of what a line is of, by the days on which batches are begun in it, earliest first. */
function ownUses(purchase: PlannedPurchase, { week }: PlannedWeek, asked: FetchAsked): readonly Use[] {
  const { year } = asked;
  return sessionsBegun(week, asked)
    .flatMap(({ session, on }): Use[] => {
      const recipe = year.recipes.find(
        ({ id, jarKind }) => id === session.recipe && jarKind === (session.jars[0]?.kind ?? null),
      );
      const quantity = session.batches * perBatch(recipe, purchase, year);
      return quantity > 0 ? [{ on: session.begin?.on ?? on, quantity }] : [];
    })
    .toSorted((one, other) => compare(one.on, other.on));
}

/** Planned batches that are begun in a week, with the days they are canned on. */
const sessionsBegun = (week: WeekKey, asked: FetchAsked) =>
  asked.plan.weeks.flatMap((loaded) => {
    const isBegunNow = ({ begin, begun }: PlannedSession): boolean =>
      begun === undefined && (begin?.week ?? loaded.week) === week;
    return loaded.sessions.some(isBegunNow)
      ? placed(loaded, asked).filter(({ session }) => isBegunNow(session))
      : [];
  });

function perBatch(
  recipe: PlannedRecipe | undefined,
  purchase: PlannedPurchase,
  year: FetchAsked['year'],
): number {
  if (recipe === undefined) return 0;
  if (purchase.kind === 'supply')
    return orNone(recipe.supplies.find(({ supplyId }) => supplyId === purchase.what)?.quantity);
  const crop = cropOf(purchase, year);
  return recipe.produce.filter((part) => part.crop === crop).reduce((sum, { lb }) => sum + lb, 0);
}

/** The planned batches of a week with the days they are canned on. */
const placed = (
  week: PlannedWeek,
  { hours, weekStartsOn }: FetchAsked,
): readonly { readonly session: PlannedSession; readonly on: CalendarDate }[] =>
  plannedDays({ planned: week, hours, weekStartsOn }).flatMap(({ on, work }) =>
    work.map(({ session }) => ({ session, on })),
  );

/** The first day of a week on which something is canned, or soaked or brined for a canning day after it. */
const firstCanning = (week: PlannedWeek, asked: FetchAsked): CalendarDate | null =>
  [
    ...placed(week, asked).map(({ on }) => on),
    ...sessionsBegun(week.week, asked).map(({ session, on }) => session.begin?.on ?? on),
  ].toSorted()[0] ?? null;

/** Raw meat and the like of a session, with the days on which it is bought. */
export interface FreshToBuy {
  readonly purchase: PlannedPurchase;
  readonly week: WeekKey;
  readonly fetch: Fetch;
  readonly keepsDays: number;
  readonly makes: readonly RecipeId[];
}

/** Every planned purchase of what spoils but is no produce, in the order of its days. */
export const freshToBuy = (asked: FetchAsked): readonly FreshToBuy[] =>
  asked.plan.weeks
    .flatMap((week) =>
      week.purchases
        .filter(({ kind }) => kind === 'supply')
        .flatMap((purchase) => {
          const days = keepsDays(purchase, asked);
          if (days === null) return [];
          const makes = sessionsBegun(week.week, asked)
            .map(({ session }) => session.recipe)
            .filter((id) =>
              asked.year.recipes.some(
                (recipe) =>
                  recipe.id === id && recipe.supplies.some(({ supplyId }) => supplyId === purchase.what),
              ),
            );
          return fetchDays(purchase, week, asked).map((fetch) => ({
            purchase,
            week: week.week,
            fetch,
            keepsDays: days,
            makes: [...new Set(makes)],
          }));
        }),
    )
    .toSorted((one, other) => compare(one.fetch.by, other.fetch.by));
