import type { Generated } from 'kysely';
import type { DateText, Instant } from './columns.ts';

/** A canning day: its sheet, its ticks and clocks, and what came out of it. */
export interface CanningDaysTables {
  canning_session: CanningSessionTable;
  session_tick: SessionTickTable;
  load_clock_event: LoadClockEventTable;
  printed_sheet: PrintedSheetTable;
  batch_result: BatchResultTable;
  batch_result_lot: BatchResultLotTable;
  seal_check: SealCheckTable;
  lot_standing_event: LotStandingEventTable;
  stage_event: StageEventTable;
}

export interface CanningSessionTable {
  household_id: string;
  session_on: DateText;
  setting_json: string;
  work_json: string;
  opened_at: Instant;
}

export interface SessionTickTable {
  household_id: string;
  session_on: DateText;
  load_key: string;
  step: string;
  ticked_at: Instant;
}

export interface LoadClockEventTable {
  seq: number;
  household_id: string;
  session_on: DateText;
  load_key: string;
  kind: 'started' | 'interrupted';
  why: 'boil-stopped' | 'pressure-dropped' | 'power-cut' | null;
  at: Instant;
  /** By a clock that is never set: the run of the machine, and milliseconds since it began; null where none was asked. */
  steady_run: string | null;
  steady_ms: number | null;
}

export interface PrintedSheetTable {
  household_id: string;
  number: number;
  session_on: DateText;
  basis_json: string;
  printed_at: Instant;
}

export interface BatchResultTable {
  household_id: string;
  id: string;
  recipe_id: string;
  made_on: DateText;
  batches: number;
  jars: number;
  minutes_taken: number | null;
  processed_at: Instant;
  note: Generated<string>;
  recorded_at: Instant;
  /** The canning day it was written on; null for what was written before days were kept with it, or on none. */
  session_on: DateText | null;
}

export interface BatchResultLotTable {
  household_id: string;
  result_id: string;
  lot_id: string;
}

export interface SealCheckTable {
  household_id: string;
  lot_id: string;
  checked_at: Instant;
  failed: number;
  choice: 'reprocess' | 'freeze' | 'refrigerate' | 'discard' | null;
}

export interface LotStandingEventTable {
  seq: number;
  household_id: string;
  lot_id: string;
  kind: 'set-aside' | 'released';
  reason: Generated<string>;
  at: Instant;
}

export interface StageEventTable {
  seq: number;
  household_id: string;
  batch_id: string;
  recipe_id: string;
  batches: number;
  kind: 'begun' | 'taken back' | 'thrown away';
  position: number | null;
  way: string | null;
  /** Local clock, `2026-08-12T21:00`. */
  begun_at: string | null;
  recorded_by: string | null;
  recorded_at: Instant;
}
