import { LRUCache } from 'lru-cache';
import type { HouseholdId, RecipeId } from '../../../shared/ids.ts';
import type { CalendarDate, WeekKey } from '../../../shared/week.ts';
import type { BatchDecision } from '../../../src/household/decision.ts';
import { standingPlan } from '../../../src/planning/answer/standing-plan.ts';
import type { Plan, PlannedWeek } from '../../../src/planning/plan.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import type { OldestPlan, StoredPlan, StoredResult } from '../../../src/planning/stored-plan.ts';
import { storedResult, storedYear } from '../../columns/stored-plan.ts';
import type { Database } from '../../database/database.ts';
import { fittingRows } from '../household/fitting.ts';
import { purchasesOf } from './buying.ts';

interface KeptContent {
  readonly result: StoredResult;
  readonly year: PlanningYear;
}

// A plan is never changed once it is kept, and most pages ask for the newest: those asked for last are read once.
const lastRead = new WeakMap<Database, LRUCache<string, { readonly content: KeptContent | null }>>();
const mostRead = 200;

/** What a kept plan says; null where it is not of a shape that this version of the program reads. */
async function contentOf(db: Database, householdId: HouseholdId, id: string): Promise<KeptContent | null> {
  const read = lastRead.get(db) ?? new LRUCache({ max: mostRead });
  lastRead.set(db, read);
  const key = `${householdId} ${id}`;
  const known = read.get(key);
  if (known !== undefined) return known.content;
  const row = await db
    .selectFrom('plan')
    .select(['input_json', 'result_json'])
    .where('household_id', '=', householdId)
    .where('id', '=', id)
    .executeTakeFirst();
  const content = row === undefined ? null : readContent(row.input_json, row.result_json);
  read.set(key, { content });
  return content;
}

function readContent(inputJson: string, resultJson: string): KeptContent | null {
  const result = storedResult.safeParse(JSON.parse(resultJson));
  const year = storedYear.safeParse(JSON.parse(inputJson));
  return result.success && year.success ? { result: result.data, year: year.data } : null;
}

/** A kept plan by its id; null where it is gone, or of a shape that this version does not read. */
export const planById = async (db: Database, householdId: HouseholdId, id: string): Promise<Plan | null> =>
  (await contentOf(db, householdId, id))?.result.plan ?? null;

/** The plan that was kept last, whatever the clock said then; null before the first, and where this version cannot read it. */
export async function newestPlan(db: Database, householdId: HouseholdId): Promise<StoredPlan | null> {
  const row = await db
    .selectFrom('plan')
    .innerJoin('household', 'household.id', 'plan.household_id')
    .where('plan.household_id', '=', householdId)
    .orderBy('plan.seq', 'desc')
    .orderBy('plan.made_at', 'desc')
    .orderBy('plan.id', 'desc')
    .select([
      'plan.id',
      'plan.as_of',
      'plan.made_at',
      'plan.facts_version',
      'household.facts_version as newest_facts',
    ])
    .limit(1)
    .executeTakeFirst();
  const content = row ? await contentOf(db, householdId, row.id) : null;
  if (!row || content === null) return null;
  return {
    id: row.id,
    asOf: row.as_of as CalendarDate,
    madeAt: row.made_at,
    ...content.result,
    year: content.year,
    isOutOfDate: row.newest_facts > row.facts_version,
  };
}

/** The newest plan without what was written down, bought, skipped, ruled out or moved since it was made; null before the first. */
export async function standingPlanOf(db: Database, householdId: HouseholdId): Promise<StoredPlan | null> {
  const newest = await newestPlan(db, householdId);
  if (newest === null) return null;
  const [decisions, purchases] = await Promise.all([
    decisionsOf(db, householdId),
    purchasesOf(db, householdId, newest.year.weeks[0]),
  ]);
  return standingPlan(newest, decisions, purchases);
}

/** Weeks as the newest plan made on a day or before it had them; none before the first. */
export async function weeksPlannedBy(
  db: Database,
  householdId: HouseholdId,
  day: CalendarDate,
): Promise<readonly PlannedWeek[]> {
  const row = await db
    .selectFrom('plan')
    .select('id')
    .where('household_id', '=', householdId)
    .where('as_of', '<=', day)
    .orderBy('seq', 'desc')
    .orderBy('made_at', 'desc')
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirst();
  const content = row === undefined ? null : await contentOf(db, householdId, row.id);
  return content?.result.plan.weeks ?? [];
}

/** The oldest plan still kept, to hold against what became of it; null before the first. */
export async function oldestPlan(db: Database, householdId: HouseholdId): Promise<OldestPlan | null> {
  const row = await db
    .selectFrom('plan')
    .select(['id', 'as_of'])
    .where('household_id', '=', householdId)
    .orderBy('seq')
    .orderBy('made_at')
    .orderBy('id')
    .limit(1)
    .executeTakeFirst();
  const content = row ? await contentOf(db, householdId, row.id) : null;
  return row && content ? { asOf: row.as_of as CalendarDate, plan: content.result.plan } : null;
}

/** What a person pinned, ruled out or has done, by week. */
export async function decisionsOf(db: Database, householdId: HouseholdId): Promise<readonly BatchDecision[]> {
  const rows = await db
    .selectFrom('kept')
    .selectAll()
    .where('household_id', '=', householdId)
    .orderBy('week')
    .orderBy('recipe_id')
    .execute();
  return fittingRows('kept', rows).map((row) => {
    const place = { recipeId: row.recipe_id as RecipeId, week: row.week as WeekKey };
    return row.decision === 'ruled-out'
      ? { ...place, decision: row.decision }
      : { ...place, decision: row.decision, batches: row.batches ?? 0 };
  });
}
