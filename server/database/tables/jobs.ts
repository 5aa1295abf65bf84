import type { Generated } from 'kysely';
import type { DateText, Instant } from './columns.ts';

/** Work in the background: the night’s, and letters. */
export interface JobsTables {
  job: JobTable;
}

export interface JobTable {
  seq: Generated<number>;
  kind: 'notices' | 'replan' | 'backup' | 'letter';
  subject: string;
  for_on: DateText;
  due_at: Instant;
  attempts: Generated<number>;
  leased_until: Instant | null;
  finished_at: Instant | null;
  failure: string | null;
}
