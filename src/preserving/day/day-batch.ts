import type { CannerFactRow } from '../../../shared/schemas/reference/canner-fact.ts';
import { addDays, type CalendarDate, mondayOf, weekOf } from '../../../shared/week.ts';
import type { Schedule } from '../lookup/schedule.ts';
import type { ScaledBatches } from '../recipes/scaling.ts';
import type { DayBatch } from './day-kitchen.ts';
import { loadPhases, loadsOfBatch } from './load-time.ts';

/** The household's own minutes for one pot of a recipe; none of them are published. */
export interface PotMinutes {
  readonly prepMinutes: number;
  readonly cookMinutes: number;
  readonly stirred: boolean;
  readonly fillMinutesPerLoad: number;
}

/**
 * Scaled batches as one entry of a canning day: pots in sequence, loads enough for the jars made ready but for the spare
 * one and one that alone would need a load, and the phases of a load at the high end of their published ranges, whole minutes rounded up.
 */
export const dayBatchOf = (
  scaled: Pick<ScaledBatches, 'pots' | 'jarsToPrepare'> & {
    readonly recipe: Pick<ScaledBatches['recipe'], 'key' | 'name'>;
  },
  schedule: Schedule,
  canner: string,
  jarsPerLoad: number,
  minutes: PotMinutes,
  facts: readonly CannerFactRow[],
): DayBatch => ({
  id: scaled.recipe.key,
  name: scaled.recipe.name,
  canner,
  pots: scaled.pots,
  prepMinutes: Math.ceil(minutes.prepMinutes),
  cookMinutes: schedule.pack === 'raw' ? 0 : Math.ceil(minutes.cookMinutes),
  stirred: minutes.stirred,
  fillMinutes: Math.ceil(minutes.fillMinutesPerLoad),
  loadsPerPot: loadsOfBatch(Math.ceil((scaled.jarsToPrepare - 1) / scaled.pots), jarsPerLoad).loads,
  phases: loadPhases(schedule, facts).map((phase) => ({
    name: phase.name,
    minutes: Math.ceil(phase.minutes.high),
  })),
  acidPerJar: schedule.acid !== null,
  rowKey: schedule.rowKey,
});

const thursdayAfterMonday = 3;

/**
 * The day by which everything for a session is picked and bought: the Thursday before it, which is at least one day
 * earlier.
 *
 * Example: for Saturday 22 August 2026 it is 20 August; for Thursday 20 August it is the 13th.
 */
export const pickAndBuyBy = (sessionOn: CalendarDate): CalendarDate => {
  const thursday = addDays(mondayOf(weekOf(sessionOn)), thursdayAfterMonday);
  return thursday < sessionOn ? thursday : addDays(thursday, -7);
};
