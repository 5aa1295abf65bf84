/** A declared use: units per ordinary week, and the units of evidence it is worth. */
export interface DeclaredWord {
  readonly perWeek: number;
  readonly weight: number;
}

/** The declared use is held against the first half-year that counted; after that it has little weight left anyway. */
export const weeksThatTestTheWord = 26;

/** Contradiction, in squared standard deviations, up to which the word keeps its full weight. */
const agreement = 3;

/**
 * How much of its weight a declared use keeps, 0..1, given what was seen since: 1 while the units taken lie within what
 * the declaration and chance explain, then falling with the squared distance, so that a figure three times too high or too low
 * does not hold the forecast back for half a year. (A power prior whose power follows from prior-data conflict.)
 *
 * distance² = (units - weeks · declared)² / (weeks · declared · (dispersion + weeks · declared / weight)).
 */
export function trustInWord(
  word: DeclaredWord,
  seen: { readonly units: number; readonly ordinaryWeeks: number },
  dispersion: number,
): number {
  const expected = seen.ordinaryWeeks * word.perWeek;
  if (!(expected > 0)) return 1;
  const explained = expected * (dispersion + expected / word.weight);
  const distance = (seen.units - expected) ** 2 / explained;
  return agreement / Math.max(agreement, distance);
}
