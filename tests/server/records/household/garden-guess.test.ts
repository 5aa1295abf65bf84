import { afterAll, beforeAll, expect, test } from 'vitest';
import { firstYear } from '../../../../server/reference/first-year.ts';
import { asDate } from '../../../../shared/week.ts';
import { HouseholdByPages } from '../../../builders/household-by-pages.ts';

// Somebody with a garden who wants everything of the short list and says nothing else.

let home: HouseholdByPages;
beforeAll(async () => {
  home = await HouseholdByPages.beginning(asDate('2026-02-10'));
  await home.setUp({
    name: 'Alder Terrace',
    town: 'Montrose, CO',
    altitude: '5300',
    pressure: 'on',
    gauge: 'weighted',
    sourceKind: 'garden',
    ...Object.fromEntries(firstYear().preserves.map(({ recipeKey }) => [`eats-${recipeKey}`, 'month:1'])),
  });
});
afterAll(() => home.close());

test('the guessed garden gives at least one batch of everything at a time, however short the crop keeps', async () => {
  const { recipes, sources } = (await home.loaded()).facts;
  const asked = recipes.flatMap(({ name, produce }) => produce.map((need) => ({ name, ...need })));

  const tooLittle = asked.filter(({ crop, lb }) => {
    const source = sources.find((one) => one.crop === crop);
    const weekly = source?.windows[0]?.lbPerWeek;
    return (
      source !== undefined && weekly !== undefined && weekly * (1 + Math.floor(source.useByDays / 7)) < lb
    );
  });

  expect(asked.length).toBeGreaterThan(15);
  expect(tooLittle).toEqual([]);
});
