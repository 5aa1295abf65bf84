import { z } from 'zod';
import type { CropKey, HouseholdId, RecipeId } from '../../../shared/ids.ts';
import type { CalendarDate, WeekKey } from '../../../shared/week.ts';
import type { Database } from '../../database/database.ts';

/** Batches pinned for a glut, with how many were pinned there before; null where none were. */
export const glutPins = z.array(
  z.strictObject({
    recipe: z.string(),
    week: z.string(),
    batches: z.number(),
    before: z.number().nullable(),
  }),
);

/** A glut that is in the plan. */
export interface GlutInPlan {
  readonly id: string;
  readonly crop: CropKey;
  readonly lb: number;
  readonly useBy: CalendarDate;
  /** Batches it goes into. */
  readonly makes: readonly { readonly recipe: RecipeId; readonly week: WeekKey; readonly batches: number }[];
  readonly planBefore: string | null;
}

/** The glut that was taken into the plan last and still keeps; null where there is none, or it was taken out again. */
export async function glutInPlan(
  db: Database,
  householdId: HouseholdId,
  today: CalendarDate,
): Promise<GlutInPlan | null> {
  const row = await db
    .selectFrom('glut_use')
    .selectAll()
    .where('household_id', '=', householdId)
    .where('undone_at', 'is', null)
    .where('use_by', '>=', today)
    .orderBy('recorded_at', 'desc')
    .orderBy('facts_version', 'desc')
    .limit(1)
    .executeTakeFirst();
  if (row === undefined) return null;
  return {
    id: row.id,
    crop: row.crop as CropKey,
    lb: row.lb,
    useBy: row.use_by as CalendarDate,
    makes: glutPins.parse(JSON.parse(row.pins_json)).map(({ recipe, week, batches, before }) => ({
      recipe: recipe as RecipeId,
      week: week as WeekKey,
      batches: batches - (before ?? 0),
    })),
    planBefore: row.plan_before,
  };
}
