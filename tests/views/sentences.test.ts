import { expect, test } from 'vitest';
import { insideSentence } from '../../views/words/sentences.ts';

test.each([
  ['Dill pickles', 'dill pickles'],
  ['BBQ sauce', 'BBQ sauce'],
  ['PUMPKIN BUTTER', 'PUMPKIN BUTTER'],
  ['A jar of each', 'a jar of each'],
  ['Äpfel', 'äpfel'],
  ['', ''],
])('%s stands in a sentence as %s', (name, said) => {
  expect(insideSentence(name)).toBe(said);
});
