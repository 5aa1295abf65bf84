import { describe, expect, test } from 'vitest';
import { counted, isOrAre, oneOrMore, pluralOf, wasOrWere } from '../../shared/counting.ts';

// Only one is said as one: nothing, two and one and a half are several.
const units = [
  ['jar', 'jars'],
  ['pint', 'pints'],
  ['half-pint', 'half-pints'],
  ['batch', 'batches'],
  ['box', 'boxes'],
  ['pouch', 'pouches'],
  ['day', 'days'],
  ['week', 'weeks'],
  ['canning day', 'canning days'],
  ['berry', 'berries'],
  ['piece', 'pieces'],
  ['notice', 'notices'],
  ['inch', 'inches'],
  ['lb', 'lb'],
  ['qt', 'qt'],
] as const;

describe.each(units)('%s', (one, several) => {
  test.each([
    [0, several, 'are'],
    [1, one, 'is'],
    [1.5, several, 'are'],
    [2, several, 'are'],
  ])('%d of it', (amount, word, verb) => {
    expect(counted(amount, one)).toBe(`${amount} ${word}`);
    expect(counted(String(amount), one)).toBe(`${amount} ${word}`);
    expect(isOrAre(amount)).toBe(verb);
    expect(pluralOf(one)).toBe(several);
  });
});

test('what is shown decides, and a verb may follow', () => {
  expect(counted('1,000', 'row')).toBe('1,000 rows');
  expect(oneOrMore(1, 'batch was', 'batches were')).toBe('one batch was');
  expect(oneOrMore(3, 'batch was', 'batches were')).toBe('3 batches were');
  expect([1, 2].map(wasOrWere)).toEqual(['was', 'were']);
});
