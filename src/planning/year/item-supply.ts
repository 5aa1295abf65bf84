import type { WeekKey } from '../../../shared/week.ts';

/** When an item can be made or bought again. */
export interface ItemSupply {
  /** By week of two years: something new can be ready. Always true for what is bought. */
  readonly canArrive: readonly boolean[];
  /** First week from now on in which something new can be ready; for what is bought, next week. */
  readonly nextSupplyWeek: WeekKey | null;
  /** First week of the next season of making, the one running now left out; what is put up now must last until then. */
  readonly nextSeasonWeek: WeekKey | null;
  readonly by: 'made' | 'bought';
}
