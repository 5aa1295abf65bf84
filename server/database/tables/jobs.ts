import type { Generated } from 'kysely';
import type { DateText, Instant } from './columns.ts';

/** Work in the background: the night’s, and letters. */
export interface JobsTables {
  job: JobTable;
  clock_reading: ClockReadingTable;
  clock_jump: ClockJumpTable;
}

/** The latest instant the clock has shown; one row. */
export interface ClockReadingTable {
  id: number;
  latest_at: Instant;
}

/** The clock went back: until when it had been ahead. */
export interface ClockJumpTable {
  seq: Generated<number>;
  noticed_at: Instant;
  ahead_until: Instant;
}

export interface JobTable {
  seq: Generated<number>;
  kind: 'notices' | 'replan' | 'backup' | 'letter' | 'plan' | 'question';
  subject: string;
  /** Whose it is; null of what is done for the whole file. */
  household_id: string | null;
  for_on: DateText;
  due_at: Instant;
  attempts: Generated<number>;
  leased_until: Instant | null;
  finished_at: Instant | null;
  failure: string | null;
  /** 0 what somebody waits for, 1 what is due soon, 2 the night’s. */
  lane: Generated<number>;
  /** Which sixty-fourth of all households: every claim is of one. */
  bucket: Generated<number>;
  /** From when on it may be taken, the earliest first; null once it was given up. */
  turn_at: Generated<Instant | null>;
  /** Who has it under a lease, a name of one time. */
  leased_by: string | null;
  /** When it was last taken. */
  served_at: Instant | null;
  /** How often a lease ran out over it. */
  lapses: Generated<number>;
  /** The household a solve is under way for. */
  solves_for: string | null;
  /** What exactly is asked, as JSON. */
  asked: string | null;
  /** What whoever works on it says of it, as JSON: how far it is, and in the end the answer. */
  said: string | null;
}
