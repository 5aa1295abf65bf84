import { randomUUID } from 'node:crypto';
import type { HouseholdId } from '../../shared/ids.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { PlanningAnswer } from '../../src/planning/make-plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import { plansWorthKeeping } from '../../src/planning/plans-worth-keeping.ts';
import type { StoredResult } from '../../src/planning/stored-plan.ts';
import { planShape } from '../columns/stored-plan.ts';
import type { Database, Writing } from '../database/database.ts';
import { holdHousehold } from '../database/hold-household.ts';
import { nextSeq } from '../records/next-seq.ts';

/**
 * Keeps a plan as a snapshot with what it was made from. A failure never replaces an earlier plan; only a household that
 * has none yet keeps the plan that needs no solver. Answers the id of the plan, or null where none was kept.
 */
export async function keepPlan(
  db: Database,
  householdId: HouseholdId,
  made: {
    readonly year: PlanningYear;
    readonly factsVersion: number;
    readonly answer: PlanningAnswer;
    readonly at: number;
    /** What came of playing the plan against sampled years. */
    readonly reached?: StoredResult['reached'];
    /** An earlier snapshot that this one takes the place of. */
    readonly replaces?: string;
    /** Asked before anything is written; what it throws keeps the plan from being kept. */
    readonly hold?: ((trx: Writing, planId: string) => Promise<void>) | undefined;
  },
): Promise<string | null> {
  const { answer, year } = made;
  return db.transaction().execute(async (trx) => {
    await holdHousehold(trx, householdId);
    if (answer.outcome !== 'planned') {
      const earlier = await trx
        .selectFrom('plan')
        .select('id')
        .where('household_id', '=', householdId)
        .executeTakeFirst();
      if (earlier) return null;
    }
    const { plan, paths } = answer.outcome === 'planned' ? answer : answer.fallback;
    const result: StoredResult = {
      plan,
      paths,
      outcome: answer.outcome,
      stoppedBy: answer.outcome === 'planned' ? answer.stoppedBy : null,
      reached: made.reached ?? null,
    };
    const id = randomUUID();
    await made.hold?.(trx, id);
    if (made.replaces !== undefined)
      await trx
        .deleteFrom('plan')
        .where('household_id', '=', householdId)
        .where('id', '=', made.replaces)
        .execute();
    await trx
      .insertInto('plan')
      .values({
        household_id: householdId,
        id,
        as_of: year.asOf,
        facts_version: made.factsVersion,
        input_json: JSON.stringify(year),
        result_json: JSON.stringify({ shape: planShape, ...result }),
        made_at: made.at,
        seq: nextSeq('plan', householdId),
      })
      .execute();
    const kept = await trx
      .selectFrom('plan')
      .select(['id', 'as_of'])
      .where('household_id', '=', householdId)
      .orderBy('seq', 'desc')
      .orderBy('made_at', 'desc')
      .execute();
    const worthKeeping = plansWorthKeeping(
      kept.map((row) => ({ id: row.id, asOf: row.as_of as CalendarDate })),
    );
    const gone = kept.filter((row) => !worthKeeping.has(row.id)).map((row) => row.id);
    if (gone.length > 0)
      await trx.deleteFrom('plan').where('household_id', '=', householdId).where('id', 'in', gone).execute();
    return id;
  });
}
