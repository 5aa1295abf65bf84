import { type Kysely, sql } from 'kysely';

// What a request, a minute and a night ask for is found by an index, however many other households the file holds.
export async function up(db: Kysely<unknown>): Promise<void> {
  for (const statement of [
    // Whose year a request is about: those of the person, and those that nobody owns yet.
    'ALTER TABLE household ADD COLUMN is_open INTEGER NOT NULL DEFAULT 1 CHECK (is_open IN (0, 1))',
    'UPDATE household SET is_open = 0 WHERE id IN (SELECT household_id FROM membership)',
    'CREATE INDEX household_open ON household (id) WHERE is_open = 1',
    'CREATE INDEX household_in_order ON household (is_demo, created_at, id)',
    'CREATE INDEX membership_by_person ON membership (person_id)',
    // The night up to which a household's work is written down.
    'ALTER TABLE household ADD COLUMN noted_night TEXT CHECK (noted_night IS date(noted_night))',
    "CREATE INDEX household_by_night ON household (time_zone, coalesce(noted_night, ''))",
    'ALTER TABLE job ADD COLUMN household_id TEXT',
    "UPDATE job SET household_id = CASE kind WHEN 'letter' THEN substr(subject, 1, instr(subject, ' ') - 1) WHEN 'backup' THEN NULL ELSE subject END",
    'CREATE INDEX job_of_household ON job (household_id, seq)',
    'CREATE INDEX job_waiting ON job (kind, due_at, seq) WHERE finished_at IS NULL',
    'CREATE INDEX job_leased ON job (kind, leased_until) WHERE leased_until IS NOT NULL',
    'CREATE INDEX job_failed ON job (kind, subject, seq) WHERE failure IS NOT NULL',
    'CREATE INDEX job_by_due ON job (due_at)',
    'CREATE INDEX job_by_end ON job (finished_at)',
    // Rows of a household.
    'CREATE INDEX empty_jar_event_by_kind ON empty_jar_event (household_id, jar_kind)',
    'CREATE INDEX empty_jar_event_by_entry ON empty_jar_event (household_id, entry_id)',
    'CREATE INDEX material_event_by_subject ON material_event (household_id, subject)',
    'CREATE INDEX material_event_by_result ON material_event (household_id, result_id)',
    'CREATE INDEX load_clock_event_by_day ON load_clock_event (household_id, session_on)',
    'CREATE INDEX lot_standing_event_by_lot ON lot_standing_event (household_id, lot_id)',
    // What is swept by its time, and the newest of each for the clock.
    'CREATE INDEX idempotency_by_time ON idempotency (recorded_at)',
    'CREATE INDEX sign_in_by_last ON sign_in (seen_at)',
    'CREATE INDEX sign_in_by_begin ON sign_in (began_at)',
    'CREATE INDEX sign_in_failure_by_time ON sign_in_failure (failed_at)',
    'CREATE INDEX half_sign_in_by_end ON half_sign_in (expires_at)',
    'CREATE INDEX invitation_by_end ON invitation (expires_at)',
    'CREATE INDEX security_event_by_time ON security_event (at)',
    'CREATE INDEX notice_by_change ON notice (changed_at)',
    'CREATE INDEX letter_by_time ON letter (written_at)',
    'CREATE INDEX plan_by_day ON plan (as_of)',
  ])
    await sql.raw(statement).execute(db);
}
