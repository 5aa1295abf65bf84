import type { Generated } from 'kysely';
import type { JarEventKind } from '../../../src/household/ledger.ts';
import type { DateText, Flag, Instant } from './columns.ts';

/** What stands on the shelf and the ledger it is the sum of. */
export interface ShelfTables {
  lot: LotTable;
  processing_evidence: ProcessingEvidenceTable;
  jar_event: JarEventTable;
  lot_move: LotMoveTable;
  jar_conflict: JarConflictTable;
  shelf_count: ShelfCountTable;
  idempotency: IdempotencyTable;
}

export interface LotTable {
  household_id: string;
  id: string;
  item_id: string;
  batch_code: string;
  jar_kind: string | null;
  origin: 'put-up' | 'bought' | 'received';
  made_on: DateText;
  ready_from: DateText;
  best_quality_until: DateText;
  place_id: string | null;
  cost_cents: number | null;
  set_aside_at: Instant | null;
  set_aside_reason: string | null;
  recipe_id: string | null;
  recorded_at: Instant;
}

export interface ProcessingEvidenceTable {
  household_id: string;
  lot_id: string;
  canner_id: string;
  method: string;
  gauge: string | null;
  schedule_row: string;
  altitude_ft: number;
  psi: number | null;
  minutes_run: number;
  acid_ticked: Flag | null;
  done_by: string;
}

export interface JarEventTable {
  seq: number;
  household_id: string;
  entry_id: string;
  lot_id: string;
  kind: JarEventKind;
  units: number;
  trains_use: Generated<Flag>;
  reason: string | null;
  occurred_on: DateText;
  recorded_at: Instant;
  recorded_by: string | null;
  /** The name of the member who took it, where the household says so. */
  taken_by: string | null;
  reverses_seq: number | null;
}

export interface LotMoveTable {
  household_id: string;
  entry_id: string;
  lot_id: string;
  from_place_id: string | null;
  from_name: string | null;
  to_place_id: string;
  to_name: string;
}

export interface JarConflictTable {
  household_id: string;
  id: string;
  item_id: string;
  lot_id: string | null;
  kind: string;
  units: number;
  occurred_on: DateText;
  recorded_at: Instant;
  settled_at: Instant | null;
  settled_as: string | null;
}

export interface ShelfCountTable {
  household_id: string;
  id: string;
  item_id: string;
  counted_on: DateText;
  book_units: number;
  counted_units: number;
  explained_as: 'taken-unrecorded' | 'miscount' | 'breakage' | 'gift' | 'found';
  recorded_at: Instant;
}

export interface IdempotencyTable {
  household_id: string;
  key: string;
  request_hash: string;
  answer_json: string;
  recorded_at: Instant;
}
