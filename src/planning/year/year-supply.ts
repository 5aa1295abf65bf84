import type { WeekKey } from '../../../shared/week.ts';

/** When an item can be made or bought again. */
export interface ItemSupply {
  /** By week of two years: something new can be ready. Always true for what is bought. */
  readonly canArrive: readonly boolean[];
  /** First week from now on in which something new can be ready; for what is bought, next week. */
  readonly nextSupplyWeek: WeekKey | null;
  /** First week of the next season of making, the one running now left out; what is put up now must last until then. */
  readonly nextSeasonWeek: WeekKey | null;
  /** First week of the season after that one; null when none is known within two years. */
  readonly seasonAfterWeek: WeekKey | null;
  /** Chance that a season brings nothing new at all, 0 to 1: see `seasonFails`. */
  readonly failsChance: number;
  readonly by: 'made' | 'bought';
}
