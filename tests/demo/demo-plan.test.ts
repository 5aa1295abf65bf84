import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { run } from '../../server/commands/plan.ts';
import { type Database, openDatabase } from '../../server/database/database.ts';
import { makeDemoHousehold } from '../../server/demo/make-demo.ts';
import { kitchenHoursOf } from '../../server/queries/household/kitchen.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { loadPlanningYear } from '../../server/year/load-year.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import {
  addDays,
  asDate,
  type CalendarDate,
  daysBetween,
  mondayOf,
  sundayOf,
  type WeekKey,
} from '../../shared/week.ts';
import { fetchDays, freshToBuy } from '../../src/planning/days/fetch-days.ts';
import type { Plan } from '../../src/planning/plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import { checkPlan } from '../planning/independent-checker.ts';

// The plan as it is printed by `plan --demo --json`, read back and held to the household's own rows.
const asOf = asDate('2026-11-25');

let db: Database;
let household: HouseholdId;
let year: PlanningYear;
let plan: Plan;

beforeAll(async () => {
  const printed = vi.spyOn(console, 'log').mockImplementation(() => {});
  const exit = await run(['--demo', '--as-of', asOf, '--minutes', '60', '--json']);
  const text = printed.mock.calls.map((line) => line.join(' ')).join('\n');
  printed.mockRestore();
  expect(exit).toBe(0);
  plan = JSON.parse(text) as Plan;
  db = await openDatabase(':memory:');
  household = await makeDemoHousehold(db, asOf);
  ({ year } = await loadPlanningYear(db, household, asOf, loadReferenceTables()));
});

afterAll(async () => {
  await db.destroy();
});

/** Weeks in which a source gives anything at all, by its written windows; `daysAfter` more for what keeps. */
async function openWeeks(sourceIds: readonly string[], daysAfter: number): Promise<ReadonlySet<WeekKey>> {
  const windows = await db
    .selectFrom('harvest_window')
    .selectAll()
    .where('household_id', '=', household)
    .where('source_id', 'in', sourceIds)
    .execute();
  return new Set(
    year.weeks.filter((week) =>
      windows.some(
        ({ begins_on, ends_on }) =>
          sundayOf(week) >= begins_on && mondayOf(week) < addDays(asDate(ends_on), daysAfter),
      ),
    ),
  );
}

const batches = () =>
  plan.weeks.flatMap(({ week, sessions }) => sessions.map((session) => ({ week, ...session })));

