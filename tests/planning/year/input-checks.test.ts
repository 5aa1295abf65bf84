import { describe, expect, it } from 'vitest';
import { makePlan } from '../../../src/planning/make-plan.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import { checkPlanningYear } from '../../../src/planning/year/input-checks.ts';
import { tinyYear } from '../tiny-year.ts';

const sound = tinyYear(1);
const withFirst = <Key extends 'items' | 'recipes' | 'sources' | 'supplies'>(
  key: Key,
  change: Partial<PlanningYear[Key][number]>,
): PlanningYear => ({
  ...sound,
  [key]: sound[key].map((one, at) => (at === 0 ? { ...one, ...change } : one)),
});
const codesOf = (year: PlanningYear) => checkPlanningYear(year).map(({ code }) => code);

describe('what is checked before a year is planned', () => {
  it('finds nothing wrong with a sound year', () => {
    expect(checkPlanningYear(sound)).toEqual([]);
  });

  it('refuses low-acid food in a boiling-water canner, and says what to do', async () => {
    const processing = sound.recipes[0]?.processing;
    if (!processing) throw new Error('the first tiny recipe is canned');
    const year = withFirst('recipes', { processing: { ...processing, lowAcid: true } });

    const [problem] = checkPlanningYear(year);

    expect(problem).toMatchObject({ code: 'low-acid-needs-pressure', path: ['recipes', 0, 'processing'] });
    expect(problem?.message).toContain('pressure canner');
    await expect(makePlan(year, () => Promise.reject(new Error('never solved')))).rejects.toThrow(
      'pressure canner',
    );
  });

  it.each([
    ['negative use', withFirst('items', { useByWeek: [-2, 0, 0, 0, 0] }), 'amount-below-zero'],
    ['a use list that misses weeks', withFirst('items', { useByWeek: [1] }), 'list-length'],
    [
      'a schedule without minutes',
      withFirst('recipes', { processing: { ...notNull(sound.recipes[0]?.processing), minutes: 0 } }),
      'schedule-not-whole',
    ],
    ['a batch that gives nothing', withFirst('recipes', { yieldLowUnits: 0 }), 'batch-gives-nothing'],
    [
      'a recipe for an unknown item',
      withFirst('recipes', { itemId: 'nobody' as PlanningYear['items'][number]['id'] }),
      'unknown-item',
    ],
    ['a supply pack that holds nothing', withFirst('supplies', { packQuantity: 0 }), 'empty-pack'],
    [
      'a source that gives less than nothing',
      withFirst('sources', { lbByWeek: [-1, 0, 0, 0, 0] }),
      'amount-below-zero',
    ],
    ['no weeks at all', { ...sound, weeks: [] }, 'no-weeks'],
  ])('names %s', (_, year, code) => {
    expect(codesOf(year)).toContain(code);
  });
});

function notNull<T>(value: T | null | undefined): T {
  if (value == null) throw new Error('expected a value');
  return value;
}
