import type { HouseholdId } from '../../../shared/ids.ts';
import { addDays, type CalendarDate } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import type { JarEvent } from '../../../src/household/ledger.ts';
import { type OpenJarsHere, openJarsHere } from '../../../src/shelf/open-jars-here.ts';
import type { Database } from '../../database/database.ts';
import { itemsOnShelf } from '../household/items.ts';
import { ledgerOf } from './ledger.ts';

/** Longest that any opened jar is looked back for, days; no published keep-cold limit is longer than a year. */
const lookedBackDays = 400;

/** Jars that stand open in the refrigerator on a day, the soonest limit first. */
export async function openJarsOf(
  db: Database,
  householdId: HouseholdId,
  asOf: CalendarDate,
): Promise<readonly OpenJarsHere[]> {
  const from = addDays(asOf, -lookedBackDays);
  const [items, events] = await Promise.all([
    itemsOnShelf(db, householdId),
    ledgerOf(db, householdId, { from, kinds: ['taken', 'finished'] }),
  ]);
  return openJarsIn(items, events, asOf);
}

/** The same by what was read. */
export const openJarsIn = (
  items: readonly Item[],
  events: readonly JarEvent[],
  asOf: CalendarDate,
): readonly OpenJarsHere[] => {
  const from = addDays(asOf, -lookedBackDays);
  return openJarsHere(
    items,
    events.filter(({ occurredOn, kind }) => occurredOn >= from && (kind === 'taken' || kind === 'finished')),
    asOf,
  );
};
