import { z } from 'zod';
import type { CannerId, CropKey, GroupId, ItemId, LotId, RecipeId, SourceId } from '../../shared/ids.ts';
import type { JarKind, Mouth } from '../../shared/jar.ts';
import type { Cents } from '../../shared/money.ts';
import type { CalendarDate, WeekKey } from '../../shared/week.ts';
import { purchaseKinds } from '../../src/household/purchase.ts';
import { gaveWayRungs } from '../../src/planning/plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import { rungNames } from '../../src/planning/solving/rungs.ts';
import type { StoredResult } from '../../src/planning/stored-plan.ts';

// A plan is kept as the planner answered it, with the year it was made from. Later versions of the program read it, so it is
// read through this shape: what does not fit is no plan, and the year is planned anew. What is added later is optional here,
// because plans from before do not have it; what is not named here is handed on as it stands.

/** Counts up when what is kept changes its meaning: a plan of another number is not read. */
export const planShape = 1;

const text = <Text extends string>() => z.custom<Text>((value) => typeof value === 'string');
const cents = z.custom<Cents>((value) => typeof value === 'number' && Number.isInteger(value));
const number = z.number();
const numbers = z.array(number);
const flags = z.array(z.boolean());
const week = z.custom<WeekKey>((value) => typeof value === 'string' && /^\d{4}-W\d{2}$/.test(value));
const day = z.custom<CalendarDate>((value) => typeof value === 'string' && /^\d{4}-\d{2}-\d{2}$/.test(value));
const item = text<ItemId>();
const recipe = text<RecipeId>();
const crop = text<CropKey>();
const jar = text<JarKind>();

const session = z.looseObject({
  recipe,
  batches: number,
  jars: z.array(z.looseObject({ kind: jar, count: number })),
  units: number,
  handsOnMinutes: number,
  canner: text<CannerId>().nullable(),
  loads: number,
  jarsAside: number.exactOptional(),
  begin: z.looseObject({ week, on: day }).exactOptional(),
  begun: z.looseObject({ id: text(), on: day }).exactOptional(),
  sharesByProduct: z.literal(true).exactOptional(),
});

const plannedWeek = z.looseObject({
  week,
  from: day.exactOptional(),
  sessions: z.array(session),
  stageWork: z
    .array(z.looseObject({ recipe, batches: number, loadWeek: week, minutes: number }))
    .exactOptional(),
  purchases: z.array(
    z.looseObject({
      what: text(),
      kind: z.enum(purchaseKinds),
      quantity: number,
      unit: text(),
      packs: z.looseObject({ id: text(), count: number }).nullable(),
      cost: cents,
    }),
  ),
  materials: z.array(
    z.looseObject({
      what: text(),
      unit: text(),
      freeze: number,
      thaw: number,
      waiting: number,
      frozen: number,
      lost: number,
    }),
  ),
  leftOver: z.array(z.looseObject({ source: text<SourceId>(), lb: number })).exactOptional(),
  kitchenSessions: number,
  kitchenMinutes: number,
  spend: cents,
  fundAfter: cents,
});

const plan = z.looseObject({
  asOf: day,
  horizonWeeks: number,
  objective: z.record(z.string(), number),
  bound: number,
  gap: number,
  solveSeconds: number,
  packRounding: z.looseObject({ cost: cents, gap: number, isRoundedUp: z.literal(true).exactOptional() }),
  // Plans kept before rungs were proven have none.
  rungs: z.array(z.looseObject({ name: z.enum(rungNames), missed: number, atLeast: number })).prefault([]),
  weeks: z.array(plannedWeek),
  items: z.array(
    z.looseObject({
      item,
      yearlyTarget: number,
      openingStock: number,
      runOutWeek: z.looseObject({ p10: week.nullable(), p50: week.nullable(), p90: week.nullable() }),
      chanceOfLasting: number,
    }),
  ),
  gaveWay: z.array(
    z.looseObject({
      rung: z.enum(gaveWayRungs),
      what: text(),
      amount: number,
      unit: text(),
      batches: z.looseObject({ recipe, pinnedIn: week.nullable(), begunOn: day.nullable() }).exactOptional(),
    }),
  ),
});

/** What was answered. */
export const storedResult = z.looseObject({
  shape: z.literal(planShape).exactOptional(),
  plan,
  paths: z.array(
    z.looseObject({
      item,
      madeByWeek: numbers,
      readyByWeek: numbers,
      boughtByWeek: numbers,
      takenByWeek: numbers,
      missedByWeek: numbers,
      stockByWeek: numbers,
      olderByWeek: numbers,
    }),
  ),
  outcome: z.enum(['planned', 'infeasible', 'time limit without plan', 'solver crashed', 'cancelled']),
  stoppedBy: z.enum(['gap', 'time limit', 'node limit']).nullable(),
  reached: z
    .looseObject({
      years: number,
      items: z.array(
        z.looseObject({ item, lasts: number, standardError: number, aim: number, isAllMade: z.boolean() }),
      ),
    })
    .nullable()
    .exactOptional(),
}) satisfies z.ZodType<StoredResult>;

const quantities = <Key extends string>(key: Key) =>
  z.array(
    z.looseObject({ [key]: text(), quantity: number } as Record<Key, z.ZodType<string>> & {
      quantity: typeof number;
    }),
  );

