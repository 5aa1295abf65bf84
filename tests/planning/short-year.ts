import { asJarKind } from '../../shared/jar.ts';
import { asCents } from '../../shared/money.ts';
import { addWeeks, asDate, weekOf, weeksFrom } from '../../shared/week.ts';
import { type BuiltModel, buildModel } from '../../src/planning/model/build-model.ts';
import type { CanningDecision } from '../../src/planning/model/planning-stage.ts';
import type {
  PlannedItem,
  PlannedRecipe,
  PlannedSource,
  PlanningYear,
} from '../../src/planning/planning-year.ts';

/** A few weeks, a few things, every figure set by whoever asks: small enough to work out by hand. */

const asOf = asDate('2027-01-04');
const firstWeek = weekOf(asOf);
export const pint = asJarKind('pint', 'regular');
/** Weeks are 2027-W01, 2027-W02 and so on. */
export const weekAt = (week: number) => addWeeks(firstWeek, week);

/** A bag of something bought: so many units at so much, each week alike unless prices are told week by week. */
export const pack = (id: string, units: number, cents: number | readonly number[]) => ({
  id,
  units,
  cents,
});
type Pack = ReturnType<typeof pack>;

type FoodChange = Partial<Omit<PlannedItem, 'id' | 'packs' | 'openingLots'>> & {
  readonly stands?: number;
  readonly packs?: readonly Pack[];
};

/** A food of which one unit is eaten a week; nothing stands, nothing is held, nothing is sold. */
export const food =
  (id: string, { stands = 0, packs = [], ...change }: FoodChange = {}) =>
  (weekCount: number): PlannedItem => ({
    id: id as PlannedItem['id'],
    name: id,
    kind: 'staple',
    jarKind: null,
    openingLots:
      stands > 0
        ? [
            {
              lotId: `${id}-old` as PlannedItem['openingLots'][number]['lotId'],
              units: stands,
              jars: 0,
              jarKind: null,
              readyFrom: weekAt(-5),
              bestQualityUntil: weekAt(60),
            },
          ]
        : [],
    useByWeek: Array.from({ length: weekCount }, () => 1),
    yearlyTarget: 0,
    reserveUnits: 0,
    yearEndUnits: 0,
    familyMinimumUnits: null,
    bestQualityWeeks: 52,
    packs: packs.map(({ cents, ...one }) => ({
      ...one,
      priceByWeek: Array.from({ length: weekCount }, (_, week) =>
        asCents(typeof cents === 'number' ? cents : (cents[week] ?? 0)),
      ),
    })),
    ...change,
  });

/** A batch of jam: five pounds of plums, two of sugar, four pints, half an hour. */
export const batchOf = (
  id: string,
  itemId: string,
  change: Partial<Omit<PlannedRecipe, 'id' | 'itemId'>> = {},
): PlannedRecipe => ({
  id: id as PlannedRecipe['id'],
  name: id,
  itemId: itemId as PlannedRecipe['itemId'],
  jarKind: pint,
  yieldLowUnits: 4,
  yieldHighJars: 4,
  produce: [{ crop: 'plum' as PlannedRecipe['produce'][number]['crop'], lb: 5, mayBeFrozen: false }],
  gives: [],
  uses: [],
  supplies: [{ supplyId: 'sugar', quantity: 2 }],
  handsOnMinutes: 30,
  processing: null,
  readyAfterWeeks: 0,
  crock: null,
  allowedByWeek: null,
  ...change,
});

/** A source that has a hundred pounds of plums a week at a dollar a pound. */
export const sourceOf =
  (id: string, change: Partial<Omit<PlannedSource, 'id'>> = {}) =>
  (weekCount: number): PlannedSource => ({
    id: id as PlannedSource['id'],
    name: id,
    crop: 'plum' as PlannedSource['crop'],
    kind: 'market',
    lbByWeek: Array.from({ length: weekCount }, () => 100),
    priceCentsPerLbByWeek: Array.from({ length: weekCount }, () => asCents(100)),
    useByDays: 3,
    poorYearChance: 0,
    poorYearShare: 1,
    fallBack: 'buy',
    ...change,
  });

type YearChange = Partial<Omit<PlanningYear, 'items' | 'sources' | 'weeks'>> & {
  readonly foods?: readonly ((weekCount: number) => PlannedItem)[];
  readonly sources?: readonly ((weekCount: number) => PlannedSource)[];
};

/** So many weeks with a session of five hours each, and a fund of a thousand dollars unless another is told. */
export function shortYear(
  weekCount: number,
  { foods = [], sources = [], ...change }: YearChange = {},
): PlanningYear {
  const every = <T>(value: T): T[] => Array.from({ length: weekCount }, () => value);
  return {
    asOf,
    weeks: weeksFrom(firstWeek, weekCount),
    items: foods.map((make) => make(weekCount)),
    recipes: [],
    sources: sources.map((make) => make(weekCount)),
    materials: [],
    canners: [],
    supplies: [],
    jars: [],
    lids: [],
    groups: [],
    time: { maxSessionsByWeek: every(1), hoursPerSessionByWeek: every(5), setUpMinutes: 30 },
    fund: { opening: asCents(100_000), setAsideByWeek: every(asCents(0)) },
    storage: { freezerQuarts: 0, freezerQuartsPerDay: 0, crockQuarts: 0 },
    kept: [],
    ...change,
  };
}

/** Batches by recipe label and week, for a year's sorted recipes. */
export function canningOf(
  year: PlanningYear,
  batches: Readonly<Record<string, readonly number[]>> = {},
): CanningDecision {
  const { sets } = buildModel(year);
  return {
    batches: sets.recipes.map(({ id, begun }) =>
      sets.weekIndexes.map((week) => batches[begun?.id ?? id]?.[week] ?? 0),
    ),
    sessionsByWeek: sets.weekIndexes.map((week) =>
      Object.values(batches).some((weeks) => (weeks[week] ?? 0) > 0) ? 1 : 0,
    ),
  };
}

/** The model of whole packs around a canning plan. */
export const packsAround = (year: PlanningYear, canning: CanningDecision = canningOf(year)): BuiltModel =>
  buildModel(year, { wholePacks: true, joinedWeeks: false, canning, earlier: null });

/** Values of a model by names of columns; nought where none is told. A name the model does not have is an error. */
export function valuesOf(
  { model }: Pick<BuiltModel, 'model'>,
  byName: Readonly<Record<string, number>>,
): Float64Array {
  const values = new Float64Array(model.columns.length);
  for (const [name, amount] of Object.entries(byName)) {
    const at = model.columns.findIndex((column) => column.name === name);
    if (at < 0) throw new Error(`no column ${name} among ${model.columns.map((column) => column.name)}`);
    values[at] = amount;
  }
  return values;
}

/** Amounts of a column by week, as `valuesOf` takes them: `byWeek('stock[oats,*]', [1, 0])`. Weeks told as null are left out. */
export const byWeek = (name: string, amounts: readonly (number | null)[]): Record<string, number> =>
  Object.fromEntries(
    amounts.flatMap((amount, week) => (amount === null ? [] : [[name.replace('*', weekAt(week)), amount]])),
  );
