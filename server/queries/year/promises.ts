import type { HouseholdId, ItemId } from '../../../shared/ids.ts';
import { addDays, addMonths, type CalendarDate, yearOf } from '../../../shared/week.ts';
import type { OccasionSetting } from '../../../src/household/appetite.ts';
import type { Item } from '../../../src/household/item.ts';
import type { JarEvent } from '../../../src/household/ledger.ts';
import { type LotOnShelf, unitsStanding, usualUnits } from '../../../src/household/lot.ts';
import type { Database } from '../../database/database.ts';
import { itemsOnShelf } from '../household/items.ts';
import { ledgerOf } from '../shelf/ledger.ts';
import { occasionsOf } from './targets.ts';

/** Units of an item that were promised to somebody and are kept back until a day. */
export interface PromisedUnits {
  /** In the item's usual jar, bag or pound; what was already taken for the promise is no longer kept back. */
  readonly units: number;
  /** The soonest day something of it is promised for. */
  readonly until: CalendarDate;
}

/** What a promise hangs on. */
interface Promising {
  readonly occasions: readonly OccasionSetting[];
  readonly items: readonly Item[];
  readonly events: readonly JarEvent[];
}

/** A promise is kept back from this long before its day. Our own choice: a summer's jars for a winter's gifts. */
const keptBackDays = 120;

/** Reason of an event that takes something for the promise of a day: it frees the promise and trains no use. */
export const promiseReason = (until: CalendarDate): string => `promise ${until}`;

/** What is kept back on a day, by item; of one item or of all. */
export async function promisedByItem(
  db: Database,
  householdId: HouseholdId,
  today: CalendarDate,
  itemId?: string,
): Promise<ReadonlyMap<ItemId, PromisedUnits>> {
  const occasions = await occasionsOf(db, householdId);
  const asked = itemId === undefined ? occasions : occasions.filter((one) => one.itemId === itemId);
  if (promisesAhead(asked, today).length === 0) return new Map();
  const [items, events] = await Promise.all([
    itemsOnShelf(db, householdId),
    ledgerOf(db, householdId, {
      kinds: ['taken', 'given away'],
      from: addDays(today, -2 * keptBackDays),
      ...(itemId === undefined ? {} : { itemId }),
    }),
  ]);
  return promisedIn({ occasions: asked, items, events }, today);
}

/** The same by what was read. */
export function promisedIn(
  { occasions, items, events }: Promising,
  today: CalendarDate,
): ReadonlyMap<ItemId, PromisedUnits> {
  const promised = promisesAhead(occasions, today);
  if (promised.length === 0) return new Map();
  const taken = takenForPromises(items, events, today);
  const unitsByDay = new Map<string, { itemId: ItemId; on: CalendarDate; units: number }>();
  for (const { itemId: id, on, units } of promised) {
    const before = unitsByDay.get(`${id} ${on}`)?.units ?? 0;
    unitsByDay.set(`${id} ${on}`, { itemId: id, on, units: before + units });
  }
  const kept = new Map<ItemId, PromisedUnits>();
  for (const [key, { itemId: id, on, units }] of unitsByDay) {
    const left = units - (taken.get(key) ?? 0);
    if (left <= 0) continue;
    const before = kept.get(id);
    kept.set(id, { units: (before?.units ?? 0) + left, until: before?.until ?? on });
  }
  return kept;
}

const promisesAhead = (occasions: Promising['occasions'], today: CalendarDate) =>
  occasions
    .filter(({ kind }) => kind === 'promised')
    .map((one) => ({ ...one, on: nextDay(one, today) }))
    .filter(({ on }) => on >= today && on <= addDays(today, keptBackDays))
    .sort((one, other) => (one.on < other.on ? -1 : one.on > other.on ? 1 : 0));

/** The day itself, or of what is promised every year its next return. */
function nextDay({ on, isYearly }: OccasionSetting, today: CalendarDate): CalendarDate {
  if (!isYearly || on >= today) return on;
  const thisYear = addMonths(on, 12 * (yearOf(today) - yearOf(on)));
  return thisYear >= today ? thisYear : addMonths(on, 12 * (yearOf(today) - yearOf(on) + 1));
}

/** Units taken for the promise of a day, by item and day. */
function takenForPromises(
  items: Promising['items'],
  events: Promising['events'],
  today: CalendarDate,
): ReadonlyMap<string, number> {
  const from = addDays(today, -2 * keptBackDays);
  const itemById = new Map(items.map((item) => [item.id, item]));
  const taken = new Map<string, number>();
  for (const event of events) {
    if (event.occurredOn < from || !(event.kind === 'taken' || event.kind === 'given away')) continue;
    const day = /^promise (.+)$/.exec(event.reason ?? '')?.[1];
    const item = itemById.get(event.itemId);
    if (day === undefined || item === undefined || event.isReversed) continue;
    const key = `${event.itemId} ${day}`;
    taken.set(key, (taken.get(key) ?? 0) + usualUnits(item, event.jarKind, -event.units));
  }
  return taken;
}

/** Units that nobody is promised: of what may be eaten by the promise's day, in the item's usual unit; below 0 where some are missing. */
export const unpromisedUnits = (
  item: Parameters<typeof usualUnits>[0],
  lots: readonly LotOnShelf[],
  kept: PromisedUnits,
): number =>
  unitsStanding(
    item,
    lots.filter((lot) => lot.readyFrom <= kept.until),
  ) - kept.units;
