import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type Database, openDatabase } from '../../../../server/database/database.ts';
import { householdById } from '../../../../server/queries/household/household.ts';
import { itemsOf } from '../../../../server/queries/household/items.ts';
import {
  cannersOf,
  jarStockOf,
  kitchenHoursOf,
  lidStockOf,
  seasonFundOf,
} from '../../../../server/queries/household/kitchen.ts';
import { recipesOf } from '../../../../server/queries/household/recipes.ts';
import { guessesOf } from '../../../../server/queries/year/guesses.ts';
import { sourcesOf } from '../../../../server/queries/year/harvest.ts';
import { declaredUsesOf } from '../../../../server/queries/year/targets.ts';
import { mostHouseholds } from '../../../../server/records/household/create-household.ts';
import { forgetHousehold } from '../../../../server/records/household/household-deletion.ts';
import { type FirstHour, startHousehold } from '../../../../server/records/household/start-household.ts';
import { firstYear } from '../../../../server/reference/first-year.ts';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import { loadPlanningYear } from '../../../../server/year/load-year.ts';
import { asCents } from '../../../../shared/money.ts';
import { asDate } from '../../../../shared/week.ts';
import { checkPlanningYear } from '../../../../src/planning/year/input-checks.ts';
import { households } from '../../../builders/all-households.ts';
import { refusalOf, worked } from '../../../builders/outcomes.ts';

const reference = loadReferenceTables();
const today = asDate('2026-04-15');

let db: Database;
beforeEach(async () => {
  db = await openDatabase(':memory:');
});
afterEach(() => db.destroy());

const hour = (over: Partial<FirstHour> = {}): FirstHour => ({
  household: {
    name: 'Larch End',
    people: 3,
    timeZone: 'America/New_York',
    units: 'us',
    weekStartsOn: 'sunday',
    region: 'NJ',
  },
  altitudeFt: 640,
  boilingWater: { size: 'pot' },
  pressure: null,
  jars: [{ kind: 'pint/regular' as never, onHand: 48 }],
  lids: 72,
  preserves: [
    { recipeKey: 'peaches-pints', appetite: { amount: 1, per: 'month' } },
    { recipeKey: 'chile-salsa', appetite: { amount: 6, per: 'year' } },
  ],
  sourceKind: 'market',
  time: { sessionsPerWeek: 1, hoursPerSession: 5 },
  fund: { now: asCents(8000), weekly: asCents(1500) },
  ...over,
});

const start = (over: Partial<FirstHour> = {}, key = 'the first hour') =>
  startHousehold({ db, reference, key, at: 1, today }, hour(over));

