import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { Household } from '../../src/household/household.ts';
import { planAtTheStove } from '../../src/planning/answer/standing-plan.ts';
import { type BatchDays, batchDays } from '../../src/planning/days/batch-days.ts';
import type { Plan } from '../../src/planning/plan.ts';
import type { Database } from '../database/database.ts';
import { itemsOf } from '../queries/household/items.ts';
import { cannersOf, kitchenHoursOf } from '../queries/household/kitchen.ts';
import { recipesOf } from '../queries/household/recipes.ts';
import { decisionsOf, newestPlan } from '../queries/year/plans.ts';
import { stoveFacts } from './stove-facts.ts';

/** The days of every batch of a household as it stands on a day, by the plan named or the newest. */
export async function batchDaysNow(
  db: Database,
  household: Household,
  asOf: CalendarDate,
  reference: ReferenceTables,
  plan?: Plan,
): Promise<readonly BatchDays[]> {
  const [recipes, items, canners, hours, stored, stove, decisions] = await Promise.all([
    recipesOf(db, household.id),
    itemsOf(db, household.id),
    cannersOf(db, household.id),
    kitchenHoursOf(db, household.id),
    plan === undefined ? newestPlan(db, household.id) : null,
    stoveFacts(db, household.id),
    decisionsOf(db, household.id),
  ]);
  return batchDays({
    ...stove,
    asOf,
    plan: plan ?? (stored === null ? null : planAtTheStove(stored, decisions)),
    recipes,
    items,
    canners,
    hours,
    household,
    reference,
  });
}
