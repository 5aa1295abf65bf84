// How large or small a number a household says may be: one table for the forms, for what is brought in, and for the core,
// which refuses what lies beyond. Wide enough for any household; judged, no source.

export interface Bound {
  readonly from: number;
  readonly to: number;
  readonly whole?: true;
}

export const bounds = {
  people: { from: 1, to: 40, whole: true },
  altitudeFt: { from: -1500, to: 20_000 },
  storageTemperatureF: { from: -40, to: 140 },
  discardCeilingMonths: { from: 12, to: 60, whole: true },
  crockQuarts: { from: 0, to: 400 },
  freezerQuartsPerDay: { from: 0, to: 400 },
  placeQuarts: { from: 0, to: 10_000 },

  quartsInLoad: { from: 0, to: 40, whole: true },
  pintsInLoad: { from: 0, to: 60, whole: true },
  halfPintsInLoad: { from: 0, to: 100, whole: true },
  cannerVolumeQuarts: { from: 1, to: 60 },
  gaugeOffPsi: { from: -15, to: 15 },

  sessionsPerWeek: { from: 0, to: 4, whole: true },
  hoursPerSession: { from: 0.5, to: 12 },
  setUpMinutes: { from: 0, to: 240, whole: true },
  stoveBurners: { from: 1, to: 20, whole: true },
  peopleAtWork: { from: 1, to: 20, whole: true },
  weekday: { from: 1, to: 7, whole: true },
  month: { from: 1, to: 12, whole: true },

  /** Jars (bags, lb …) that one batch gives. */
  batchYield: { from: 0.01, to: 500 },
  handsOnMinutes: { from: 0, to: 1440, whole: true },
  daysUntilReady: { from: 0, to: 400, whole: true },
  crockDays: { from: 1, to: 400, whole: true },
  cropLb: { from: 0.01, to: 500 },
  supplyQuantity: { from: 0.001, to: 10_000 },
  materialQuantity: { from: 0.001, to: 10_000 },
  packQuantity: { from: 0.001, to: 10_000 },
  onHand: { from: 0, to: 10_000 },
  cents: { from: 0, to: 10_000_000, whole: true },

  /** Batches of one recipe on one day. */
  batches: { from: 0, to: 40, whole: true },
  /** Units of one lot. */
  units: { from: 0.01, to: 2000 },
  /** Canner loads of one day, all recipes together. */
  loadsOfDay: { from: 0, to: 200, whole: true },
  minutesRun: { from: 1, to: 600, whole: true },
  psi: { from: 1, to: 20 },
  jars: { from: 0, to: 10_000, whole: true },
  lids: { from: 0, to: 10_000, whole: true },

  servingsPerUnit: { from: 0.25, to: 500 },
  yearlyUnits: { from: 0, to: 5000 },
  bestQualityDays: { from: 1, to: 3650, whole: true },
  keepColdDays: { from: 1, to: 365, whole: true },
  useAmount: { from: 0, to: 1000 },
  seasonPercent: { from: 0, to: 2000 },
  share: { from: 0, to: 1 },

  plants: { from: 0, to: 10_000, whole: true },
  lbPerPlant: { from: 0.01, to: 1000 },
  lbPerWeek: { from: 0, to: 20_000 },
  useByDays: { from: 0, to: 365, whole: true },
} as const satisfies Readonly<Record<string, Bound>>;

export type BoundName = keyof typeof bounds;

/**
 * The bound of a column of the household's tables: what a form would take in its place. Columns that are not named here
 * hold no number a household says.
 */
export const boundsOfColumns: Readonly<Record<string, Readonly<Record<string, Bound>>>> = {
  household: {
    people: bounds.people,
    altitude_ft: bounds.altitudeFt,
    storage_temperature_f: bounds.storageTemperatureF,
    discard_ceiling_months: bounds.discardCeilingMonths,
    crock_quarts: bounds.crockQuarts,
    freezer_quarts_per_day: bounds.freezerQuartsPerDay,
  },
  place: { capacity_quarts: bounds.placeQuarts },
  canner: {
    quart_jars: bounds.quartsInLoad,
    pint_jars: bounds.pintsInLoad,
    half_pint_jars: bounds.halfPintsInLoad,
    volume_quarts: bounds.cannerVolumeQuarts,
    gauge_off_at_5_psi: bounds.gaugeOffPsi,
    gauge_off_at_10_psi: bounds.gaugeOffPsi,
    gauge_off_at_15_psi: bounds.gaugeOffPsi,
  },
  kitchen_time: {
    sessions_per_week: bounds.sessionsPerWeek,
    hours_per_session: bounds.hoursPerSession,
    set_up_minutes: bounds.setUpMinutes,
    stove_burners: bounds.stoveBurners,
    session_weekday: bounds.weekday,
  },
  week_time: { sessions: bounds.sessionsPerWeek, hours_per_session: bounds.hoursPerSession },
  recipe: {
    yield_low: bounds.batchYield,
    yield_high: bounds.batchYield,
    hands_on_minutes: bounds.handsOnMinutes,
    ready_after_days: bounds.daysUntilReady,
    crock_quarts: bounds.crockQuarts,
    crock_days: bounds.crockDays,
    season_from_month: bounds.month,
    season_until_month: bounds.month,
  },
  recipe_produce: { lb: bounds.cropLb },
  recipe_supply: { quantity: bounds.supplyQuantity },
  recipe_material: { quantity: bounds.materialQuantity },
  recipe_stage: { after_days: bounds.daysUntilReady, hands_on_minutes: bounds.handsOnMinutes },
  supply: { pack_quantity: bounds.packQuantity, pack_price_cents: bounds.cents, on_hand: bounds.onHand },
  source: {
    plants: bounds.plants,
    lb_per_plant: bounds.lbPerPlant,
    use_by_days: bounds.useByDays,
    price_cents_per_lb: bounds.cents,
    poor_year_chance: bounds.share,
    poor_year_share: bounds.share,
  },
  harvest_window: { lb_per_week: bounds.lbPerWeek },
};

/** Whether a number lies within its bound, whole where it must be; anything that is no finite number does not. */
export const isWithin = (value: number, { from, to, whole }: Bound): boolean =>
  Number.isFinite(value) && value >= from && value <= to && (whole !== true || Number.isInteger(value));

/** "a whole number from 0 to 1,440" */
export const boundInWords = ({ from, to, whole }: Bound): string =>
  `${whole ? 'a whole number' : 'a number'} from ${from.toLocaleString('en-US')} to ${to.toLocaleString('en-US')}`;
