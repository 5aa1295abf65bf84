import { expect, test } from 'vitest';
import { mostHouseholdsRemembered, rememberedProjection } from '../../../server/year/remembered-outlooks.ts';
import type { HouseholdId, ItemId } from '../../../shared/ids.ts';
import { asDate } from '../../../shared/week.ts';
import { forecastUse } from '../../../src/consumption/use-forecast.ts';
import { allYear } from '../../../src/consumption/use-pattern.ts';

// A page asks for the outlook of every item of its household; a jar taken changes one of them.

const asOf = asDate('2026-08-17');
const eaten = forecastUse([], { perWeek: 1, weight: 4, pattern: allYear, occasions: [] }, asOf, 52);
const outlook = (household: string, item: string, units = 6) =>
  rememberedProjection(
    { household: household as HouseholdId, item: item as ItemId, isPlanned: false },
    eaten,
    {
      asOf,
      weeks: 1,
      lots: [{ lotId: item, units, readyFrom: asDate('2026-01-10'), bestQualityUntil: asDate('2027-01-10') }],
      incoming: [],
      nextSupplyWeek: null,
    },
  );
const items = Array.from({ length: 40 }, (_, at) => `item-${at}`);

test('all outlooks of many households are remembered, however many items they have', () => {
  const households = Array.from({ length: mostHouseholdsRemembered }, (_, at) => `orchard-${at}`);
  const first = items.map((item) => outlook('orchard-0', item));
  for (const household of households.slice(1)) for (const item of items) outlook(household, item);

  expect(items.map((item) => outlook('orchard-0', item))).toEqual(first);
  for (const [at, item] of items.entries()) expect(outlook('orchard-0', item)).toBe(first[at]);
});

test('what changed of one item is worked out anew, and nothing of the others', () => {
  const before = items.map((item) => outlook('quince-yard', item));
  const taken = outlook('quince-yard', 'item-3', 5);
  expect(taken).not.toBe(before[3]);
  expect(taken.weeks[0]?.opening.expected).toBe(5);
  for (const [at, item] of items.entries())
    if (at !== 3) expect(outlook('quince-yard', item)).toBe(before[at]);
});
