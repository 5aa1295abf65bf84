import { loadsPerBatch } from '../../year/recipe-time.ts';
import type { Draft } from '../draft.ts';
import { termIn } from '../terms.ts';

/** Whole loads of one canner under one schedule in one week, as the batches of that week fill them. */
export interface ScheduleLoads {
  readonly cannerId: string;
  readonly scheduleKey: string;
  readonly week: number;
  readonly loads: number;
}

/**
 * Jars fit the loads: each batch has its whole loads under its own schedule, and different schedules never share one.
 *
 * `loads[c,s,w] = sum(loads per batch × batches[r,w])` over the recipes of that canner and schedule, loads.
 */
export function cannerLoads({ sets, columns, writer }: Draft): ScheduleLoads[] {
  const keys = new Map<string, { cannerId: string; scheduleKey: string }>();
  for (const { processing } of sets.recipes)
    if (processing !== null)
      keys.set(`${processing.cannerId},${processing.scheduleKey}`, {
        cannerId: processing.cannerId,
        scheduleKey: processing.scheduleKey,
      });
  return [...keys].flatMap(([key, { cannerId, scheduleKey }]) =>
    sets.weekIndexes.flatMap((week): ScheduleLoads[] => {
      const entries = sets.recipes.flatMap((recipe, at) => {
        const { processing } = recipe;
        const isOfSchedule = processing?.cannerId === cannerId && processing.scheduleKey === scheduleKey;
        return isOfSchedule ? termIn(columns.batches, at, week, -loadsPerBatch(recipe)) : [];
      });
      if (entries.length === 0) return [];
      const loads = writer.column(`loads[${key},${sets.year.weeks[week]}]`, { lower: 0 });
      writer.row(`canner_loads[${key},${sets.year.weeks[week]}]`, 0, [[loads, 1], ...entries], 0);
      return [{ cannerId, scheduleKey, week, loads }];
    }),
  );
}