describe('the demo household’s printed plan', () => {
  test('makes two things of what other batches leave, each in a week of theirs', () => {
    const pairs = year.recipes.flatMap(({ id, uses }) =>
      uses.flatMap(({ materialId }) =>
        year.recipes
          .filter(({ gives }) => gives.some((part) => part.materialId === materialId))
          .map((giver) => [id, giver.id] as const),
      ),
    );
    expect(pairs.length).toBeGreaterThanOrEqual(2);
    for (const [taker, giver] of pairs) {
      const weeks = batches().flatMap(({ week, recipe }) => (recipe === taker ? [week] : []));
      expect(weeks, taker).not.toEqual([]);
      for (const week of weeks)
        expect(
          batches().some((one) => one.week === week && one.recipe === giver),
          `${taker} ${week}`,
        ).toBe(true);
    }
  });

  test('is proven to be within 1 % of the best', () => {
    expect(plan.horizonWeeks).toBe(52);
    expect(plan.bound).toBeGreaterThan(0);
    expect(plan.gap).toBeLessThanOrEqual(0.01);
    expect((plan.objective.total ?? 0) * (1 - plan.gap)).toBeCloseTo(plan.bound, 0);
  });

  test('keeps hours, loads, money, jars, lids, produce and stock when added up by hand', () => {
    expect(checkPlan(plan, year)).toEqual([]);
  });

  test('puts up most of what a year needs, in a dozen weeks or more', () => {
    expect(batches().reduce((sum, { batches }) => sum + batches, 0)).toBeGreaterThan(40);
    expect(new Set(batches().map(({ week }) => week)).size).toBeGreaterThan(12);
  });

  test('fetches produce only while its source is open', async () => {
    for (const { week, purchases } of plan.weeks) {
      for (const { what } of purchases.filter(({ kind }) => kind === 'produce')) {
        expect([...(await openWeeks([what], 0))], `${what} in ${week}`).toContain(week);
      }
    }
  });

  test('makes each batch inside the window of its crop, or within the days in which what was picked keeps', async () => {
    for (const batch of batches()) {
      const recipe = year.recipes.find(({ id }) => id === batch.recipe);
      for (const { crop, mayBeFrozen } of recipe?.produce ?? []) {
        if (mayBeFrozen) continue;
        const sources = year.sources.filter((source) => source.crop === crop);
        const weeks = await openWeeks(
          sources.map(({ id }) => id),
          Math.max(...sources.map(({ useByDays }) => useByDays)),
        );
        expect([...weeks], `${batch.recipe} in ${batch.week}`).toContain(batch.week);
      }
    }
  });

  test('buys raw chicken in the week of its stock, on the two days before it, and never sooner', async () => {
    const bought = plan.weeks.filter(({ purchases }) =>
      purchases.some(({ what }) => what === 'chicken-frames'),
    );
    const made = plan.weeks.filter(({ sessions }) =>
      sessions.some(({ recipe }) => recipe === 'chicken-stock'),
    );
    expect(made.length).toBeGreaterThan(0);
    expect(bought.map(({ week }) => week)).toEqual(made.map(({ week }) => week));

    const hours = await kitchenHoursOf(db, household);
    const fresh = freshToBuy({ plan, year, hours, weekStartsOn: 'monday' });
    expect(fresh.length).toBeGreaterThanOrEqual(made.length);
    for (const { fetch } of fresh) {
      expect(daysBetween(fetch.notBefore as CalendarDate, fetch.forDay as CalendarDate)).toBeLessThanOrEqual(
        2,
      );
      expect(daysBetween(fetch.by, fetch.forDay as CalendarDate)).toBeGreaterThanOrEqual(0);
    }
  });

  test('fetches no crop longer before its canning day than it keeps', async () => {
    const hours = await kitchenHoursOf(db, household);
    for (const week of plan.weeks)
      for (const purchase of week.purchases.filter(({ kind }) => kind === 'produce')) {
        const keeps = year.sources.find(({ id }) => id === purchase.what)?.useByDays ?? 0;
        const ways = fetchDays(purchase, week, { plan, year, hours, weekStartsOn: 'monday' });
        for (const { by, forDay } of ways)
          if (forDay !== null)
            expect(daysBetween(by, forDay), `${purchase.what} in ${week.week}`).toBeLessThanOrEqual(keeps);
      }
  });

  test('puts low-acid food into the pressure canner only, by a row that was read for its altitude', async () => {
    const reference = loadReferenceTables();
    const rows = await db.selectFrom('recipe').selectAll().where('household_id', '=', household).execute();
    const canners = await db.selectFrom('canner').selectAll().where('household_id', '=', household).execute();
    const { altitude_ft } = await db
      .selectFrom('household')
      .select('altitude_ft')
      .where('id', '=', household)
      .executeTakeFirstOrThrow();
    const altitude = altitude_ft ?? Number.NaN;

    const lowAcid = batches().filter((batch) => {
      const row = rows.find(({ id }) => id === batch.recipe);
      if (row?.process_food == null) return false;
      const canner = canners.find(({ id }) => id === batch.canner);
      const printed = reference.processTimes.filter(
        (candidate) =>
          candidate.foodKey === row.process_food &&
          candidate.style === row.process_style &&
          candidate.pack === row.process_pack &&
          candidate.basis === 'read' &&
          candidate.altitudeFromFt <= altitude &&
          altitude <= (candidate.altitudeToFt ?? Number.POSITIVE_INFINITY),
      );
      expect(printed.length, batch.recipe).toBeGreaterThan(0);
      if (!printed.some(({ acidity }) => acidity === 'low-acid')) return false;
      expect(canner?.method, batch.recipe).toBe('pressure');
      return true;
    });

    expect(lowAcid.length).toBeGreaterThan(0);
  });
});
