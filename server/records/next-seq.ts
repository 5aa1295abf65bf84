import { type RawBuilder, sql } from 'kysely';
import type { HouseholdId } from '../../shared/ids.ts';

/** Tables whose rows a household numbers in the order of writing. */
export type NumberedTable =
  | 'plan'
  | 'notice'
  | 'letter'
  | 'jar_event'
  | 'empty_jar_event'
  | 'material_event'
  | 'store_event'
  | 'load_clock_event'
  | 'lot_standing_event'
  | 'stage_event'
  | 'recipe_way';

/**
 * The number of the next row of a household, as part of the statement that inserts it: what is newest is told by the order of
 * writing, since a clock can be wrong. Of several rows of one statement each says how many stand `before` it there. Two writers take
 * two numbers because each holds the household's row.
 */
export const nextSeq = (table: NumberedTable, householdId: HouseholdId, before = 0): RawBuilder<number> =>
  sql<number>`(SELECT coalesce(max(seq), 0) + ${before + 1} FROM ${sql.table(table)} WHERE household_id = ${householdId})`;
