import { expect, test } from 'vitest';
import { compare } from '../../shared/compare.ts';

test('texts are ordered as they are written, the same on every machine', () => {
  expect(compare('2026-09-30', '2026-10-01')).toBe(-1);
  expect(compare('2026-10-01', '2026-09-30')).toBe(1);
  expect(compare('pears', 'pears')).toBe(0);
  // A language would put the small letter first.
  expect(['b', 'a', 'B', 'ä'].sort(compare)).toEqual(['B', 'a', 'b', 'ä']);
});
