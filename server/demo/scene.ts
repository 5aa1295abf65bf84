import type { Transaction } from 'kysely';
import type { HouseholdId } from '../../shared/ids.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { Tables } from '../database/tables.ts';
import type { DemoData } from './demo-data.ts';
import type { PantryBook } from './pantry-book.ts';

/** What each part of the invented household is written from. */
export interface Scene {
  readonly db: Transaction<Tables>;
  readonly data: DemoData;
  readonly tables: ReferenceTables;
  readonly asOf: CalendarDate;
  readonly opensOn: CalendarDate;
  readonly book: PantryBook;
  readonly own: { readonly household_id: HouseholdId };
}

export const noonUtc = (date: CalendarDate): number => Date.parse(`${date}T12:00:00Z`);

export const entryId = (entry: number): string => `book-${String(entry).padStart(5, '0')}`;
