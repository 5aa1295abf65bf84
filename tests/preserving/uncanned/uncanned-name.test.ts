import { describe, expect, test } from 'vitest';
import type { Keeping } from '../../../src/household/item.ts';
import { uncannedNameProblem } from '../../../src/preserving/uncanned/uncanned-name.ts';

const unfrozen: readonly Keeping[] = ['dried', 'cellar', 'fermented', 'refrigerated'];
const codeOf = (name: string, keeping: Keeping, days: number | null = null) =>
  uncannedNameProblem(name, keeping, days)?.code ?? null;

describe('a name of what is kept without canning', () => {
  test.each(unfrozen)('food in oil is not %s: no air gets to it', (keeping) => {
    expect(uncannedNameProblem('Garlic in oil', keeping, 30)).toMatchObject({
      code: 'food-untested',
      path: ['name'],
    });
  });

  test.each(['dried', 'cellar', 'fermented'] as const)(
    'meat, fish, milk and eggs are %s by rules this program does not carry',
    (keeping) => {
      for (const name of ['Beef jerky', 'Salmon', 'Cheddar cheese'])
        expect(codeOf(name, keeping)).toBe('uncanned-animal-food');
      expect(uncannedNameProblem('Beef jerky', keeping)?.message).toContain('“Beef jerky” names beef.');
      expect(uncannedNameProblem('Beef jerky', keeping)?.path).toEqual(['name']);
    },
  );

  // Source: FSIS-SHELF-DATA, soup and stock opened.
  test('in the refrigerator they keep 3 to 4 days, however many are said', () => {
    expect(codeOf('Chicken broth', 'refrigerated', 30)).toBe('animal-food-cold');
    expect(uncannedNameProblem('Chicken broth', 'refrigerated', 30)).toMatchObject({
      path: ['name'],
      message: expect.stringContaining('names chicken. Cooked meat, fish, milk and eggs keep 3 to 4 days'),
    });
    expect(codeOf('Salmon', 'refrigerated')).toBe('animal-food-cold');
  });

  test.each([
    [7, 'keeps-too-short'],
    [8, null],
    [9, null],
    [null, null],
    [0, 'keeps-too-short'],
  ])('dill pickles that keep %s days in the refrigerator: %s', (days, code) => {
    expect(codeOf('Dill pickles', 'refrigerated', days)).toBe(code);
  });

  test('the days are asked about as days of a field, with both ways out', () => {
    expect(uncannedNameProblem('Dill pickles', 'refrigerated', 3)).toEqual({
      code: 'keeps-too-short',
      path: ['bestQualityDays'],
      message:
        'What keeps less than 8 days in the refrigerator is eaten fresh and not planned. Write 8 days or more, or keep it frozen.',
    });
    expect(codeOf('Dill pickles', 'fermented', 3)).toBeNull();
    expect(codeOf('Apple rings', 'dried', 3)).toBeNull();
  });

  test.each(['frozen', 'canned', 'bought'] as const)('what is %s is held against nothing here', (keeping) => {
    for (const name of ['Beef', 'Garlic in oil', 'Salmon']) expect(codeOf(name, keeping, 1)).toBeNull();
  });

  test('butter alone is no meat: apple butter may be dried to a leather', () => {
    expect(codeOf('Butter', 'dried')).toBeNull();
    expect(codeOf('Apples', 'cellar')).toBeNull();
  });

  test('a long name is shortened to 60 letters in what is said of it', () => {
    const name = `Beef ${'x'.repeat(100)}`;
    for (const keeping of ['dried', 'refrigerated'] as const)
      expect(uncannedNameProblem(name, keeping)?.message).toContain(`“${name.slice(0, 60)}” names beef`);
  });
});
