import { sql } from 'kysely';
import type { Database } from '../../server/database/database.ts';
import { engineOf } from '../../server/database/engine-of.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import type { AddressIds } from './furnished-household.ts';

type Row = Readonly<Record<string, string | number | null>>;

/** A row for each table that furnishing a household leaves empty. */
const furtherRows = (prefix: string, ids: AddressIds, person: string): Readonly<Record<string, Row>> => {
  const day = '2026-08-16';
  const loads = { session_on: '2026-08-22', load_key: 'jam.1.1' };
  return {
    bought: {
      id: `${prefix}-sugar-bought`,
      week: '2026-W33',
      kind: 'supply',
      what: ids.supply ?? '',
      decision: 'bought',
      quantity: 12.5,
      cost_cents: 899,
      bought_on: day,
      settles: 0,
      recorded_at: 1,
    },
    calendar_entry: { uid: `${prefix}-entry`, content_hash: 'a', created_at: 1, changed_at: 1 },
    factor_requirement: { required_at: 1, by_name: 'Ida' },
    glut_use: {
      id: `${prefix}-glut`,
      crop: 'plum',
      lb: 40.25,
      use_by: day,
      pins_json: '[]',
      plan_was_current: 1,
      facts_version: 3,
      recorded_at: 1,
    },
    ground: { town: 'Elder Ford', last_frost: '05-11', first_frost: '10-02' },
    guess: { kind: 'supply', subject: ids.supply ?? '', guessed_at: 1 },
    household_deletion: { deleted_at: 1, by_name: 'Ida' },
    household_setup: { asker: person, key: `${prefix} set up`, made_at: 1 },
    jar_wish: { item_id: ids.item ?? '', meal_servings: 0.1 + 0.2 },
    job: { kind: 'notices', subject: `${prefix} night`, for_on: day, due_at: 1, attempts: 2, failure: 'no' },
    label_grid: {
      paper: 'Letter',
      columns: 3,
      rows: 10,
      width_mm: 66.675,
      height_mm: 25.4,
      left_mm: 4.7625,
      top_mm: 12.7,
      across_mm: 69.85,
      down_mm: 25.4,
    },
    load_clock_event: { seq: 1, ...loads, kind: 'started', at: 1, steady_run: 'run', steady_ms: 7 },
    mail_confirmation: { id: `${prefix}-mail`, address: 'ida@example.org' },
    mail_wish: { address: 'ida@example.org' },
    notice_lead: { kind: 'best by near', days: 9 },
    ordinary_use: { item_id: ids.item ?? '', kind: 'week', on_date: day },
    begin_permission: { person_id: person, allowed_at: 1 },
    half_sign_in: { token_hash: `${prefix}-half`, person_id: person, expires_at: 1 },
    passphrase_reset: { person_id: person, token_hash: `${prefix}-reset`, expires_at: 1 },
    lot_move: {
      entry_id: `${prefix}-moved`,
      lot_id: ids.lot ?? '',
      to_place_id: 'elsewhere',
      to_name: 'Éclair “∅” 🫙',
    },
    lot_standing_event: {
      seq: 1,
      lot_id: ids.lot ?? '',
      kind: 'set-aside',
      reason: 'a lid “lifted”',
      at: 1,
    },
    batch_result: {
      id: `${prefix}-result`,
      recipe_id: ids.recipe ?? '',
      made_on: day,
      batches: 1,
      jars: 7.5,
      processed_at: 1_786_910_400_123,
      recorded_at: 1,
    },
    batch_result_lot: { result_id: `${prefix}-result`, lot_id: ids.lot ?? '' },
    kept: { recipe_id: ids.recipe ?? '', week: '2026-W40', decision: 'ruled-out', decided_at: 1 },
    recipe_way: { seq: 1, recipe_id: ids.recipe ?? '', way: 'hot', chosen_at: 1 },
    seal_check: { lot_id: ids.lot ?? '', checked_at: 1, failed: 0 },
    season_lateness: { year: 2026, crop: 'plum', days: -3 },
    second_factor: { person_id: person, seed: 'sealed', begun_at: 1, last_step: 59_563_680 },
    recovery_code: { person_id: person, code_hash: 'b' },
    security_event: { at: 1, kind: 'signed in', person_id: person, address: '', device: 'a phone' },
    session_tick: { ...loads, step: 'fill', ticked_at: 1 },
    sign_in_failure: { subject: `account ${person}`, failed_at: 1 },
    store_event: {
      seq: 1,
      entry_id: `${prefix}-store`,
      store: 'crop',
      subject: 'plum',
      kind: 'counted',
      quantity: 1e-7,
      occurred_on: day,
      recorded_at: 1,
    },
    hand_target: { item_id: ids.item ?? '', units: 24.5, set_on: day },
    kitchen_time: { stove_burners: 5, who: 'Ida' },
    lid_price: { mouth: 'wide', box_price_cents: 449 },
    processing_evidence: {
      lot_id: ids.lot ?? '',
      canner_id: ids.canner ?? '',
      method: 'boiling-water',
      schedule_row: 'a row',
      altitude_ft: 1200,
      minutes_run: 15,
      done_by: 'Ida',
    },
    recipe_material: {
      recipe_id: ids.recipe ?? '',
      material_id: ids.material ?? '',
      direction: 'gives',
      quantity: 0.75,
    },
    recipe_stage: {
      recipe_id: ids.recipe ?? '',
      position: 1,
      name: 'Soak',
      after_days: 0,
      hands_on_minutes: 20,
    },
    season_fund: { balance_cents: 20_000, balance_on: day },
    season_multiplier: { item_id: ids.item ?? '', month: 8, multiplier: 1.25 },
    shelf_count: {
      id: `${prefix}-count`,
      item_id: ids.item ?? '',
      counted_on: day,
      book_units: 7,
      counted_units: 6,
      explained_as: 'miscount',
      recorded_at: 1,
    },
    garden_yield: { source_id: ids.source ?? '', year: 2025, lb: 31.5 },
    week_time: { week: '2026-W41', sessions: 2, hours_per_session: 3.5 },
    clock_jump: { noticed_at: 1, ahead_until: 2 },
    clock_reading: { id: 1, latest_at: 3 },
  };
};

/** Beside what furnishing wrote: with it every table has a row, and each table of households one of this household. */
export async function fillEveryTable(
  db: Database,
  household: HouseholdId,
  prefix: string,
  { ids, person }: { readonly ids: AddressIds; readonly person: string },
): Promise<void> {
  const rows = furtherRows(prefix, ids, person);
  for (const { name, columns } of await engineOf(db).tables(db)) {
    const row = rows[name];
    if (row === undefined) continue;
    const whole: Row = columns.includes('household_id') ? { household_id: household, ...row } : row;
    const names = sql.join(Object.keys(whole).map((column) => sql.ref(column)));
    await sql`INSERT INTO ${sql.table(name)} (${names}) VALUES (${sql.join(Object.values(whole))})
      ON CONFLICT DO NOTHING`.execute(db);
  }
}
