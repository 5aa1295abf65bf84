/** How much of an item a household says it eats, in its own words. */
export interface SaidUse {
  readonly amount: number;
  readonly per: 'week' | 'month' | 'year' | 'meal' | 'school-week';
  readonly countedIn: 'units' | 'servings';
  /** Who eats it; null: everybody. Matters for servings only. */
  readonly people: number | null;
  /** For use per meal: such meals in a week. */
  readonly mealsPerWeek: number | null;
}

/** Weeks of a year on average: 365.2425 days, the Gregorian calendar's mean year, over 7. */
export const weeksPerYear = 365.2425 / 7;

/**
 * Units of the item in an ordinary week (in a school week, for what is said so).
 *
 * per week = amount · times a week · (people / servings per unit, when counted in servings). A month is a twelfth of a year.
 * Per meal without a number of meals counts one a week; servings of an item whose servings are unknown count as units.
 *
 * Example: 2 servings a week for 4 people from jars of 4 servings are 2 jars a week.
 */
export function saidPerWeek(
  said: SaidUse,
  { people, servingsPerUnit }: { readonly people: number; readonly servingsPerUnit: number | null },
): number {
  const unitsAtATime =
    said.countedIn === 'servings' && servingsPerUnit !== null
      ? (said.amount * (said.people ?? people)) / servingsPerUnit
      : said.amount;
  return unitsAtATime * timesAWeek(said);
}

function timesAWeek({ per, mealsPerWeek }: SaidUse): number {
  switch (per) {
    case 'week':
    case 'school-week':
      return 1;
    case 'month':
      return 12 / weeksPerYear;
    case 'year':
      return 1 / weeksPerYear;
    case 'meal':
      return mealsPerWeek ?? 1;
  }
}
