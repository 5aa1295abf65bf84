import { describe, expect, test } from 'vitest';
import type { Recipe } from '../../../src/household/recipe.ts';
import { sealAdviceFor } from '../../../src/preserving/afterwards/seal-advice.ts';
import { copyOf, itemOf } from '../own-kitchen.ts';
import { tables } from '../tables.ts';

const processedAt = Date.UTC(2026, 7, 22, 18);
const hour = 3_600_000;
const choices = (recipe: Recipe | null, after: number) =>
  sealAdviceFor({ keepColdDays: null }, recipe, tables, processedAt, processedAt + after).map(
    ({ choice }) => choice,
  );

describe('what may be done with a jar of a household’s food that did not seal', () => {
  // USDA Complete Guide 1, p1-26: within 24 hours of processing; peaches are printed with a hot pack.
  test('counts the hours from the end of its processing', () => {
    expect(choices(copyOf('peaches-pints'), 12 * hour)).toEqual(['reprocess', 'freeze', 'refrigerate']);
    expect(choices(copyOf('peaches-pints'), 24 * hour)).toEqual(['reprocess', 'freeze', 'refrigerate']);
    expect(choices(copyOf('peaches-pints'), 24 * hour + 60_000)).toEqual(['discard']);
    expect(choices(copyOf('peaches-pints'), -60_000)).toEqual(['discard']);
  });

  test('is processed again only where a hot pack of its food is printed', () => {
    const rawOnly = copyOf('tomatoes-whole-no-liquid-pints');
    const packs = tables.processTimes
      .filter(({ foodKey }) => foodKey === rawOnly.process?.food)
      .map(({ pack }) => pack);
    expect(packs).not.toContain('hot');
    expect(choices(rawOnly, 12 * hour)).toEqual(['freeze', 'refrigerate']);
    expect(choices(null, 12 * hour)).toEqual(['freeze', 'refrigerate']);
    expect(choices({ ...rawOnly, process: null }, 12 * hour)).toEqual(['freeze', 'refrigerate']);
  });

  test('names the days its food keeps cold, fewer than any published where nobody wrote them down', () => {
    const textOf = (keepColdDays: number | null) =>
      sealAdviceFor(itemOf('Peaches', { keepColdDays }), null, tables, processedAt, processedAt + hour).at(-1)
        ?.text;
    expect(textOf(10)).toBe('Refrigerate the jar and eat it within 10 days.');
    expect(textOf(null)).toBe('Refrigerate the jar and eat it within 3 days.');
  });
});
