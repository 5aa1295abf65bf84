import { type Kysely, sql } from 'kysely';

// Salsa, tomato sauce and reduced-sugar jam were given the shorter figure of their published range, so that they were past their best
// while the source still calls them good. What still stands at that figure takes the longer one; a household's own choice stays.
const shorter = sql`item.best_quality_days = CASE item.shelf_life_key
  WHEN 'hc_salsa' THEN 274 WHEN 'hc_tomato_sauce' THEN 274 WHEN 'jam_home_lowsugar' THEN 182 END
  AND item.household_id IN (SELECT id FROM household WHERE is_demo = 0)`;

export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`UPDATE lot SET best_quality_until = date(made_on, '+365 days')
    WHERE EXISTS (SELECT 1 FROM item WHERE item.household_id = lot.household_id AND item.id = lot.item_id AND ${shorter}
      AND lot.best_quality_until = date(lot.made_on, '+' || item.best_quality_days || ' days'))`.execute(db);
  await sql`UPDATE household SET facts_version = facts_version + 1
    WHERE id IN (SELECT household_id FROM item WHERE ${shorter})`.execute(db);
  await sql`UPDATE item SET best_quality_days = 365 WHERE ${shorter}`.execute(db);
}
