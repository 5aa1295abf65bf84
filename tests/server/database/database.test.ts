import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Selectable } from 'kysely';
import { sql } from 'kysely';
import { afterAll, describe, expect, test } from 'vitest';
import { openDatabase } from '../../../server/database/database.ts';
import type { Tables } from '../../../server/database/tables.ts';

const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What the types say of a column: text or number, with a question mark when it may be empty. */
type Said<Value> = `${NonNullable<Value> extends string ? 'text' : 'number'}${null extends Value ? '?' : ''}`;
type Columns<Table> = { readonly [Column in keyof Selectable<Table>]: Said<Selectable<Table>[Column]> };

// The compiler holds this list to the interfaces, column by column; the test holds it to the schema.
const saidByTheTypes: { readonly [Table in keyof Tables]: Columns<Tables[Table]> } = {
  person: {
    id: 'text',
    name: 'text',
    name_key: 'text',
    passphrase_hash: 'text',
    created_at: 'number',
    factor_due_at: 'number?',
  },
  membership: { household_id: 'text', person_id: 'text', role: 'text', since_at: 'number' },
  household_deletion: { household_id: 'text', deleted_at: 'number', by_name: 'text' },
  begin_permission: { person_id: 'text', allowed_at: 'number' },
  factor_requirement: { household_id: 'text', required_at: 'number', by_name: 'text' },
  household_setup: { asker: 'text', key: 'text', household_id: 'text', made_at: 'number' },
  invitation: {
    household_id: 'text',
    token_hash: 'text',
    role: 'text',
    made_at: 'number',
    expires_at: 'number',
  },
  connected_thing: {
    household_id: 'text',
    id: 'text',
    name: 'text',
    may: 'text',
    token_hash: 'text',
    made_by: 'text?',
    made_at: 'number',
    ends_on: 'text?',
    used_at: 'number?',
  },
  household_token: { token_hash: 'text', household_id: 'text', opens: 'text' },
  sign_in: {
    token_hash: 'text',
    person_id: 'text',
    began_at: 'number',
    seen_at: 'number',
    device: 'text',
  },
  half_sign_in: { token_hash: 'text', person_id: 'text', expires_at: 'number' },
  second_factor: {
    person_id: 'text',
    seed: 'text',
    begun_at: 'number',
    confirmed_at: 'number?',
    last_step: 'number',
  },
  recovery_code: { person_id: 'text', code_hash: 'text' },
  passphrase_reset: {
    person_id: 'text',
    token_hash: 'text',
    expires_at: 'number',
    second_code_hash: 'text?',
  },
  security_event: {
    seq: 'number',
    at: 'number',
    kind: 'text',
    person_id: 'text?',
    household_id: 'text?',
    address: 'text',
    device: 'text',
  },
  job: {
    seq: 'number',
    kind: 'text',
    subject: 'text',
    household_id: 'text?',
    for_on: 'text',
    due_at: 'number',
    attempts: 'number',
    leased_until: 'number?',
    finished_at: 'number?',
    failure: 'text?',
    lane: 'number',
    bucket: 'number',
    turn_at: 'number?',
    leased_by: 'text?',
    served_at: 'number?',
    lapses: 'number',
    solves_for: 'text?',
    asked: 'text?',
    said: 'text?',
  },
  clock_reading: { id: 'number', latest_at: 'number' },
  clock_jump: { seq: 'number', noticed_at: 'number', ahead_until: 'number' },
  sign_in_failure: { seq: 'number', subject: 'text', failed_at: 'number' },
  calendar_feed: {
    household_id: 'text',
    token: 'text',
    canning: 'number',
    shopping: 'number',
    best_quality: 'number',
    harvest: 'number',
    created_at: 'number',
  },
  calendar_entry: {
    household_id: 'text',
    uid: 'text',
    content_hash: 'text',
    sequence: 'number',
    created_at: 'number',
    changed_at: 'number',
  },
  label_grid: {
    household_id: 'text',
    paper: 'text',
    columns: 'number',
    rows: 'number',
    width_mm: 'number',
    height_mm: 'number',
    left_mm: 'number',
    top_mm: 'number',
    across_mm: 'number',
    down_mm: 'number',
    address: 'text',
  },
  import_draft: {
    household_id: 'text',
    id: 'text',
    kind: 'text',
    file_name: 'text',
    content: 'text',
    received_at: 'number',
  },
  notice_lead: {
    household_id: 'text',
    kind: 'text',
    days: 'number?',
  },
  mail_wish: {
    household_id: 'text',
    address: 'text',
    weekly: 'number',
    weekday: 'number',
    urgent: 'number',
    confirmed_at: 'number?',
  },
  mail_confirmation: {
    household_id: 'text',
    id: 'text',
    address: 'text',
    token_hash: 'text?',
    expires_at: 'number?',
  },
  letter: {
    household_id: 'text',
    id: 'text',
    about: 'text',
    recipient: 'text',
    subject: 'text',
    plain: 'text',
    html: 'text',
    notices_json: 'text',
    written_at: 'number',
    sent_at: 'number?',
    seq: 'number?',
  },
  guess: {
    household_id: 'text',
    kind: 'text',
    subject: 'text',
    guessed_at: 'number',
  },
  away: {
    household_id: 'text',
    from_on: 'text',
    until_on: 'text',
  },
  batch_result: {
    household_id: 'text',
    id: 'text',
    recipe_id: 'text',
    made_on: 'text',
    batches: 'number',
    jars: 'number',
    minutes_taken: 'number?',
    processed_at: 'number',
    note: 'text',
    recorded_at: 'number',
    session_on: 'text?',
  },
  batch_result_lot: {
    household_id: 'text',
    result_id: 'text',
    lot_id: 'text',
  },
  canner: {
    household_id: 'text',
    id: 'text',
    name: 'text',
    method: 'text',
    gauge: 'text?',
    gauge_checked_on: 'text?',
    quart_jars: 'number',
    pint_jars: 'number',
    half_pint_jars: 'number',
    retired_on: 'text?',
    gauge_off_at_5_psi: 'number?',
    gauge_off_at_10_psi: 'number?',
    gauge_off_at_15_psi: 'number?',
    volume_quarts: 'number?',
  },
  canning_session: {
    household_id: 'text',
    session_on: 'text',
    setting_json: 'text',
    work_json: 'text',
    opened_at: 'number',
  },
  name_denial: {
    household_id: 'text',
    recipe_id: 'text',
    name: 'text',
    other_food: 'text',
    denied_by: 'text?',
    denied_at: 'number',
  },
  stage_event: {
    seq: 'number',
    household_id: 'text',
    batch_id: 'text',
    recipe_id: 'text',
    batches: 'number',
    kind: 'text',
    position: 'number?',
    way: 'text?',
    begun_at: 'text?',
    recorded_by: 'text?',
    recorded_at: 'number',
  },
  load_clock_event: {
    seq: 'number',
    household_id: 'text',
    session_on: 'text',
    load_key: 'text',
    kind: 'text',
    why: 'text?',
    at: 'number',
    steady_run: 'text?',
    steady_ms: 'number?',
  },
  lot_standing_event: {
    seq: 'number',
    household_id: 'text',
    lot_id: 'text',
    kind: 'text',
    reason: 'text',
    at: 'number',
  },
  printed_sheet: {
    household_id: 'text',
    number: 'number',
    session_on: 'text',
    basis_json: 'text',
    printed_at: 'number',
  },
  seal_check: {
    household_id: 'text',
    lot_id: 'text',
    checked_at: 'number',
    failed: 'number',
    choice: 'text?',
  },
  session_tick: {
    household_id: 'text',
    session_on: 'text',
    load_key: 'text',
    step: 'text',
    ticked_at: 'number',
  },
  declared_use: {
    household_id: 'text',
    item_id: 'text',
    since_on: 'text',
    amount: 'number',
    per: 'text',
    counted_in: 'text',
    people: 'number?',
    meals_per_week: 'number?',
    restarts_filter: 'number',
    recorded_at: 'number',
  },
  empty_jar_event: {
    seq: 'number',
    household_id: 'text',
    entry_id: 'text',
    jar_kind: 'text',
    kind: 'text',
    jars: 'number',
    occurred_on: 'text',
    recorded_at: 'number',
  },
  jar_wish: {
    household_id: 'text',
    item_id: 'text',
    meal_servings: 'number?',
    gift_size: 'text?',
    gift_jars: 'number?',
    lunch_size: 'text?',
    lunch_jars: 'number?',
  },
  ordinary_use: {
    household_id: 'text',
    item_id: 'text',
    kind: 'text',
    on_date: 'text',
  },
  hand_target: {
    household_id: 'text',
    item_id: 'text',
    units: 'number',
    set_on: 'text',
  },
  harvest_window: {
    household_id: 'text',
    source_id: 'text',
    year: 'number',
    begins_on: 'text',
    ends_on: 'text',
    most_active_from: 'text?',
    most_active_until: 'text?',
    lb_per_week: 'number',
    first_picked_on: 'text?',
    dates_guessed: 'number',
    usual_lb_per_week: 'number?',
  },
  ground: {
    household_id: 'text',
    town: 'text?',
    station: 'text?',
    state: 'text?',
    last_frost: 'text?',
    first_frost: 'text?',
    strawberries_from: 'text?',
  },
  garden_yield: {
    household_id: 'text',
    source_id: 'text',
    year: 'number',
    lb: 'number',
    plants: 'number?',
  },
  season_lateness: { household_id: 'text', year: 'number', crop: 'text', days: 'number' },
  household: {
    id: 'text',
    name: 'text',
    people: 'number',
    time_zone: 'text',
    locale: 'text',
    currency: 'text',
    units: 'text',
    week_starts_on: 'text',
    region: 'text?',
    altitude_ft: 'number?',
    storage_temperature_f: 'number?',
    crock_quarts: 'number',
    freezer_quarts_per_day: 'number?',
    discard_ceiling_months: 'number',
    is_demo: 'number',
    is_open: 'number',
    noted_night: 'text?',
    facts_version: 'number',
    created_at: 'number',
    recorded_since: 'text?',
    emergency_days: 'number?',
    water_gallons: 'number?',
    water_filled_on: 'text?',
    fruit_servings: 'number?',
    vegetable_servings: 'number?',
    protein_servings: 'number?',
    sweet_servings: 'number?',
    says_who_took: 'number',
  },
  idempotency: {
    household_id: 'text',
    key: 'text',
    request_hash: 'text',
    answer_json: 'text',
    recorded_at: 'number',
  },
  item: {
    household_id: 'text',
    id: 'text',
    name: 'text',
    kind: 'text',
    keeping: 'text',
    family: 'text',
    unit: 'text',
    usual_jar: 'text?',
    servings_per_unit: 'number?',
    shelf_life_key: 'text?',
    best_quality_days: 'number',
    keep_cold_days: 'number?',
    freezer_quarts: 'number?',
    chance_wanted: 'number',
    family_minimum_units: 'number?',
    emergency_units: 'number?',
    counts_as: 'text?',
    retired_on: 'text?',
  },
  item_group: {
    household_id: 'text',
    id: 'text',
    name: 'text',
    total_units: 'number',
    unit_jar: 'text?',
    least_kinds: 'number',
    largest_share: 'number',
  },
  item_group_member: {
    household_id: 'text',
    group_id: 'text',
    item_id: 'text',
  },
  lot_move: {
    household_id: 'text',
    entry_id: 'text',
    lot_id: 'text',
    from_place_id: 'text?',
    from_name: 'text?',
    to_place_id: 'text',
    to_name: 'text',
  },
  jar_conflict: {
    household_id: 'text',
    id: 'text',
    item_id: 'text',
    lot_id: 'text?',
    kind: 'text',
    units: 'number',
    occurred_on: 'text',
    recorded_at: 'number',
    settled_at: 'number?',
    settled_as: 'text?',
  },
  jar_event: {
    seq: 'number',
    household_id: 'text',
    entry_id: 'text',
    lot_id: 'text',
    kind: 'text',
    units: 'number',
    trains_use: 'number',
    reason: 'text?',
    occurred_on: 'text',
    recorded_at: 'number',
    recorded_by: 'text?',
    taken_by: 'text?',
    reverses_seq: 'number?',
  },
  jar_holding: {
    household_id: 'text',
    jar_kind: 'text',
    owned: 'number',
    price_cents: 'number',
    pack: 'number',
    return_share: 'number',
  },
  bought: {
    household_id: 'text',
    id: 'text',
    week: 'text',
    kind: 'text',
    what: 'text',
    pack_id: 'text?',
    decision: 'text',
    quantity: 'number',
    cost_cents: 'number',
    bought_on: 'text',
    settles: 'number',
    entry_id: 'text?',
    price_before_cents: 'number?',
    price_taught_cents: 'number?',
    recorded_at: 'number',
    undone_at: 'number?',
  },
  store_event: {
    seq: 'number',
    household_id: 'text',
    entry_id: 'text',
    store: 'text',
    subject: 'text',
    kind: 'text',
    quantity: 'number',
    source_id: 'text?',
    use_by: 'text?',
    occurred_on: 'text',
    recorded_at: 'number',
  },
  glut_use: {
    household_id: 'text',
    id: 'text',
    crop: 'text',
    lb: 'number',
    use_by: 'text',
    pins_json: 'text',
    plan_before: 'text?',
    plan_was_current: 'number',
    facts_version: 'number',
    recorded_at: 'number',
    undone_at: 'number?',
  },
  kept: {
    household_id: 'text',
    recipe_id: 'text',
    week: 'text',
    decision: 'text',
    batches: 'number?',
    decided_at: 'number',
  },
  kitchen_time: {
    household_id: 'text',
    sessions_per_week: 'number',
    hours_per_session: 'number',
    set_up_minutes: 'number',
    stove_burners: 'number',
    session_weekday: 'number',
    who: 'text',
  },
  lid_box: {
    household_id: 'text',
    id: 'text',
    mouth: 'text',
    lids: 'number',
    bought_on: 'text',
  },
  lid_price: {
    household_id: 'text',
    mouth: 'text',
    box: 'number',
    box_price_cents: 'number',
  },
  lot: {
    household_id: 'text',
    id: 'text',
    item_id: 'text',
    batch_code: 'text',
    jar_kind: 'text?',
    origin: 'text',
    made_on: 'text',
    ready_from: 'text',
    best_quality_until: 'text',
    place_id: 'text?',
    cost_cents: 'number?',
    set_aside_at: 'number?',
    set_aside_reason: 'text?',
    recipe_id: 'text?',
    recorded_at: 'number',
  },
  material: {
    household_id: 'text',
    id: 'text',
    name: 'text',
    unit: 'text',
    keeps_days_cold: 'number',
    keeps_months_frozen: 'number?',
    quarts_per_unit: 'number',
  },
  material_event: {
    seq: 'number',
    household_id: 'text',
    subject: 'text',
    kind: 'text',
    quantity: 'number',
    unit: 'text',
    use_by: 'text?',
    occurred_on: 'text',
    recorded_at: 'number',
    result_id: 'text?',
  },
  notice: {
    household_id: 'text',
    id: 'text',
    kind: 'text',
    subject: 'text',
    reason: 'text',
    due_on: 'text?',
    state: 'text',
    snoozed_until: 'text?',
    first_seen_at: 'number',
    changed_at: 'number',
    sent_at: 'number?',
    seq: 'number?',
    about_json: 'text',
  },
  occasion: {
    household_id: 'text',
    id: 'text',
    item_id: 'text',
    kind: 'text',
    on_date: 'text',
    units: 'number',
    note: 'text',
    yearly: 'number',
  },
  place: {
    household_id: 'text',
    id: 'text',
    name: 'text',
    kind: 'text',
    capacity_quarts: 'number?',
  },
  plan: {
    household_id: 'text',
    id: 'text',
    as_of: 'text',
    facts_version: 'number',
    input_json: 'text',
    result_json: 'text',
    made_at: 'number',
    seq: 'number?',
  },
  processing_evidence: {
    household_id: 'text',
    lot_id: 'text',
    canner_id: 'text',
    method: 'text',
    gauge: 'text?',
    schedule_row: 'text',
    altitude_ft: 'number',
    psi: 'number?',
    minutes_run: 'number',
    acid_ticked: 'number?',
    done_by: 'text',
  },
  recipe: {
    household_id: 'text',
    id: 'text',
    item_id: 'text',
    name: 'text',
    based_on: 'text',
    process_food: 'text?',
    process_style: 'text?',
    process_pack: 'text?',
    canner_id: 'text?',
    jar_kind: 'text?',
    yield_low: 'number',
    yield_high: 'number',
    hands_on_minutes: 'number',
    ready_after_days: 'number',
    crock_quarts: 'number?',
    crock_days: 'number?',
    season_from_month: 'number?',
    season_until_month: 'number?',
    retired_on: 'text?',
    changes_json: 'text',
    process_refused: 'text?',
  },
  recipe_material: {
    household_id: 'text',
    recipe_id: 'text',
    material_id: 'text',
    direction: 'text',
    quantity: 'number',
  },
  recipe_produce: {
    household_id: 'text',
    recipe_id: 'text',
    crop: 'text',
    lb: 'number',
    may_be_frozen: 'number',
  },
  recipe_stage: {
    household_id: 'text',
    recipe_id: 'text',
    position: 'number',
    name: 'text',
    after_days: 'number',
    hands_on_minutes: 'number',
  },
  recipe_way: {
    seq: 'number',
    household_id: 'text',
    recipe_id: 'text',
    way: 'text',
    chosen_by: 'text?',
    chosen_at: 'number',
  },
  recipe_supply: {
    household_id: 'text',
    recipe_id: 'text',
    supply_id: 'text',
    quantity: 'number',
  },
  school_holiday: {
    household_id: 'text',
    from_on: 'text',
    until_on: 'text',
  },
  season_fund: {
    household_id: 'text',
    balance_cents: 'number',
    balance_on: 'text',
    weekly_cents: 'number',
    told_at: 'number?',
  },
  season_multiplier: {
    household_id: 'text',
    item_id: 'text',
    month: 'number',
    multiplier: 'number',
  },
  session_rule: {
    household_id: 'text',
    id: 'text',
    weekday: 'number',
    which: 'text',
    hours: 'number',
    who: 'text',
  },
  upkeep_task: {
    household_id: 'text',
    id: 'text',
    canner_id: 'text?',
    device: 'text?',
    name: 'text',
    every_months: 'number?',
    retired_on: 'text?',
  },
  upkeep_event: {
    household_id: 'text',
    id: 'text',
    kind: 'text',
    canner_id: 'text?',
    task_id: 'text?',
    done_on: 'text',
    note: 'text?',
    gauge_off_at_5_psi: 'number?',
    gauge_off_at_10_psi: 'number?',
    gauge_off_at_15_psi: 'number?',
    recorded_by: 'text?',
    recorded_at: 'number',
    undone_at: 'number?',
  },
  session_pause: {
    household_id: 'text',
    id: 'text',
    from_on: 'text',
    until_on: 'text',
    each_year: 'number',
  },
  shelf_count: {
    household_id: 'text',
    id: 'text',
    item_id: 'text',
    counted_on: 'text',
    book_units: 'number',
    counted_units: 'number',
    explained_as: 'text',
    recorded_at: 'number',
  },
  shop_pack: {
    household_id: 'text',
    item_id: 'text',
    id: 'text',
    units: 'number',
    price_cents: 'number',
    buy_at_or_below_cents: 'number?',
    sale_from_month: 'number?',
    sale_until_month: 'number?',
    sale_price_cents: 'number?',
    is_planned: 'number',
  },
  source: {
    household_id: 'text',
    id: 'text',
    crop: 'text',
    name: 'text',
    kind: 'text',
    price_cents_per_lb: 'number',
    price_measure: 'text?',
    price_measure_cents: 'number?',
    plants: 'number?',
    lb_per_plant: 'number?',
    use_by_days: 'number',
    poor_year_chance: 'number',
    poor_year_share: 'number',
    fall_back: 'text',
    retired_on: 'text?',
  },
  supply: {
    household_id: 'text',
    id: 'text',
    name: 'text',
    unit: 'text',
    pack_quantity: 'number',
    pack_price_cents: 'number',
    on_hand: 'number',
  },
  week_time: {
    household_id: 'text',
    week: 'text',
    sessions: 'number',
    hours_per_session: 'number?',
    reason: 'text?',
  },
};