describe('the first hour', () => {
  test('everything said stands where it can be changed later', async () => {
    const { householdId } = worked(await start());

    expect(await householdById(db, householdId)).toMatchObject({
      id: householdId,
      people: 3,
      region: 'NJ',
      altitudeFt: 640,
      isDemo: false,
    });
    expect((await cannersOf(db, householdId)).map(({ method, holds }) => [method, holds.quarts])).toEqual([
      ['boiling-water', 7],
    ]);
    // The ninth pint of a batch asks for no load of its own.
    expect((await cannersOf(db, householdId)).map(({ holds }) => holds.pints)).toEqual([9]);
    expect((await jarStockOf(db, householdId)).map(({ kind, empty }) => [kind, empty])).toEqual([
      ['half-pint/regular', 0],
      ['pint/regular', 48],
      ['quart/regular', 0],
    ]);
    expect((await lidStockOf(db, householdId)).map(({ mouth, onHand }) => [mouth, onHand])).toEqual([
      ['regular', 72],
      ['wide', 0],
    ]);
    expect(await kitchenHoursOf(db, householdId)).toMatchObject({ sessionsPerWeek: 1, hoursPerSession: 5 });
    expect(await seasonFundOf(db, householdId)).toMatchObject({ balance: 8000, weekly: 1500 });
    expect((await itemsOf(db, householdId)).map(({ name }) => name)).toEqual(['Chile salsa', 'Peach halves']);
    expect((await declaredUsesOf(db, householdId, today)).get('peach-halves' as never)).toMatchObject({
      amount: 1,
      per: 'month',
    });
  });

  test('the crops have sources in the season published for the region, their prices noted as guesses', async () => {
    const { householdId } = worked(await start());

    // New Jersey Department of Agriculture: peaches July 5 to September 15, most of them July 20 to September 1.
    expect((await sourcesOf(db, householdId)).find(({ crop }) => crop === 'peach')).toMatchObject({
      name: 'Peaches at the market',
      pricePerLb: 230,
      windows: [
        {
          beginsOn: '2026-07-05',
          endsOn: '2026-09-16',
          mostActive: { fromOn: '2026-07-20', untilOn: '2026-09-02' },
          lbPerWeek: 60,
        },
      ],
    });
    expect((await guessesOf(db, householdId)).filter(({ kind }) => kind === 'source')).toEqual([
      { kind: 'source', subject: 'peaches-at-the-market' },
      { kind: 'source', subject: 'tomatoes-at-the-market' },
    ]);
  });

  test('an own garden costs nothing a pound; without a region no season is invented', async () => {
    const { householdId } = worked(
      await start({ sourceKind: 'garden', household: { ...hour().household, region: null } }),
    );

    for (const source of await sourcesOf(db, householdId)) {
      expect(source.pricePerLb).toBe(0);
      expect(source.windows).toEqual([]);
    }
  });

  test('without an altitude the recipes are kept and nothing of them is planned', async () => {
    const { householdId } = worked(await start({ altitudeFt: null }));
    const { recipes: here } = await loadPlanningYear(db, householdId, today, reference);

    expect((await recipesOf(db, householdId)).map(({ process }) => process?.cannerId)).toEqual([
      'boiling-water-canner',
      'boiling-water-canner',
    ]);
    expect(here.planned).toEqual([]);
    expect(here.leftOut.map(({ reasons }) => reasons[0]?.code)).toEqual([
      'altitude-unknown',
      'altitude-unknown',
    ]);
  });

  test('a pressure canner whose gauge is not known yet is there, and its food is not planned', async () => {
    const { householdId } = worked(
      await start({
        pressure: { size: 'pressure', gauge: null, checkedOn: null },
        preserves: [{ recipeKey: 'beans-snap-pints', appetite: { amount: 2, per: 'month' } }],
      }),
    );
    const { recipes: here } = await loadPlanningYear(db, householdId, today, reference);

    expect(here.planned).toEqual([]);
    expect(here.leftOut[0]?.reasons[0]?.code).toBe('gauge-not-stated');
  });

  test('low-acid food without a pressure canner is kept, not planned, and says which canner it needs', async () => {
    const { householdId } = worked(
      await start({ preserves: [{ recipeKey: 'carrots-pints', appetite: { amount: 1, per: 'month' } }] }),
    );
    const { recipes: here } = await loadPlanningYear(db, householdId, today, reference);

    expect(here.planned).toEqual([]);
    expect(here.leftOut[0]?.reasons[0]).toMatchObject({ code: 'canner-not-chosen' });
  });

  test('sent twice it sets up one household; broken off in the middle, sending it again completes it', async () => {
    const first = worked(await start());
    await db.deleteFrom('harvest_window').execute();
    await db.deleteFrom('idempotency').where('key', 'like', '%window%').execute();
    const second = worked(await start());

    expect(second).toEqual({ ...first, repeated: true });
    expect(await households(db)).toHaveLength(1);
    expect(await itemsOf(db, first.householdId)).toHaveLength(2);
    expect((await sourcesOf(db, first.householdId)).map(({ windows }) => windows.length)).toEqual([1, 1]);
  });

  test('two households of one name have two ids and nothing in common', async () => {
    const one = worked(await start({}, 'the first key'));
    const other = worked(await start({ preserves: hour().preserves.slice(0, 1) }, 'another key'));

    expect(new Set([one.householdId, other.householdId]).size).toBe(2);
    expect(await itemsOf(db, one.householdId)).toHaveLength(2);
    expect(await itemsOf(db, other.householdId)).toHaveLength(1);
  });

  test('a preserve that is not on the list, and one household too many, are refused and leave nothing behind', async () => {
    const moon = { recipeKey: 'moon-cheese', appetite: { amount: 1, per: 'week' } } as const;
    expect(refusalOf(await start({ preserves: [moon] }))).toMatchObject({
      code: 'preserve-unknown',
      field: 'eats-moon-cheese',
    });
    expect(await households(db)).toEqual([]);

    for (let number = 0; number < mostHouseholds; number += 1)
      await db
        .insertInto('household')
        .values({ id: `house-${number}`, name: 'House', time_zone: 'UTC', created_at: number })
        .execute();
    expect(refusalOf(await start()).code).toBe('too-many-households');
  });

  test('the whole short list in every region is a year the planner can take', async () => {
    const regions = [...new Set(reference.harvestWindows.map(({ region }) => region))];
    for (const region of regions) {
      const { householdId } = worked(
        await start(
          {
            household: { ...hour().household, name: `In ${region}`, region },
            pressure: { size: 'pressure', gauge: 'weighted', checkedOn: null },
            preserves: firstYear().preserves.map(({ recipeKey }) => ({
              recipeKey,
              appetite: { amount: 1, per: 'month' },
            })),
          },
          `first hour in ${region}`,
        ),
      );
      const { year, recipes: here } = await loadPlanningYear(db, householdId, today, reference);

      expect(here.leftOut, region).toEqual([]);
      expect(here.planned, region).toHaveLength(firstYear().preserves.length);
      expect(checkPlanningYear(year), region).toEqual([]);
      await db.transaction().execute((trx) => forgetHousehold(trx, householdId));
    }
  });
});
