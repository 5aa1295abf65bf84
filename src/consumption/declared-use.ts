import { found, type Outcome, refused } from '../../shared/problems.ts';
import type { UsePeriod } from '../../shared/schemas/declared-use.ts';
import { type CalendarDate, weekOf } from '../../shared/week.ts';
import { type HouseholdCalendar, ordinaryCalendar } from './household-calendar.ts';
import type { DeclaredUse, Occasion } from './use-forecast.ts';
import { allYear, ordinaryWeeksInYear, type UsePattern } from './use-pattern.ts';

/** How much is eaten, as a person would say it: "two jars a month", "a serving each at three meals a week". */
export interface UseInWords {
  readonly amount: number;
  readonly per: UsePeriod;
  readonly countedIn: 'units' | 'servings';
  /** How many eat, when counted in servings each; null means the servings are for all together. */
  readonly people: number | null;
  readonly mealsPerWeek: number | null;
}

/** How firmly a declared use is held: the units of evidence it is worth. */
export const declaredWeights = { guess: 4, usual: 5, sure: 8 } as const;
export type Firmness = keyof typeof declaredWeights;

const weeksPerYear = 365.25 / 7;
const weeksPerMonth = weeksPerYear / 12;
/** "None at all" is read as one a year: a declaration is the start of learning, and learning cannot start from never. */
const leastPerWeek = 1 / 52;

/**
 * A declared use in units per ordinary week. `servingsPerUnit` is the household's own ("one jar is one meal for us" is 1 meal
 * for its people); it is needed only when servings are counted. A yearly amount is shared out over the ordinary weeks that the
 * year is worth under the pattern; month and week mean an ordinary month and week.
 *
 * Example: 12 half-cup servings a week each for one person, quarts of 4 cups (8 servings): 1.5 quarts a week.
 */
export function declaredPerWeek(
  words: UseInWords,
  servingsPerUnit: number | null,
  ordinaryWeeksAYear: number,
): Outcome<number> {
  if (words.countedIn === 'servings' && !(servingsPerUnit !== null && servingsPerUnit > 0)) {
    return refused({
      code: 'servings-unknown',
      path: ['servingsPerUnit'],
      message: 'Use is counted in servings here. Fill in "servings in one", or count in jars.',
    });
  }
  if (words.per === 'meal' && words.mealsPerWeek === null) {
    return refused({
      code: 'meals-unknown',
      path: ['mealsPerWeek'],
      message: 'Use is said per meal here. Fill in "meals a week".',
    });
  }
  const units =
    words.countedIn === 'servings'
      ? (words.amount * (words.people ?? 1)) / (servingsPerUnit ?? 1)
      : words.amount;
  return found(Math.max(leastPerWeek, units * timesPerWeek(words, ordinaryWeeksAYear)));
}

function timesPerWeek(words: UseInWords, ordinaryWeeksAYear: number): number {
  switch (words.per) {
    case 'week':
    case 'school-week':
      return 1;
    case 'month':
      return 1 / weeksPerMonth;
    case 'year':
      return ordinaryWeeksAYear > 0 ? 52 / weeksPerYear / ordinaryWeeksAYear : 1 / weeksPerYear;
    case 'meal':
      return words.mealsPerWeek ?? 0;
  }
}

export interface Declaration {
  readonly words: UseInWords;
  readonly servingsPerUnit: number | null;
  readonly firmness?: Firmness;
  /** Twelve multipliers, January first; null when every month is as usual. */
  readonly byMonth: readonly number[] | null;
  readonly occasions: readonly Occasion[];
  /** "From now on": only weeks from this date on train the forecast. */
  readonly since?: CalendarDate;
}

/** What `forecastUse` needs of a declaration; `asOf` says over which year a yearly amount is shared out. */
export function declareUse(
  declaration: Declaration,
  asOf: CalendarDate,
  calendar: HouseholdCalendar = ordinaryCalendar,
): Outcome<DeclaredUse> {
  const { words, byMonth, occasions, since } = declaration;
  const pattern: UsePattern =
    words.per === 'school-week'
      ? { kind: 'school-weeks' }
      : byMonth === null
        ? allYear
        : { kind: 'by-month', byMonth };
  const perWeek = declaredPerWeek(
    words,
    declaration.servingsPerUnit,
    ordinaryWeeksInYear(pattern, weekOf(asOf), calendar),
  );
  if (!perWeek.ok) return perWeek;
  return found({
    perWeek: perWeek.value,
    weight: declaredWeights[declaration.firmness ?? 'usual'],
    pattern,
    occasions,
    ...(since === undefined ? {} : { since }),
  });
}
