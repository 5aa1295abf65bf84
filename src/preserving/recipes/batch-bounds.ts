import { type Bound, boundInWords, bounds, isWithin } from '../../../shared/bounds.ts';
import type { Problem } from '../../../shared/problems.ts';

/** What one batch of a household's recipe gives and takes. */
export interface BatchNumbers {
  readonly yieldLow: number;
  readonly yieldHigh: number;
  readonly handsOnMinutes: number;
}

/**
 * Numbers of a batch, and of what a canner holds, that no household means: 1,000,000 jars from a batch. Beyond its bound
 * nothing is worked out with a number; the bounds are those of the forms. An empty list when all lie within.
 */
export const batchProblems = (
  { yieldLow, yieldHigh, handsOnMinutes }: BatchNumbers,
  counted: readonly (number | undefined)[] = [],
): readonly Problem[] => [
  ...beyond('yieldLow', 'What a batch gives, at least', yieldLow, bounds.batchYield),
  ...beyond('yieldHigh', 'What a batch gives, at most', yieldHigh, bounds.batchYield),
  ...(yieldHigh < yieldLow
    ? [
        problem(
          'yieldHigh',
          `A batch that gives at least ${yieldLow} cannot give at most ${yieldHigh}. Change one of the two.`,
        ),
      ]
    : []),
  ...beyond('handsOnMinutes', 'Hands-on minutes of a batch', handsOnMinutes, bounds.handsOnMinutes),
  ...counted.flatMap((jars) =>
    jars === undefined ? [] : beyond('canner', 'Jars in a load', jars, bounds.halfPintsInLoad),
  ),
];

const beyond = (field: string, label: string, value: number, bound: Bound): readonly Problem[] =>
  isWithin(value, bound)
    ? []
    : [problem(field, `${label} must be ${boundInWords(bound)}; found ${value.toLocaleString('en-US')}.`)];

const problem = (field: string, message: string): Problem => ({
  code: 'number-out-of-bounds',
  path: [field],
  message: `${message} Correct it, or add the recipe from the book again.`,
});
