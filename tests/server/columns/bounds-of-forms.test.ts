import { readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { CarriedTable } from '../../../server/columns/carried-table.ts';
import type { ColumnKind } from '../../../server/columns/column-kinds.ts';
import { carried } from '../../../server/columns/household-columns.ts';
import { householdRow } from '../../../server/columns/kitchen.ts';
import { type Bound, bounds } from '../../../shared/bounds.ts';
import type { FieldBound } from '../../../shared/schemas/form-fields.ts';
import { firstYear, lastYear } from '../../../shared/week.ts';
import { saidFields } from '../../shared/said-fields.ts';

// Every number, sum and text a form takes, beside the column of a household file that keeps it. A field or a column that is
// in none of these lists fails below, so that neither can be added without the other being thought of.

/** A field by where it is kept; `per` where the file counts in something larger. */
const keptIn: Readonly<
  Record<string, string | { readonly column: string; readonly per: number } | readonly string[]>
> = {
  'batchResultForm.batches': 'batch_result.batches',
  'batchResultForm.minutesRun': 'processing_evidence.minutes_run',
  'batchResultForm.psi': 'processing_evidence.psi',
  'batchResultForm.altitudeFt': 'processing_evidence.altitude_ft',
  'batchResultForm.doneBy': 'processing_evidence.done_by',
  'batchResultForm.minutesTaken': 'batch_result.minutes_taken',
  'batchResultForm.note': 'batch_result.note',
  'sealCheckForm.failed': 'seal_check.failed',
  'declaredUseForm.amount': 'declared_use.amount',
  'declaredUseForm.people': 'declared_use.people',
  'declaredUseForm.mealsPerWeek': 'declared_use.meals_per_week',
  'handTargetForm.units': 'hand_target.units',
  'firstHourForm.name': 'household.name',
  'firstHourForm.people': 'household.people',
  'firstHourForm.timeZone': 'household.time_zone',
  'firstHourForm.region': 'household.region',
  'firstHourForm.town': 'ground.town',
  'firstHourForm.station': 'ground.station',
  'groundForm.town': 'ground.town',
  'groundForm.station': 'ground.station',
  'firstHourForm.gaugeOffAt5': 'canner.gauge_off_at_5_psi',
  'firstHourForm.gaugeOffAt10': 'canner.gauge_off_at_10_psi',
  'firstHourForm.gaugeOffAt15': 'canner.gauge_off_at_15_psi',
  'firstHourForm.lids': 'lid_box.lids',
  'firstHourForm.sessionsPerWeek': 'kitchen_time.sessions_per_week',
  'firstHourForm.hoursPerSession': 'kitchen_time.hours_per_session',
  'firstHourForm.fundNow': 'season_fund.balance_cents',
  'firstHourForm.fundWeekly': 'season_fund.weekly_cents',
  'firstPickedForm.year': 'harvest_window.year',
  'harvestWindowForm.lbPerWeek': 'harvest_window.lb_per_week',
  'gardenYieldForm.year': 'garden_yield.year',
  'gardenYieldForm.lb': 'garden_yield.lb',
  'gardenYieldForm.plants': 'garden_yield.plants',
  'sourceForm.name': 'source.name',
  'sourceForm.pricePerLb': 'source.price_cents_per_lb',
  'sourceForm.plants': 'source.plants',
  'sourceForm.lbPerPlant': 'source.lb_per_plant',
  'sourceForm.useByDays': 'source.use_by_days',
  'sourceForm.poorYearChance': 'source.poor_year_chance',
  'sourceForm.poorYearShare': 'source.poor_year_share',
  'sourceAsTyped.name': 'source.name',
  'sourceAsTyped.pricePerLb': 'source.price_cents_per_lb',
  'sourceAsTyped.plants': 'source.plants',
  'sourceAsTyped.lbPerPlant': 'source.lb_per_plant',
  'sourceAsTyped.useByDays': 'source.use_by_days',
  'sourceAsTyped.poorYearsInTen': { column: 'source.poor_year_chance', per: 10 },
  'sourceAsTyped.poorYearPercent': { column: 'source.poor_year_share', per: 100 },
  'groupForm.total': 'item_group.total_units',
  'groupForm.leastKinds': 'item_group.least_kinds',
  'groupForm.largestShare': { column: 'item_group.largest_share', per: 100 },
  'itemForm.name': 'item.name',
  'itemForm.yearsInTwenty': { column: 'item.chance_wanted', per: 20 },
  'emergencyWishForm.days': 'household.emergency_days',
  'emergencyWishForm.water': 'household.water_gallons',
  'itemForm.familyMinimum': 'item.family_minimum_units',
  'itemForm.emergencyUnits': 'item.emergency_units',
  'itemForm.servingsPerUnit': 'item.servings_per_unit',
  'servingsWantedForm.fruit': 'household.fruit_servings',
  'servingsWantedForm.vegetable': 'household.vegetable_servings',
  'servingsWantedForm.protein': 'household.protein_servings',
  'servingsWantedForm.sweet': 'household.sweet_servings',
  'itemForm.bestQualityDays': 'item.best_quality_days',
  'itemForm.keepColdDays': 'item.keep_cold_days',
  'ownRecipeForm.handsOnMinutes': 'recipe.hands_on_minutes',
  'packForm.units': 'shop_pack.units',
  'packForm.price': ['shop_pack.price_cents', 'shop_pack.buy_at_or_below_cents'],
  'packForm.saleFromMonth': 'shop_pack.sale_from_month',
  'packForm.saleUntilMonth': 'shop_pack.sale_until_month',
  'packForm.salePrice': 'shop_pack.sale_price_cents',
  'preserveForm.name': ['item.name', 'recipe.name'],
  'preserveForm.handsOnMinutes': 'recipe.hands_on_minutes',
  'preserveForm.yearsInTwenty': { column: 'item.chance_wanted', per: 20 },
  'preserveForm.amount': 'declared_use.amount',
  'uncannedForm.name': ['item.name', 'recipe.name'],
  'uncannedForm.lb': 'recipe_produce.lb',
  'uncannedForm.materialLb': 'recipe_material.quantity',
  'leftOversForm.leavesAmount': 'recipe_material.quantity',
  'leftOversForm.takesAmount': 'recipe_material.quantity',
  'uncannedForm.units': ['recipe.yield_low', 'recipe.yield_high'],
  'uncannedForm.handsOnMinutes': 'recipe.hands_on_minutes',
  'uncannedForm.readyAfterDays': 'recipe.ready_after_days',
  'uncannedForm.bestQualityDays': 'item.best_quality_days',
  'uncannedForm.freezerQuarts': 'item.freezer_quarts',
  'uncannedForm.yearsInTwenty': { column: 'item.chance_wanted', per: 20 },
  'uncannedForm.amount': 'declared_use.amount',
  'ownYieldForm.units': ['recipe.yield_low', 'recipe.yield_high'],
  'stapleForm.name': 'item.name',
  'stapleForm.bestQualityDays': 'item.best_quality_days',
  'stapleForm.packUnits': 'shop_pack.units',
  'stapleForm.packPrice': 'shop_pack.price_cents',
  'stapleForm.yearsInTwenty': { column: 'item.chance_wanted', per: 20 },
  'stapleForm.amount': 'declared_use.amount',
  'supplyForm.supplyId': ['supply.id', 'recipe_supply.supply_id'],
  'supplyForm.packQuantity': 'supply.pack_quantity',
  'supplyForm.packPrice': 'supply.pack_price_cents',
  'supplyForm.onHand': 'supply.on_hand',
  'jarWishForm.servingsPerUnit': 'item.servings_per_unit',
  'jarWishForm.mealServings': 'jar_wish.meal_servings',
  'jarWishForm.giftJars': 'jar_wish.gift_jars',
  'jarWishForm.lunchJars': 'jar_wish.lunch_jars',
  'decisionForm.batches': 'kept.batches',
  'cannerForm.name': 'canner.name',
  'cannerForm.gaugeOffAt5': 'canner.gauge_off_at_5_psi',
  'cannerForm.gaugeOffAt10': 'canner.gauge_off_at_10_psi',
  'cannerForm.gaugeOffAt15': 'canner.gauge_off_at_15_psi',
  'cannerForm.volumeQuarts': 'canner.volume_quarts',
  'cannerForm.quartJars': 'canner.quart_jars',
  'cannerForm.pintJars': 'canner.pint_jars',
  'cannerForm.halfPintJars': 'canner.half_pint_jars',
  'householdForm.name': 'household.name',
  'householdForm.people': 'household.people',
  'householdForm.region': 'household.region',
  'householdForm.timeZone': 'household.time_zone',
  'jarHoldingForm.price': 'jar_holding.price_cents',
  'jarHoldingForm.pack': 'jar_holding.pack',
  'boughtForm.amount': 'bought.quantity',
  'boughtForm.paid': 'bought.cost_cents',
  'sessionRuleForm.weekday': 'session_rule.weekday',
  'sessionRuleForm.hours': 'session_rule.hours',
  'kitchenTimeForm.sessionsPerWeek': 'kitchen_time.sessions_per_week',
  'kitchenTimeForm.hoursPerSession': 'kitchen_time.hours_per_session',
  'kitchenTimeForm.setUpMinutes': 'kitchen_time.set_up_minutes',
  'kitchenTimeForm.stoveBurners': 'kitchen_time.stove_burners',
  'kitchenTimeForm.sessionWeekday': 'kitchen_time.session_weekday',
  'lidForm.onHand': 'lid_box.lids',
  'lidForm.box': 'lid_price.box',
  'lidForm.boxPrice': 'lid_price.box_price_cents',
  'placeForm.name': ['place.name', 'lot_move.from_name', 'lot_move.to_name'],
  'placeForm.capacityQuarts': 'place.capacity_quarts',
  'placeAsTyped.capacity': 'place.capacity_quarts',
  'seasonFundForm.balance': 'season_fund.balance_cents',
  'seasonFundForm.weekly': 'season_fund.weekly_cents',
  'storageForm.storageTemperatureF': 'household.storage_temperature_f',
  'storageForm.discardCeilingMonths': 'household.discard_ceiling_months',
  'storageForm.crockQuarts': 'household.crock_quarts',
  'storageForm.freezerQuartsPerDay': 'household.freezer_quarts_per_day',
  'storageAsTyped.temperature': 'household.storage_temperature_f',
  'storageAsTyped.crocks': 'household.crock_quarts',
  'storageAsTyped.freezes': 'household.freezer_quarts_per_day',
  'weekTimeForm.sessions': 'week_time.sessions',
  'weekTimeForm.hoursPerSession': 'week_time.hours_per_session',
  'weekTimeForm.reason': 'week_time.reason',
  'labelGridForm.columns': 'label_grid.columns',
  'labelGridForm.rows': 'label_grid.rows',
  'labelGridForm.widthMm': 'label_grid.width_mm',
  'labelGridForm.heightMm': 'label_grid.height_mm',
  'labelGridForm.leftMm': 'label_grid.left_mm',
  'labelGridForm.topMm': 'label_grid.top_mm',
  'labelGridForm.acrossMm': 'label_grid.across_mm',
  'labelGridForm.downMm': 'label_grid.down_mm',
  'labelGridForm.address': 'label_grid.address',
  ...Object.fromEntries(
    [
      'bestByNear',
      'runsOut',
      'harvestOpens',
      'harvestCloses',
      'buyForSession',
      'gaugeCheck',
      'upkeepDue',
      'stageDue',
      'mayBeCanned',
    ].map((notice) => [`noticeLeadForm.${notice}`, 'notice_lead.days']),
  ),
  'occasionForm.units': 'occasion.units',
  'occasionForm.note': 'occasion.note',
  'purchaseForm.paid': 'lot.cost_cents',
  'processingEvidence.altitudeFt': 'processing_evidence.altitude_ft',
  'processingEvidence.psi': 'processing_evidence.psi',
  'processingEvidence.minutesRun': 'processing_evidence.minutes_run',
  'processingEvidence.doneBy': 'processing_evidence.done_by',
  'putUpForm.evidence.altitudeFt': 'processing_evidence.altitude_ft',
  'putUpForm.evidence.psi': 'processing_evidence.psi',
  'putUpForm.evidence.minutesRun': 'processing_evidence.minutes_run',
  'putUpForm.evidence.doneBy': 'processing_evidence.done_by',
  'putUpForm.note': 'batch_result.note',
  ...Object.fromEntries(
    Array.from({ length: 12 }, (_, at) => [
      `seasonForm.month${at + 1}`,
      { column: 'season_multiplier.multiplier', per: 100 },
    ]),
  ),
  'shelfCountForm.counts.units': 'shelf_count.counted_units',
  'upkeepDoneForm.note': 'upkeep_event.note',
  'upkeepTaskForm.device': 'upkeep_task.device',
  'takeForm.takenBy': 'jar_event.taken_by',
  'waitingTakeForm.who': 'jar_event.taken_by',
  'kitchenTimeForm.who': 'kitchen_time.who',
  'sessionRuleForm.who': 'session_rule.who',
  'upkeepTaskForm.name': 'upkeep_task.name',
  'upkeepTaskForm.everyMonths': 'upkeep_task.every_months',
  'passedForm.batches': 'kept.batches',
  'firstStageForm.position': 'stage_event.position',
  'firstStageForm.way': 'stage_event.way',
  'firstStageForm.batches': 'stage_event.batches',
  'nextStageForm.position': 'stage_event.position',
  'nextStageForm.way': 'stage_event.way',
};

/** Fields whose amount is kept as an entry of the ledger, with its sign: the column takes all of it and more. */
const keptAsEntry: Readonly<Record<string, string>> = {
  'batchResultForm.units': 'jar_event.units',
  'batchResultForm.otherUnits': 'jar_event.units',
  'batchResultForm.byProduct': 'material_event.quantity',
  'finishedJarForm.jars': 'jar_event.units',
  'firstHourForm.halfPints': 'empty_jar_event.jars',
  'firstHourForm.pints': 'empty_jar_event.jars',
  'firstHourForm.quarts': 'empty_jar_event.jars',
  'jarChangeForm.jars': 'empty_jar_event.jars',
  'jarHoldingForm.empty': 'empty_jar_event.jars',
  'purchaseForm.units': 'jar_event.units',
  'putUpForm.filled.units': 'jar_event.units',
  'putUpForm.left': 'jar_event.units',
  'takeForm.units': 'jar_event.units',
  'takeForm.reason': 'jar_event.reason',
  doubtReason: 'lot.set_aside_reason',
  'waitingTakeForm.units': 'jar_event.units',
  'wayForm.way': 'recipe_way.way',
};

/** Fields of no column: read, and then kept as something else or not at all. */
const notKept = new Set([
  // A glut is asked about, not written down.
  'glutForm.amount',
  'glutForm.crop',
  // Accounts and letters are of this place and do not travel.
  'codeForm.code',
  'connectedThingForm.name',
  'ownConnectedThingForm.name',
  'factorForm.code',
  'firstOwnerForm.owner',
  'linkForm.link',
  'resetForm.code',
  'householdRemovalForm.name',
  'newPersonForm.name',
  'operatorAddress',
  'operatorName',
  'signInForm.name',
  'mailWishForm.address',
  // Kept inside the text of a canning day, whose schema is made of the same bounds.
  'batchCountField',
  'sessionSettingForm.people',
  'sessionSettingForm.who',
  'whoIsThere',
  'sessionSettingForm.burners',
  // Looked up, converted or counted before anything is kept.
  'altitudeAsTyped.altitude',
  'firstHourForm.altitude',
  'firstHourForm.potSize',
  'firstHourForm.pressureSize',
  'ownRecipeForm.recipeId',
  'leftOversForm.recipeId',
  'preserveForm.recipe',
  'putUpForm.batches',
  // One of the list of currencies, on both sides.
  'currencyField',
  'firstHourForm.currency',
  'householdForm.currency',
  // A canner or a task by its id.
  'upkeepDoneForm.of',
  // Ids of the plan's own lines.
  'lineForm.what',
  'lineForm.pack',
  'boughtForm.what',
  'boughtForm.pack',
]);

/** Columns that the program fills from its book, its tables or its own counting. */
const ofTheProgram = new Set([
  ...['name_denial.name', 'name_denial.other_food', 'name_denial.denied_by', 'recipe_way.chosen_by'],
  ...['recipe.based_on', 'recipe.process_food', 'recipe.process_style', 'recipe.process_pack'],
  ...['recipe.yield_low', 'recipe.yield_high', 'recipe.ready_after_days', 'recipe.process_refused'],
  ...['recipe.crock_quarts', 'recipe.crock_days', 'recipe.season_from_month', 'recipe.season_until_month'],
  ...[
    'recipe_stage.position',
    'recipe_stage.name',
    'recipe_stage.after_days',
    'recipe_stage.hands_on_minutes',
  ],
  ...['bought.price_before_cents', 'bought.price_taught_cents'],
  ...['recipe_supply.quantity', 'supply.name', 'supply.unit'],
  ...['material.name', 'material.unit', 'material.keeps_days_cold', 'material.keeps_months_frozen'],
  ...[
    'material.quarts_per_unit',
    'jar_holding.return_share',
    'jar_holding.owned',
    'item.shelf_life_key',
    'item_group.name',
  ],
  ...[
    'season_multiplier.month',
    'lot.batch_code',
    'processing_evidence.schedule_row',
    'shelf_count.book_units',
  ],
  ...['jar_event.recorded_by', 'stage_event.recorded_by', 'jar_conflict.kind', 'jar_conflict.units'],
  ...['jar_conflict.settled_as', 'material_event.unit', 'batch_result.jars', 'lot_standing_event.reason'],
  ...[
    'notice.reason',
    'notice.seq',
    'printed_sheet.number',
    'load_clock_event.steady_run',
    'load_clock_event.steady_ms',
  ],
  ...['bought.what', 'store_event.quantity', 'upkeep_event.recorded_by'],
  // Said as the price of a source and what it is for.
  'source.price_measure_cents',
  // Copied from the canner's own columns.
  ...[
    'upkeep_event.gauge_off_at_5_psi',
    'upkeep_event.gauge_off_at_10_psi',
    'upkeep_event.gauge_off_at_15_psi',
  ],
  // Asked crop by crop, by a field that is made for each; read by the reader of altitudes, which asks back.
  'recipe_produce.lb',
  'household.altitude_ft',
  // Chosen from a list of words, and what a year gave before it failed.
  ...['season_lateness.year', 'season_lateness.days', 'harvest_window.usual_lb_per_week'],
]);
const isKey = (column: string): boolean =>
  /(\.|_)(id|seq|key|subject|step)$/.test(column) && !column.endsWith('supply_id') && column !== 'supply.id';

const columns = new Map<string, ColumnKind>(
  Object.entries({ ...carried, household: householdRow } as Readonly<Record<string, CarriedTable>>).flatMap(
    ([name, table]) =>
      Object.entries(table.columns).map(([column, kind]) => [`${name}.${column}`, kind] as const),
  ),
);
const keptColumns = (field: string): readonly { readonly column: string; readonly per: number }[] => {
  const kept = keptIn[field];
  if (kept === undefined) return [];
  const all = typeof kept === 'string' ? [kept] : 'column' in kept ? [kept] : kept;
  return all.map((one) => (typeof one === 'string' ? { column: one, per: 1 } : one));
};

/** The bound of a field as its column would keep it. */
const asKept = (says: FieldBound, per: number): Bound | number => {
  if (says.kind === 'text') return says.letters;
  const { from, to, whole } = says.bound;
  if (says.kind === 'money') return { from: from * 100, to: to * 100, whole: true };
  return { from: from / per, to: to / per, ...(whole && per === 1 ? { whole } : {}) };
};

const fields = new Map<string, FieldBound>();
beforeAll(async () => {
  for (const { name, says } of await saidFields()) fields.set(name, says);
});

describe('what a form takes and what a household file takes', () => {
  it('name every field and every column there is, and none that is not', () => {
    const placed = [...Object.keys(keptIn), ...Object.keys(keptAsEntry), ...notKept];
    const columnsPlaced = new Set([
      ...Object.keys(keptIn).flatMap((field) => keptColumns(field).map(({ column }) => column)),
      ...Object.values(keptAsEntry),
      ...ofTheProgram,
    ]);
    const bounded = [...columns].flatMap(([name, kind]) =>
      (kind.bound === undefined && kind.longest === undefined) || isKey(name) ? [] : [name],
    );

    expect([...fields.keys()].toSorted()).toEqual(placed.toSorted());
    expect(bounded.toSorted()).toEqual([...columnsPlaced].filter((name) => !isKey(name)).toSorted());
  });

  it('have the same bounds, field by field', () => {
    let held = 0;
    for (const [field, says] of fields)
      for (const { column, per } of keptColumns(field)) {
        const kind = columns.get(column);
        expect([field, column, kind?.bound ?? kind?.longest]).toEqual([field, column, asKept(says, per)]);
        held += 1;
      }

    expect(held).toBeGreaterThan(120);
  });

  it('mean what they say: a column takes both ends of its bound and nothing beyond', () => {
    for (const [name, { bound, longest, schema }] of columns) {
      const takes = (value: unknown): boolean => schema.safeParse(value).success;
      if (bound !== undefined) {
        expect([name, takes(bound.from), takes(bound.to)]).toEqual([name, true, true]);
        const step = bound.whole ? 1 : 1e-6;
        expect([name, takes(bound.from - step), takes(bound.to + step)]).toEqual([name, false, false]);
        if (bound.whole) expect([name, takes(bound.from + 0.5)]).toEqual([name, false]);
      }
      if (longest !== undefined) expect([name, takes('x'.repeat(longest + 1))]).toEqual([name, false]);
    }
  });

  it('leave room in the ledger for whatever a form takes, with either sign where it may leave', () => {
    for (const [field, column] of Object.entries(keptAsEntry)) {
      const says = fields.get(field);
      const kind = columns.get(column);
      if (says?.kind === 'text') expect(kind?.longest).toBeGreaterThanOrEqual(says.letters);
      else expect(kind?.bound?.to).toBeGreaterThanOrEqual(says?.bound.to ?? Number.POSITIVE_INFINITY);
    }
  });

  it('are said in one place: no form and no column carries a number of its own', () => {
    const root = new URL('../../../', import.meta.url);
    const folders = ['shared/schemas/', 'shared/schemas/shelf/', 'server/columns/'];
    const own = folders.flatMap((folder) =>
      readdirSync(new URL(folder, root))
        .filter((file) => file.endsWith('.ts') && file !== 'form-fields.ts')
        .flatMap((file) => {
          const text = readFileSync(new URL(folder + file, root), 'utf8');
          const found = text.match(
            /(umberField|moneyField)\(\{[^}]*\b(from|to): -?[\d._]+|\b(amount|whole)\(-?\d/g,
          );
          return (found ?? []).map((one) => `${folder}${file}: ${one}`);
        }),
    );

    expect(own).toEqual([]);
    expect([bounds.year.from, bounds.year.to]).toEqual([firstYear, lastYear]);
  });
});
