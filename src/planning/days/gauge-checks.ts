import type { RecipeId } from '../../../shared/ids.ts';
import { addDays, type CalendarDate } from '../../../shared/week.ts';
import type { Canner, KitchenHours } from '../../household/kitchen.ts';
import { cannerFacts } from '../../preserving/ask-gate.ts';
import { countsOnGaugeCheck, dialCheckDays } from '../../preserving/canner.ts';
import type { Plan } from '../plan.ts';
import { sessionDays } from './week-sessions.ts';

/** The yearly check of a dial gauge that comes next. */
export interface GaugeCheckAhead {
  readonly canner: Canner;
  /** The last day on which the check on record counts. */
  readonly countsUntil: CalendarDate;
  /** The first planned day at the stove that has no check on record, and what is canned on it; null while the plan has none. */
  readonly neededFor: { readonly on: CalendarDate; readonly recipes: readonly RecipeId[] } | null;
}

/** The checks that come next, of every dial gauge that was checked before; one that never was is missing, not to come. */
export const gaugeChecksAhead = (
  {
    canners,
    hours,
    weekStartsOn,
  }: {
    readonly canners: readonly Canner[];
    readonly hours: KitchenHours;
    readonly weekStartsOn: 'monday' | 'sunday';
  },
  plan: Plan | null,
  asOf: CalendarDate,
): readonly GaugeCheckAhead[] =>
  canners.flatMap((canner): GaugeCheckAhead[] => {
    const { gauge, gaugeCheckedOn } = canner;
    if (canner.method !== 'pressure' || gauge !== 'dial' || gaugeCheckedOn === null) return [];
    const unchecked = (plan?.weeks ?? [])
      .flatMap((week) => {
        const own = week.sessions.filter((one) => one.canner === canner.id).map(({ recipe }) => recipe);
        return sessionDays(week, [], hours, weekStartsOn).map(({ on, work }) => ({
          on,
          recipes: work.map(({ recipeId }) => recipeId).filter((id) => own.includes(id)),
        }));
      })
      .filter(({ on, recipes }) => recipes.length > 0 && countsOnGaugeCheck(cannerFacts(canner), on, asOf));
    return [{ canner, countsUntil: addDays(gaugeCheckedOn, dialCheckDays), neededFor: unchecked[0] ?? null }];
  });

/** Days before the canning day for which a check is put down: one can still be had elsewhere if it fails; judged, no source. */
const checkLeadDays = 14;

/** The day on which a check stands in the calendar: two weeks before it is needed, or the day before where that is past. */
export const checkDay = ({ neededFor, countsUntil }: GaugeCheckAhead, asOf: CalendarDate): CalendarDate => {
  if (neededFor === null) return countsUntil;
  const early = addDays(neededFor.on, -checkLeadDays);
  return early >= asOf ? early : addDays(neededFor.on, -1);
};
