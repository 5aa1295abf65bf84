import type { Database } from '../../server/database/database.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { asCents } from '../../shared/money.ts';
import type { CalendarDate, WeekKey } from '../../shared/week.ts';
import type { Plan, PlannedSession, PlannedWeek } from '../../src/planning/plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';

const noMoney = asCents(0);
let plansKept = 0;

export interface PlannedWork {
  readonly recipe: string;
  readonly batches: number;
}

const sessionOf = ({ recipe, batches }: PlannedWork): PlannedSession => ({
  recipe: recipe as PlannedSession['recipe'],
  batches,
  jars: [],
  units: batches,
  handsOnMinutes: 60 * batches,
  canner: null,
  loads: batches,
});

const weekOfWork = (week: WeekKey, work: readonly PlannedWork[], kitchenSessions: number): PlannedWeek => ({
  week,
  sessions: work.map(sessionOf),
  purchases: [
    {
      what: 'plum-tree',
      kind: 'produce',
      quantity: 10,
      unit: 'lb',
      packs: null,
      cost: noMoney,
    },
  ],
  materials: [],
  kitchenSessions,
  kitchenMinutes: 0,
  spend: noMoney,
  fundAfter: noMoney,
});

/** A year of which nothing was known but its weeks. */
export const bareYear = (asOf: CalendarDate, weeks: readonly WeekKey[]): PlanningYear => {
  const each = <Value>(value: Value): Value[] => weeks.map(() => value);
  return {
    asOf,
    weeks,
    items: [],
    recipes: [],
    sources: [],
    materials: [],
    canners: [],
    supplies: [],
    jars: [],
    lids: [],
    groups: [],
    time: { maxSessionsByWeek: each(1), hoursPerSessionByWeek: each(4), setUpMinutes: 0 },
    fund: { opening: noMoney, setAsideByWeek: each(noMoney) },
    storage: { freezerQuarts: 0, freezerQuartsPerDay: 0, crockQuarts: 0 },
    kept: [],
  };
};

/** Keeps a plan that says exactly this, as if the planner had made it. */
export async function keepPlanOf(
  db: Database,
  householdId: HouseholdId,
  weeks: Readonly<Record<string, readonly PlannedWork[]>>,
  kitchenSessions = 1,
): Promise<void> {
  plansKept += 1;
  const plan: Plan = {
    asOf: '2026-08-17' as Plan['asOf'],
    horizonWeeks: 52,
    objective: { total: 0 },
    bound: 0,
    gap: 0,
    solveSeconds: 0,
    packRounding: { cost: noMoney, gap: 0 },
    rungs: [],
    weeks: Object.entries(weeks).map(([week, work]) => weekOfWork(week as WeekKey, work, kitchenSessions)),
    items: [],
    gaveWay: [],
  };
  await db
    .insertInto('plan')
    .values({
      household_id: householdId,
      id: `plan-of-the-test-${plansKept}`,
      as_of: plan.asOf,
      facts_version: 0,
      input_json: JSON.stringify(
        bareYear(
          plan.asOf,
          plan.weeks.map(({ week }) => week),
        ),
      ),
      result_json: JSON.stringify({ plan, paths: [], outcome: 'planned', stoppedBy: 'gap' }),
      made_at: 0,
    })
    .execute();
}