const plannedItem = z.looseObject({
  id: item,
  name: text(),
  kind: z.enum(['preserve', 'staple']),
  jarKind: jar.nullable(),
  openingLots: z.array(
    z.looseObject({
      lotId: text<LotId>(),
      units: number,
      jars: number,
      jarKind: jar.nullable(),
      readyFrom: week,
      bestQualityUntil: week,
    }),
  ),
  useByWeek: numbers,
  yearlyTarget: number,
  reserveUnits: number,
  reserveNotWorthABatch: number.exactOptional(),
  reserveForAim: number.exactOptional(),
  yearEndUnits: number,
  afterYear: z
    .looseObject({ useByWeek: numbers, seasonWeeks: numbers, isRunning: z.boolean(), failsChance: number })
    .exactOptional(),
  familyMinimumUnits: number.nullable(),
  emergencyUnits: number.exactOptional(),
  bestQualityWeeks: number,
  packs: z.array(z.looseObject({ id: text(), units: number, priceByWeek: z.array(cents) })),
  givenByWeek: numbers.exactOptional(),
  keepingCentsPerUnitWeek: number.exactOptional(),
  freezerQuartsPerUnit: number.exactOptional(),
});

const plannedRecipe = z.looseObject({
  id: recipe,
  name: text(),
  itemId: item,
  jarKind: jar.nullable(),
  yieldLowUnits: number,
  yieldHighJars: number,
  produce: z.array(z.looseObject({ crop, lb: number, mayBeFrozen: z.boolean() })),
  gives: quantities('materialId'),
  uses: quantities('materialId'),
  supplies: quantities('supplyId'),
  handsOnMinutes: number,
  stages: z
    .looseObject({
      weeks: number,
      daysFromMonday: number,
      handsOnByWeek: numbers,
      possibleByWeek: flags.nullable(),
    })
    .exactOptional(),
  processing: z
    .looseObject({
      cannerId: text<CannerId>(),
      scheduleKey: text(),
      lowAcid: z.boolean(),
      minutes: number,
      psi: number.nullable(),
      jarsPerLoad: number,
      loadMinutes: number,
      attendedMinutes: number,
    })
    .nullable(),
  readyAfterWeeks: number,
  crock: z.looseObject({ quarts: number, weeks: number }).nullable(),
  allowedByWeek: flags.nullable(),
  setUp: z.looseObject({ minutes: number, cents: number }).exactOptional(),
});

const decision = z.union([
  z.looseObject({ recipeId: recipe, week, decision: z.enum(['pinned', 'done']), batches: number }),
  z.looseObject({ recipeId: recipe, week, decision: z.literal('ruled-out') }),
]);

/** The year it was made from. */
export const storedYear = z.looseObject({
  asOf: day,
  weeks: z.array(week).min(1),
  items: z.array(plannedItem),
  recipes: z.array(plannedRecipe),
  sources: z.array(
    z.looseObject({
      id: text<SourceId>(),
      name: text(),
      crop,
      kind: z.enum(['garden', 'pick-your-own', 'market']),
      lbByWeek: numbers,
      priceCentsPerLbByWeek: z.array(cents),
      useByDays: number,
      lastUseWeekByWeek: numbers.exactOptional(),
      poorYearChance: number,
      poorYearShare: number,
      fallBack: z.enum(['buy', 'substitute', 'do-without']),
      isAtHand: z.literal(true).exactOptional(),
    }),
  ),
  materials: z.array(
    z.looseObject({
      id: text(),
      name: text(),
      unit: text(),
      opening: number,
      openingLasts: z.array(z.looseObject({ quantity: number, weeks: number })).exactOptional(),
      keepsDaysCold: number,
      keepsMonthsFrozen: number.nullable(),
      quartsPerUnit: number,
    }),
  ),
  canners: z.array(
    z.looseObject({
      id: text<CannerId>(),
      name: text(),
      method: z.enum(['boiling-water', 'steam', 'pressure']),
    }),
  ),
  supplies: z.array(
    z.looseObject({
      id: text(),
      name: text(),
      unit: text(),
      onHand: number,
      packQuantity: number,
      packPrice: cents,
      freshDays: number.exactOptional(),
    }),
  ),
  jars: z.array(
    z.looseObject({
      kind: jar,
      owned: number,
      empty: number,
      pack: number,
      packPrice: cents,
      returnShare: number,
    }),
  ),
  lids: z.array(z.looseObject({ mouth: text<Mouth>(), onHand: number, box: number, boxPrice: cents })),
  groups: z.array(
    z.looseObject({
      id: text<GroupId>(),
      name: text(),
      members: z.array(z.looseObject({ itemId: item, groupUnitsPerUnit: number })),
      totalUnits: number,
      leastKinds: number,
      largestShare: number,
    }),
  ),
  time: z.looseObject({
    awayByWeek: flags.exactOptional(),
    maxSessionsByWeek: numbers,
    hoursPerSessionByWeek: numbers,
    longestSessionByWeek: numbers.exactOptional(),
    handsByWeek: numbers.exactOptional(),
    setUpMinutes: number,
  }),
  fund: z.looseObject({ opening: cents, setAsideByWeek: z.array(cents) }),
  storage: z.looseObject({ freezerQuarts: number, freezerQuartsPerDay: number, crockQuarts: number }),
  kept: z.array(decision),
  purchasesKnown: z.array(text()).exactOptional(),
  skipped: z.array(z.looseObject({ week, kind: z.enum(purchaseKinds), what: text() })).exactOptional(),
  begun: z
    .array(
      z.looseObject({
        id: text(),
        recipeId: recipe,
        jarKind: jar.nullable(),
        batches: number,
        begunOn: day,
        mayLoadByWeek: flags,
      }),
    )
    .exactOptional(),
  freezable: z
    .array(z.looseObject({ crop, openingLb: number, keepsMonthsFrozen: number, quartsPerLb: number }))
    .exactOptional(),
}) satisfies z.ZodType<PlanningYear>;
