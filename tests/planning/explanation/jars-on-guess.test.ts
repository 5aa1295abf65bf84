import { describe, expect, test } from 'vitest';
import { jarsOnGuess } from '../../../src/planning/explanation/jars-on-guess.ts';
import type { Plan } from '../../../src/planning/plan.ts';

const recipes = [
  { id: 'halves', produce: [{ crop: 'peach', lb: 11 }] },
  {
    id: 'salsa',
    produce: [
      { crop: 'peach', lb: 4 },
      { crop: 'pepper-hot', lb: 1 },
    ],
  },
  { id: 'kraut', produce: [{ crop: 'cabbage', lb: 15 }] },
] as never;
const plan = {
  weeks: [
    { sessions: [{ recipe: 'halves', units: 9 }] },
    { sessions: [] },
    {
      sessions: [
        { recipe: 'halves', units: 9 },
        { recipe: 'salsa', units: 9 },
        { recipe: 'kraut', units: 6 },
      ],
    },
  ],
} as unknown as Pick<Plan, 'weeks'>;

describe('jars that stand on a guess', () => {
  test.each([
    [{ kind: 'harvest', crop: 'peach' }, 27],
    [{ kind: 'harvest', crop: 'pepper-hot' }, 9],
    [{ kind: 'harvest', crop: 'plum' }, 0],
    [{ kind: 'minutes', recipe: 'salsa' }, 9],
    [{ kind: 'price' }, 0],
  ] as const)('%j: %i', (figure, jars) => {
    expect(jarsOnGuess(figure as never, plan, recipes)).toBe(jars);
  });
});