describe('the schema', () => {
  test('has exactly the tables and columns that the types say', async () => {
    const db = await openDatabase(':memory:');

    const columns = await sql<{ table: string; name: string; type: string; notnull: number; pk: number }>`
      SELECT m.name AS "table", c.name, c.type, c."notnull", c.pk
      FROM sqlite_master AS m JOIN pragma_table_info(m.name) AS c
      WHERE m.type = 'table' AND m.name NOT LIKE 'sqlite_%' AND m.name NOT LIKE 'kysely_%'`.execute(db);

    const inTheFile: Record<string, Record<string, string>> = {};
    for (const { table, name, type, notnull, pk } of columns.rows) {
      inTheFile[table] = {
        ...inTheFile[table],
        [name]: `${type === 'TEXT' ? 'text' : 'number'}${notnull || pk ? '' : '?'}`,
      };
    }
    expect(inTheFile).toEqual(saidByTheTypes);
    await db.destroy();
  });

  test('is strict everywhere', async () => {
    const db = await openDatabase(':memory:');

    const tables = await sql<{ name: string; sql: string }>`
      SELECT name, sql FROM sqlite_master
      WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name NOT LIKE 'kysely_%'`.execute(db);

    expect(tables.rows.filter((table) => !table.sql.endsWith('STRICT')).map((table) => table.name)).toEqual(
      [],
    );
    await db.destroy();
  });

  test('has the household lead every key of what belongs to one: its own, the unique and the foreign ones', async () => {
    const db = await openDatabase(':memory:');

    const owned = await sql<{ table: string }>`
      SELECT m.name AS "table" FROM sqlite_master AS m JOIN pragma_table_info(m.name) AS c
      WHERE m.type = 'table' AND c.name = 'household_id'`.execute(db);
    const others: string[] = [];
    for (const { table } of owned.rows) {
      const own = await sql<{ name: string }>`
        SELECT name FROM pragma_table_info(${table}) WHERE pk > 0 ORDER BY pk`.execute(db);
      const unique = await sql<{ columns: string }>`
        SELECT (SELECT group_concat(name) FROM pragma_index_info(i.name)) AS columns
        FROM pragma_index_list(${table}) AS i WHERE i."unique" AND i.origin <> 'pk'`.execute(db);
      const foreign = await sql<{ columns: string }>`
        SELECT group_concat("from") AS columns FROM (SELECT * FROM pragma_foreign_key_list(${table}) ORDER BY id, seq)
        GROUP BY id`.execute(db);
      const keys = [own.rows.map(({ name }) => name).join(), ...unique.rows, ...foreign.rows];
      for (const key of keys.map((one) => (typeof one === 'string' ? one : one.columns)))
        if (!key.startsWith('household_id')) others.push(`${table} ${key}`);
    }

    expect(owned.rows.length).toBeGreaterThan(60);
    // Those of accounts and of the queue of jobs, which are nobody's own.
    expect(others.toSorted()).toEqual([
      'household_setup asker,key',
      'household_token token_hash',
      'job bucket,solves_for',
      'job kind,subject,for_on',
      'job seq',
      'security_event person_id',
      'security_event seq',
    ]);
    await db.destroy();
  });
});

describe('opening a file', () => {
  test('keeps what was written, durably, with foreign keys on', async () => {
    const file = join(folder, 'pantry.sqlite');
    const first = await openDatabase(file);
    await first
      .insertInto('household')
      .values({ id: 'miller-lane', name: 'Miller Lane', time_zone: 'UTC', created_at: 0 })
      .execute();
    await first.destroy();

    const again = await openDatabase(file);

    const pragma = async (name: string) =>
      Object.values(
        (await sql.raw<Record<string, unknown>>(`PRAGMA ${name}`).execute(again)).rows[0] ?? {},
      )[0];
    expect(await again.selectFrom('household').select('name').execute()).toEqual([{ name: 'Miller Lane' }]);
    expect(await pragma('journal_mode')).toBe('wal');
    expect(await pragma('synchronous')).toBe(2);
    expect(await pragma('foreign_keys')).toBe(1);
    await again.destroy();
  });

  test('refuses a file that is no database and leaves it as it was', async () => {
    const file = join(folder, 'letter.sqlite');
    writeFileSync(file, 'Dear aunt, the plums are ripe. '.repeat(200));

    await expect(openDatabase(file)).rejects.toThrow(/expected a sound SQLite file at .*letter\.sqlite/);
  });
});
