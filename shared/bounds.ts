// How large or small a number a household says may be: one table for the forms, for the columns of what is brought in, and
// for the core, which refuses what lies beyond. Wide enough for any household; judged, no source. A test holds every field of
// a form against the column that keeps it.

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
  emergencyDays: { from: 1, to: 90, whole: true },
  /** Gallons, or liters where a household counts in them. */
  waterKept: { from: 0, to: 2000 },
  placeQuarts: { from: 0, to: 10_000 },

  quartsInLoad: { from: 0, to: 40, whole: true },
  pintsInLoad: { from: 0, to: 60, whole: true },
  halfPintsInLoad: { from: 0, to: 100, whole: true },
  cannerVolumeQuarts: { from: 1, to: 60 },
  gaugeOffPsi: { from: -15, to: 15 },

  sessionsPerWeek: { from: 0, to: 4, whole: true },
  planningMinutes: { from: 1, to: 120, whole: true },
  hoursPerSession: { from: 0.5, to: 12 },
  setUpMinutes: { from: 0, to: 240, whole: true },
  stoveBurners: { from: 1, to: 20, whole: true },
  peopleAtWork: { from: 1, to: 20, whole: true },
  weekday: { from: 1, to: 7, whole: true },
  month: { from: 1, to: 12, whole: true },
  year: { from: 2000, to: 2200, whole: true },

  jars: { from: 0, to: 10_000, whole: true },
  jarsInPack: { from: 1, to: 144, whole: true },
  lids: { from: 0, to: 10_000, whole: true },
  lidsInBox: { from: 1, to: 1000, whole: true },

  /** Jars (bags, lb …) that one batch gives. */
  batchYield: { from: 0.01, to: 500 },
  handsOnMinutes: { from: 1, to: 1440, whole: true },
  daysUntilReady: { from: 0, to: 400, whole: true },
  /** Of a crock that is occupied. */
  crockFilledQuarts: { from: 0.01, to: 400 },
  crockDays: { from: 1, to: 400, whole: true },
  cropLb: { from: 0.01, to: 500 },
  supplyQuantity: { from: 0.001, to: 10_000 },
  materialQuantity: { from: 0.001, to: 10_000 },
  materialDaysCold: { from: 0, to: 400, whole: true },
  materialMonthsFrozen: { from: 1, to: 60, whole: true },
  quartsPerMaterial: { from: 0.001, to: 400 },
  /** Units of a supply in its pack. */
  packQuantity: { from: 0.001, to: 10_000 },
  onHand: { from: 0, to: 10_000 },
  /** Of a line of the shopping list, in its unit. */
  boughtQuantity: { from: 0, to: 10_000 },
  stagePosition: { from: 1, to: 60, whole: true },
  stageMinutes: { from: 0, to: 1440, whole: true },

  /** Batches of one recipe on one day; none takes it off. */
  batches: { from: 0, to: 40, whole: true },
  /** The same where there is at least one. */
  batchesMade: { from: 1, to: 40, whole: true },
  /** Canner loads of one day, all recipes together. */
  loadsOfDay: { from: 0, to: 200, whole: true },
  minutesRun: { from: 1, to: 600, whole: true },
  minutesOfBatch: { from: 1, to: 1440, whole: true },
  psi: { from: 1, to: 20 },
  byProduct: { from: 0.01, to: 500 },

  /** Units of one lot. */
  units: { from: 0.01, to: 2000 },
  /** Units of one lot in a jar of another size. */
  unitsOfOtherJar: { from: 1, to: 2000, whole: true },
  unitsTaken: { from: 0.01, to: 500 },
  unitsCounted: { from: 0, to: 5000 },
  jarsFinished: { from: 1, to: 500, whole: true },
  sealsFailed: { from: 0, to: 2000, whole: true },
  occasionUnits: { from: 0.01, to: 500 },
  unitsInPack: { from: 0.01, to: 1000 },

  servingsAWeek: { from: 0, to: 200 },
  servingsPerUnit: { from: 0.25, to: 500 },
  mealServings: { from: 0.25, to: 100 },
  jarsOfTheirOwn: { from: 1, to: 500, whole: true },
  yearlyUnits: { from: 0, to: 5000 },
  emergencyUnits: { from: 1, to: 1000, whole: true },
  leastKinds: { from: 1, to: 60, whole: true },
  largestSharePercent: { from: 1, to: 100 },
  yearsInTwenty: { from: 10, to: 19, whole: true },
  freezerQuartsOfOne: { from: 0.05, to: 100 },
  bestQualityDays: { from: 1, to: 3650, whole: true },
  keepColdDays: { from: 1, to: 400, whole: true },
  useAmount: { from: 0, to: 1000 },
  eaters: { from: 0.25, to: 40 },
  mealsPerWeek: { from: 0.05, to: 28 },
  seasonPercent: { from: 0, to: 2000 },
  upkeepMonths: { from: 1, to: 240, whole: true },
  noticeDays: { from: 0, to: 365, whole: true },

  plants: { from: 0, to: 10_000, whole: true },
  lbGiven: { from: 0, to: 100_000 },
  lbPerPlant: { from: 0.01, to: 1000 },
  lbPerWeek: { from: 0, to: 20_000 },
  usualLbPerWeek: { from: 0.001, to: 20_000 },
  /** Days a year runs late; early when negative. */
  lateDays: { from: -42, to: 42, whole: true },
  useByDays: { from: 0, to: 365, whole: true },
  share: { from: 0, to: 1 },
  poorYearsInTen: { from: 0, to: 10 },
  poorYearPercent: { from: 0, to: 100 },
  glut: { from: 0.5, to: 5000 },

  labelColumns: { from: 1, to: 12, whole: true },
  labelRows: { from: 1, to: 40, whole: true },
  labelWidthMm: { from: 15, to: 220 },
  labelHeightMm: { from: 10, to: 300 },
  labelGapMm: { from: 0, to: 100 },
} as const satisfies Readonly<Record<string, Bound>>;

