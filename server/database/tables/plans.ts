import type { Generated } from 'kysely';
import type { DateText, Instant, WeekText } from './columns.ts';

/** Plans as they were made, and what the household decided about them. */
export interface PlansTables {
  plan: PlanTable;
  kept: KeptTable;
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
