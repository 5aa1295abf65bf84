import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { recipeKind } from '../../../shared/schemas/reference/recipe.ts';
import { potMinutesOf } from '../../../src/preserving/day/pot-minutes.ts';

describe('the minutes of one pot', () => {
  test('apple butter, 120 minutes, one load: 105 prepare, an hour unstirred, 15 fill', () => {
    expect(potMinutesOf({ handsOnMinutes: 120, pack: 'hot', kind: 'butter', loads: 1 })).toEqual({
      prepMinutes: 105,
      cookMinutes: 60,
      stirred: false,
      fillMinutesPerLoad: 15,
    });
  });

  // Common practice, no source: a fruit butter simmers about an hour; a jam is stirred all the while.
  test('a jam is stirred, a fruit butter simmers about an hour, a raw pack is not cooked', () => {
    const of = (kind: 'jam' | 'butter' | 'vegetable', pack: 'hot' | 'raw' = 'hot') =>
      potMinutesOf({ handsOnMinutes: 100, pack, kind, loads: 1 });

    expect(of('jam').stirred).toBe(true);
    expect(of('butter').cookMinutes).toBe(60);
    expect(of('vegetable', 'raw').cookMinutes).toBe(0);
  });

  test('work is never more than what the household said, unless filling alone takes longer', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 60, max: 600 }),
        fc.constantFrom(null, ...recipeKind.options),
        fc.constantFrom('hot' as const, 'raw' as const, 'none' as const),
        (handsOnMinutes, kind, pack) => {
          const pot = potMinutesOf({ handsOnMinutes, pack, kind, loads: 1 });
          const work = pot.prepMinutes + pot.fillMinutesPerLoad + (pot.stirred ? pot.cookMinutes : 0);
          expect(work).toBe(handsOnMinutes);
        },
      ),
      { seed: 20_260_822 },
    );
  });
});
