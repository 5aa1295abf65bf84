import type { Generated } from 'kysely';
import type { DateText, Flag, Instant, WeekText } from './columns.ts';

/** Plans as they were made, and what the household decided about them. */
export interface PlansTables {
  plan: PlanTable;
  kept: KeptTable;
  glut_use: GlutUseTable;
}

export interface PlanTable {
  household_id: string;
  id: string;
  as_of: DateText;
  facts_version: number;
  input_json: string;
  result_json: string;
  made_at: Instant;
  /** Counts the plans of a household as they were kept; null for those from before there was a count. */
  seq: Generated<number | null>;
}

export interface KeptTable {
  household_id: string;
  recipe_id: string;
  week: WeekText;
  decision: 'pinned' | 'ruled-out' | 'done';
  batches: number | null;
  decided_at: Instant;
}

/** A glut taken into the plan: its id is the entry that brought the produce. */
export interface GlutUseTable {
  household_id: string;
  id: string;
  crop: string;
  lb: number;
  use_by: DateText;
  /** Batches pinned for it, with what was pinned there before. */
  pins_json: string;
  /** The plan before it, and whether nothing had changed since that was made. */
  plan_before: string | null;
  plan_was_current: Flag;
  /** Of the household, with the glut written down. */
  facts_version: number;
  recorded_at: Instant;
  undone_at: Instant | null;
}
