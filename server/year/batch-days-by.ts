import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { Household } from '../../src/household/household.ts';
import { type BatchDays, batchDays } from '../../src/planning/days/batch-days.ts';
import type { Plan } from '../../src/planning/plan.ts';
import type { Database } from '../database/database.ts';
import { itemsOf } from '../queries/household/items.ts';
import { cannersOf, kitchenHoursOf } from '../queries/household/kitchen.ts';
import { recipesOf } from '../queries/household/recipes.ts';
import { stoveFacts } from './stove-facts.ts';

/** The days of every batch of a household by a plan that is given; those by its newest plan are in its picture (`yearPicture`). */
export async function batchDaysBy(
  plan: Plan,
  db: Database,
  household: Household,
  asOf: CalendarDate,
  reference: ReferenceTables,
): Promise<readonly BatchDays[]> {
  const [recipes, items, canners, hours, stove] = await Promise.all([
    recipesOf(db, household.id),
    itemsOf(db, household.id),
    cannersOf(db, household.id),
    kitchenHoursOf(db, household.id),
    stoveFacts(db, household.id),
  ]);
  return batchDays({ ...stove, asOf, plan, recipes, items, canners, hours, household, reference });
}
