import { drawNormal, type Random } from '../../shelf/draws.ts';
import type { PlannedItem } from '../planning-year.ts';
import type { YearSpread } from './simulated-plan.ts';

/** Weeks after the year's end until something new of an item comes in a sampled year: 0 where it can be had any week. */
export function weeksToSupply(
  { afterYear }: Pick<PlannedItem, 'afterYear'>,
  { windowWeeks }: Pick<YearSpread, 'windowWeeks'>,
  random: Random,
): number {
  if (afterYear === undefined) return 0;
  const { seasonWeeks, isRunning, failsChance } = afterYear;
  const [first = 0] = seasonWeeks;
  if (isRunning) return first;
  for (const week of seasonWeeks) {
    const late = Math.round(drawNormal(random) * windowWeeks);
    if (random() >= failsChance) return Math.max(0, week + late);
  }
  return Number.POSITIVE_INFINITY;
}