/** Of sums of money, dollars; they are kept in cents. */
export const moneyBounds = {
  fund: { from: 0, to: 100_000 },
  weeklyFund: { from: 0, to: 10_000 },
  jarPack: { from: 0, to: 1000 },
  lidBox: { from: 0, to: 1000 },
  pack: { from: 0, to: 2000 },
  perLb: { from: 0, to: 200 },
  /** Of the heaviest measure there is. */
  perMeasure: { from: 0, to: 12_000 },
  paid: { from: 0, to: 100_000 },
} as const satisfies Readonly<Record<string, Bound>>;

/** Letters of a text, at most. */
export const letters = {
  name: 120,
  /** Of a place or a canner. */
  shortName: 80,
  region: 40,
  town: 80,
  timeZone: 60,
  note: 120,
  batchNote: 200,
  doubt: 200,
  person: 80,
  /** Of everybody who cans on a day. */
  whoIsThere: 200,
  /** Of a connected thing; its name stands behind that of who took, where the shelf keeps it. */
  thing: 40,
  way: 80,
  key: 64,
  address: 200,
  /** Why a recipe came in as not canned. */
  refusal: 2000,
} as const;

/** The same bound counted in something larger or smaller: percents kept as a share, years in twenty as a chance. */
export const scaled = ({ from, to }: Bound, { of }: { readonly of: number }): Bound => ({
  from: from / of,
  to: to / of,
});

/** Both ways from nothing: what came as well as what went. */
export const eitherWay = ({ to, whole }: Bound): Bound => ({ from: -to, to, ...(whole ? { whole } : {}) });

/** Whether a number lies within its bound, whole where it must be; anything that is no finite number does not. */
export const isWithin = (value: number, { from, to, whole }: Bound): boolean =>
  Number.isFinite(value) && value >= from && value <= to && (whole !== true || Number.isInteger(value));

/** "a whole number from 0 to 1,440" */
export const boundInWords = ({ from, to, whole }: Bound): string =>
  `${whole ? 'a whole number' : 'a number'} from ${from.toLocaleString('en-US')} to ${to.toLocaleString('en-US')}`;
