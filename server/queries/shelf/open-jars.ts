import type { HouseholdId } from '../../../shared/ids.ts';
import { addDays, type CalendarDate } from '../../../shared/week.ts';
import { type OpenJarsHere, openJarsHere } from '../../../src/shelf/open-jars-here.ts';
import type { Database } from '../../database/database.ts';
import { itemsOnShelf } from '../household/items.ts';
import { ledgerOf } from './ledger.ts';

/** Longest that any opened jar is looked back for, days; no published keep-cold limit is longer than a year. */
const lookedBackDays = 400;

/** Jars that stand open in the refrigerator on a day, the soonest limit first; of one item, or of all. */
export async function openJarsOf(
  db: Database,
  householdId: HouseholdId,
  asOf: CalendarDate,
  itemId?: string,
): Promise<readonly OpenJarsHere[]> {
  const [items, events] = await Promise.all([
    itemsOnShelf(db, householdId),
    ledgerOf(db, householdId, {
      from: addDays(asOf, -lookedBackDays),
      kinds: ['taken', 'finished'],
      ...(itemId === undefined ? {} : { itemId }),
    }),
  ]);
  return openJarsHere(items, events, asOf);
}
