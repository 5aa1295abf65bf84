import type { Database } from '../../server/database/database.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { loadPlanningYear } from '../../server/year/load-year.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { asCents } from '../../shared/money.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { Plan, PlannedWeek } from '../../src/planning/plan.ts';

const reference = loadReferenceTables();

interface PlanMade {
  readonly id?: string;
  /** Units of an item made, and ready, in a week of the plan. */
  readonly comes?: (itemId: string, week: number) => number;
}

/** Keeps a plan of the household's own year, as if the planner had made it: whole weeks and units that come where they are given, else nothing. */
export async function keepPlanOfNothing(
  db: Database,
  householdId: HouseholdId,
  asOf: CalendarDate,
  weeks: Readonly<Record<string, Partial<PlannedWeek>>> = {},
  figures: Partial<Plan> = {},
  { id = 'plan-of-nothing', comes = () => 0 }: PlanMade = {},
): Promise<void> {
  const { year, facts } = await loadPlanningYear(db, householdId, asOf, reference);
  const none = year.weeks.map(() => 0);
  const plan: Plan = {
    asOf,
    horizonWeeks: 52,
    objective: { total: 0 },
    bound: 0,
    gap: 0,
    solveSeconds: 0,
    packRounding: { cost: asCents(0), gap: 0 },
    rungs: [],
    weeks: year.weeks.map((week) => ({
      week,
      sessions: [],
      purchases: [],
      materials: [],
      kitchenSessions: 1,
      kitchenMinutes: 0,
      spend: asCents(0),
      fundAfter: year.fund.opening,
      ...weeks[week],
    })),
    items: [],
    gaveWay: [],
    ...figures,
  };
  const paths = year.items.map((item) => ({
    item: item.id,
    madeByWeek: year.weeks.map((_, week) => comes(item.id, week)),
    readyByWeek: year.weeks.map((_, week) => comes(item.id, week)),
    boughtByWeek: none,
    takenByWeek: none,
    missedByWeek: none,
    stockByWeek: none,
    olderByWeek: none,
  }));
  await db
    .insertInto('plan')
    .values({
      household_id: householdId,
      id,
      as_of: asOf,
      facts_version: facts.version,
      input_json: JSON.stringify(year),
      result_json: JSON.stringify({ plan, paths, outcome: 'planned', stoppedBy: 'gap' }),
      made_at: 0,
    })
    .execute();
}
