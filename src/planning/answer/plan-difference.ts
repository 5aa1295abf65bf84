import type { RecipeId } from '../../../shared/ids.ts';
import type { WeekKey } from '../../../shared/week.ts';
import { orNone } from '../lookup.ts';
import type { Plan } from '../plan.ts';

export interface BatchChange {
  readonly week: WeekKey;
  readonly recipe: RecipeId;
  readonly before: number;
  readonly after: number;
}

export interface PlanDifference {
  /** Recipes and weeks whose number of batches changed, earliest first. */
  readonly batches: readonly BatchChange[];
  /** Cents spent over the year, after less before. */
  readonly spend: number;
  /** Kitchen minutes over the year, after less before. */
  readonly kitchenMinutes: number;
}

/** What one plan does otherwise than another of the same weeks. */
export function planDifference(before: Plan, after: Plan): PlanDifference {
  const counted = (plan: Plan) => {
    const counts = new Map<string, BatchChange>();
    for (const { week, sessions } of plan.weeks)
      for (const { recipe, batches } of sessions) {
        const key = `${week} ${recipe}`;
        counts.set(key, { week, recipe, before: 0, after: orNone(counts.get(key)?.after) + batches });
      }
    return counts;
  };
  const [was, is] = [counted(before), counted(after)];
  const keys = [...new Set([...was.keys(), ...is.keys()])].sort();
  const batches = keys.flatMap((key): BatchChange[] => {
    const known = is.get(key) ?? was.get(key);
    const change = { before: orNone(was.get(key)?.after), after: orNone(is.get(key)?.after) };
    return known === undefined || change.before === change.after ? [] : [{ ...known, ...change }];
  });
  const total = (plan: Plan, of: 'spend' | 'kitchenMinutes') =>
    plan.weeks.reduce((sum, week) => sum + week[of], 0);
  return {
    batches,
    spend: total(after, 'spend') - total(before, 'spend'),
    kitchenMinutes: total(after, 'kitchenMinutes') - total(before, 'kitchenMinutes'),
  };
}
