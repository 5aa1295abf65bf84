import type { Generated } from 'kysely';
import type { Flag, Instant } from './columns.ts';

/** What leaves and enters the program: calendars, labels, lists. */
export interface ExchangeTables {
  calendar_feed: CalendarFeedTable;
  calendar_entry: CalendarEntryTable;
  label_grid: LabelGridTable;
  import_draft: ImportDraftTable;
}

export interface CalendarFeedTable {
  household_id: string;
  token: string;
  canning: Generated<Flag>;
  shopping: Generated<Flag>;
  best_quality: Generated<Flag>;
  harvest: Generated<Flag>;
  created_at: Instant;
}

export interface CalendarEntryTable {
  household_id: string;
  uid: string;
  content_hash: string;
  sequence: Generated<number>;
  created_at: Instant;
  changed_at: Instant;
}

export interface LabelGridTable {
  household_id: string;
  paper: 'A4' | 'Letter';
  columns: number;
  rows: number;
  width_mm: number;
  height_mm: number;
  left_mm: number;
  top_mm: number;
  across_mm: number;
  down_mm: number;
  address: Generated<string>;
}

export interface ImportDraftTable {
  household_id: string;
  id: string;
  kind: 'stock' | 'past use';
  file_name: string;
  content: string;
  received_at: Instant;
}
