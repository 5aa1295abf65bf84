import { whileTheSame } from '../../../shared/remembering.ts';
import { type PlanningParameters, planningParameters } from '../model/parameters.ts';
import { type PlanningSets, planningSets } from '../model/sets.ts';
import type { PlanningYear } from '../planning-year.ts';

/** What the model of a planned year is counted in; of a year that is asked about again, from memory. */
export const figuresOfYear = (
  year: PlanningYear,
): { readonly sets: PlanningSets; readonly parameters: PlanningParameters } => figures({ year });

const figures = whileTheSame('year', ({ year }: { readonly year: PlanningYear }) => {
  const sets = planningSets(year);
  return { sets, parameters: planningParameters(sets) };
});
