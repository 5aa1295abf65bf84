import { neverTappedInWords, tappedShare } from '../../src/consumption/recording-habit.ts';
import type { HouseholdYear } from '../../src/planning/year/household-year.ts';

/** "About one jar in three goes unrecorded until you count the shelf."; null while nearly everything is written down. */
export const neverTapped = ({ useByItem }: Pick<HouseholdYear, 'useByItem'>): string | null =>
  neverTappedInWords(tappedShare([...useByItem.values()].map((use) => use.checked))) ?? null;
