import { createHash } from 'node:crypto';
import { type RawBuilder, sql } from 'kysely';
import type { HouseholdId } from '../../shared/ids.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { JobTable } from '../database/tables.ts';

/** Lanes of work in the background: what somebody waits for, what is due soon, and the night's. One goes before the next. */
export const lanes = { now: 0, soon: 1, night: 2 } as const;
export type Lane = keyof typeof lanes;

/** Households stand in so many buckets. */
const buckets = 64;

/** The bucket of a household; what is of none stands in the first. */
export const bucketOf = (household: HouseholdId | null): number =>
  household === null ? 0 : (createHash('sha256').update(household).digest()[0] as number) % buckets;

export interface NewJob {
  readonly kind: JobTable['kind'];
  readonly subject: string;
  /** Whose it is; null of what is done for the whole file. */
  readonly household: HouseholdId | null;
  readonly lane: Lane;
  readonly forOn: CalendarDate;
  readonly dueAt: number;
}

/** A job as it is written down at an instant: its turn is as long ago as its household was served, once it is due. */
export const jobRow = ({ kind, subject, household, lane, forOn, dueAt }: NewJob, at: number) => ({
  kind,
  subject,
  household_id: household,
  for_on: forOn,
  due_at: dueAt,
  lane: lanes[lane],
  bucket: bucketOf(household),
  turn_at: dueAt > at || household === null ? dueAt : servedLast(household, at),
});

const servedLast = (household: HouseholdId, at: number): RawBuilder<number> =>
  sql`(SELECT coalesce(max(served_at), 0) FROM job WHERE household_id = ${household} AND served_at <= ${at})`;
