import type { Database } from '../../server/database/database.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { loadPlanningYear } from '../../server/year/load-year.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { asCents } from '../../shared/money.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { Plan, PlannedWeek } from '../../src/planning/plan.ts';

const reference = loadReferenceTables();

/** Keeps a plan of the household's own year, as if the planner had made it: whole weeks where they are given, else nothing. */
export async function keepPlanOfNothing(
  db: Database,
  householdId: HouseholdId,
  asOf: CalendarDate,
  weeks: Readonly<Record<string, Partial<PlannedWeek>>> = {},
  figures: Partial<Plan> = {},
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
  const paths = year.items.map(({ id }) => ({
    item: id,
    madeByWeek: none,
    readyByWeek: none,
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
      id: 'plan-of-nothing',
      as_of: asOf,
      facts_version: facts.household.factsVersion,
      input_json: JSON.stringify(year),
      result_json: JSON.stringify({ plan, paths, outcome: 'planned', stoppedBy: 'gap' }),
      made_at: 0,
    })
    .execute();
}
