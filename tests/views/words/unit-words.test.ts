import { describe, expect, test } from 'vitest';
import { formatQuantity, unitFor } from '../../../views/words/format.ts';
import { usReading } from '../../../views/words/reading.ts';

// One and several of every unit a plan, a shelf or a recipe counts in; what is measured keeps its word.
const units = [
  ['jar', 'jars'],
  ['bag', 'bags'],
  ['bin', 'bins'],
  ['batch', 'batches'],
  ['load', 'loads'],
  ['lid', 'lids'],
  ['pack', 'packs'],
  ['box', 'boxes'],
  ['week', 'weeks'],
  ['serving', 'servings'],
  ['cup', 'cups'],
  ['session', 'sessions'],
  ['package', 'packages'],
  ['pouch', 'pouches'],
  ['kind', 'kinds'],
  ['lb', 'lb'],
  ['qt', 'qt'],
] as const;

describe.each(units)('%s', (one, many) => {
  test.each([
    [0, many],
    [1, one],
    [1.5, many],
    [2, many],
  ])('%d of it', (amount, word) => {
    expect(formatQuantity(amount, one, usReading)).toBe(`${amount} ${word}`);
    expect(unitFor(amount, one)).toBe(word);
  });
});
